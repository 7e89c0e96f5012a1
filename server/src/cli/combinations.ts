import { nearestName } from '../problems/near.ts';
import { combinationsOf } from '../model/query/explore.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import { UsageError } from './files.ts';

/**
 * The combinations asked for: all of them, or the one that `tab=cork` and the like choose; what is left open takes its
 * first option.
 */
export function chosenCombinations(pattern: Pattern, chosen: readonly string[], all: boolean): readonly Combination[] {
  const wanted = new Map<string, string>();
  for (const text of chosen) {
    const [choice, option] = parseChoice(pattern, text);
    const earlier = wanted.get(choice);
    if (earlier !== undefined && earlier !== option) throw new UsageError(`“${choice}” can’t be both ${earlier} and ${option}: choose one, or write all with --all.`);
    wanted.set(choice, option);
  }
  if (!all) return [new Map([...pattern.choices].map(([choice, options]) => [choice, wanted.get(choice) ?? options[0] ?? '']))];
  const choices = new Map([...pattern.choices].map(([choice, options]) => [choice, wanted.has(choice) ? [wanted.get(choice) ?? ''] : options]));
  const count = [...choices.values()].reduce((product, options) => product * options.length, 1);
  if (count > mostCombinations) throw new UsageError(`There are ${count} combinations, more than the ${mostCombinations} written at once: choose some with --choose.`);
  return [...combinationsOf([...choices.keys()], choices, new Map())];
}

/** Choices multiply: a dozen of them would fill any disk with tables that nobody reads. */
const mostCombinations = 5000;

function parseChoice(pattern: Pattern, text: string): readonly [string, string] {
  const [choice = '', option = '', ...more] = text.split('=');
  if (option === '' || more.length > 0) throw new UsageError(`“${text}” isn’t a choice: write it as in tab=cork.`);
  const options = pattern.choices.get(choice);
  if (options === undefined) throw new UsageError(unknown('choice', choice, [...pattern.choices.keys()]));
  if (!options.includes(option)) throw new UsageError(unknown(`option of “${choice}”`, option, options));
  return [choice, option];
}

function unknown(what: string, name: string, known: readonly string[]): string {
  const near = nearestName(name, known);
  const hint = near !== undefined ? ` Did you mean “${near}”?` : known.length > 0 ? ` There are: ${known.join(', ')}.` : ' The pattern has no choices.';
  return `There is no ${what} called “${name}”.${hint}`;
}
