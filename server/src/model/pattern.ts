import { problem, replacement, type Problem } from '../problems/problem.ts';
import type { Place } from '../problems/place.ts';
import type { CheckDeclaration, Declaration, Expression, Node, SourceFile, ThingDeclaration } from '../syntax/tree.ts';
import { outcomeOf, type Outcome } from './checks/designer-checks.ts';
import { pieceChecks } from './checks/piece-checks.ts';
import { supplyChecks } from './checks/supply-checks.ts';
import { changesBetween } from './names/changes.ts';
import { withoutConsequences } from './names/consequences.ts';
import { digestOf } from './digest.ts';
import { evaluate, positiveLength, valueOf } from './formulas/evaluate.ts';
import { mergeVariants, type FoundProblem } from './query/variants.ts';
import { materialOf, type Material } from './stock/material.ts';
import { QueryCache } from './query/cache.ts';
import { combinationsOf, explore, mostWays } from './query/explore.ts';
import type { Combination, Query } from './query/query.ts';
import type { CutLine } from './piece/cut-line.ts';
import { cutsOf } from './piece/cuts.ts';
import type { PieceShape } from './piece/piece.ts';
import { isWanted, shapeOf } from './piece/shape.ts';
import { scopeOf } from './query/scope.ts';
import { placeOf } from './settings.ts';
import type { Display } from '../units/length.ts';
import { usualDisplay } from '../units/length.ts';
import { supplyOf, type Supply } from './stock/supply.ts';
import { isPattern, unusedNames, UseCounts } from './names/unused.ts';
import type { Value } from './formulas/value.ts';
import { buildWorld, neededNames, type Library, type NamedDeclaration, type World } from './names/world.ts';
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
}

/** A pattern in one combination. */
export interface Resolved {
  readonly combination: Combination;
  /** Every material that is declared, used or not, in the order of the text. */
  readonly materials: readonly Material[];
  readonly pieces: readonly ResolvedPiece[];
  readonly supplies: readonly Supply[];
  readonly checks: readonly { readonly declaration: Declaration & { readonly tree: CheckDeclaration }; readonly outcome: Outcome }[];
}

/** Computes a pattern again and again as its text changes, keeping whatever still holds. */
export class Analyst {
  #cache = new QueryCache(resolveReference);
  #world: World | undefined;
  #uses = new UseCounts();
  #choiceWords = '';
  #found = new WeakMap<Declaration, { readonly counts: boolean; readonly problems: readonly FoundProblem[] }>();

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
    this.#uses.update(changes);
    this.#world = world;
  }

  #named<Result>(world: World, name: string, query: Query<NamedDeclaration, Result>, combination: Combination): Result | undefined {
    this.#enter(world);
    const declaration = world.names.get(name);
    return declaration && this.#cache.under(combination, query, declaration).result;
  }

  #evaluations(world: World, choices: ReadonlyMap<string, readonly string[]>, written: WrittenFormula): ReturnType<Pattern['evaluations']> {
    this.#enter(world);
    const { variants } = explore(this.#cache, formulaOf, written, choices);
    this.#cache.forget(written);
    return variants.map(({ options, result }) => ({ options, value: result }));
  }

  #problems(world: World, choices: ReadonlyMap<string, readonly string[]>, digest: () => string): readonly FoundProblem[] {
    const found: FoundProblem[] = [...world.problems, ...unusedNames(world, this.#uses), ...factProblems(world, digest)].map((one) => ({ ...one, when: undefined }));
    this.#useChoices(choices);
    for (const file of world.files) {
      for (const { declaration } of file.declarations) found.push(...this.#problemsOf(world, choices, declaration));
    }
    return withoutConsequences(inOrder(world, found));
  }

  /** The problems found while computing a declaration, worked out again only when something it rests on has changed. */
  #problemsOf(world: World, choices: ReadonlyMap<string, readonly string[]>, declaration: Declaration): readonly FoundProblem[] {
    const known = this.#knownProblems(world, declaration);
    if (known !== undefined) return known;
    // What it needs comes first, kept off the call stack: a chain of values may be longer than that is deep.
    const work: Declaration[] = [declaration];
    const entered = new Set<Declaration>();
    for (let top = work.at(-1); top !== undefined; top = work.at(-1)) {
      if (entered.has(top)) {
        work.pop();
        this.#explore(world, choices, top);
        continue;
      }
      entered.add(top);
      for (const name of neededNames(top, world.names, world.general)) {
        const needed = world.names.get(name);
        if (needed !== undefined && !entered.has(needed) && this.#knownProblems(world, needed) === undefined) work.push(needed);
      }
    }
    return this.#knownProblems(world, declaration) ?? [];
  }

  #knownProblems(world: World, declaration: Declaration): readonly FoundProblem[] | undefined {
    const known = this.#found.get(declaration);
    return known?.counts === isCounted(world, declaration) && !this.#cache.isTouched(declaration) ? known.problems : undefined;
  }

  #explore(world: World, choices: ReadonlyMap<string, readonly string[]>, declaration: Declaration): void {
    const counts = isCounted(world, declaration);
    const problems: FoundProblem[] = [];
    let most = 1;
    for (const query of counts ? queriesFor(world, declaration) : []) {
      const { variants, ways } = explore(this.#cache, query, declaration, choices);
      most = Math.max(most, ways);
      if (variants.some((variant) => variant.problems.length > 0)) problems.push(...mergeVariants(variants, choices));
    }
    if (most > mostWays) {
      const { start, end } = 'name' in declaration.tree ? declaration.tree.name : declaration.tree;
      problems.push({ ...problem('too-many-ways', { chunk: declaration, start, end }, { looked: mostWays, ways: most }), when: undefined });
    }
    this.#cache.settle(declaration);
    this.#found.set(declaration, { counts, problems });
  }

  /** In which combinations a problem arises is said in the words of the choices, so new choices need new words. */
  #useChoices(choices: ReadonlyMap<string, readonly string[]>): void {
    const words = JSON.stringify([...choices]);
    if (words !== this.#choiceWords) this.#found = new WeakMap();
    this.#choiceWords = words;
  }

  #resolve(world: World, combination: Combination): Resolved {
    this.#enter(world);
    const under = <Result>(query: Query<NamedDeclaration, Result>, declaration: NamedDeclaration): Result => this.#cache.under(combination, query, declaration).result;
    const materials: Material[] = [];
    const pieces: ResolvedPiece[] = [];
    const supplies: Supply[] = [];
    const checks: { declaration: Declaration & { readonly tree: CheckDeclaration }; outcome: Outcome }[] = [];
    for (const declaration of world.names.values()) {
      if (declaration.tree.kind === 'material') {
        const material = under(materialOf, declaration);
        if (material !== undefined) materials.push(material);
      } else if (declaration.tree.kind === 'piece' && under(isWanted, declaration)) {
        const shape = under(shapeOf, declaration);
        if (shape !== undefined) pieces.push({ shape, cuts: under(cutsOf, declaration) });
      } else if (declaration.tree.kind === 'supply' && under(isWanted, declaration)) {
        const supply = under(supplyOf, declaration);
        if (supply !== undefined) supplies.push(supply);
      }
    }
    for (const { declaration } of world.root.declarations) {
      if (isCheck(declaration)) checks.push({ declaration, outcome: this.#cache.under(combination, outcomeOf, declaration).result });
    }
    return { combination, materials, pieces, supplies, checks };
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

/** What is asked of a declaration to find its problems. */
function queriesFor(world: World, declaration: Declaration): readonly Query<Declaration, unknown>[] {
  const { tree } = declaration;
  const queries = ((): readonly unknown[] => {
    switch (tree.kind) {
      case 'value':
        return [valueOf];
      case 'thing':
        return [thingChecks];
      case 'material':
        return [materialOf];
      case 'supply':
        return [isWanted, supplyOf, supplyChecks];
      case 'piece':
        return [isWanted, shapeOf, cutsOf, pieceChecks];
      case 'check':
        return declaration.file === world.root.path ? [outcomeOf] : [];
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

/** Title, revision, and marks that no supply is given for. */
function factProblems(world: World, digest: () => string): readonly Problem[] {
  if (!isPattern(world)) return [];
  const problems: Problem[] = [];
  const first = world.root.declarations[0]?.declaration;
  const { facts } = world;
  if (first !== undefined) {
    const top: Place = { chunk: first, start: first.tree.start, end: first.tree.start };
    const tried = (word: string): boolean => world.root.declarations.some(({ declaration }) => declaration.tree.kind === 'broken' && declaration.tree.text.startsWith(word));
    if (facts.title === undefined && !tried('pattern')) {
      problems.push(problem('missing-title', top, {}, { fixes: [{ title: 'Add a title', edits: [{ place: top, newText: 'pattern "Untitled"\n' }], safe: false }] }));
    }
    if (facts.revision === undefined && !tried('revision')) {
      problems.push(problem('missing-revision', top, {}, { fixes: [{ title: 'Add “revision 1”', edits: [{ place: { ...top, start: first.text.length, end: first.text.length }, newText: 'revision 1\n' }], safe: false }] }));
    }
  }
  if (facts.issued !== undefined && facts.revisionPlace !== undefined && Number(facts.revision) < Number(facts.issued.revision)) {
    problems.push(problem('revision-lowered', facts.revisionPlace, { revision: facts.revision ?? '', issued: facts.issued.revision }, { related: [{ place: facts.issued.place, message: 'This is what was given out.' }] }));
  }
  if (facts.issued !== undefined && facts.revisionPlace !== undefined && facts.issued.revision === facts.revision && facts.issued.digest !== digest()) {
    problems.push(problem('revision-not-raised', facts.revisionPlace, { revision: facts.revision }, {
      related: [{ place: facts.issued.place, message: 'This is what was given out.' }],
      fixes: [replacement(`Raise the revision to ${Number(facts.revision) + 1}`, facts.revisionPlace, String(Number(facts.revision) + 1), false)],
    }));
  }
  return [...problems, ...marksWithoutSupply(world)];
}

/** Marks for snaps that no supply names. Told from the text, since which supplies are wanted may hang on choices. */
function marksWithoutSupply(world: World): readonly Problem[] {
  const marked: NamedDeclaration[] = [];
  const supplied = new Set<string>();
  for (const declaration of world.names.values()) {
    const kind = declaration.tree.kind;
    if (kind === 'supply') for (const mark of markNames(declaration)) supplied.add(mark.name);
    else if (kind === 'piece' && markNames(declaration).length > 0) marked.push(declaration);
  }
  return marked.flatMap((declaration) => markNames(declaration).filter((mark) => !supplied.has(mark.name)).map(({ node, snap }) =>
    problem('mark-without-supply', placeOf(declaration, node), { mark: declaration.text.slice(node.start, node.end), size: declaration.text.slice(snap.start, snap.end) })));
}

interface MarkName {
  /** With its piece: `cover.clasp`. */
  readonly name: string;
  readonly node: Node;
  readonly snap: Node;
}

const keptMarks = new WeakMap<Declaration, readonly MarkName[]>();

/** The marks for snaps that a piece draws, or those that a supply is set at. */
function markNames(declaration: NamedDeclaration): readonly MarkName[] {
  const known = keptMarks.get(declaration);
  if (known !== undefined) return known;
  const { tree } = declaration;
  const marks: MarkName[] = [];
  if (tree.kind === 'supply') {
    for (const statement of tree.body.statements) {
      if (statement.kind === 'at') for (const mark of statement.marks) marks.push({ name: mark.path.map((part) => part.text).join('.'), node: mark, snap: mark });
    }
  } else if (tree.kind === 'piece') {
    for (const statement of tree.body.statements) {
      if (statement.kind === 'mark' && statement.snap !== undefined) marks.push({ name: `${tree.name.text}.${statement.name.text}`, node: statement.name, snap: statement.snap });
    }
  }
  keptMarks.set(declaration, marks);
  return marks;
}

/** By file and place, each said once. */
function inOrder(world: World, problems: readonly FoundProblem[]): readonly FoundProblem[] {
  const order = new Map<unknown, number>();
  for (const file of world.files) for (const { declaration } of file.declarations) order.set(declaration, order.size);
  const seen = new Set<string>();
  return problems
    .map((one) => ({ one, at: order.get(one.place.chunk) ?? 0 }))
    .sort((a, b) => a.at - b.at || a.one.place.start - b.one.place.start || a.one.place.end - b.one.place.end || (a.one.code < b.one.code ? -1 : 1))
    .filter(({ one, at }) => {
      const key = `${at} ${one.place.start} ${one.place.end} ${one.code} ${one.message} ${one.when ?? ''}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    })
    .map(({ one }) => one);
}
