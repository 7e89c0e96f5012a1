import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LayPiece, LayProblem, Placement } from '../../../server/src/lay/problem.ts';
import { seededRandom } from '../../../server/src/lay/random.ts';
import { verifyLay } from '../../../server/src/lay/verify/verify.ts';
import { rightLay, spoils } from './spoilt.ts';

const square = (size: number): LayPiece['outline'] => [{ x: 0, y: 0 }, { x: size, y: 0 }, { x: size, y: size }, { x: 0, y: size }];
const one = { asDrawn: 1, mirrored: 0, either: 0 };
const piece = (id: string, outline: LayPiece['outline'], more: Partial<LayPiece> = {}): LayPiece => ({ id, outline, count: one, turns: [0], onFold: false, ...more });
const at = (index: number, x: number, y: number, more: Partial<Placement> = {}): Placement => ({ piece: index, mirrored: false, turn: 0, x, y, ...more });
const kinds = (problem: LayProblem, length: number, placements: Placement[]): string[] => verifyLay(problem, { length, placements }).map((fault) => fault.kind);

describe('verifyLay', () => {
  it('accepts lays that are right by construction', () => {
    fc.assert(fc.property(fc.integer(), (seed) => {
      const { problem, lay } = rightLay(seededRandom(seed));
      expect(verifyLay(problem, lay)).toEqual([]);
    }), { numRuns: 100 });
  });

  it('rejects lays that are wrong by construction', () => {
    fc.assert(fc.property(fc.integer(), fc.nat(spoils.length - 1), (seed, way) => {
      const random = seededRandom(seed);
      const bad = spoils[way]!(rightLay(random), random);
      expect(verifyLay(bad.problem, bad.lay).map((fault) => fault.kind), bad.how).toContain(bad.fault);
    }), { numRuns: 300 });
  });

  it.each(spoils.map((spoil, way) => [spoil(rightLay(seededRandom(1)), seededRandom(2)).how, way] as const))('rejects %s', (_, way) => {
    for (let seed = 0; seed < 40; seed++) {
      const random = seededRandom(seed);
      const bad = spoils[way]!(rightLay(random), random);
      expect(verifyLay(bad.problem, bad.lay).map((fault) => fault.kind)).toContain(bad.fault);
    }
  });

  const pair: LayProblem = { width: 10, gap: 0, pieces: [piece('a', square(10)), piece('b', square(10))] };

  it('lets pieces touch', () => expect(kinds(pair, 20, [at(0, 0, 0), at(1, 10, 0)])).toEqual([]));

  it('finds an overlap of two micrometres and says how thick it is', () => {
    const faults = verifyLay(pair, { length: 19.998, placements: [at(0, 0, 0), at(1, 9.998, 0)] });
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ kind: 'overlap', placements: [0, 1] });
    expect(faults[0]?.kind === 'overlap' && faults[0].by).toBeCloseTo(0.002, 9);
  });

  it('finds one piece exactly on top of another', () => expect(kinds(pair, 10, [at(0, 0, 0), at(1, 0, 0)])).toEqual(['overlap']));

  it('finds a piece wholly inside another', () => {
    const problem = { ...pair, pieces: [piece('a', square(10)), piece('b', square(2))] };
    expect(kinds(problem, 10, [at(0, 0, 0), at(1, 4, 4)])).toEqual(['overlap']);
  });

  it('finds two bars crossing with no corner of either inside the other', () => {
    const bar = piece('bar', [{ x: 0, y: 4 }, { x: 10, y: 4 }, { x: 10, y: 6 }, { x: 0, y: 6 }], { turns: [0, 90] });
    expect(kinds({ width: 10, gap: 0, pieces: [bar, bar] }, 10, [at(0, 0, 0), at(1, 10, 0, { turn: 90 })])).toEqual(['overlap']);
  });

  it('lets a piece lie in the hollow of another', () => {
    const frame = piece('frame', [{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 10 }, { x: 0, y: 10 }, { x: 0, y: 8 }, { x: 8, y: 8 }, { x: 8, y: 2 }, { x: 0, y: 2 }]);
    expect(kinds({ width: 10, gap: 0, pieces: [frame, piece('b', square(6))] }, 10, [at(0, 0, 0), at(1, 2, 2)])).toEqual([]);
    expect(kinds({ width: 10, gap: 0, pieces: [frame, piece('b', square(6))] }, 10, [at(0, 0, 0), at(1, 2, 2.1)])).toEqual(['overlap']);
  });

  it('holds pieces to the least gap', () => {
    const problem = { ...pair, gap: 2 };
    expect(kinds(problem, 22, [at(0, 0, 0), at(1, 12, 0)])).toEqual([]);
    expect(kinds(problem, 21.9, [at(0, 0, 0), at(1, 11.9, 0)])).toEqual(['gap too small']);
  });

  it('holds pieces to the borders and the stated length', () => {
    expect(kinds(pair, 20, [at(0, 0, -0.1), at(1, 10, 0)])).toEqual(['outside']);
    expect(kinds(pair, 20, [at(0, -0.1, 0), at(1, 10, 0)])).toEqual(['outside']);
    expect(kinds(pair, 20.5, [at(0, 0, 0), at(1, 10, 0)])).toEqual(['wrong length']);
    expect(kinds(pair, 19.5, [at(0, 0, 0), at(1, 10, 0)])).toEqual(['outside', 'wrong length']);
  });

  it('holds a half to the fold, whichever way it may lie there', () => {
    const half = piece('half', [{ x: 0, y: 0 }, { x: 8, y: 0 }, { x: 5, y: 4 }], { onFold: true, turns: [0, 180], count: { asDrawn: 0, mirrored: 0, either: 1 } });
    const problem = { width: 10, gap: 0, pieces: [half] };
    expect(kinds(problem, 8, [at(0, 0, 0)])).toEqual([]);
    expect(kinds(problem, 8, [at(0, 8, 0, { mirrored: true, turn: 180 })])).toEqual([]);
    expect(kinds(problem, 8, [at(0, 0, 1)])).toEqual(['not on the fold']);
    expect(kinds(problem, 8, [at(0, 8, 4, { turn: 180 })])).toEqual(['not on the fold']);
  });

  it('holds a half to a fold across the cloth, on either side up', () => {
    const half = piece('half', [{ x: 0, y: 0 }, { x: 8, y: 0 }, { x: 5, y: 4 }], { onFold: true, turns: [270, 90], count: { asDrawn: 0, mirrored: 0, either: 1 } });
    const problem: LayProblem = { width: 10, gap: 0, fold: 'across', pieces: [half] };
    expect(kinds(problem, 4, [at(0, 0, 8, { turn: 270 })])).toEqual([]);
    expect(kinds(problem, 4, [at(0, 0, 0, { turn: 90, mirrored: true })])).toEqual([]);
    expect(kinds(problem, 5, [at(0, 1, 8, { turn: 270 })])).toEqual(['not on the fold']);
    // On y = 0, where it would be right on a fold along the cloth.
    expect(kinds({ ...problem, pieces: [{ ...half, turns: [0] }] }, 8, [at(0, 0, 0)])).toEqual(['not on the fold']);
  });

  it('keeps what is cut through two layers from what is cut through one', () => {
    const problem: LayProblem = { width: 20, doubleTo: 10, gap: 0, pieces: [piece('both', square(10)), piece('single', square(10), { single: true })] };
    expect(kinds(problem, 10, [at(0, 0, 0), at(1, 0, 10)])).toEqual([]);
    expect(kinds(problem, 20, [at(0, 10, 10), at(1, 0, 10)])).toEqual(['in the wrong layers']);
    expect(kinds(problem, 20, [at(0, 10, 0), at(1, 0, 0)])).toEqual(['in the wrong layers']);
    expect(kinds(problem, 20, [at(0, 10, 0), at(1, 0, 5)])).toEqual(['in the wrong layers']);
  });

  it('counts each hand, and lets either be either', () => {
    const problem = { width: 10, gap: 0, pieces: [piece('a', square(5), { count: { asDrawn: 1, mirrored: 0, either: 1 } })] };
    expect(kinds(problem, 10, [at(0, 0, 0), at(0, 5, 0)])).toEqual([]);
    expect(kinds(problem, 10, [at(0, 0, 0), at(0, 5, 5, { mirrored: true })])).toEqual([]);
    expect(kinds(problem, 10, [at(0, 0, 5, { mirrored: true }), at(0, 5, 5, { mirrored: true })])).toEqual(['wrong count', 'wrong count']);
  });

  it('does not accept what it cannot read', () => {
    const bow = piece('bow', [{ x: 0, y: 0 }, { x: 10, y: 10 }, { x: 10, y: 0 }, { x: 0, y: 8 }]);
    expect(kinds({ width: 10, gap: 0, pieces: [bow] }, 10, [at(0, 0, 0)])).toContain('unreadable outline');
    expect(kinds(pair, 10, [at(7, 0, 0)])).toEqual(['unreadable placement']);
    expect(kinds(pair, 10, [at(0, NaN, 0)])).toEqual(['unreadable placement']);
  });

  it('gives an empty lay of nothing no fault', () => expect(kinds({ width: 10, gap: 0, pieces: [] }, 0, [])).toEqual([]));
});
