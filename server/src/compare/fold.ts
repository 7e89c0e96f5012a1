import type { Combination } from '../model/query/query.ts';
import { whenText } from '../model/query/variants.ts';
import type { SharedChoices } from './combinations.ts';
import { groups, type Change, type Raw } from './change.ts';

/** Says once what is the same in several combinations, and in which of them it is so; by group, in the order met. */
export function folded(found: readonly { readonly combination: Combination; readonly changes: readonly Raw[] }[], choices: SharedChoices): readonly Change[] {
  const alike = new Map<string, { readonly change: Raw; readonly combinations: Set<Combination> }>();
  for (const { combination, changes } of found) {
    for (const change of changes) {
      const key = JSON.stringify(change);
      const group = alike.get(key);
      if (group === undefined) alike.set(key, { change, combinations: new Set([combination]) });
      else group.combinations.add(combination);
    }
  }
  const all = [...alike.values()].map(({ change, combinations }) => ({
    ...change,
    when: combinations.size === found.length ? undefined : whenText([...combinations], choices),
  }));
  return groups.flatMap((group) => all.filter((change) => change.group === group));
}
