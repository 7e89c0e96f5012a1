import { describe, expect, it } from 'vitest';
import { buyingList } from '../../server/src/buying/list.ts';
import { buyingRows } from '../../server/src/table/buying-rows.ts';
import { supplyPurchases } from '../../server/src/buying/supplies.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { usualDisplay } from '../../server/src/units/length.ts';
import { pattern } from '../support/spec.ts';
import { bestOf, planOf, quick, specOf } from './support.ts';

const piece = 'piece part "Part" {\n  outline rectangle 40 by 8\n  grain up\n  cut 1 cloth\n}\n';
const bought = (body: string, articles: number) => {
  const [one] = supplyPurchases(pattern(`${piece}supply it "It" {\n${body}\n}`).pattern.resolve(new Map()).supplies, articles);
  return [one?.count, one?.bought, one?.cost?.valueOf(), one?.costEach?.valueOf()];
};

describe('packs', () => {
  it('are bought whole, and an article costs what it uses up of them', () => {
    expect(bought('  count 4\n  bought in packs of 10\n  price 5 per pack', 1)).toEqual([4, 10, 5, 2]);
    expect(bought('  count 4\n  bought in packs of 10\n  price 5 per pack', 5)).toEqual([20, 20, 10, 2]);
    expect(bought('  count 4\n  bought in packs of 10\n  price 5 per pack', 6)).toEqual([24, 30, 15, 2]);
    expect(bought('  count 3\n  bought in packs of 4\n  price 0.50 per each', 1)).toEqual([3, 4, 2, 1.5]);
  });

  it('hold at least one', () => expect(pattern(`${piece}supply it {\n  bought in packs of 0\n}`).codes.length).toBeGreaterThan(0));
});

describe('what serves several articles', () => {
  it('is bought once for them, and once more for one more', () => {
    expect([1, 6, 7, 12, 13].map((articles) => bought('  kind thread\n  serves 6\n  price 3 per each', articles))).toEqual([
      [1, 1, 3, 0.5], [1, 1, 3, 0.5], [2, 2, 6, 0.5], [2, 2, 6, 0.5], [3, 3, 9, 0.5],
    ]);
    expect(bought('  kind thread\n  count 2\n  serves 5', 10)).toEqual([4, 4, undefined, undefined]);
  });
});

describe('what is said of supplies', () => {
  const rows = (articles: number) => {
    const text = `currency "EUR"\n${piece}supply rivet "Rivet" {\n  count 4\n  bought in packs of 10\n  price 5 per pack\n}\nsupply thread "Thread" {\n  kind thread\n  serves 6\n  price 3 per each\n}\n`;
    const spec = specOf('  width 44\n  bought in lengths of 1/4 yd\n  price 8 per yd', text);
    return buyingRows(buyingList(spec.resolve(new Map()), articles, quick), usualDisplay('in'), 'EUR').map(({ item, buy, cost, notes }) => [item, buy, cost, notes.filter((note) => !note.includes('layer') && !note.includes('folded')).join('; ')]);
  };

  it('names packs, articles served and what each article costs', () => {
    // 8 in and 1 in to spare are 1/4 yd, 2.00; a pack of rivets 5.00 of which 2.00 are used; a sixth of 3.00 of thread.
    expect(rows(1)).toEqual([['Cloth', '1/4 yd', '2.00 EUR', '1 in of it for squaring and fraying'], ['Rivet', '1 pack of 10', '5.00 EUR', ''], ['Thread', '1', '3.00 EUR', '1 for 6 articles'], ['Everything', '', '10.00 EUR', '4.50 EUR for each, of supplies only what it uses up']]);
    // Three are 24 in and 1 in to spare, 3/4 yd; 12 rivets are two packs.
    expect(rows(3).map(([item, buy, cost]) => [item, buy, cost])).toEqual([['Cloth', '3/4 yd', '6.00 EUR'], ['Rivet', '2 packs of 10', '10.00 EUR'], ['Thread', '1', '3.00 EUR'], ['Everything, 3 articles', '', '19.00 EUR']]);
    expect(rows(3).at(-1)?.[3]).toBe('4.50 EUR for each, of supplies only what it uses up');
  });
});

describe('a spare that is given', () => {
  const long = (spare: string): readonly number[] => {
    const best = bestOf(planOf(`  role main\n  width 44 usable 42\n  bought in lengths of 1 in\n${spare}`, piece));
    return [best.spare.div(25.4).valueOf(), best.buy.div(25.4).valueOf()];
  };

  it('takes the place of the usual one', () => {
    expect(long('')).toEqual([1, 9]);
    expect(long('  spare 2 1/2')).toEqual([2.5, 11]);
    expect(long('  spare none')).toEqual([0, 8]);
  });

  it('is printed as it is written, with packs and articles served', () => {
    const text = 'material m {\n  width 44\n  spare 2 1/2\n}\n\nmaterial n {\n  width 44\n  spare none\n}\n\nsupply s {\n  count 2\n  bought in packs of 10\n  serves 3\n}\n';
    expect(printFile(parseFile('a.piece', text))).toBe(text);
  });
});
