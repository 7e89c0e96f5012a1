import type { Problem } from '../../problems/problem.ts';
import type { Combination, Variant } from './query.ts';

/** A problem, with the combinations of sizes and choices in which it arises. */
export interface FoundProblem extends Problem {
  /** `tab is cork, size is L`; several ways parted by `or`; undefined where it arises always. */
  readonly when: string | undefined;
  /** The options with which it arises, one way each; left out where it arises always. */
  readonly ways?: readonly Combination[];
}

/** Says once what several variants report alike, and in which of them it holds. */
export function mergeVariants(variants: readonly Variant<unknown>[], choices: ReadonlyMap<string, readonly string[]>): readonly FoundProblem[] {
  const groups = new Map<string, { problem: Problem; variants: Set<Variant<unknown>> }>();
  for (const variant of variants) {
    for (const problem of variant.problems) {
      const key = `${problem.code} ${problem.place.start} ${problem.place.end} ${problem.message}`;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, { problem, variants: new Set([variant]) });
      else group.variants.add(variant);
    }
  }
  return [...groups.values()].map(({ problem, variants: met }) => ({
    ...problem,
    ...(met.size === variants.length ? { when: undefined } : someWays([...met].map((variant) => variant.options), choices)),
  }));
}

const someWays = (ways: readonly Combination[], choices: ReadonlyMap<string, readonly string[]>): Pick<FoundProblem, 'when' | 'ways'> => ({ when: whenText(ways, choices), ways });

/** Whether a problem arises in a whole combination. */
export const arisesIn = ({ ways }: FoundProblem, combination: Combination): boolean =>
  ways?.some((way) => [...way].every(([choice, option]) => combination.get(choice) === option)) ?? true;

/** How an option of a choice is told. */
export type OptionWords = (choice: string, option: string) => string;

/** As a spec says it. */
const byName: OptionWords = (choice, option) => `${choice} is ${option}`;

/** The fewest words for some combinations: a choice of which every option is among them, all else equal, is left out. */
export function whenText(combinations: readonly Combination[], choices: ReadonlyMap<string, readonly string[]>, words = byName): string {
  let kept: readonly Combination[] = combinations;
  for (const choice of new Set(combinations.flatMap((one) => [...one.keys()]))) {
    const without = new Map<string, { rest: Combination; options: Set<string> }>();
    for (const combination of kept) {
      const rest = new Map(combination);
      rest.delete(choice);
      const key = textOf(rest);
      const group = without.get(key) ?? { rest, options: new Set<string>() };
      const option = combination.get(choice);
      for (const one of option === undefined ? (choices.get(choice) ?? []) : [option]) group.options.add(one);
      without.set(key, group);
    }
    if ([...without.values()].every((group) => group.options.size === choices.get(choice)?.length)) kept = [...without.values()].map((group) => group.rest);
  }
  const texts = [...new Set(kept.map((one) => textOf(one, words)))];
  return texts.length > 4 ? `${texts.slice(0, 4).join(' or ')} or ${texts.length - 4} more` : texts.join(' or ');
}

function textOf(combination: Combination, words = byName): string {
  return [...combination].map(([choice, option]) => words(choice, option)).sort().join(', ');
}
