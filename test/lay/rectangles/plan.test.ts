import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Lay, LayPiece, LayProblem } from '../../../server/src/lay/problem.ts';
import { planRectangleLay } from '../../../server/src/lay/rectangles/plan.ts';
import { box, boxesOf, rectangle } from './boxes.ts';

const INCH = 25.4;

function laid(problem: LayProblem, steps = 200_000): Lay {
  const outcome = planRectangleLay(problem, { steps });
  if (outcome.kind !== 'laid') throw new Error(`${outcome.reason}: ${outcome.pieces.join()}`);
  expect(outcome.bound).toBeLessThanOrEqual(outcome.lay.length + 1e-6);
  return outcome.lay;
}

/** Nothing outside the cloth, nothing nearer than the gap, pieces on the fold on it, everything laid. */
function expectRight(problem: LayProblem, lay: Lay): void {
  const boxes = boxesOf(problem, lay);
  const wanted = problem.pieces.reduce((sum, { count }) => sum + count.asDrawn + count.mirrored + count.either, 0);
  expect(boxes).toHaveLength(wanted);
  boxes.forEach((a, i) => {
    expect(a.minX).toBeGreaterThanOrEqual(-1e-6);
    expect(a.minY).toBeGreaterThanOrEqual(-1e-6);
    expect(a.maxX).toBeLessThanOrEqual(lay.length + 1e-6);
    expect(a.maxY).toBeLessThanOrEqual(problem.width + 1e-6);
    if (problem.pieces[lay.placements[i]!.piece]!.onFold) expect(a.minY).toBeCloseTo(0, 6);
    boxes.slice(i + 1).forEach((b) => {
      const apart = Math.max(b.minX - a.maxX, a.minX - b.maxX, b.minY - a.maxY, a.minY - b.maxY);
      expect(apart).toBeGreaterThanOrEqual(problem.gap - 1e-6);
    });
  });
}

const size = fc.integer({ min: 10, max: 4000 }).map((tenths) => tenths / 10);
const count = fc.integer({ min: 0, max: 3 });
const pieces: fc.Arbitrary<LayPiece> = fc
  .record({
    length: size,
    across: size,
    asDrawn: count,
    mirrored: count,
    either: count,
    turns: fc.constantFrom([0], [0, 180], [0, 90, 180, 270], [90]),
    onFold: fc.boolean(),
  })
  .map(({ length, across, asDrawn, mirrored, either, turns, onFold }) => ({
    id: 'piece',
    outline: rectangle(length, across),
    count: { asDrawn, mirrored, either },
    turns: onFold ? [0, 180] : turns,
    onFold,
  }));

describe('laying rectangles', () => {
  test('lays are right, whatever is asked', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 8 }), fc.constantFrom(0, 3, 0.5), (list, gap) => {
        const problem = { width: 450, gap, pieces: list };
        expectRight(problem, laid(problem, 20_000));
      }),
      { numRuns: 200 },
    );
  });

  /** Counts seen on public quilting pages, and the same by arithmetic: whole rows times whole columns of an 18 by 22 inch panel. */
  test.each([
    [2, 99],
    [2.5, 56],
    [3, 42],
    [3.5, 30],
    [4, 20],
  ])('squares of %d inches: %d from a panel of 18 by 22 inches', (inches, squares) => {
    const lengthFor = (wanted: number): number =>
      laid({
        width: 18 * INCH,
        gap: 0,
        pieces: [
          {
            id: 'square',
            outline: rectangle(inches * INCH, inches * INCH),
            count: { asDrawn: wanted, mirrored: 0, either: 0 },
            turns: [0],
            onFold: false,
          },
        ],
      }).length;
    expect(lengthFor(squares)).toBeLessThanOrEqual(22 * INCH + 1e-6);
    expect(lengthFor(squares + 1)).toBeGreaterThan(22 * INCH);
  });

  test('a gap is kept between pieces but not asked of the edges of the cloth', () => {
    const piece = { id: 'p', outline: rectangle(50, 45), count: { asDrawn: 4, mirrored: 0, either: 0 }, turns: [0], onFold: false };
    const lay = laid({ width: 100, gap: 10, pieces: [piece] });
    expect(lay.length).toBeCloseTo(110, 6);
  });

  test('pieces that cannot be laid are named, not thrown', () => {
    const piece = { id: 'p', outline: rectangle(50, 120), count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [0], onFold: false };
    const plan = (...list: LayPiece[]): unknown => planRectangleLay({ width: 100, gap: 0, pieces: list }, { steps: 1000 });
    expect(plan({ ...piece, turns: [0, 90] })).toMatchObject({ kind: 'laid', lay: { length: 120 } });
    expect(plan({ ...piece, outline: box(0, 0, 5, 5) }, piece)).toEqual({ kind: 'cannot be laid', pieces: [1], reason: 'too wide' });
    expect(plan({ ...piece, onFold: true })).toEqual({ kind: 'cannot be laid', pieces: [0], reason: 'too wide' });
    expect(plan({ ...piece, onFold: true, turns: [90] })).toEqual({ kind: 'cannot be laid', pieces: [0], reason: 'not on the fold' });
  });

  test('better lays are reported as they come, and the caller may stop', () => {
    const problem = {
      width: 1400,
      gap: 0,
      pieces: Array.from({ length: 12 }, (_, i) => ({
        id: `${i}`,
        outline: rectangle(100 + ((i * 137) % 211), 80 + ((i * 91) % 307)),
        count: { asDrawn: 2, mirrored: 1, either: 1 },
        turns: [0, 90],
        onFold: false,
      })),
    };
    const lengths: number[] = [];
    planRectangleLay(problem, { steps: 2_000_000 }, ({ lay }) => void lengths.push(lay.length));
    expect(lengths.length).toBeGreaterThan(1);
    expect(lengths).toEqual([...new Set(lengths)].sort((a, b) => b - a));
    const stopped = planRectangleLay(problem, { steps: 2_000_000 }, () => true);
    expect(stopped).toMatchObject({ kind: 'laid', lay: { length: lengths[0] } });
  });
});
