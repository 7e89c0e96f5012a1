import { buyingList, type BuyingList } from '../buying/list.ts';
import { usualOptions } from '../buying/plan.ts';
import type { LayCache } from '../buying/lay-out.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import { cuttingTable, type CuttingTable } from '../table/table.ts';
import type { Sized } from './templates.ts';

/** A pattern in one size, with all that its booklet says. */
export interface SizedContents {
  readonly size: string | undefined;
  readonly resolved: Resolved;
  readonly table: CuttingTable;
  readonly list: BuyingList;
}

/** Tables and lays of one size after the other. Lays are planned as they are for tables, so that both say the same. */
export function* contentsOf(pattern: Pattern, combinations: readonly Sized[], lays: LayCache): Generator<undefined, readonly SizedContents[]> {
  const contents: SizedContents[] = [];
  for (const { size, resolved } of combinations) {
    const list = buyingList(resolved, 1, usualOptions, lays);
    contents.push({ size, resolved, list, table: cuttingTable(pattern, resolved.combination, list) });
    yield undefined;
  }
  return contents;
}
