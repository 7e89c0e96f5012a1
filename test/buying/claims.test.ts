import { describe, expect, it } from 'vitest';
import type { LayPiece, Placement } from '../../server/src/lay/problem.ts';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';
import type { WidthPlan } from '../../server/src/buying/plan.ts';
import { planSentence, unplacedText } from '../../server/src/table/buying-text.ts';
import { usualDisplay } from '../../server/src/units/length.ts';
import { bestOf, expectRight, planOf } from './support.ts';

const cloth = '  role main\n  width 44 usable 42\n  bought in lengths of 1/8 yd\n  price 8 per yd';
const rectangle = (name: string, width: string, height: string, count: number): string => `piece ${name} "${name}" {\n  outline rectangle ${width} by ${height}\n  grain up\n  cut ${count} cloth\n}\n`;
const inches = (value: { valueOf: () => number }): number => value.valueOf() / 25.4;
const told = (facts: string, pieces: string): string => {
  const plan = planOf(facts, pieces);
  return planSentence(bestOf(plan), plan.need.material, usualDisplay('in'));
};

describe('what is called certain', () => {
  it('holds all pieces: with one left out there is no certainty, no cost, and it is named', () => {
    const plan = planOf(cloth, rectangle('small', '40', '10', 1) + rectangle('wide', '43', '10', 1));
    const best = bestOf(plan);
    expect([best.certain, best.cost, unplacedText(plan, best)]).toEqual([false, undefined, 'does not fit and is left out: wide']);
    expect(told(cloth, rectangle('small', '40', '10', 1) + rectangle('wide', '43', '10', 1))).not.toContain('certain');
    expect(told(cloth, rectangle('small', '40', '10', 1))).toContain('certain');
  });

  it('holds all pieces of panels too', () => {
    const panel = '  role accent\n  bought in panels of 18 in by 22 in\n  price 3 per panel';
    const best = bestOf(planOf(panel, rectangle('small', '20', '10', 1) + rectangle('wide', '23', '10', 1)));
    expect([best.certain, best.cost, best.unplaced]).toEqual([false, undefined, [1]]);
  });

  it('is certain with its spare: 0.2 mm left of a length are not enough', () => {
    // 8 1/8 in and the spare of 1 in are 9 1/8 in: one step of 9 in is not enough, though the pieces would lie on it.
    expect(told('  role main\n  width 44 usable 42\n  bought in lengths of 9 in', rectangle('part', '40', '9 in - 0.2 mm', 1))).toContain('buy 1/2 yd, certain');
    expect(told('  role main\n  width 44 usable 42\n  bought in lengths of 9 in', rectangle('part', '40', '8', 1))).toContain('buy 1/4 yd, certain');
    expect(told('  role main\n  width 44 usable 42\n  bought in lengths of 9 in', rectangle('part', '40', '8 in + 0.05 mm', 1))).toContain('buy 1/2 yd, certain');
  });

  it('is not certain where a shorter lay might be bought shorter', () => {
    // By area 24.4 in at least; whatever is laid, less than that plus the spare is out of the question, and more is not.
    const pieces = Array.from({ length: 9 }, (_, k) => `piece p${k} "P${k}" {\n  outline polygon from 0, 0 to ${9 + k}, 0 to ${5 + k}, ${7 + (k % 3)} to 1, 5\n  grain up\n  cut 1 cloth\n}\n`).join('');
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 1 cm', pieces));
    expect(best.certain).toBe(false);
    expect(best.noneUnder.compare(best.shortest)).toBeLessThan(0);
  });
});

describe('a first lay', () => {
  it('lays pieces into one another where that is shorter than side by side, however little', () => {
    // Head to tail two of them take 38 in of the width; as boxes, 44 in.
    const slanted = 'piece slanted "Slanted" {\n  outline polygon from 0, 0 to 22, 0 to 16, 10 to 6, 10\n  grain up\n  cut 2 cloth\n}\n';
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  direction two ways\n  bought in lengths of 1 in', slanted + rectangle('strip', '42', '90', 1)));
    expect(inches(best.shortest)).toBeCloseTo(100, 1);
  });
});

/** All the lays of a plan laid end to end on the length that the plan tells. */
function endToEnd(best: WidthPlan, gap: number): { readonly faults: readonly string[]; readonly lays: number } {
  const repeated = best.lays.flatMap((found) => Array.from({ length: found.times }, () => found));
  const pieces: LayPiece[] = [];
  const placements: Placement[] = [];
  const told = best.shortest.valueOf();
  const between = repeated.length === 1 ? 0 : (told - repeated.reduce((sum, { lay }) => sum + lay.length, 0)) / (repeated.length - 1);
  let start = 0;
  for (const { problem, lay } of repeated) {
    for (const placement of lay.placements) placements.push({ ...placement, piece: placement.piece + pieces.length, x: placement.x + start });
    pieces.push(...problem.pieces);
    start += lay.length + between;
  }
  const faults = verifyLay({ width: best.lays[0]!.problem.width, gap, pieces }, { length: told, placements }, 0.002);
  return { faults: faults.map(({ kind }) => kind), lays: repeated.length };
}

describe('a batch of alike lays', () => {
  it('keeps the gap between them as within them', () => {
    const best = bestOf(planOf(cloth, rectangle('tile', '2', '3', 1600), { gap: 3 }));
    const { faults, lays } = endToEnd(best, 3);
    expect(lays).toBeGreaterThan(1);
    expect(faults).toEqual([]);
  });

  it('has what is left of the cloth once, after the last of them', () => {
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 1 yd', rectangle('tile', '2', '3', 1601)));
    expect(best.lays.length).toBeGreaterThan(1);
    const drawn = best.lays.reduce((sum, { times, cloth: { length } }) => sum + times * length, 0);
    expect(inches(best.buy) - 1).toBeCloseTo(drawn / 25.4, 3);
    best.lays.slice(0, -1).forEach(({ lay, cloth: drawnCloth }) => { expect(drawnCloth.length).toBeCloseTo(lay.length, 6); });
    const last = best.lays.at(-1)!;
    expect(last.cloth.length).toBeGreaterThan(last.lay.length);
  });

  it('has none of it drawn where all of them are alike: it lies beside none of them in particular', () => {
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 1 yd', rectangle('tile', '2', '3', 1600)));
    expect(best.lays.map(({ times }) => times)).toEqual([2]);
    // 800 tiles, 21 abreast: 39 rows of 3 in.
    expect(best.lays.map(({ cloth: { length } }) => length / 25.4)).toEqual([expect.closeTo(117, 2)]);
    expect(best.leftovers).toEqual([[]]);
  });
});

describe('what is left over', () => {
  const strip = (long: string): readonly number[] => bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 20 in', rectangle('part', '42', long, 1))).leftovers.flat().map(({ length }) => length / 25.4);

  it('is named from 4 in on', () => {
    // 20 in bought less 1 in to spare.
    expect(strip('15')).toEqual([expect.closeTo(4, 6)]);
    expect(strip('15.01')).toEqual([]);
  });
});

describe('layers', () => {
  const folded = (pieces: string) => planOf(cloth, pieces, { lay: 'folded' });

  it('are two: each placement gives a pair, and an odd one a spare', () => {
    for (const [count, placements] of [[1, 1], [2, 1], [3, 2], [4, 2]] as const) {
      const plan = folded(rectangle('part', '10', '10', count));
      expectRight(plan);
      expect(bestOf(plan).lays[0]?.lay.placements).toHaveLength(placements);
    }
  });

  it('hold half the width each', () => {
    expect(inches(bestOf(folded(rectangle('part', '10.5', '10', 4))).shortest)).toBeCloseTo(10, 3);
    expect(inches(bestOf(folded(rectangle('part', '10.6', '10', 4))).shortest)).toBeCloseTo(20, 3);
  });
});
