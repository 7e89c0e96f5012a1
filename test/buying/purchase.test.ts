import { describe, expect, it } from 'vitest';
import { beforeShrinking, costOfCount, costOfLength, exactIn, moneyText, roughIn, roundedUpTo, sellingUnit, stepText } from '../../server/src/buying/purchase.ts';
import { supplyPurchases } from '../../server/src/buying/supplies.ts';
import { millimetresIn, usualDisplay } from '../../server/src/units/length.ts';
import { rational, type Rational } from '../../server/src/units/rational.ts';
import { analyse } from '../support/spec.ts';
import { bestOf, planOf, specOf } from './support.ts';

const { yd } = millimetresIn;
const eighth = yd.div(8);
const yards = (text: string): Rational => rational(text).mul(yd);

describe('shrinkage and rounding up', () => {
  // Arithmetic on the definition of AATCC TM135: loss as a share of the length before.
  it('buys 3 1/4 yd for 3 yd at 5 %, and 4 1/2 yd for 4 yd at 10 %', () => {
    const first = beforeShrinking(yards('3'), rational(5, 100));
    expect(first.div(yd).valueOf()).toBeCloseTo(3.158, 3);
    expect(exactIn(roundedUpTo(eighth, first), 'yd')).toBe('3 1/4 yd');
    const second = beforeShrinking(yards('4'), rational(10, 100));
    expect(second.div(yd).valueOf()).toBeCloseTo(4.444, 3);
    expect(exactIn(roundedUpTo(eighth, second), 'yd')).toBe('4 1/2 yd');
  });

  it('buys another step for whatever is over, be it a micrometre', () => {
    expect(exactIn(roundedUpTo(eighth, eighth.mul(5)), 'yd')).toBe('5/8 yd');
    expect(exactIn(roundedUpTo(eighth, eighth.mul(5).add(rational(1, 1000))), 'yd')).toBe('3/4 yd');
    expect(exactIn(roundedUpTo(eighth, eighth.mul(5).add(rational(99, 1000))), 'yd')).toBe('3/4 yd');
    expect(roundedUpTo(eighth, rational(0)).valueOf()).toBe(0);
    expect(roundedUpTo(eighth, rational(5, 100)).equals(eighth)).toBe(true);
  });

  it('writes lengths in the unit that the seller measures in', () => {
    const inches = usualDisplay('in');
    const centimetres = usualDisplay('cm');
    expect([sellingUnit(eighth, centimetres), sellingUnit(rational(100), inches), sellingUnit(millimetresIn.ft, inches), sellingUnit(millimetresIn.in, inches)]).toEqual(['yd', 'm', 'ft', 'in']);
    expect(exactIn(rational(1300), 'm')).toBe('1.3 m');
    expect([roughIn(yards('0.6111'), 'yd', 'up'), roughIn(yards('0.6111'), 'yd', 'down')]).toEqual(['0.62 yd', '0.61 yd']);
  });

  it('tells the step that something is sold in as its seller does, and about how long that is in the pattern’s own system of units', () => {
    const [inches, centimetres] = [usualDisplay('in'), usualDisplay('cm')];
    // 1/8 yd is 11.43 cm, and 10 cm are 3.937 in.
    expect([stepText(eighth, inches), stepText(eighth, centimetres)]).toEqual(['1/8 yd', '1/8 yd (about 11.4 cm)']);
    expect([stepText(rational(100), centimetres), stepText(rational(100), inches)]).toEqual(['0.1 m', '0.1 m (about 3 7/8 in)']);
  });

  it('knows a price only for what it is a price of', () => {
    const perYard = { amount: rational('18.50'), per: 'yd' } as const;
    expect(moneyText(costOfLength(perYard, eighth) ?? rational(0), 'EUR')).toBe('2.31 EUR');
    expect(costOfCount(perYard, 2)).toBeUndefined();
    expect(costOfLength({ amount: rational(3), per: 'panel' }, eighth)).toBeUndefined();
  });
});

describe('what a plan buys', () => {
  const strip = 'piece part "Part" {\n  outline rectangle 40 by 108\n  grain up\n  cut 1 cloth\n}';

  it('follows the cloth’s shrinkage: 3 yd long at 5 % takes 3 1/4 yd', () => {
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  shrinks 5%\n  bought in lengths of 1/8 yd', strip));
    expect(exactIn(best.buy, 'yd')).toBe('3 1/4 yd');
    expect(best.certain).toBe(true);
  });

  // Sums of whole inches against steps of 9 in, worked out by hand: what is needed and 1 in for squaring and fraying.
  it.each([['35', '1 yd'], ['35.001', '1 1/4 yd'], ['36', '1 1/4 yd'], ['44', '1 1/4 yd'], ['44 1/32', '1 1/2 yd']])('keeps 1 in to spare: %s in of cloth take %s', (long, buy) => {
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 1/4 yd', `piece part "Part" {\n  outline rectangle 40 by ${long}\n  grain up\n  cut 1 cloth\n}`));
    expect([exactIn(best.buy, 'yd'), best.certain, best.spare.div(25.4).valueOf()]).toEqual([buy, true, 1]);
  });

  it('keeps the spare of cloth as it is sold, before it shrinks', () => {
    // 41.8 in at 5 % are 44 in as sold, so that with 1 in more 1 1/4 yd are just enough.
    const long = (facts: string) => bestOf(planOf(`  role main\n  width 44 usable 42\n  bought in lengths of 1/4 yd\n${facts}`, 'piece part "Part" {\n  outline rectangle 40 by 41.8\n  grain up\n  cut 1 cloth\n}'));
    expect(exactIn(long('  shrinks 5%').buy, 'yd')).toBe('1 1/4 yd');
    expect(exactIn(long('  shrinks 5.1%').buy, 'yd')).toBe('1 1/2 yd');
  });

  it('keeps 3 cm to spare in a file of centimetres, and nothing of a panel', () => {
    const { pattern } = analyse('pattern "T"\nrevision 1\nunit cm\nallowance none\nmaterial cloth "C" {\n  width 110\n}\nmaterial felt "F" {\n  role non-fray\n  bought in sheets of 30 by 40\n}\npiece p "P" {\n  outline rectangle 30 by 40\n  grain up\n  cut 1 cloth\n  cut 1 felt on right side\n}\n');
    const spares = pattern.resolve(new Map()).materials.map((material) => material.spare.valueOf());
    expect(spares).toEqual([30, 0]);
  });

  it('does not count the spare among what is left over', () => {
    const best = bestOf(planOf('  role main\n  width 44 usable 42\n  bought in lengths of 1 yd', 'piece part "Part" {\n  outline rectangle 42 by 25\n  grain up\n  cut 1 cloth\n}'));
    expect(best.leftovers.flat().map(({ length }) => length / 25.4)).toEqual([expect.closeTo(10, 3)]);
  });

  it('leaves out what the shrunk width no longer holds, and says so', () => {
    const fits = bestOf(planOf('  role main\n  width 44 usable 42\n  shrinks 0% by 4.7%', strip));
    expect(fits.unplaced).toEqual([]);
    const tooWide = bestOf(planOf('  role main\n  width 44 usable 42\n  shrinks 0% by 4.8%', strip));
    expect(tooWide.unplaced).toEqual([0]);
    expect(tooWide.lays.every((found) => found.lay.placements.length === 0)).toBe(true);
  });
});

describe('supplies', () => {
  const supply = (body: string): ReturnType<typeof supplyPurchases>[number] | undefined => {
    const pattern = specOf('  role main\n  width 44', 'piece p "P" {\n  outline rectangle 1 by 1\n  cut 1 cloth\n}', `supply it "It" {\n${body}\n}`);
    return supplyPurchases(pattern.resolve(new Map()).supplies, 3)[0];
  };

  it('adds lengths up and rounds to the seller’s step: three straps of 38 in are 3 1/4 yd', () => {
    const webbing = supply('  kind webbing\n  across 25 mm\n  length 38\n  bought in lengths of 1/4 yd\n  price 4 per yd');
    expect(webbing?.needed?.div(25.4).valueOf()).toBe(114);
    expect(exactIn(webbing?.buy ?? rational(0), 'yd')).toBe('3 1/4 yd');
    expect(moneyText(webbing?.cost ?? rational(0), undefined)).toBe('13.00');
  });

  it('counts what is counted', () => {
    const snap = supply('  kind snap\n  across 14 mm\n  count 2\n  price 0.80 per each');
    expect([snap?.count, snap?.needed, snap?.cost?.valueOf()]).toEqual([6, undefined, 4.8]);
  });
});
