import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { leftoversOf } from '../../server/src/buying/leftovers.ts';
import type { LaidQuestion } from '../../server/src/buying/lays.ts';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';
import type { LayPiece, Placement } from '../../server/src/lay/problem.ts';
import { bestOf, planOf } from './support.ts';

const box = (w: number, h: number, count: number): LayPiece => ({
  id: 'box', outline: [{ x: 0, y: 0 }, { x: w, y: 0 }, { x: w, y: h }, { x: 0, y: h }], count: { asDrawn: count, mirrored: 0, either: 0 }, turns: [0], onFold: false,
});
const at = (piece: number, x: number, y: number): Placement => ({ piece, mirrored: false, turn: 0, x, y });

function found(pieces: readonly LayPiece[], placements: readonly Placement[], length: number, width = 1000, manner: LaidQuestion['manner'] = 'open'): LaidQuestion {
  return { manner, problem: { width, gap: 0, pieces }, requirementOf: pieces.map((_, i) => i), spares: [], unplaced: [], lay: { length: 0, placements }, times: 1, cloth: { width, length } };
}

describe('what is left over', () => {
  it('is the end of the cloth and the hole between pieces, the larger first', () => {
    const lay = found([box(300, 400, 2)], [at(0, 0, 0), at(0, 0, 600)], 500);
    const [end, hole, ...more] = leftoversOf(lay, 100);
    expect([end?.x, end?.y, end?.length, end?.width]).toEqual([300, 0, 200, 1000]);
    expect([hole?.x, hole?.y, hole?.length, hole?.width]).toEqual([0, 400, 300, 200]);
    expect(more).toEqual([]);
  });

  it('is not named where it is narrower than asked for', () => {
    expect(leftoversOf(found([box(300, 950, 1)], [at(0, 0, 0)], 350), 101.6)).toEqual([]);
    expect(leftoversOf(found([], [], 0), 101.6)).toEqual([]);
  });

  it('finds the hollow of a piece, and no more than there is', () => {
    const hollow: LayPiece = { ...box(0, 0, 1), outline: [{ x: 0, y: 0 }, { x: 600, y: 0 }, { x: 600, y: 200 }, { x: 200, y: 200 }, { x: 200, y: 800 }, { x: 600, y: 800 }, { x: 600, y: 1000 }, { x: 0, y: 1000 }] };
    const [inside] = leftoversOf(found([hollow], [at(0, 0, 0)], 600), 100);
    expect([inside?.x, inside?.y, inside?.length, inside?.width]).toEqual([200, 200, 400, 600].map((value) => expect.closeTo(value, 1)));
  });

  it('opens out where it reaches the fold, and is there twice elsewhere', () => {
    const lay = found([box(300, 400, 1)], [at(0, 0, 100)], 300, 1000, 'folded');
    expect(leftoversOf(lay, 100).map(({ y, onFold, twice }) => [y, onFold, twice])).toEqual([[500, false, true], [0, true, false]]);
  });

  it('never covers a piece or another leftover', () => {
    const side = fc.integer({ min: 20, max: 120 });
    fc.assert(fc.property(fc.array(fc.record({ w: side, h: side, count: fc.integer({ min: 1, max: 4 }) }), { minLength: 1, maxLength: 4 }), fc.constantFrom('open', 'folded' as const), fc.constantFrom('fold lengthwise', 'fold partial 9', 'fold crosswise'), (pieces, lay, fold) => {
      const text = pieces.map(({ w, h, count }, index) => `piece p${index} "P${index}" {\n  outline polygon from 0, 0 to ${w}/8, 0 to ${w}/8 * 0.7, ${h}/8 to 0, ${h}/8 * 0.8\n  grain up\n  cut ${count} cloth\n}`).join('\n');
      const plan = bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 1/4 yd\n  ' + fold, text, { lay: lay as 'open', leastLeftover: 50 }));
      plan.lays.forEach((one, index) => {
        const leftovers = plan.leftovers[index] ?? [];
        const kinds = leftovers.map(({ length, width }) => box(length, width, 1));
        const problem = { width: one.problem.width, gap: one.problem.gap, pieces: [...one.problem.pieces, ...kinds] };
        const placements = [...one.lay.placements, ...leftovers.map(({ x, y }, kind) => at(one.problem.pieces.length + kind, x, y))];
        // None lies half double and half single.
        const { doubleTo = 0 } = one.problem;
        for (const { y, width } of leftovers) expect(y >= doubleTo - 0.05 || y + width <= doubleTo + 0.05).toBe(true);
        const reach = Math.max(one.lay.length, ...leftovers.map(({ x, length }) => x + length));
        expect(verifyLay(problem, { length: reach, placements }, 0.05)).toEqual([]);
        expect(reach).toBeLessThanOrEqual(one.cloth.length + 0.001);
      });
    }), { numRuns: 30 });
  }, 60_000);
});
