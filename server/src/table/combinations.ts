import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import { limits } from '../problems/limits.ts';
import { nearestName } from '../problems/near.ts';

/** The chosen option of each choice, the size among them, as plain data. A choice left out takes its first option. */
export type ChosenOptions = Readonly<Record<string, string>>;

export interface LookedAt {
  readonly combinations: readonly Combination[];
  /** Whether these are all that there are. */
  readonly all: boolean;
}

/** The combinations to show figures for. */
export function combinationsToShow(pattern: Pattern): LookedAt {
  const count = combinationCount(pattern.choices.values());
  return count <= limits.combinationsBeside ? { combinations: pattern.combinations(), all: true } : { combinations: [new Map()], all: false };
}

/** A figure over several combinations in few words: alone where it is always the same, else from the first to the last. */
export function inFewWords(texts: readonly string[], all: boolean): string {
  const distinct = [...new Set(texts)];
  const shown = distinct.length <= 3 ? distinct.join(' or ') : `${distinct[0] ?? ''} … ${distinct.at(-1) ?? ''}`;
  return all ? shown : `${shown} (first options)`;
}

/** What is wrong with options that somebody chose, in words; undefined where there is each of them. */
export function missingOption(pattern: Pattern, chosen: Iterable<readonly [string, string]>): string | undefined {
  for (const [choice, option] of chosen) {
    const options = pattern.choices.get(choice);
    if (options === undefined) return missing('choice', choice, [...pattern.choices.keys()]);
    if (!options.includes(option)) return missing(`option of “${choice}”`, option, options);
  }
  return undefined;
}

function missing(what: string, name: string, names: readonly string[]): string {
  const near = nearestName(name, names);
  const hint = near !== undefined ? ` Did you mean “${near}”?` : names.length > 0 ? ` There are: ${names.join(', ')}.` : ' The pattern has no choices.';
  return `There is no ${what} called “${name}”.${hint}`;
}

/** Why so many combinations are not written at once, in words; undefined where they are. */
export const tooManyCombinations = (count: number): string | undefined =>
  count <= limits.combinations ? undefined : `There are ${count > 1e9 ? 'more than a thousand million' : count} combinations, more than the ${limits.combinations} written at once: choose some of them.`;

/** How many combinations of options there are. */
export const combinationCount = (choices: Iterable<readonly string[]>): number => [...choices].reduce((product, options) => product * options.length, 1);
