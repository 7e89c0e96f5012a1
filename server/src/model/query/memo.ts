import type { Problem } from '../../problems/problem.ts';
import type { World } from '../names/world.ts';

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
  /** The only part of the world that an input query reads, if it is one: as long as that is the same, so are its answers. */
  readonly reads?: keyof World;
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

/** One answer of the text itself, with those that asked for it. */
interface InputNode {
  readonly query: Query<unknown, unknown>;
  readonly argument: unknown;
  /** Made for the first: what a result is made for is often asked for by nothing else. */
  dependents: Set<Kept> | undefined;
  value: unknown;
  /** The computation that asked for it last. */
  askedBy: Frame | undefined;
}

interface Dependency {
  /** What was asked; after an edit, another variant may stand in for the one that was asked first. */
  on: InputNode | Kept;
  /** What it answered then. */
  readonly result: unknown;
}

interface Kept extends Variant<unknown> {
  readonly query: Query<unknown, unknown>;
  readonly argument: object;
  readonly dependencies: readonly Dependency[];
  dependents: Set<Kept> | undefined;
  askedBy: Frame | undefined;
  /** Something that it rests on has changed, so it must be looked at again before it is used. */
  suspect: boolean;
}

/** A computation that is under way. Most ask for no option and report nothing. */
interface Frame {
  options: Map<string, string> | undefined;
  readonly dependencies: Dependency[];
  problems: Problem[] | undefined;
}

const noOptions: Combination = new Map();
const noProblems: readonly Problem[] = [];

const dependsOn = (kept: Kept, on: InputNode | Kept): void => void (on.dependents ??= new Set<Kept>()).add(kept);

/**
 * An edit costs what hangs on it and no more: each answer knows who asked for it, so a changed answer of the text marks
 * everything that rests on it as suspect, and what is not suspect is served unseen.
 */
export class Memo {
  readonly #kept = new Map<object, Map<Query<unknown, unknown>, Kept[]>>();
  readonly #inputs = new Map<Query<unknown, unknown>, Map<unknown, InputNode>>();
  readonly #touched = new Set<object>();
  #world: World | undefined;
  #combination: Combination = new Map();
  /** The innermost. */
  #frame: Frame | undefined;
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
      report: (problem) => {
        const frame = this.#frame;
        if (frame !== undefined) (frame.problems ??= []).push(problem);
      },
    };
  }

  /**
   * Takes the next snapshot of the text; what still holds is kept.
   *
   * @param vanished the declarations that are no longer there: what was found for them is forgotten
   */
  nextRevision(world: World, vanished: Iterable<object>): void {
    const before = this.#world;
    this.#world = world;
    for (const argument of vanished) this.forget(argument);
    for (const [query, byArgument] of this.#inputs) {
      if (before !== undefined && query.reads !== undefined && before[query.reads] === world[query.reads]) continue;
      for (const [argument, node] of byArgument) {
        if (node.dependents === undefined || node.dependents.size === 0) {
          byArgument.delete(argument);
          continue;
        }
        const now = node.query.compute(this.#context, argument);
        if (Object.is(now, node.value)) continue;
        node.value = now;
        this.#suspectAll(node.dependents);
      }
    }
  }

  /** Whether something found for this argument has come into doubt since it was last {@link settled}. */
  isTouched(argument: object): boolean {
    return this.#touched.has(argument);
  }

  settled(argument: object): void {
    this.#touched.delete(argument);
  }

  /** The result under one combination, which must give an option to every choice. */
  under<Argument extends object, Result>(combination: Combination, query: Query<Argument, Result>, argument: Argument): Variant<Result> {
    this.#combination = combination;
    return this.#variant(query as Query<unknown, unknown>, argument) as Variant<Result>;
  }

  /** Drops everything found for an argument that won't be asked for again. */
  forget(argument: object): void {
    for (const variants of this.#kept.get(argument)?.values() ?? []) for (const variant of variants) this.#drop(variant);
    this.#kept.delete(argument);
    this.#touched.delete(argument);
  }

  #suspectAll(roots: Iterable<Kept>): void {
    const work = [...roots];
    for (let kept = work.pop(); kept !== undefined; kept = work.pop()) {
      if (kept.suspect) continue;
      kept.suspect = true;
      this.#touched.add(kept.argument);
      if (kept.dependents !== undefined) work.push(...kept.dependents);
    }
  }

  #drop(kept: Kept): void {
    for (const { on } of kept.dependencies) on.dependents?.delete(kept);
    if (kept.dependents !== undefined) this.#suspectAll(kept.dependents);
  }

  #get<Argument, Result>(query: Query<Argument, Result>, argument: Argument): Result {
    const untyped = query as Query<unknown, unknown>;
    const asked = query.input ? this.#input(untyped, argument) : this.#variant(untyped, argument as object);
    const result = 'value' in asked ? asked.value : asked.result;
    const frame = this.#frame;
    // Asked for again, it is noted only where another computation has asked for it between.
    if (frame === undefined || asked.askedBy === frame) return result as Result;
    asked.askedBy = frame;
    if ('options' in asked && asked.options.size > 0) for (const [choice, option] of asked.options) (frame.options ??= new Map<string, string>()).set(choice, option);
    frame.dependencies.push({ on: asked, result });
    return result as Result;
  }

  #input(query: Query<unknown, unknown>, argument: unknown): InputNode {
    let byArgument = this.#inputs.get(query);
    if (byArgument === undefined) this.#inputs.set(query, (byArgument = new Map<unknown, InputNode>()));
    let node = byArgument.get(argument);
    if (node === undefined) byArgument.set(argument, (node = { query, argument, dependents: undefined, value: query.compute(this.#context, argument), askedBy: undefined }));
    return node;
  }

  #option(choice: string): string | undefined {
    const option = this.#combination.get(choice);
    const frame = this.#frame;
    if (option !== undefined && frame !== undefined) (frame.options ??= new Map<string, string>()).set(choice, option);
    return option;
  }

  #variant(query: Query<unknown, unknown>, argument: object): Kept {
    const variants = this.#variantsOf(query, argument);
    for (let index = 0; index < variants.length; index++) {
      const variant = variants[index];
      if (variant === undefined || !this.#serves(variant)) continue;
      if (this.#stillHolds(variant)) return variant;
      variants.splice(index, 1);
      this.#drop(variant);
      index--;
    }
    const fresh = this.#compute(query, argument);
    variants.push(fresh);
    return fresh;
  }

  #variantsOf(query: Query<unknown, unknown>, argument: object): Kept[] {
    let byQuery = this.#kept.get(argument);
    if (byQuery === undefined) this.#kept.set(argument, (byQuery = new Map<Query<unknown, unknown>, Kept[]>()));
    let variants = byQuery.get(query);
    if (variants === undefined) byQuery.set(query, (variants = []));
    return variants;
  }

  #serves(variant: Kept): boolean {
    for (const [choice, option] of variant.options) if (this.#combination.get(choice) !== option) return false;
    return true;
  }

  #stillHolds(variant: Kept): boolean {
    if (!variant.suspect) return true;
    for (const dependency of variant.dependencies) {
      const before = dependency.on;
      const now = 'value' in before ? this.#input(before.query, before.argument) : this.#variant(before.query, before.argument);
      if (!Object.is('value' in now ? now.value : now.result, dependency.result)) return false;
      if (now === before) continue;
      // What hangs on more choices than this result is known to does not hold for all that it serves.
      if ('options' in now && ![...now.options.keys()].every((choice) => variant.options.has(choice))) return false;
      before.dependents?.delete(variant);
      dependsOn(variant, now);
      dependency.on = now;
    }
    variant.suspect = false;
    return true;
  }

  #compute(query: Query<unknown, unknown>, argument: object): Kept {
    const outer = this.#frame;
    const frame: Frame = { options: undefined, dependencies: [], problems: undefined };
    this.#frame = frame;
    try {
      const result = query.compute(this.#context, argument);
      const { options = noOptions, problems = noProblems, dependencies } = frame;
      const kept: Kept = { query, argument, options, result, problems, dependencies, dependents: undefined, askedBy: undefined, suspect: false };
      for (const { on } of dependencies) dependsOn(kept, on);
      return kept;
    } finally {
      this.#frame = outer;
    }
  }
}

/** What was found over the combinations that make a difference, and how many of those there are. */
export interface Exploration<Result> {
  readonly variants: readonly Variant<Result>[];
  readonly ways: number;
}

/** Choices multiply: beyond this many combinations of one declaration's choices, the rest is not looked at, and that is said. */
export const mostWays = 1000;

/** All results of a query over the combinations that make a difference to it. */
export function explore<Argument extends object, Result>(
  memo: Memo,
  query: Query<Argument, Result>,
  argument: Argument,
  choices: ReadonlyMap<string, readonly string[]>,
): Exploration<Result> {
  const first = new Map([...choices].map(([choice, options]) => [choice, options[0] ?? '']));
  const met = new Set<string>();
  for (;;) {
    const before = met.size;
    const variants = new Set<Variant<Result>>();
    const ways = [...met].reduce((product, choice) => product * (choices.get(choice)?.length ?? 1), 1);
    let looked = 0;
    for (const combination of combinationsOf([...met], choices, first)) {
      if (looked++ === mostWays) return { variants: [...variants], ways };
      const variant = memo.under(combination, query, argument);
      variants.add(variant);
      for (const choice of variant.options.keys()) met.add(choice);
    }
    if (met.size === before) return { variants: [...variants], ways };
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
