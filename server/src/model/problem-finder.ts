import { limits } from '../problems/limits.ts';
import { problem } from '../problems/problem.ts';
import type { Declaration } from '../syntax/tree.ts';
import { neededNames } from './names/needs.ts';
import type { World } from './names/world.ts';
import { explore, type Exploration } from './query/explore.ts';
import type { QueryCache } from './query/cache.ts';
import type { Query } from './query/query.ts';
import { mergeVariants, type FoundProblem } from './query/variants.ts';

/** What is asked of a declaration to find its problems; nothing of one that doesn't count. */
export type QueriesFor = (world: World, declaration: Declaration) => readonly Query<Declaration, unknown>[];

type Choices = ReadonlyMap<string, readonly string[]>;

/** All are looked at in a few combinations first, then those that have more. */
interface Round {
  readonly most: number;
  readonly isFirst: boolean;
}

/** What came of looking at one declaration. */
interface Finding {
  readonly queries: number;
  readonly problems: readonly FoundProblem[];
  /** In how many combinations it may be different, and the most that it was looked at in. */
  readonly ways: number;
  readonly most: number;
  /** Whether something in it threw, or in what it needs. */
  readonly isFaulty: boolean;
}

/**
 * Finds the problems of all declarations, each in every combination that makes a difference to it, and each looked at
 * again only when something it rests on has changed.
 *
 * Choices multiply, so there are {@link limits} on the combinations: those of one declaration, and those of all that have
 * more than a few. How many those are is told by the text alone, so that the same text is always told the same.
 */
export class ProblemFinder {
  readonly #cache: QueryCache;
  readonly #queriesFor: QueriesFor;
  #choiceWords = '';
  #findings = new WeakMap<Declaration, Finding>();

  constructor(cache: QueryCache, queriesFor: QueriesFor) {
    this.#cache = cache;
    this.#queriesFor = queriesFor;
  }

  /** Drops what was found of a declaration that has left the pattern: it may come back to another one. */
  forget(declaration: Declaration): void {
    this.#findings.delete(declaration);
  }

  /** The problems met while computing each declaration, in no order. */
  find(world: World, choices: Choices): readonly FoundProblem[] {
    this.#useChoices(choices);
    const declarations = world.files.flatMap((file) => file.declarations.map(({ declaration }) => declaration));
    const few = Math.min(limits.fewWays, Math.max(2, Math.floor(limits.fewWaysInAll / Math.max(1, declarations.length))));
    const looked = new Set<Declaration>();
    for (const declaration of declarations) this.#look(world, choices, declaration, { most: few, isFirst: true }, looked);
    // Whoever has no more ways than that is done with; the others share what may be looked at in all.
    const large = declarations.filter((declaration) => (this.#findings.get(declaration)?.ways ?? 0) > few);
    const each = Math.min(limits.ways, Math.max(few, Math.floor(limits.waysInAll / Math.max(1, large.length))));
    const lookedAgain = new Set<Declaration>();
    for (const declaration of large) this.#look(world, choices, declaration, { most: each, isFirst: false }, lookedAgain);
    const problems: FoundProblem[] = [];
    for (const declaration of declarations) for (const one of this.#findings.get(declaration)?.problems ?? []) problems.push(one);
    return problems;
  }

  /** Looks at a declaration and, before, at what it needs: kept off the call stack, since a chain of values may be longer than that is deep. */
  #look(world: World, choices: Choices, declaration: Declaration, round: Round, looked: Set<Declaration>): void {
    if (looked.has(declaration) || this.#isDone(world, declaration, round)) return;
    const work: Declaration[] = [declaration];
    const entered = new Set<Declaration>();
    for (let top = work.at(-1); top !== undefined; top = work.at(-1)) {
      if (entered.has(top)) {
        work.pop();
        if (!looked.has(top)) this.#explore(world, choices, top, round);
        looked.add(top);
        continue;
      }
      entered.add(top);
      for (const name of neededNames(top, world.names, world.general)) {
        const needed = world.names.get(name);
        if (needed !== undefined && !entered.has(needed) && !looked.has(needed) && !this.#isDone(world, needed, round)) work.push(needed);
      }
    }
  }

  /** Whether a declaration has been looked at in as many combinations as a round asks for, and nothing has changed since. */
  #isDone(world: World, declaration: Declaration, { most, isFirst }: Round): boolean {
    const finding = this.#findings.get(declaration);
    if (finding?.queries !== this.#queriesFor(world, declaration).length || finding.isFaulty || this.#cache.isTouched(declaration)) return false;
    const isWhole = finding.ways <= finding.most;
    return isFirst ? isWhole || finding.most >= most : (isWhole && finding.ways <= most) || finding.most === most;
  }

  #explore(world: World, choices: Choices, declaration: Declaration, { most, isFirst }: Round): void {
    const queries = this.#queriesFor(world, declaration);
    let problems: FoundProblem[] = [];
    let ways = 1;
    let isFaulty = false;
    try {
      for (const query of queries) {
        const { variants, ways: own }: Exploration<unknown> = explore(this.#cache, query, declaration, choices, most);
        ways = Math.max(ways, own);
        if (variants.some((variant) => variant.problems.length > 0)) problems.push(...mergeVariants(variants, choices));
      }
    } catch {
      // A fault of ours costs this declaration and what needs it, and is told once.
      isFaulty = true;
      problems = this.#needsFaulty(world, declaration) ? [] : [{ ...problem('internal-fault', nameOf(declaration), {}), when: undefined }];
    }
    if (ways > most) problems.push({ ...problem('too-many-ways', nameOf(declaration), { looked: most, ways }), when: undefined });
    // Where more is to be looked at, what is in doubt may still hold.
    if (ways <= most || !isFirst) this.#cache.settle(declaration);
    this.#findings.set(declaration, { queries: queries.length, problems, ways, most, isFaulty });
  }

  #needsFaulty(world: World, declaration: Declaration): boolean {
    return neededNames(declaration, world.names, world.general).some((name) => {
      const needed = world.names.get(name);
      return needed !== undefined && needed !== declaration && this.#findings.get(needed)?.isFaulty === true;
    });
  }

  /** In which combinations a problem arises is said in the words of the choices, so new choices need new words. */
  #useChoices(choices: Choices): void {
    const words = JSON.stringify([...choices]);
    if (words !== this.#choiceWords) this.#findings = new WeakMap();
    this.#choiceWords = words;
  }
}

function nameOf(declaration: Declaration): { readonly chunk: Declaration; readonly start: number; readonly end: number } {
  const { start, end } = 'name' in declaration.tree ? declaration.tree.name : declaration.tree;
  return { chunk: declaration, start, end };
}
