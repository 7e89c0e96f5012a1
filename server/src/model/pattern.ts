import { limits } from '../problems/limits.ts';
import type { Problem } from '../problems/problem.ts';
import type { CheckDeclaration, Declaration, Expression, SourceFile, ThingDeclaration } from '../syntax/tree.ts';
import { patternChecks } from './checks/pattern-checks.ts';
import { comparedBy, outcomeOf, verdictOf, type Compared, type Outcome } from './checks/designer-checks.ts';
import { pieceChecks } from './checks/piece-checks.ts';
import { workStepChecks } from './checks/order-of-work.ts';
import { seamChecks } from './checks/seam-checks.ts';
import { supplyChecks } from './checks/supply-checks.ts';
import { changesBetween } from './names/changes.ts';
import { toldProblems } from './names/told.ts';
import { digestOf } from './digest.ts';
import { evaluate, positiveLength, valueOf } from './formulas/evaluate.ts';
import type { FoundProblem } from './query/variants.ts';
import { materialOf, type Material } from './stock/material.ts';
import { QueryCache } from './query/cache.ts';
import { combinationsOf, explore } from './query/explore.ts';
import type { Combination, Query } from './query/query.ts';
import type { CutLine } from './piece/cut-line.ts';
import { cutsOf } from './piece/cuts.ts';
import { foldedOf, type Folded } from './piece/folded.ts';
import { foldingOf } from './piece/folded-template.ts';
import type { PieceShape } from './piece/piece.ts';
import { isWanted, shapeOf } from './piece/shape.ts';
import { scopeOf } from './query/scope.ts';
import { casingOf } from './seams/edges-with.ts';
import { finishesOf, type Finish } from './seams/finishes.ts';
import { seamOf } from './seams/read-seam.ts';
import { rimsOf, type ArticleRim } from './seams/rims.ts';
import type { Seam } from './seams/seam.ts';
import { timesSewn } from './seams/times.ts';
import { numberedStepOf, type NumberedStep } from './work/order.ts';
import { workStepOf } from './work/read-step.ts';
import { ProblemFinder } from './problem-finder.ts';
import type { Display } from '../units/length.ts';
import { usualDisplay } from '../units/length.ts';
import { supplyOf, type Supply } from './stock/supply.ts';
import { unusedNames, UseCounts } from './names/unused.ts';
import type { Value } from './formulas/value.ts';
import type { Library } from './names/files.ts';
import { noteFaults, saidIn, unknown, type Note, type Said } from './notes.ts';
import { buildWorld, type NamedDeclaration, type World } from './names/world.ts';
import { resolveReference } from './formulas/reference.ts';

/** A pattern computed in all its combinations. */
export interface Pattern {
  readonly world: World;
  readonly display: Display;
  /** Names and options of all choices; sizes are the choice `size`, which comes first. */
  readonly choices: ReadonlyMap<string, readonly string[]>;
  readonly digest: string;
  /** All problems, in this file and in those it uses, by place. */
  readonly problems: readonly FoundProblem[];
  readonly combinations: () => readonly Combination[];
  /** What is made in one combination. A choice left open takes its first option. */
  readonly resolve: (combination: Combination) => Resolved;
  /** A named value under one combination, with its trail. */
  readonly value: (name: string, combination: Combination) => Value | undefined;
  /** A formula that stands in a declaration, with its trail, once for each way in which choices make a difference to it. */
  readonly evaluations: (declaration: Declaration, formula: Expression) => readonly { readonly options: Combination; readonly value: Value | undefined }[];
  /** A piece's shape under one combination, whether wanted there or not. */
  readonly shape: (name: string, combination: Combination) => PieceShape | undefined;
}

export interface ResolvedPiece {
  readonly shape: PieceShape;
  readonly cuts: readonly CutLine[];
  /** What becomes of its edges that are sewn to no other, by the names that they are drawn under. */
  readonly finishes: ReadonlyMap<string, Finish>;
  readonly folded: Folded | undefined;
}

export interface ResolvedCheck {
  readonly declaration: Declaration & { readonly tree: CheckDeclaration };
  readonly outcome: Outcome;
  /** What it has measured, where it fails by that. */
  readonly compared: Compared | undefined;
}

/** A pattern in one combination. */
export interface Resolved {
  readonly combination: Combination;
  /** Every material that is declared, used or not, in the order of the text. */
  readonly materials: readonly Material[];
  readonly pieces: readonly ResolvedPiece[];
  readonly supplies: readonly Supply[];
  /** How long the hems are that each of them runs through, by its name: on all that is cut, in millimetres. */
  readonly casings: ReadonlyMap<string, number>;
  readonly seams: readonly Seam[];
  /** How often each is sewn, by its name. */
  readonly times: ReadonlyMap<string, number>;
  /** Openings and outer edges of what the seams join. */
  readonly rims: readonly ArticleRim[];
  /** The order of work; empty where the spec says none. */
  readonly steps: readonly NumberedStep[];
  readonly checks: readonly ResolvedCheck[];
  /** What a note says. */
  readonly said: (note: Note) => Said;
}

/** Computes a pattern again and again as its text changes, keeping whatever still holds. */
export class Analyst {
  readonly #cache = new QueryCache(resolveReference);
  readonly #finder = new ProblemFinder(this.#cache, queriesFor);
  readonly #uses = new UseCounts();
  #world: World | undefined;

  analyse(root: SourceFile, library: Library): Pattern {
    const world = buildWorld(root, library, this.#world);
    this.#enter(world);
    const choices = new Map([...world.choices.values()].sort((a, b) => Number(b.name === 'size') - Number(a.name === 'size')).map((choice) => [choice.name, choice.options]));
    let known: string | undefined;
    const digest = (): string => (known ??= digestOf(world.files));
    const display = world.settings.get(root.path)?.display ?? usualDisplay('in');
    const full = (partial: Combination): Combination => new Map([...choices].map(([name, options]) => [name, partial.get(name) ?? options[0] ?? '']));
    return {
      world, display, choices,
      get digest() {
        return digest();
      },
      problems: this.#problems(world, choices, digest),
      combinations: () => [...combinationsOf([...choices.keys()], choices, new Map())],
      resolve: (combination) => this.#resolve(world, full(combination)),
      value: (name, combination) => this.#named(world, name, valueOf, full(combination)),
      evaluations: (declaration, formula) => this.#evaluations(world, choices, { declaration, formula }),
      shape: (name, combination) => this.#named(world, name, shapeOf, full(combination)),
    };
  }

  /** How many results and answers of the text it holds: no more after any number of edits than after a fresh start. */
  get cacheSize(): number {
    return this.#cache.size;
  }

  #enter(world: World): void {
    if (this.#world === world) return;
    const changes = changesBetween(this.#world?.files ?? [], world.files);
    this.#cache.nextRevision(world, changes.removed);
    for (const declaration of changes.removed) this.#finder.forget(declaration);
    this.#uses.update(changes);
    this.#world = world;
  }

  #named<Result>(world: World, name: string, query: Query<NamedDeclaration, Result>, combination: Combination): Result | undefined {
    this.#enter(world);
    const declaration = world.names.get(name);
    return declaration && this.#attempt(() => this.#cache.under(combination, query, declaration).result);
  }

  #evaluations(world: World, choices: ReadonlyMap<string, readonly string[]>, written: WrittenFormula): ReturnType<Pattern['evaluations']> {
    this.#enter(world);
    const explored = this.#attempt(() => explore(this.#cache, formulaOf, written, choices, limits.ways));
    this.#cache.forget(written);
    return (explored?.variants ?? []).map(({ options, result }) => ({ options, value: result }));
  }

  #problems(world: World, choices: ReadonlyMap<string, readonly string[]>, digest: () => string): readonly FoundProblem[] {
    const always: readonly Problem[] = [...world.problems, ...unusedNames(world, this.#uses), ...patternChecks(world, digest)];
    return toldProblems(world, [...always.map((one) => ({ ...one, when: undefined })), ...this.#finder.find(world, choices)]);
  }

  /** What a computation gives; undefined where it throws, which has been told as a problem of the declaration at fault. */
  #attempt<Result>(compute: () => Result): Result | undefined {
    try {
      return compute();
    } catch {
      return undefined;
    }
  }

  #said(world: World, combination: Combination, note: Note): Said {
    this.#enter(world);
    return this.#attempt(() => this.#cache.under(combination, saidIn, note.declaration).result.get(note.sentence)) ?? note.sentence.parts.map((part) => (typeof part === 'string' ? part : unknown(note.declaration, part)));
  }

  #sewn(combination: Combination, seams: readonly Seam[]): Pick<Resolved, 'times' | 'rims'> {
    if (seams.length === 0) return { times: new Map(), rims: [] };
    const all = <Result>(query: Query<'all', Result>): Result | undefined => this.#attempt(() => this.#cache.under(combination, query, 'all').result);
    return { times: all(timesSewn) ?? new Map<string, number>(), rims: all(rimsOf) ?? [] };
  }

  #casings(world: World, combination: Combination, supplies: readonly Supply[]): Resolved['casings'] {
    return new Map(supplies.flatMap(({ name }) => {
      const casing = this.#named(world, name, casingOf, combination);
      return casing === undefined ? [] : [[name, casing] as const];
    }));
  }

  #resolve(world: World, combination: Combination): Resolved {
    this.#enter(world);
    const under = <Argument extends Declaration, Result>(query: Query<Argument, Result>, declaration: Argument): Result | undefined => this.#attempt(() => this.#cache.under(combination, query, declaration).result);
    const materials: Material[] = [];
    const pieces: ResolvedPiece[] = [];
    const supplies: Supply[] = [];
    const seams: Seam[] = [];
    const checks: ResolvedCheck[] = [];
    for (const declaration of world.names.values()) {
      if (declaration.tree.kind === 'material') {
        const material = under(materialOf, declaration);
        if (material !== undefined) materials.push(material);
      } else if (declaration.tree.kind === 'piece' && under(isWanted, declaration)) {
        const shape = under(shapeOf, declaration);
        if (shape !== undefined) pieces.push({ shape, cuts: under(cutsOf, declaration) ?? [], finishes: under(finishesOf, declaration) ?? new Map(), folded: under(foldedOf, declaration) });
      } else if (declaration.tree.kind === 'supply' && under(isWanted, declaration)) {
        const supply = under(supplyOf, declaration);
        if (supply !== undefined) supplies.push(supply);
      } else if (declaration.tree.kind === 'seam') {
        const seam = under(seamOf, declaration);
        if (seam !== undefined) seams.push(seam);
      }
    }
    for (const { declaration } of world.root.declarations) {
      const outcome = isCheck(declaration) ? under(outcomeOf, declaration) : undefined;
      if (isCheck(declaration) && outcome !== undefined) checks.push({ declaration, outcome, compared: under(comparedBy, declaration) });
    }
    const steps = world.steps.map((declaration) => under(numberedStepOf, declaration)).filter((step) => step !== undefined);
    return { combination, materials, pieces, supplies, casings: this.#casings(world, combination, supplies), seams, ...this.#sewn(combination, seams), steps, checks, said: (note) => this.#said(world, combination, note) };
  }
}

interface WrittenFormula {
  readonly declaration: Declaration;
  readonly formula: Expression;
}

const formulaOf: Query<WrittenFormula, Value | undefined> = {
  name: 'formula',
  input: false,
  compute: (context, { declaration, formula }) => evaluate(scopeOf(context, declaration), formula),
};

const isCheck = (declaration: Declaration): declaration is Declaration & { readonly tree: CheckDeclaration } => declaration.tree.kind === 'check';

const thingChecks: Query<Declaration & { readonly tree: ThingDeclaration }, boolean> = {
  name: 'thing',
  input: false,
  compute: (context, declaration) => {
    const scope = scopeOf(context, declaration);
    const width = positiveLength(scope, declaration.tree.width, 'A width');
    const height = positiveLength(scope, declaration.tree.height, 'A height');
    return width !== undefined && height !== undefined;
  },
};

/** What is asked of a declaration to find its problems; nothing of one that doesn’t count. */
function queriesFor(world: World, declaration: Declaration): readonly Query<Declaration, unknown>[] {
  if (!isCounted(world, declaration)) return [];
  const { tree } = declaration;
  const queries = ((): readonly unknown[] => {
    switch (tree.kind) {
      case 'value':
        return [valueOf];
      case 'thing':
        return [thingChecks];
      case 'material':
        return [materialOf, noteFaults];
      case 'supply':
        return [isWanted, supplyOf, supplyChecks, noteFaults];
      case 'piece':
        return [isWanted, shapeOf, foldedOf, foldingOf, cutsOf, finishesOf, pieceChecks, noteFaults];
      case 'seam':
        return [seamOf, seamChecks];
      case 'work step':
        return declaration.file === world.root.path ? [workStepOf, workStepChecks] : [];
      case 'check':
        return declaration.file === world.root.path ? [verdictOf, outcomeOf, noteFaults] : [];
      case 'note':
        return declaration.file === world.root.path ? [noteFaults] : [];
      default:
        return [];
    }
  })();
  return queries as readonly Query<Declaration, unknown>[];
}

/** Whether a declaration counts: a second one of a name is left out. */
function isCounted(world: World, declaration: Declaration): boolean {
  const { tree } = declaration;
  return !('name' in tree) || tree.kind === 'choice' || world.names.get(tree.name.text) === declaration;
}
