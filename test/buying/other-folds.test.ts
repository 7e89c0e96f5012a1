import { describe, expect, it } from 'vitest';
import { firstPlan, planMaterial, type WidthPlan } from '../../server/src/buying/plan.ts';
import type { MaterialNeed, Requirement } from '../../server/src/buying/requirements.ts';
import type { ClothFold } from '../../server/src/model/stock/material.ts';
import { planSentence } from '../../server/src/table/buying-text.ts';
import { usualDisplay } from '../../server/src/units/length.ts';
import { block, lyings, shortest, type Lying, type Squares, type Wish } from './brute-force.ts';
import { bare, boxOutline, drawnOf, inch, lots, material, none, outlineOf, type Draw } from './small-cases.ts';
import { bestOf, expectRight, needOf, planOf, quick, specOf } from './support.ts';

const inches = ({ shortest: found }: WidthPlan): number => Math.round(found.div(inch).valueOf() * 1000) / 1000;
const placed = (best: WidthPlan): readonly string[] => best.lays.flatMap((found) => found.problem.pieces.map((piece) => `${piece.id}: ${piece.count.asDrawn + piece.count.mirrored + piece.count.either} ${piece.onFold ? 'on the fold' : found.manner === 'open' || piece.single === true ? 'single' : 'through both'}`));

describe('cloth that is folded in part', () => {
  // 56 in usable, 14 in of it double: that takes 28 in, and 28 in lie single beyond.
  const cloth = '  role main\n  width 58 usable 56\n  fold partial 14\n  bought in lengths of 1/8 yd';
  const front = 'piece front "Front" {\n  outline rectangle 12 by 20\n  on fold left\n  grain up\n  cut 1 cloth on fold\n}\n';
  const wide = 'piece back "Back" {\n  outline rectangle 26 by 20\n  grain up\n  cut 1 cloth\n}\n';

  it('lays what is drawn as half on the fold and the rest beside it, in a single layer', () => {
    const plan = planOf(cloth, front + wide, { lay: 'folded' });
    expectRight(plan);
    expect([inches(bestOf(plan)), placed(bestOf(plan)), bestOf(plan).lays[0]?.manner]).toEqual([20, ['Front: 1 on the fold', 'Back: 1 single'], 'partial']);
    // Open it is as long, and in half the back has no room at all.
    expect(inches(bestOf(planOf(cloth, front + wide, { lay: 'open' })))).toBe(20);
  });

  it('is what is laid where nobody says otherwise', () => {
    expect(bestOf(planOf(cloth, front + wide, { lay: 'shorter' })).lays[0]?.manner).toBe('partial');
  });

  it('keeps the gap between what lies double and what lies single', () => {
    const plan = planOf(cloth.replace('14', '12'), `${front}piece strip "Strip" {\n  outline rectangle 30 by 20\n  grain up\n  cut 1 cloth\n}`, { lay: 'folded', gap: 3 });
    expectRight(plan);
    const [found] = bestOf(plan).lays;
    expect(found?.lay.placements).toHaveLength(2);
    expect(found?.problem.gap).toBe(3);
  });

  it('shares pairs between both layers and the single one', () => {
    // 4 in by 20 in: six in three columns through both 14 in, and four more beyond on 28 in, take one row of 20 in.
    const plan = planOf(cloth, 'piece strap "Strap" {\n  outline rectangle 4 by 20\n  grain up\n  cut 13 cloth\n}', { lay: 'folded' });
    expectRight(plan);
    expect([inches(bestOf(plan)), placed(bestOf(plan)), bestOf(plan).certain]).toEqual([20, ['Strap: 3 through both', 'Strap: 7 single'], true]);
  });

  it('fills both parts evenly: what has room nowhere else lies single, and the rest on the fold', () => {
    // Two 20 in long on the fold, 12 in deep, beside 26 in by 20 in and 20 in by 14 in: 40 in; either of the two elsewhere makes it longer.
    const plan = planOf(cloth, `${front.replace('cut 1', 'cut 2')}${wide}piece flap "Flap" {\n  outline rectangle 20 by 14\n  grain up\n  cut 1 cloth\n}\n`, { lay: 'folded' });
    expectRight(plan);
    expect([inches(bestOf(plan)), placed(bestOf(plan))]).toEqual([40, ['Front: 2 on the fold', 'Back: 1 single', 'Flap: 1 single']]);
  });

  it('parts alike pieces between the fold and the single layer: three and the back take 40 in, two on the fold', () => {
    const plan = planOf(cloth, front.replace('cut 1', 'cut 3') + wide, { lay: 'folded' });
    expectRight(plan);
    expect([inches(bestOf(plan)), placed(bestOf(plan)), bestOf(plan).certain]).toEqual([40, ['Front: 2 on the fold', 'Front: 1 single', 'Back: 1 single'], true]);
  });

  it('has leftovers of either part, and says which are there twice', () => {
    const best = bestOf(planOf(cloth.replace('1/8 yd', '2 yd'), front + wide, { lay: 'folded' }));
    // 72 in bought, 1 in of it to spare: beyond the pieces 51 in are left, of 14 in by the fold and 28 in beyond.
    expect(best.leftovers.flat().map(({ length, width, onFold, twice }) => [Math.round(length / inch), Math.round(width / inch), onFold, twice])).toEqual([[51, 28, false, false], [51, 14, true, false]]);
  });
});

describe('cloth that is folded across its length', () => {
  const cloth = '  role main\n  width 44 usable 42\n  fold crosswise\n  bought in lengths of 1/8 yd';
  const cape = (count = 1): string => `piece cape "Cape" {\n  outline rectangle 40 by 15\n  on fold top\n  grain up\n  cut ${count} cloth on fold\n}\n`;

  it('lays a half with its fold across the cloth on the fold: 15 in twice', () => {
    const plan = planOf(cloth, cape(), { lay: 'folded' });
    expectRight(plan);
    const [found] = bestOf(plan).lays;
    expect([inches(bestOf(plan)), placed(bestOf(plan)), found?.manner, found?.problem.fold]).toEqual([30, ['Cape: 1 on the fold'], 'crosswise', 'across']);
    expect(found?.lay.length).toBeCloseTo(15 * inch, 3);
  });

  it('cuts pairs through both layers, the width of the cloth apart from its fold', () => {
    const plan = planOf(cloth, 'piece panel "Panel" {\n  outline polygon from 0, 0 to 38, 0 to 30, 12 to 0, 12\n  grain up\n  cut 2 cloth twins\n}', { lay: 'folded' });
    expectRight(plan);
    expect([Math.round(inches(bestOf(plan)) * 10) / 10, placed(bestOf(plan))]).toEqual([24, ['Panel: 1 through both']]);
  });

  it('leaves out what has no room on the fold, and claims nothing of it', () => {
    const plan = planOf(cloth, `${cape()}piece veil "Veil" {\n  outline rectangle 41 by 20\n  on fold top\n  grain up\n  cut 1 cloth on fold\n}`, { lay: 'folded' });
    const best = bestOf(plan);
    expect(best.unplaced.length === 0 || !best.certain).toBe(true);
    expectRight(plan);
  });

  it('has what is bought beyond the pieces at the ends, in both layers', () => {
    const best = bestOf(planOf(cloth.replace('1/8 yd', '2 yd'), cape(), { lay: 'folded' }));
    // 72 in bought, 1 in to spare, 30 in cut: 41 in, half of it in either layer.
    expect(best.leftovers.flat().map(({ x, length, twice }) => [Math.round(x / inch), length / inch, twice])).toEqual([[15, expect.closeTo(20.5, 3), true]]);
  });
});

// ------------------------------------------------------------------------------------------------ brute force

interface Case {
  readonly words: string;
  readonly requirement: Requirement;
  readonly wish: Wish;
  readonly pieces: number;
}

const range = (most: number): readonly number[] => Array.from({ length: most + 1 }, (_, index) => index);

/** Cloth as it is folded, in squares of an inch: so many rows lie double, then so many single. */
interface Folded {
  readonly fold: ClothFold['way'];
  readonly double: number;
  readonly single: number;
  readonly turnSets: readonly (readonly number[])[];
}

const rowsDouble = ({ double }: Folded): readonly [number, number] => [0, double];
const rowsSingle = ({ double, single }: Folded): readonly [number, number] => [double, double + single];

/** Drawn as half: on the fold, opened out in pairs, or opened out in the single layer. */
const halfCase: Draw<Folded, Case> = (lot, cloth) => {
  const isAcross = cloth.fold === 'crosswise';
  const [long, deep, count, turns] = [1 + lot(3), 1 + lot(2), 1 + lot(4), cloth.turnSets[lot(cloth.turnSets.length)]!];
  // The fold of the piece is as long as `long`, and it reaches so deep from there.
  const [half, whole] = isAcross ? [block(deep, long), block(2 * deep, long)] : [block(long, deep), block(long, 2 * deep)];
  const onFold: Lying = { shapes: [half], onFold: isAcross ? 'across' : true, rows: rowsDouble(cloth) };
  const pair: Lying = { shapes: lyings(whole, turns, [false]), onFold: false, rows: rowsDouble(cloth) };
  const alone: Lying = { shapes: lyings(whole, turns, [false]), onFold: false, rows: rowsSingle(cloth) };
  const choices = range(count).flatMap((folded) => range(Math.ceil(count / 2)).map((pairs) => {
    const rest = Math.max(0, count - folded - 2 * pairs);
    return [{ lying: onFold, count: folded }, { lying: pair, count: pairs }, { lying: alone, count: rest }];
  }));
  const own = { outline: boxOutline(long, deep) };
  return {
    words: `${count} halves, ${long} along the fold and ${deep} deep, turns ${turns.join(' ')}`, pieces: count,
    requirement: {
      ...bare, turns, count: { ...none, either: count },
      outline: isAcross ? boxOutline(2 * deep, long) : boxOutline(long, 2 * deep),
      ...(isAcross ? { halfAcross: { ...own, turns: [270, 90], turnsOpenedOut: turns.map((turn) => (turn + 270) % 360) } } : { half: { ...own, turns: turns.filter((turn) => turn % 180 === 0), turnsOpenedOut: turns } }),
    },
    wish: { choices: choices.filter((choice) => cloth.single > 0 || choice[2]!.count === 0) },
  };
};

/** Plain rectangles, either side up. */
const plainCase: Draw<Folded, Case> = (lot, cloth) => {
  const [along, across, count, turns] = [1 + lot(4), 1 + lot(cloth.double + cloth.single), 1 + lot(4), cloth.turnSets[lot(cloth.turnSets.length)]!];
  const shapes = lyings(block(along, across), turns, [false]);
  const choices = range(Math.ceil(count / 2)).map((pairs) => [{ lying: { shapes, onFold: false, rows: rowsDouble(cloth) }, count: pairs }, { lying: { shapes, onFold: false, rows: rowsSingle(cloth) }, count: Math.max(0, count - 2 * pairs) }]);
  return {
    words: `${count} plain of ${along} by ${across}, turns ${turns.join(' ')}`, pieces: count,
    requirement: { ...bare, outline: boxOutline(along, across), turns, count: { ...none, either: count } },
    wish: { choices: choices.filter((choice) => cloth.single > 0 || choice[1]!.count === 0) },
  };
};

/** An L, which is another when flipped: a pair is one of either hand, and in a single layer each lies in its own. */
const handedCase: Draw<Folded, Case> = (lot, cloth) => {
  const [along, across, turns] = [2 + lot(2), 2, cloth.turnSets[lot(cloth.turnSets.length)]!];
  const asDrawn = lot(4);
  const mirrored = lot(2) + (asDrawn === 0 ? 1 : 0);
  const squares: Squares = block(along, across).filter(([x, y]) => x === 0 || y === 0);
  const lying = (hands: readonly boolean[], rows: readonly [number, number]): Lying => ({ shapes: lyings(squares, turns, hands), onFold: false, rows });
  const choices = range(Math.max(asDrawn, mirrored)).map((pairs) => [
    { lying: lying([false, true], rowsDouble(cloth)), count: pairs },
    { lying: lying([false], rowsSingle(cloth)), count: Math.max(0, asDrawn - pairs) },
    { lying: lying([true], rowsSingle(cloth)), count: Math.max(0, mirrored - pairs) },
  ]);
  return {
    words: `${asDrawn} and ${mirrored} flipped L of ${along} by ${across}, turns ${turns.join(' ')}`, pieces: asDrawn + mirrored,
    requirement: { ...bare, turns, count: { ...none, asDrawn, mirrored }, outline: outlineOf([[0, 0], [along, 0], [along, 1], [1, 1], [1, across], [0, across]]) },
    wish: { choices: choices.filter((choice) => cloth.single > 0 || (choice[1]!.count === 0 && choice[2]!.count === 0)) },
  };
};

function needFor(cases: readonly Case[], { fold, double, single }: Folded): MaterialNeed {
  const squares = (count: number): typeof material.spare => material.spare.mul(0).add(count * inch);
  const across = squares(fold === 'crosswise' ? double : 2 * double + single);
  const folded: ClothFold = fold === 'partial' ? { way: 'partial', depth: squares(double) } : { way: 'crosswise' };
  return { material: { ...material, width: across, usable: across, fold: folded }, articles: 1, requirements: cases.map(({ requirement }) => requirement) };
}

/** How many claims were made, since a test of claims that are never made proves nothing, and how often the lay found is the shortest. */
interface Claims {
  tried: number;
  certain: number;
  noneShorter: number;
  shortest: number;
  mixed: number;
}

/** Everything that a plan claims, against the shortest lay there is, in inches of cloth; steps are 3 in, and 1 in is spare. */
function compare(cases: readonly Case[], cloth: Folded, claims: Claims): void {
  const times = cloth.fold === 'crosswise' ? 2 : 1;
  const least = times * shortest(cases.map(({ wish }) => wish), cloth.double + cloth.single, 24);
  const words = `${cloth.fold}, ${cloth.double} double and ${cloth.single} single: ${cases.map((one) => one.words).join('; ')}`;
  const plan = firstPlan(needFor(cases, cloth), { ...quick, lay: 'folded' });
  const best = bestOf(plan);
  expectRight(plan);
  if (best.unplaced.length > 0) {
    expect(best.certain).toBe(false);
    return;
  }
  claims.tried++;
  const found = best.shortest.div(inch).valueOf();
  expect(best.noneUnder.div(inch).valueOf(), `none under: ${words}`).toBeLessThanOrEqual(least + 1e-9);
  if (least < Infinity) expect(found, `found: ${words}`).toBeGreaterThanOrEqual(least - 0.001);
  const sentence = planSentence(best, material, usualDisplay('in'));
  expect(sentence.includes('certain')).toBe(best.certain);
  if (sentence.includes('none shorter')) {
    claims.noneShorter++;
    expect(found, `none shorter: ${words}`).toBeLessThanOrEqual(least + 0.001);
  }
  if (best.certain) {
    claims.certain++;
    expect(best.buy.div(inch).valueOf(), `certain: ${words}`).toBeCloseTo(Math.ceil((least + 1) / 3) * 3, 9);
  }
  if (found <= least + 0.001) claims.shortest++;
  if (new Set(placed(best).map((one) => one.split(': ')[1]?.replace(/^\d+ /, ''))).size > 1) claims.mixed++;
}

describe('every claim of small lays, by trying all lays', () => {
  const claims: Record<'partial' | 'crosswise', Claims> = {
    partial: { tried: 0, certain: 0, noneShorter: 0, shortest: 0, mixed: 0 },
    crosswise: { tried: 0, certain: 0, noneShorter: 0, shortest: 0, mixed: 0 },
  };

  it.each([1, 2, 3])('is true of 900 that are folded in part, part %i', (part) => {
    const lot = lots(part * 7919);
    for (let tried = 0; tried < 900; ) {
      const cloth: Folded = { fold: 'partial', double: 1 + lot(2), single: lot(3), turnSets: [[0], [0, 180], [0, 90, 180, 270]] };
      const cases = drawnOf(lot, cloth, 5, [halfCase, plainCase, handedCase]);
      if (cases.length === 0) continue;
      tried++;
      compare(cases, cloth, claims.partial);
    }
  }, 400_000);

  it.each([1, 2, 3])('is true of 900 that are folded across, part %i', (part) => {
    const lot = lots(part * 104729);
    for (let tried = 0; tried < 900; ) {
      const cloth: Folded = { fold: 'crosswise', double: 1 + lot(4), single: 0, turnSets: [[0, 180], [0, 90, 180, 270]] };
      const cases = drawnOf(lot, cloth, 6, [halfCase, plainCase, handedCase]);
      if (cases.length === 0) continue;
      tried++;
      compare(cases, cloth, claims.crosswise);
    }
  }, 400_000);

  it('is made often enough to be worth checking', () => {
    for (const { tried, certain, noneShorter, mixed } of Object.values(claims)) {
      expect(tried).toBeGreaterThan(1500);
      expect(certain / tried).toBeGreaterThan(0.3);
      expect(noneShorter / tried).toBeGreaterThan(0.2);
      expect(mixed / tried).toBeGreaterThan(0.1);
    }
  });
});

describe('more pieces', () => {
  it.each(['partial 10', 'crosswise'])('lie right when folded %s, whatever there is to lay, and are found shorter with time', (fold) => {
    const text = '  role main\n  width 44 usable 42\n  bought in lengths of 1/8 yd';
    const pieces = ['piece yoke "Yoke" {\n  outline rectangle 7 by 9\n  on fold left\n  grain up\n  cut 3 cloth on fold\n}', 'piece cap "Cap" {\n  outline polygon from 0, 0 to 9, 0 to 9, 3 to 4, 7 to 0, 7\n  grain up\n  cut 7 cloth twins\n}'.replace('7 cloth twins', '8 cloth twins'), 'piece tab "Tab" {\n  outline rectangle 3 by 5\n  on fold top\n  grain up\n  cut 21 cloth on fold\n}'].join('\n');
    const need = needOf(specOf(`${text}\n  fold ${fold}`, pieces));
    const [first, better] = [firstPlan(need, { ...quick, lay: 'folded' }), planMaterial(need, { ...quick, lay: 'folded', effort: 0.02 })];
    expectRight(first);
    expectRight(better);
    expect(bestOf(better).unplaced).toEqual([]);
    expect(bestOf(better).shortest.compare(bestOf(first).shortest)).toBeLessThanOrEqual(0);
  });
});
