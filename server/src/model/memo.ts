import type { Problem } from '../problems/problem.ts';
import type { World } from './world.ts';

/**
 * Results that are kept between revisions of a spec. A query's result is taken again as long as everything it asked for
 * still gives the very same answer; so an edit costs only what depends on it.
 *
 * Sizes and choices are handled the same way: a result remembers which of them it asked for, and serves every
 * combination that agrees on those. What doesn't depend on the size is computed once for all sizes.
 */
export interface Query<Argument, Result> {
  readonly name: string;
  /** An input is read afresh from the world each time; it must give the same object as long as nothing has changed. */
  readonly input: boolean;
  readonly compute: (context: Context, argument: Argument) => Result;
}

/** One option for each choice; sizes are the choice called `size`. */
export type Combination = ReadonlyMap<string, string>;

/** What a computation may ask for. Everything it reads goes through here, or it would not be noticed when it changes. */
export interface Context {
  get: <Argument, Result>(query: Query<Argument, Result>, argument: Argument) => Result;
  /** The option of a choice in the combination at hand. */
  option: (choice: string) => string | undefined;
  report: (problem: Problem) => void;
  /** For input queries only. */
  readonly world: World;
}

/** One result, with the options it depends on and the problems met on the way (not those of what it asked for). */
export interface Variant<Result> {
  readonly options: Combination;
  readonly result: Result;
  readonly problems: readonly Problem[];
}

interface Dependency {
  readonly query: Query<unknown, unknown>;
  readonly argument: unknown;
  readonly result: unknown;
}

interface Kept extends Variant<unknown> {
  readonly dependencies: readonly Dependency[];
  verifiedAt: number;
}

interface Frame {
  readonly options: Map<string, string>;
  readonly dependencies: Dependency[];
  readonly asked: Map<unknown, Query<unknown, unknown>[]>;
  readonly problems: Problem[];
}

export class Memo {
  readonly #kept = new Map<string, WeakMap<object, Kept[]>>();
  #revision = 0;
  #world: World | undefined;
  #combination: Combination = new Map();
  readonly #frames: Frame[] = [];
  readonly #context: Context;

  constructor() {
    const world = (): World => {
      if (this.#world === undefined) throw new Error('A query was asked before there was a world');
      return this.#world;
    };
    this.#context = {
      get world() {
        return world();
      },
      get: (query, argument) => this.#get(query, argument),
      option: (choice) => this.#option(choice),
      report: (problem) => this.#frames.at(-1)?.problems.push(problem),
    };
  }

  /** Takes the next snapshot of the text; what still holds is kept. */
  nextRevision(world: World): void {
    this.#world = world;
    this.#revision++;
  }

  /** The result under one combination, which must give an option to every choice. */
  under<Argument extends object, Result>(combination: Combination, query: Query<Argument, Result>, argument: Argument): Variant<Result> {
    this.#combination = combination;
    return this.#variant(query as Query<unknown, unknown>, argument) as Variant<Result>;
  }

  #get<Argument, Result>(query: Query<Argument, Result>, argument: Argument): Result {
    const untyped = query as Query<unknown, unknown>;
    const result = query.input ? query.compute(this.#context, argument) : this.#fromVariant(untyped, argument as object);
    this.#depend(untyped, argument, result);
    return result as Result;
  }

  #fromVariant(query: Query<unknown, unknown>, argument: object): unknown {
    const variant = this.#variant(query, argument);
    const options = this.#frames.at(-1)?.options;
    if (options !== undefined) for (const [choice, option] of variant.options) options.set(choice, option);
    return variant.result;
  }

  #depend(query: Query<unknown, unknown>, argument: unknown, result: unknown): void {
    const frame = this.#frames.at(-1);
    if (frame === undefined) return;
    const asked = frame.asked.get(argument);
    if (asked === undefined) frame.asked.set(argument, [query]);
    else if (asked.includes(query)) return;
    else asked.push(query);
    frame.dependencies.push({ query, argument, result });
  }

  #option(choice: string): string | undefined {
    const option = this.#combination.get(choice);
    if (option !== undefined) this.#frames.at(-1)?.options.set(choice, option);
    return option;
  }

  #variant(query: Query<unknown, unknown>, argument: object): Kept {
    const variants = this.#variantsOf(query, argument);
    for (let index = 0; index < variants.length; index++) {
      const variant = variants[index];
      if (variant === undefined || !this.#serves(variant)) continue;
      if (this.#stillHolds(variant)) return variant;
      variants.splice(index, 1);
      index--;
    }
    const fresh = this.#compute(query, argument);
    variants.push(fresh);
    return fresh;
  }

  #variantsOf(query: Query<unknown, unknown>, argument: object): Kept[] {
    let byArgument = this.#kept.get(query.name);
    if (byArgument === undefined) this.#kept.set(query.name, (byArgument = new WeakMap()));
    let variants = byArgument.get(argument);
    if (variants === undefined) byArgument.set(argument, (variants = []));
    return variants;
  }

  #serves(variant: Kept): boolean {
    for (const [choice, option] of variant.options) if (this.#combination.get(choice) !== option) return false;
    return true;
  }

  #stillHolds(variant: Kept): boolean {
    if (variant.verifiedAt === this.#revision) return true;
    for (const { query, argument, result } of variant.dependencies) {
      const now = query.input ? query.compute(this.#context, argument) : this.#variant(query, argument as object).result;
      if (!Object.is(now, result)) return false;
    }
    variant.verifiedAt = this.#revision;
    return true;
  }

  #compute(query: Query<unknown, unknown>, argument: object): Kept {
    const frame: Frame = { options: new Map(), dependencies: [], asked: new Map(), problems: [] };
    this.#frames.push(frame);
    try {
      const result = query.compute(this.#context, argument);
      return { options: frame.options, result, problems: frame.problems, dependencies: frame.dependencies, verifiedAt: this.#revision };
    } finally {
      this.#frames.pop();
    }
  }
}

/** All results of a query over the combinations that make a difference to it. */
export function explore<Argument extends object, Result>(
  memo: Memo,
  query: Query<Argument, Result>,
  argument: Argument,
  choices: ReadonlyMap<string, readonly string[]>,
): readonly Variant<Result>[] {
  const first = new Map([...choices].map(([choice, options]) => [choice, options[0] ?? '']));
  const met = new Set<string>();
  for (;;) {
    const before = met.size;
    const variants = new Set<Variant<Result>>();
    for (const combination of combinationsOf([...met], choices, first)) {
      const variant = memo.under(combination, query, argument);
      variants.add(variant);
      for (const choice of variant.options.keys()) met.add(choice);
    }
    if (met.size === before) return [...variants];
  }
}

/** Every combination of the options of some choices; the other choices keep what `base` says. */
export function* combinationsOf(varied: readonly string[], choices: ReadonlyMap<string, readonly string[]>, base: Combination): Generator<Combination> {
  const [choice, ...rest] = varied;
  if (choice === undefined) {
    yield base;
    return;
  }
  for (const option of choices.get(choice) ?? []) yield* combinationsOf(rest, choices, new Map(base).set(choice, option));
}
