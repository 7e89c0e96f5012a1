import type { Combination } from '../model/query/query.ts';
import { whenText, type OptionWords } from '../model/query/variants.ts';
import type { SharedChoices } from './combinations.ts';
import { groups, type Cause, type Change, type Raw } from './change.ts';

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

/** The same of changes, by group. One that comes from other lines in one combination than in another is still one thing to do. */
export function folded(found: readonly { readonly combination: Combination; readonly changes: readonly Raw[] }[], choices: SharedChoices, words: OptionWords): readonly Change[] {
  const causes = causesByWords(found.flatMap(({ changes }) => changes));
  const all = foldedData(found.map(({ combination, changes }) => ({ combination, all: changes.map(wordsOf) })), choices, words)
    .map((change) => ({ ...change, causes: causes.get(JSON.stringify(wordsOf(change))) ?? [] }));
  return groups.flatMap((group) => bySubject(all.filter((change) => change.group === group)));
}

/** What a change says, wherever it comes from and whenever it is so. */
const wordsOf = ({ when: _, ...change }: Raw & Partial<Pick<Change, 'when'>>): Raw => ({ ...change, causes: [] });

/** The lines that changes of the same words come from, each once, in the order met. */
function causesByWords(changes: readonly Raw[]): ReadonlyMap<string, readonly Cause[]> {
  const found = new Map<string, Map<string, Cause>>();
  for (const change of changes) {
    const key = JSON.stringify(wordsOf(change));
    const causes = found.get(key) ?? new Map<string, Cause>();
    for (const cause of change.causes) causes.set(JSON.stringify(cause), cause);
    found.set(key, causes);
  }
  return new Map([...found].map(([key, causes]) => [key, [...causes.values()]]));
}

/** What is told of one thing stands together, in whichever combinations it is so. */
function bySubject(changes: readonly Change[]): readonly Change[] {
  const subjects = [...new Set(changes.map(({ subject }) => subject))];
  return subjects.flatMap((subject) => changes.filter((change) => change.subject === subject));
}
