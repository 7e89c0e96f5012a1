import { combinationsOf } from '../model/query/explore.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import { combinationCount, missingOption, tooManyCombinations } from '../table/combinations.ts';
import { UsageError } from './files.ts';

/**
 * The combinations asked for: all of them, or the one that `tab=cork` and the like choose; what is left open takes its
 * first option.
 *
 * @throws UsageError where there is no such option, where two are chosen of one choice, or where there are too many
 */
export function chosenCombinations(pattern: Pattern, typed: readonly string[], all: boolean): readonly Combination[] {
  const chosen = new Map<string, string>();
  for (const text of typed) {
    const [choice = '', option = '', ...more] = text.split('=');
    if (option === '' || more.length > 0) throw new UsageError(`“${text}” isn’t a choice: write it as in tab=cork.`);
    const missing = missingOption(pattern, [[choice, option]]);
    if (missing !== undefined) throw new UsageError(missing);
    const earlier = chosen.get(choice);
    if (earlier !== undefined && earlier !== option) throw new UsageError(`“${choice}” can’t be both ${earlier} and ${option}: choose one, or write all with --all.`);
    chosen.set(choice, option);
  }
  if (!all) return [new Map([...pattern.choices].map(([choice, options]) => [choice, chosen.get(choice) ?? options[0] ?? '']))];
  const choices = new Map([...pattern.choices].map(([choice, options]) => [choice, chosen.has(choice) ? [chosen.get(choice) ?? ''] : options]));
  const tooMany = tooManyCombinations(combinationCount(choices.values()));
  if (tooMany !== undefined) throw new UsageError(`${tooMany.slice(0, -1)} with --choose.`);
  return [...combinationsOf([...choices.keys()], choices, new Map())];
}
