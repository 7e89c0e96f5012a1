import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';

/** The chosen option of each choice, the size among them, as plain data. A choice left out takes its first option. */
export type ChosenOptions = Readonly<Record<string, string>>;

/** Beyond this many combinations only the first options are looked at: what is shown beside the text must come at once. */
const most = 48;

export interface LookedAt {
  readonly combinations: readonly Combination[];
  /** Whether these are all that there are. */
  readonly all: boolean;
}

/** The combinations to show figures for. */
export function combinationsToShow(pattern: Pattern): LookedAt {
  let count = 1;
  for (const options of pattern.choices.values()) count *= Math.max(1, options.length);
  return count <= most ? { combinations: pattern.combinations(), all: true } : { combinations: [new Map()], all: false };
}

/** A figure over several combinations in few words: alone where it is always the same, else from the first to the last. */
export function inFewWords(texts: readonly string[], all: boolean): string {
  const distinct = [...new Set(texts)];
  const shown = distinct.length <= 3 ? distinct.join(' or ') : `${distinct[0] ?? ''} … ${distinct.at(-1) ?? ''}`;
  return all ? shown : `${shown} (first options)`;
}
