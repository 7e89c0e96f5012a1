import type { Problem } from '../../problems/problem.ts';
import type { Resolve } from '../formulas/evaluate.ts';
import type { World } from '../names/world.ts';

/** Something to be worked out for an argument, from the text and from the results of other queries. */
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
  /** What a reference in a formula stands for. Handed in, since references reach into pieces, which are made of formulas. */
  readonly resolve: Resolve;
  /** For input queries only. */
  readonly world: World;
}

/** One result, with the options it depends on and the problems met on the way (not those of what it asked for). */
export interface Variant<Result> {
  readonly options: Combination;
  readonly result: Result;
  readonly problems: readonly Problem[];
}
