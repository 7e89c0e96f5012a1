import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { packRectangles } from '../../../server/src/lay/rectangles/pack.ts';
import type {
  RectangleEffort,
  RectangleInput,
  RectangleOutcome,
  RectanglePacking,
  RectangleProgress,
} from '../../../server/src/lay/rectangles/types.ts';
import { faultsOf } from './faults.ts';

function run(input: RectangleInput, effort: RectangleEffort): { outcome: RectangleOutcome; seen: RectangleProgress[] } {
  const seen: RectangleProgress[] = [];
  const search = packRectangles(input, effort);
  let turn = search.next();
  for (; !turn.done; turn = search.next()) seen.push(turn.value);
  return { outcome: turn.value, seen };
}

function packed(input: RectangleInput, effort: RectangleEffort): RectanglePacking {
  const { outcome } = run(input, effort);
  if (outcome.kind !== 'packed') throw new Error(`did not fit: ${outcome.items.join()}`);
  return outcome.packing;
}

const side = fc.integer({ min: 1, max: 60 });
const inputs: fc.Arbitrary<RectangleInput> = fc.record({
  width: fc.integer({ min: 60, max: 150 }),
  items: fc.array(fc.record({ w: side, h: side, count: fc.integer({ min: 0, max: 4 }), turnable: fc.boolean() }), {
    maxLength: 12,
  }),
});

describe('the check itself', () => {
  const input = { width: 10, items: [{ w: 4, h: 3, count: 2, turnable: false }] };
  test.each([
    ['right', 0, [{ item: 0, x: 0, y: 0, turned: false }, { item: 0, x: 4, y: 0, turned: false }]],
    ['overlap', 1, [{ item: 0, x: 0, y: 0, turned: false }, { item: 0, x: 3, y: 0, turned: false }]],
    ['outside', 1, [{ item: 0, x: 0, y: 0, turned: false }, { item: 0, x: 7, y: 0, turned: false }]],
    ['too long', 1, [{ item: 0, x: 0, y: 0, turned: false }, { item: 0, x: 4, y: 1, turned: false }]],
    ['missing', 1, [{ item: 0, x: 0, y: 0, turned: false }]],
    ['turned', 2, [{ item: 0, x: 0, y: 0, turned: true }, { item: 0, x: 4, y: 0, turned: false }]],
  ])('%s', (_, faults, placements) => {
    expect(faultsOf(input, { length: 3, placements })).toHaveLength(faults);
  });
});

describe('packing rectangles', () => {
  test('everything lies apart, inside, once each; the bound is never above the length', () => {
    fc.assert(
      fc.property(inputs, fc.integer({ min: 0, max: 60_000 }), fc.integer(), (input, steps, seed) => {
        const { outcome, seen } = run(input, { steps, seed });
        if (outcome.kind !== 'packed') throw new Error('every rectangle fits');
        for (const { packing, bound } of [...seen, outcome]) {
          expect(faultsOf(input, packing)).toEqual([]);
          expect(bound).toBeLessThanOrEqual(packing.length);
        }
        const lengths = seen.map(({ packing }) => packing.length);
        expect(lengths).toEqual([...lengths].sort((a, b) => b - a));
      }),
      { numRuns: 150 },
    );
  });

  test('a strip taken in steps at the start is packed around', () => {
    const floors = fc
      .array(fc.record({ x: fc.integer({ min: 1, max: 59 }), y: fc.integer({ min: 1, max: 40 }) }), { maxLength: 4 })
      .map((steps) => {
        const xs = [...new Set([0, ...steps.map(({ x }) => x)])].sort((a, b) => a - b);
        const ys = [50, ...steps.map(({ y }) => y)].sort((a, b) => b - a);
        return xs.map((x, i) => ({ x, y: ys[i] ?? 0 }));
      });
    fc.assert(
      fc.property(inputs, floors, (plain, floor) => {
        const input = { ...plain, floor };
        const { outcome } = run(input, { steps: 20_000 });
        if (outcome.kind !== 'packed') throw new Error('every rectangle fits');
        expect(faultsOf(input, outcome.packing)).toEqual([]);
        expect(outcome.bound).toBeLessThanOrEqual(outcome.packing.length);
      }),
      { numRuns: 150 },
    );
  });

  test('the same input gives the same bytes; more steps never give a longer packing', () => {
    fc.assert(
      fc.property(inputs, fc.integer(), (input, seed) => {
        const short = run(input, { steps: 20_000, seed });
        expect(JSON.stringify(run(input, { steps: 20_000, seed }))).toBe(JSON.stringify(short));
        expect(packed(input, { steps: 60_000, seed }).length).toBeLessThanOrEqual(packed(input, { steps: 20_000, seed }).length);
      }),
      { numRuns: 40 },
    );
  });

  test('it stops as soon as the bound is met', () => {
    const input = { width: 10, items: [{ w: 5, h: 4, count: 4, turnable: false }] };
    const { outcome, seen } = run(input, { steps: 1e9 });
    expect(outcome).toMatchObject({ kind: 'packed', bound: 8, step: 0, packing: { length: 8 } });
    expect(seen).toHaveLength(1);
  });

  test('a caller may stop asking at any time', () => {
    const input = { width: 97, items: [{ w: 31, h: 17, count: 40, turnable: true }, { w: 23, h: 13, count: 50, turnable: true }] };
    let progress: RectangleProgress | undefined;
    for (const now of packRectangles(input, { steps: 1e12 })) {
      progress = now;
      if (now.step > 500_000) break;
    }
    expect(progress!.step).toBeLessThan(5_000_000);
    expect(faultsOf(input, progress!.packing)).toEqual([]);
  });

  test('a known perfect packing is found: N3 of Burke, Kendall, Whitwell, Operations Research 52(4), 2004', () => {
    const sizes = [
      [10, 6, 1], [4, 4, 1], [4, 5, 1], [3, 5, 3], [10, 5, 1], [7, 13, 1], [3, 4, 3], [8, 32, 1], [3, 23, 1], [6, 4, 1],
      [3, 15, 1], [9, 6, 1], [3, 3, 3], [6, 18, 1], [7, 5, 1], [5, 3, 2], [3, 8, 1], [5, 4, 1], [5, 8, 1], [5, 16, 1],
      [10, 13, 1], [10, 17, 1], [5, 14, 1],
    ] as const;
    const input = { width: 30, items: sizes.map(([w, h, count]) => ({ w, h, count, turnable: true })) };
    const packing = packed(input, { steps: 10_000_000 });
    expect(faultsOf(input, packing)).toEqual([]);
    expect(packing.length).toBe(50);
  });

  test('nothing to lay takes nothing', () => {
    expect(packed({ width: 100, items: [] }, { steps: 1000 })).toEqual({ length: 0, placements: [] });
    expect(packed({ width: 100, items: [{ w: 5, h: 5, count: 0, turnable: true }] }, { steps: 1000 }).length).toBe(0);
  });

  test('one rectangle lies on its longer side where it may turn', () => {
    const item = { w: 20, h: 70, count: 1 };
    expect(packed({ width: 100, items: [{ ...item, turnable: true }] }, { steps: 100_000 }).length).toBe(20);
    expect(packed({ width: 100, items: [{ ...item, turnable: false }] }, { steps: 100_000 }).length).toBe(70);
    expect(packed({ width: 60, items: [{ ...item, turnable: true }] }, { steps: 100_000 }).length).toBe(70);
  });

  test('a rectangle wider than the strip is named, not thrown', () => {
    const items = [
      { w: 20, h: 5, count: 1, turnable: true },
      { w: 120, h: 5, count: 1, turnable: false },
      { w: 120, h: 5, count: 1, turnable: true },
      { w: 120, h: 130, count: 1, turnable: true },
    ];
    expect(run({ width: 100, items }, { steps: 1000 }).outcome).toEqual({ kind: 'too wide', items: [1, 3] });
  });

  test('a first packing needs no steps at all', () => {
    const items = Array.from({ length: 60 }, (_, i) => ({ w: 20 + ((i * 37) % 211), h: 15 + ((i * 53) % 307), count: 1, turnable: true }));
    const first = packRectangles({ width: 1400, items }, { steps: 0 }).next().value;
    expect(first).toMatchObject({ step: 0 });
  });
});
