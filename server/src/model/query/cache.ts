import type { Problem } from '../../problems/problem.ts';
import type { Resolve } from '../formulas/evaluate.ts';
import type { World } from '../names/world.ts';
import type { Combination, Context, Query, Variant } from './query.ts';
import { VariantTable } from './variant-table.ts';

/** One answer of the text itself, with those that asked for it. */
interface InputNode {
  readonly query: Query<unknown, unknown>;
  readonly argument: unknown;
  /** Made for the first: what a result is made for is often asked for by nothing else. */
  dependents: Set<CachedResult> | undefined;
  value: unknown;
  /** The number of the computation that asked for it last. */
  askedBy: number;
}

interface Dependency {
  /** What was asked; after an edit, another variant may stand in for the one that was asked first. */
  on: InputNode | CachedResult;
  /** What it answered then. */
  readonly result: unknown;
}

interface CachedResult extends Variant<unknown> {
  readonly query: Query<unknown, unknown>;
  readonly argument: object;
  readonly dependencies: readonly Dependency[];
  dependents: Set<CachedResult> | undefined;
  askedBy: number;
  /** Something that it rests on has changed, so it must be looked at again before it is used. */
  suspect: boolean;
}

/** A computation that is under way. Most ask for no option and report nothing. */
interface Frame {
  readonly number: number;
  options: Map<string, string> | undefined;
  readonly dependencies: Dependency[];
  problems: Problem[] | undefined;
}

const noOptions: Combination = new Map();
const noProblems: readonly Problem[] = [];

const dependsOn = (result: CachedResult, on: InputNode | CachedResult): void => void (on.dependents ??= new Set<CachedResult>()).add(result);

/**
 * Results that outlive a revision of a spec. A query's result is taken again as long as everything it asked for still
 * gives the very same answer; so an edit costs only what depends on it. Each answer knows who asked for it: a changed
 * answer of the text marks everything that rests on it as suspect, and what is not suspect is served unseen.
 *
 * Sizes and choices are handled the same way: a result remembers which of them it asked for, and serves every
 * combination that agrees on those. What doesn't depend on the size is computed once for all sizes.
 *
 * Nothing stays that a fresh start would not have: results go with their declaration, and when they are still suspect once
 * it has been looked at ({@link settle}), such as those for an option that is no longer there.
 */
export class QueryCache {
  readonly #results = new Map<object, Map<Query<unknown, unknown>, VariantTable<CachedResult>>>();
  readonly #inputs = new Map<Query<unknown, unknown>, Map<unknown, InputNode>>();
  /** Inputs that had nobody who asked for them when last seen. */
  readonly #idle = new Set<InputNode>();
  readonly #touched = new Set<object>();
  readonly #resolve: Resolve;
  #world: World | undefined;
  #combination: Combination = new Map();
  /** The innermost. */
  #frame: Frame | undefined;
  #frames = 0;
  readonly #context: Context;

  /** @param resolve finds what a reference in a formula stands for */
  constructor(resolve: Resolve) {
    this.#resolve = resolve;
    this.#context = this.#contextIn(() => {
      if (this.#world === undefined) throw new Error('A query was asked before there was a world');
      return this.#world;
    });
  }

  /**
   * Takes the next snapshot of the text; what still holds stays. Where it throws, everything is as it was.
   *
   * @param vanished the declarations that are no longer there: what was computed for them is dropped
   */
  nextRevision(world: World, vanished: Iterable<object>): void {
    const before = this.#world;
    const changed: { readonly node: InputNode; readonly now: unknown }[] = [];
    const context = this.#contextIn(() => world);
    for (const [query, byArgument] of this.#inputs) {
      if (before !== undefined && query.reads !== undefined && before[query.reads] === world[query.reads]) continue;
      for (const [argument, node] of byArgument) {
        const now = query.compute(context, argument);
        if (!Object.is(now, node.value)) changed.push({ node, now });
      }
    }
    this.#world = world;
    for (const { node, now } of changed) {
      node.value = now;
      if (node.dependents !== undefined) this.#suspectAll(node.dependents);
    }
    for (const argument of vanished) this.forget(argument);
    if (before?.choices !== world.choices) this.#dropVanishedOptions(world.choices);
    this.#pruneInputs();
  }

  /** Whether something computed for this argument has come into doubt since it was last {@link settle}d. */
  isTouched(argument: object): boolean {
    return this.#touched.has(argument);
  }

  /** Says that all that is needed of an argument has been asked for: what is still in doubt is needed no more. */
  settle(argument: object): void {
    if (!this.#touched.delete(argument)) return;
    for (const table of this.#results.get(argument)?.values() ?? []) {
      for (const result of [...table.all()]) if (result.suspect) this.#drop(result, table);
    }
    this.#touched.delete(argument);
  }

  /** The result under one combination, which must give an option to every choice. Throws what the query throws. */
  under<Argument extends object | 'all', Result>(combination: Combination, query: Query<Argument, Result>, argument: Argument): Variant<Result> {
    this.#combination = combination;
    return this.#variant(query as Query<unknown, unknown>, argument as object) as Variant<Result>;
  }

  /** Drops everything computed for an argument that won't be asked for again. */
  forget(argument: object): void {
    for (const table of this.#results.get(argument)?.values() ?? []) for (const result of [...table.all()]) this.#drop(result, table);
    this.#results.delete(argument);
    this.#touched.delete(argument);
  }

  /** How many results and answers of the text it holds. */
  get size(): number {
    let size = 0;
    for (const tables of this.#results.values()) for (const table of tables.values()) size += [...table.all()].length;
    for (const byArgument of this.#inputs.values()) size += byArgument.size;
    return size;
  }

  #contextIn(world: () => World): Context {
    return {
      get world() {
        return world();
      },
      resolve: this.#resolve,
      get: (query, argument) => this.#get(query, argument),
      option: (choice) => this.#option(choice),
      report: (problem) => {
        const frame = this.#frame;
        if (frame !== undefined) (frame.problems ??= []).push(problem);
      },
    };
  }

  /** A result may rest on an option without asking what else the choice offers, so nothing else says that it is gone. */
  #dropVanishedOptions(choices: World['choices']): void {
    const isThere = (combination: Combination): boolean => [...combination].every(([choice, option]) => choices.get(choice)?.options.includes(option) === true);
    for (const tables of this.#results.values()) {
      for (const table of tables.values()) for (const result of [...table.all()]) if (!isThere(result.options)) this.#drop(result, table);
    }
  }

  #pruneInputs(): void {
    for (const node of this.#idle) {
      if (node.dependents !== undefined && node.dependents.size > 0) continue;
      const byArgument = this.#inputs.get(node.query);
      if (byArgument?.get(node.argument) === node) byArgument.delete(node.argument);
    }
    this.#idle.clear();
  }

  // Loops and no spreads: one value may have more dependents than a call takes arguments.
  #suspectAll(roots: Iterable<CachedResult>): void {
    const work: CachedResult[] = [];
    for (const root of roots) work.push(root);
    for (let result = work.pop(); result !== undefined; result = work.pop()) {
      if (result.suspect) continue;
      result.suspect = true;
      this.#touched.add(result.argument);
      for (const dependent of result.dependents ?? []) work.push(dependent);
    }
  }

  #drop(result: CachedResult, table: VariantTable<CachedResult>): void {
    table.remove(result);
    for (const { on } of result.dependencies) this.#leave(result, on);
    if (result.dependents !== undefined) this.#suspectAll(result.dependents);
  }

  #leave(result: CachedResult, on: InputNode | CachedResult): void {
    if (on.dependents?.delete(result) === true && on.dependents.size === 0 && 'value' in on) this.#idle.add(on);
  }

  #get<Argument, Result>(query: Query<Argument, Result>, argument: Argument): Result {
    const untyped = query as Query<unknown, unknown>;
    const asked = query.input ? this.#input(untyped, argument) : this.#variant(untyped, argument as object);
    const result = 'value' in asked ? asked.value : asked.result;
    const frame = this.#frame;
    // Asked for again, it is noted only where another computation has asked for it between.
    if (frame === undefined || asked.askedBy === frame.number) return result as Result;
    asked.askedBy = frame.number;
    if ('options' in asked && asked.options.size > 0) for (const [choice, option] of asked.options) (frame.options ??= new Map<string, string>()).set(choice, option);
    frame.dependencies.push({ on: asked, result });
    return result as Result;
  }

  #input(query: Query<unknown, unknown>, argument: unknown): InputNode {
    let byArgument = this.#inputs.get(query);
    if (byArgument === undefined) this.#inputs.set(query, (byArgument = new Map<unknown, InputNode>()));
    let node = byArgument.get(argument);
    if (node === undefined) {
      node = { query, argument, dependents: undefined, value: query.compute(this.#context, argument), askedBy: 0 };
      byArgument.set(argument, node);
      this.#idle.add(node);
    }
    return node;
  }

  #option(choice: string): string | undefined {
    const option = this.#combination.get(choice);
    const frame = this.#frame;
    if (option !== undefined && frame !== undefined) (frame.options ??= new Map<string, string>()).set(choice, option);
    return option;
  }

  #variant(query: Query<unknown, unknown>, argument: object): CachedResult {
    const table = this.#tableOf(query, argument);
    for (let result = table.serving(this.#combination); result !== undefined; result = table.serving(this.#combination)) {
      if (this.#stillHolds(result)) return result;
      this.#drop(result, table);
    }
    const fresh = this.#compute(query, argument);
    const before = table.add(fresh);
    if (before !== undefined) this.#drop(before, table);
    return fresh;
  }

  #tableOf(query: Query<unknown, unknown>, argument: object): VariantTable<CachedResult> {
    let byQuery = this.#results.get(argument);
    if (byQuery === undefined) this.#results.set(argument, (byQuery = new Map<Query<unknown, unknown>, VariantTable<CachedResult>>()));
    let table = byQuery.get(query);
    if (table === undefined) byQuery.set(query, (table = new VariantTable()));
    return table;
  }

  #stillHolds(result: CachedResult): boolean {
    if (!result.suspect) return true;
    for (const dependency of result.dependencies) {
      const before = dependency.on;
      const now = 'value' in before ? this.#input(before.query, before.argument) : this.#variant(before.query, before.argument);
      if (!Object.is('value' in now ? now.value : now.result, dependency.result)) return false;
      if (now === before) continue;
      // What hangs on more choices than this result is known to does not hold for all that it serves.
      if ('options' in now && ![...now.options.keys()].every((choice) => result.options.has(choice))) return false;
      this.#leave(result, before);
      dependsOn(result, now);
      dependency.on = now;
    }
    result.suspect = false;
    return true;
  }

  #compute(query: Query<unknown, unknown>, argument: object): CachedResult {
    const outer = this.#frame;
    const frame: Frame = { number: ++this.#frames, options: undefined, dependencies: [], problems: undefined };
    this.#frame = frame;
    try {
      const result = query.compute(this.#context, argument);
      const { options = noOptions, problems = noProblems, dependencies } = frame;
      const cached: CachedResult = { query, argument, options, result, problems, dependencies, dependents: undefined, askedBy: 0, suspect: false };
      for (const { on } of dependencies) dependsOn(cached, on);
      return cached;
    } finally {
      this.#frame = outer;
    }
  }
}
