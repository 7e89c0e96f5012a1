import type { Pattern } from '../model/pattern.ts';
import { combinationsOf } from '../model/query/explore.ts';
import type { Combination } from '../model/query/query.ts';
import { combinationCount } from '../table/combinations.ts';

/** The choices of two patterns together, each with the options that may be compared. */
export type SharedChoices = ReadonlyMap<string, readonly string[]>;

/** Of a choice that both have, the options that both have; of one that only one of them has, all. */
export function sharedChoices(old: Pattern, fresh: Pattern): SharedChoices {
  const shared = new Map<string, readonly string[]>();
  for (const [choice, options] of fresh.choices) {
    const earlier = old.choices.get(choice);
    shared.set(choice, earlier === undefined ? options : options.filter((option) => earlier.includes(option)));
  }
  for (const [choice, options] of old.choices) if (!shared.has(choice)) shared.set(choice, options);
  return shared;
}

/** How many combinations of the two are set side by side. */
export const comparedCount = (old: Pattern, fresh: Pattern): number => combinationCount(sharedChoices(old, fresh).values());

export const comparedCombinations = (shared: SharedChoices): readonly Combination[] => [...combinationsOf([...shared.keys()], shared, new Map())];
