import type { Combination } from '../model/query/query.ts';
import { whenText, type OptionWords } from '../model/query/variants.ts';
import type { SharedChoices } from './combinations.ts';
import { groups, type Change, type Raw } from './change.ts';

/** Says once what is the same in several combinations, and in which of them it is so; in the order met. */
export function foldedData<T extends object>(found: readonly { readonly combination: Combination; readonly all: readonly T[] }[], choices: SharedChoices, words: OptionWords): readonly (T & Pick<Change, 'when'>)[] {
  const alike = new Map<string, { readonly one: T; readonly combinations: Set<Combination> }>();
  for (const { combination, all } of found) {
    for (const one of all) {
      const key = JSON.stringify(one);
      const group = alike.get(key);
      if (group === undefined) alike.set(key, { one, combinations: new Set([combination]) });
      else group.combinations.add(combination);
    }
  }
  return [...alike.values()].map(({ one, combinations }) => ({
    ...one,
    when: combinations.size === found.length ? undefined : whenText([...combinations], choices, words),
  }));
}

/** The same of changes, by group. */
export function folded(found: readonly { readonly combination: Combination; readonly changes: readonly Raw[] }[], choices: SharedChoices, words: OptionWords): readonly Change[] {
  const all = foldedData(found.map(({ combination, changes }) => ({ combination, all: changes })), choices, words);
  return groups.flatMap((group) => bySubject(all.filter((change) => change.group === group)));
}

/** What is told of one thing stands together, in whichever combinations it is so. */
function bySubject(changes: readonly Change[]): readonly Change[] {
  const subjects = [...new Set(changes.map(({ subject }) => subject))];
  return subjects.flatMap((subject) => changes.filter((change) => change.subject === subject));
}
