import { buyingList, type BuyingList } from '../buying/list.ts';
import { usualOptions } from '../buying/plan.ts';
import { KeptLays } from '../buying/lay-out.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import { cuttingTable, type CuttingTable } from './table.ts';

/**
 * The tables of a pattern as they are written to files, with what to buy for so many articles: the same on every way out. One
 * at a time, so that whoever asks may stop between them; what is cut from the same cloth in several is laid out once.
 */
export function* wholeTables(...of: Parameters<typeof tablesWithLists>): Generator<CuttingTable, void> {
  for (const { table } of tablesWithLists(...of)) yield table;
}

/** The same with the buying lists that they tell of. */
export function* tablesWithLists(pattern: Pattern, combinations: readonly Combination[], articles = 1, options = usualOptions): Generator<{ readonly table: CuttingTable; readonly list: BuyingList }, void> {
  // Lays are kept by the content of their questions, which takes longer to hash than a small first lay takes.
  const lays = combinations.length > 1 ? new KeptLays() : undefined;
  for (const combination of combinations) {
    const list = buyingList(pattern.resolve(combination), articles, options, lays);
    yield { table: cuttingTable(pattern, combination, list), list };
  }
}
