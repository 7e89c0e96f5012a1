import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { lowerBound } from '../../../server/src/lay/bounds/bound.ts';
import { dualFunctions, valueAt } from '../../../server/src/lay/bounds/dual.ts';
import { areaOf, barsOf } from '../../../server/src/lay/bounds/outline.ts';
import { rectangleBound } from '../../../server/src/lay/bounds/rectangles.ts';
import type { LayPiece, LayPoint } from '../../../server/src/lay/problem.ts';
import { seededRandom } from '../../../server/src/lay/random.ts';
import { planRectangleLay } from '../../../server/src/lay/rectangles/plan.ts';
import { rectangle } from '../rectangles/boxes.ts';
import { anyRectangles, cutCloth } from './cases.ts';

const seeds = fc.integer();

describe('dual feasible functions', () => {
  test('widths that fit have values that fit; no function ever falls', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 400 }),
        fc.array(fc.integer({ min: 1, max: 400 }), { minLength: 1, maxLength: 12 }),
        fc.array(fc.integer({ min: 1, max: 400 }), { maxLength: 12 }),
        (capacity, widths, others) => {
          const fitting: number[] = [];
          for (const width of widths) {
            if (width <= capacity - fitting.reduce((sum, one) => sum + one, 0)) fitting.push(width);
          }
          for (const f of dualFunctions(capacity, [...widths, ...others], 60)) {
            expect(fitting.reduce((sum, width) => sum + valueAt(f, width), 0)).toBeLessThanOrEqual(f.total);
            const values = Array.from({ length: capacity + 1 }, (_, width) => valueAt(f, width));
            expect(values[capacity]).toBe(f.total);
            expect(values.every((value, width) => width === 0 || value >= values[width - 1]!)).toBe(true);
          }
        },
      ),
      { numRuns: 300 },
    );
  });
});

describe('bars', () => {
  const at = (x: number, y: number): LayPoint => ({ x, y });
  const notched = [at(0, 0), at(10, 0), at(10, 8), at(7, 8), at(5, 2), at(3, 8), at(0, 8)];

  test('they are the rectangle, and never more than the piece', () => {
    expect(barsOf(rectangle(30, 20), 8)).toEqual([{ across: 20, along: 30 }]);
    const area = (parts: number): number => barsOf(notched, parts).reduce((sum, bar) => sum + bar.across * bar.along, 0);
    expect(areaOf(notched)).toBe(68);
    expect(area(1)).toBeCloseTo(8 * 3 + 2 * 4 + 8 * 3, 9);
    expect(area(64)).toBeLessThan(68);
    expect(area(64)).toBeGreaterThan(67.5);
  });
});

describe('the lower bound', () => {
  const laid = (width: number, sizes: readonly (readonly [number, number])[], turns = [0], gap = 0): number =>
    lowerBound({ width, gap, pieces: sizes.map(([w, h], index) => ({ id: String(index), outline: rectangle(w, h), count: { asDrawn: 1, mirrored: 0, either: 0 }, turns, onFold: false })) }).length;

  test('is the longest piece where all lie side by side, and more where they don’t', () => {
    expect(laid(100, [[30, 60], [20, 40]])).toBeCloseTo(30, 6);
    expect(laid(99, [[30, 60], [20, 40]])).toBeCloseTo(50, 6);
    expect(laid(103, [[30, 60], [20, 40]], [0], 3)).toBeCloseTo(30, 6);
    expect(laid(102, [[30, 60], [20, 40]], [0], 3)).toBeGreaterThan(39);
    // Only turned are they narrow enough, and then longer than the longest that needn't be turned.
    expect(laid(100, [[30, 60], [20, 50]], [0, 90])).toBeCloseTo(50, 6);
  });

  test('is never above a length known by construction', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { problem, length } = cutCloth(seededRandom(seed));
        const bound = lowerBound(problem);
        expect(bound.length).toBeLessThanOrEqual(length);
        expect(bound.length).toBeGreaterThan(length * (1 - 1e-6));
      }),
      { numRuns: 300 },
    );
  });

  test('is never above a length found', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const problem = anyRectangles(seededRandom(seed));
        const plan = planRectangleLay(problem, { steps: 8_000 });
        if (plan.kind === 'laid') expect(lowerBound(problem).length).toBeLessThanOrEqual(plan.lay.length);
      }),
      { numRuns: 200 },
    );
  });

  const piece = (outline: readonly LayPoint[], asDrawn: number, more: Partial<LayPiece> = {}): LayPiece => ({
    id: 'piece',
    outline,
    count: { asDrawn, mirrored: 0, either: 0 },
    turns: [0],
    onFold: false,
    ...more,
  });
  const bound = (width: number, gap: number, ...pieces: LayPiece[]) => lowerBound({ width, gap, pieces });

  test('nothing needs nothing', () => {
    expect(bound(100, 0)).toEqual({ length: 0, reason: 'area' });
  });

  test('the longest piece counts in its shortest permitted turn', () => {
    expect(bound(100, 0, piece(rectangle(70, 20), 1))).toMatchObject({ reason: 'widest piece', length: expect.closeTo(70, 5) });
    expect(bound(100, 0, piece(rectangle(70, 20), 1, { turns: [0, 90] })).length).toBeCloseTo(20, 5);
  });

  test('pieces wider than half the cloth lie one after another', () => {
    const found = bound(100, 0, piece(rectangle(40, 51), 3));
    expect(found).toMatchObject({ reason: 'dual feasible', length: expect.closeTo(120, 5) });
    const slanting = bound(100, 0, piece([{ x: 0, y: 0 }, { x: 40, y: 0 }, { x: 40, y: 60 }, { x: 0, y: 51 }], 3));
    expect(slanting).toMatchObject({ reason: 'bars', length: expect.closeTo(120, 2) });
  });

  test('with a gap, pieces of half the cloth do not lie side by side', () => {
    expect(bound(100, 2, piece(rectangle(40, 50), 3)).length).toBeCloseTo(120, 2);
    expect(bound(102, 2, piece(rectangle(40, 50), 4)).length).toBeLessThanOrEqual(82);
  });

  test('edges on the fold lie end to end', () => {
    const found = bound(1000, 5, piece(rectangle(300, 10), 3, { onFold: true, turns: [0] }));
    expect(found).toMatchObject({ reason: 'bars', length: expect.closeTo(910, 5) });
  });

  test('slices both ways at once: five squares that lie two by two need three rows', () => {
    const items = [{ w: 40, h: 40, count: 5, turnable: true }];
    expect(rectangleBound({ width: 100, items })).toEqual({ length: 120, reason: 'dual feasible' });
    expect(rectangleBound({ width: 120, items }).length).toBe(80);
  });
});

describe('pieces that may lie in any turn', () => {
  const piece = (outline: readonly LayPoint[], count: number, anyTurn: boolean): LayPiece => ({
    id: 'free', outline, count: { asDrawn: 0, mirrored: 0, either: count }, turns: [0, 90, 180, 270], onFold: false, anyTurn,
  });

  // Five unit squares lie in a square of 2 + 1/√2, one of them at 45° (F. Göbel 1979, in E. Friedman, Packing Unit Squares
  // in Squares, Electronic Journal of Combinatorics, survey DS7). Laid square they need 3.
  test('no bound is above the best lay of five squares, one of them at 45°', () => {
    const side = 100 * (2 + Math.SQRT1_2);
    const five = (anyTurn: boolean): number => lowerBound({ width: side + 1e-6, gap: 0, pieces: [piece(rectangle(100, 100), 5, anyTurn)] }).length;
    expect(five(true)).toBeLessThanOrEqual(side);
    expect(five(true)).toBeGreaterThan(180);
    expect(five(false)).toBeCloseTo(300, 3);
  });

  test('a bar counts with its breadth, since it may lie slantwise on cloth of any width', () => {
    expect(lowerBound({ width: 500, gap: 0, pieces: [piece(rectangle(400, 30), 1, true)] }).length).toBeLessThanOrEqual(30);
    expect(lowerBound({ width: 310, gap: 0, pieces: [piece(rectangle(400, 30), 1, true)] }).length).toBeGreaterThan(29.9);
  });

  test('discs of more than half the cloth lie one after another, with what bulges between them', () => {
    const disc = Array.from({ length: 36 }, (_, k) => ({ x: 30 * Math.cos((k * Math.PI) / 18), y: 30 * Math.sin((k * Math.PI) / 18) }));
    // By area 112 at most; where each is wider than 50 no other lies beside it, which is 33 of its length.
    expect(lowerBound({ width: 100, gap: 0, pieces: [piece(disc, 4, true)] }).length).toBeGreaterThan(125);
  });

  test('turns that are not tried count as well', () => {
    const tried = (outline: readonly LayPoint[], count: number, width: number): number => lowerBound({ width, gap: 0, pieces: [{ ...piece(outline, count, true), turns: [0] }] }).length;
    // A square on its corner is 141 long, and 100 once it is turned; two of 60 across lie one after another, 200 long, and turned 120.
    expect(tried([{ x: 0, y: 0 }, { x: 100 * Math.SQRT1_2, y: -100 * Math.SQRT1_2 }, { x: 100 * Math.SQRT2, y: 0 }, { x: 100 * Math.SQRT1_2, y: 100 * Math.SQRT1_2 }], 1, 200)).toBeLessThanOrEqual(100);
    expect(tried(rectangle(100, 60), 2, 100)).toBeLessThanOrEqual(120);
  });

  test('is never above the same lay with its pieces turned', () => {
    fc.assert(
      fc.property(seeds, (seed) => {
        const { problem, length } = cutCloth(seededRandom(seed));
        expect(lowerBound({ ...problem, pieces: problem.pieces.map((one) => ({ ...one, anyTurn: true })) }).length).toBeLessThanOrEqual(length);
      }),
      { numRuns: 100 },
    );
  });
});
