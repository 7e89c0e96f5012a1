import { describe, expect, it } from 'vitest';
import { beforeShrinking, costOfCount, costOfLength, exactIn, moneyText, roughIn, roundedUpTo, sellingUnit } from '../../server/src/buying/purchase.ts';
import { supplyPurchases } from '../../server/src/buying/supplies.ts';
import { millimetresIn, usualDisplay } from '../../server/src/units/length.ts';
import { rational, type Rational } from '../../server/src/units/rational.ts';
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

  it('does not buy another step for what is over by micrometres, but does for a millimetre', () => {
    expect(exactIn(roundedUpTo(eighth, eighth.mul(5).add(rational(6, 1000))), 'yd')).toBe('5/8 yd');
    expect(exactIn(roundedUpTo(eighth, eighth.mul(5).add(1)), 'yd')).toBe('3/4 yd');
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
