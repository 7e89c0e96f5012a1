import { limits } from '../../problems/limits.ts';
import { NameIndex } from '../../problems/near.ts';
import { problem, type Problem } from '../../problems/problem.ts';
import type { ChoiceDeclaration, Declaration, MaterialDeclaration, Name, PieceDeclaration, SeamDeclaration, SizesDeclaration, SourceFile, SupplyDeclaration, ThingDeclaration, ValueDeclaration } from '../../syntax/tree.ts';
import { placeOf, readSettings, type Facts, type Settings } from '../settings.ts';
import { conflictProblems } from './conflict-problems.ts';
import { collectFiles, type Library } from './files.ts';
import { cyclesAfter, neededNames, type Cycle } from './needs.ts';
import { syntaxProblems } from './syntax-problems.ts';
import { unreadNames } from './unread-names.ts';

export type NamedTree = ValueDeclaration | ThingDeclaration | MaterialDeclaration | SupplyDeclaration | PieceDeclaration | SeamDeclaration;
export type NamedDeclaration = Declaration & { readonly tree: NamedTree };

export interface Choice {
  readonly name: string;
  readonly options: readonly string[];
  readonly declaration: Declaration & { readonly tree: ChoiceDeclaration | SizesDeclaration };
}

/** What names there are: of each kind of thing, of all of them, of choices and of options. */
export type SimilarNames = Readonly<Record<NamedTree['kind'] | 'all' | 'choices' | 'options', NameIndex>>;

/** Everything that a pattern's text says, names put in order, nothing computed yet. An immutable snapshot. */
export interface World {
  /** The pattern's own file first, then those it uses, in the order met. */
  readonly files: readonly SourceFile[];
  readonly root: SourceFile;
  readonly facts: Facts;
  readonly settings: ReadonlyMap<string, Settings>;
  readonly names: ReadonlyMap<string, NamedDeclaration>;
  /** Names whose declaration could not be read: what needs them stays quiet, since the fault is already told. */
  readonly damaged: ReadonlySet<string>;
  /** The pieces, in the order of the text; the very same list as long as none of them changes. */
  readonly pieces: readonly NamedDeclaration[];
  /** The seams, in the order of the text; the very same list as long as none of them changes. */
  readonly seams: readonly NamedDeclaration[];
  /** The steps of the order of work, with those that can't be read, in the order of the text; the same list as long as none changes. */
  readonly steps: readonly Declaration[];
  readonly choices: ReadonlyMap<string, Choice>;
  /** Where to look for what a mistyped name was meant to be. */
  readonly similar: SimilarNames;
  /** The choices that have an option of this name. */
  readonly optionOwners: ReadonlyMap<string, readonly string[]>;
  /** The names that the pattern’s allowance for all pieces needs: so every piece does. */
  readonly general: readonly string[];
  /** Declarations that need themselves, with the names on the way round. */
  readonly cycles: ReadonlyMap<Declaration, Cycle>;
  /** What can be said from the text alone. */
  readonly problems: readonly Problem[];
}

/**
 * Puts a pattern's files and names in order. Pieces, supplies and checks count only in the pattern's own file.
 *
 * @param previous the snapshot before: whatever is unchanged is the very same object in the new one
 */
export function buildWorld(root: SourceFile, library: Library, previous?: World): World {
  const problems: Problem[] = [];
  const files = collectFiles(root, library, problems);
  const settings = new Map<string, Settings>();
  const declared = new Declared(problems, previous);
  let facts: Facts | undefined;
  for (const file of files) {
    const read = readSettings(file);
    settings.set(file.path, unchanged(previous?.settings.get(file.path), read.settings, sameSettings));
    facts ??= read.facts;
    problems.push(...read.problems, ...conflictProblems(file));
    // To explain a line takes time, and nobody reads more than so many.
    let unread = 0;
    for (const { declaration } of file.declarations) {
      if (unread <= limits.problems) {
        const faults = syntaxProblems(declaration);
        unread += faults.length;
        problems.push(...faults);
      }
      declared.add(declaration, file === root);
    }
  }
  const { names, damaged, choices } = declared;
  const optionOwners = ownersOfOptions(choices);
  const general = generalNeeds(root, names, previous);
  return {
    files, root, names, problems,
    settings: sameMap(previous?.settings, settings),
    pieces: sameList(previous?.pieces, [...names.values()].filter(({ tree }) => tree.kind === 'piece')),
    seams: sameList(previous?.seams, [...names.values()].filter(({ tree }) => tree.kind === 'seam')),
    steps: sameList(previous?.steps, root.declarations.map(({ declaration }) => declaration).filter(isWorkStep)),
    damaged: previous !== undefined && previous.damaged.size === 0 && damaged.size === 0 ? previous.damaged : damaged,
    choices: sameMap(previous?.choices, choices),
    optionOwners: sameMap(previous?.optionOwners, optionOwners, (a, b) => a.join(' ') === b.join(' ')),
    similar: similarNames(previous?.similar, names, choices, optionOwners),
    facts: facts ?? readSettings(root).facts,
    general,
    cycles: cyclesAfter(previous, names, general),
  };
}

/** The names and choices as they are gathered, declaration by declaration; the first of a name holds. */
class Declared {
  readonly names = new Map<string, NamedDeclaration>();
  readonly damaged = new Set<string>();
  readonly choices = new Map<string, Choice>();
  readonly #problems: Problem[];
  readonly #previous: World | undefined;

  /** @param problems where names that are taken already are reported */
  constructor(problems: Problem[], previous: World | undefined) {
    this.#problems = problems;
    this.#previous = previous;
  }

  /** @param own whether it stands in the pattern's own file */
  add(declaration: Declaration, own: boolean): void {
    const { tree } = declaration;
    switch (tree.kind) {
      case 'broken': {
        for (const name of unreadNames(tree.text)) this.damaged.add(name);
        break;
      }
      case 'sizes':
      case 'choice':
        this.#addChoice(declaration as Choice['declaration']);
        break;
      case 'value':
      case 'thing':
      case 'material':
        this.#addName(tree.name, declaration as NamedDeclaration);
        break;
      case 'supply':
      case 'piece':
      case 'seam':
        if (own) this.#addName(tree.name, declaration as NamedDeclaration);
    }
  }

  #addName(name: Name, declaration: NamedDeclaration): void {
    const earlier = this.names.get(name.text);
    if (earlier === undefined) this.names.set(name.text, declaration);
    else this.#problems.push(duplicate(name, declaration, earlier, earlier.tree.name));
  }

  #addChoice(declaration: Choice['declaration']): void {
    const { tree } = declaration;
    const written = tree.kind === 'choice' ? tree.name : undefined;
    const name = written?.text ?? 'size';
    const choice = { name, options: distinct(tree.options, declaration, this.#problems), declaration };
    const earlier = this.choices.get(name);
    if (earlier === undefined) this.choices.set(name, unchanged(this.#previous?.choices.get(name), choice, sameChoice));
    else if (written !== undefined) this.#problems.push(duplicate(written, declaration, earlier.declaration, earlier.declaration.tree.kind === 'choice' ? earlier.declaration.tree.name : written));
  }
}

/** A step, or a line that was meant to be one. */
const isWorkStep = ({ tree }: Declaration): boolean => tree.kind === 'work step' || (tree.kind === 'broken' && /^step\s+"/.test(tree.text));

/** The list before, where the new one says the same. */
const sameList = <One>(before: readonly One[] | undefined, now: readonly One[]): readonly One[] =>
  before?.length === now.length && before.every((one, index) => one === now[index]) ? before : now;

function ownersOfOptions(choices: World['choices']): Map<string, string[]> {
  const owners = new Map<string, string[]>();
  for (const choice of choices.values()) {
    for (const option of choice.options) owners.set(option, [...(owners.get(option) ?? []), choice.name]);
  }
  return owners;
}

/** The names that the allowance for all pieces needs. */
function generalNeeds(root: SourceFile, names: World['names'], previous: World | undefined): World['general'] {
  const needs = root.declarations.flatMap(({ declaration }) => (declaration.tree.kind === 'allowance' ? neededNames(declaration, names, []) : []));
  return previous?.general.join(' ') === needs.join(' ') ? previous.general : needs;
}

function similarNames(previous: SimilarNames | undefined, names: World['names'], choices: World['choices'], options: World['optionOwners']): SimilarNames {
  const lists: Record<keyof SimilarNames, string[]> = { all: [...names.keys()], choices: [...choices.keys()], options: [...options.keys()], value: [], thing: [], material: [], supply: [], piece: [], seam: [] };
  for (const [name, { tree }] of names) lists[tree.kind].push(name);
  const entries = Object.entries(lists) as [keyof SimilarNames, string[]][];
  const isSame = ([kind, list]: (typeof entries)[number]): boolean => {
    const before = previous?.[kind].names;
    return before?.length === list.length && before.every((name, index) => name === list[index]);
  };
  if (previous !== undefined && entries.every(isSame)) return previous;
  return Object.fromEntries(entries.map((entry) => [entry[0], previous !== undefined && isSame(entry) ? previous[entry[0]] : new NameIndex(entry[1])])) as SimilarNames;
}

function unchanged<T>(before: T | undefined, now: T, same: (a: T, b: T) => boolean): T {
  return before !== undefined && same(before, now) ? before : now;
}

/** The map before, where the new one says the same: what only reads it then needs no second look. */
function sameMap<V>(before: ReadonlyMap<string, V> | undefined, now: ReadonlyMap<string, V>, same: (a: V, b: V) => boolean = Object.is): ReadonlyMap<string, V> {
  if (before?.size !== now.size) return now;
  const values = [...before];
  let index = 0;
  for (const [key, value] of now) {
    const old = values[index++];
    if (old === undefined || old[0] !== key || !same(old[1], value)) return now;
  }
  return before;
}

const sameChoice = (a: Choice, b: Choice): boolean => a.declaration === b.declaration;
const sameSettings = (a: Settings, b: Settings): boolean =>
  a.display.unit === b.display.unit && a.display.step.equals(b.display.step) && a.drawnTo === b.drawnTo && a.allowance?.declaration === b.allowance?.declaration;

function distinct(options: readonly Name[], declaration: Declaration, problems: Problem[]): readonly string[] {
  const seen = new Set<string>();
  for (const option of options) {
    if (seen.has(option.text)) problems.push(problem('duplicate-name', placeOf(declaration, option), { name: option.text }));
    seen.add(option.text);
  }
  return [...seen];
}

function duplicate(name: Name, declaration: Declaration, earlier: Declaration, earlierName: Name): Problem {
  return problem('duplicate-name', placeOf(declaration, name), { name: name.text }, {
    related: [{ place: placeOf(earlier, earlierName), message: 'First declared here.' }],
  });
}
