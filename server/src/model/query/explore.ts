import type { QueryCache } from './cache.ts';
import type { Combination, Query, Variant } from './query.ts';

/** What a query gives over the combinations that make a difference, and how many of those there are: at least, where not all were looked at. */
export interface Exploration<Result> {
  readonly variants: readonly Variant<Result>[];
  readonly ways: number;
}

/**
 * The results of a query over the combinations that make a difference to it. Throws what the query throws.
 *
 * @param most choices multiply: no more combinations than this are looked at
 */
export function explore<Argument extends object, Result>(
  cache: QueryCache,
  query: Query<Argument, Result>,
  argument: Argument,
  choices: ReadonlyMap<string, readonly string[]>,
  most: number,
): Exploration<Result> {
  const first = new Map([...choices].map(([choice, options]) => [choice, options[0] ?? '']));
  const met = new Set<string>();
  for (;;) {
    const before = met.size;
    const variants = new Set<Variant<Result>>();
    const ways = (): number => [...met].reduce((product, choice) => product * (choices.get(choice)?.length ?? 1), 1);
    let looked = 0;
    for (const combination of passing([...met], choices, new Map(first))) {
      if (looked++ === most) return { variants: [...variants], ways: ways() };
      const variant = cache.under(combination, query, argument);
      variants.add(variant);
      for (const choice of variant.options.keys()) met.add(choice);
    }
    if (met.size === before) return { variants: [...variants], ways: ways() };
  }
}

/** Every combination of the options of some choices; the other choices keep what `base` says. */
export function* combinationsOf(varied: readonly string[], choices: ReadonlyMap<string, readonly string[]>, base: Combination): Generator<Combination> {
  for (const combination of passing(varied, choices, new Map(base))) yield new Map(combination);
}

/** The same, each in one map that changes as soon as the next is asked for: copies for thousands of combinations take longer than what is worked out in them. */
function* passing(varied: readonly string[], choices: ReadonlyMap<string, readonly string[]>, combination: Map<string, string>): Generator<Combination> {
  const [choice, ...rest] = varied;
  if (choice === undefined) {
    yield combination;
    return;
  }
  for (const option of choices.get(choice) ?? []) yield* passing(rest, choices, combination.set(choice, option));
}
