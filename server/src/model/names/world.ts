import { nearestName } from '../../problems/near.ts';
import { problem, replacement, type Problem } from '../../problems/problem.ts';
import { parseFile } from '../../syntax/parse.ts';
import type { ChoiceDeclaration, Declaration, MaterialDeclaration, Name, PieceDeclaration, SizesDeclaration, SourceFile, SupplyDeclaration, ThingDeclaration, ValueDeclaration } from '../../syntax/tree.ts';
import { openingOf } from '../../syntax/tokens.ts';
import { nameUses } from '../../syntax/walk.ts';
import { resolvePath } from './paths.ts';
import { placeOf, readSettings, type Facts, type Settings } from '../settings.ts';

export type NamedTree = ValueDeclaration | ThingDeclaration | MaterialDeclaration | SupplyDeclaration | PieceDeclaration;
export type NamedDeclaration = Declaration & { readonly tree: NamedTree };

export interface Choice {
  readonly name: string;
  readonly options: readonly string[];
  readonly declaration: Declaration & { readonly tree: ChoiceDeclaration | SizesDeclaration };
}

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
  readonly choices: ReadonlyMap<string, Choice>;
  /** The choices that have an option of this name. */
  readonly optionOwners: ReadonlyMap<string, readonly string[]>;
  /** The names that the pattern’s allowance for all pieces needs: so every piece does. */
  readonly general: readonly string[];
  /** Declarations that need themselves, with the names on the way round. */
  readonly cycles: ReadonlyMap<Declaration, readonly string[]>;
  /** What can be said from the text alone. */
  readonly problems: readonly Problem[];
}

/** Gives the text of another file of the working folder, already read; undefined where there is none. */
export type Library = (path: string) => SourceFile | undefined;

/** A library that reads from plain texts by path. */
export function libraryOf(texts: ReadonlyMap<string, string>): Library {
  const read = new Map<string, SourceFile>();
  return (path) => {
    const text = texts.get(path);
    if (text === undefined) return undefined;
    let file = read.get(path);
    if (file === undefined) read.set(path, (file = parseFile(path, text)));
    return file;
  };
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
  const names = new Map<string, NamedDeclaration>();
  const damaged = new Set<string>();
  const choices = new Map<string, Choice>();
  let facts: Facts | undefined;

  for (const file of files) {
    const read = readSettings(file);
    settings.set(file.path, unchanged(previous?.settings.get(file.path), read.settings, sameSettings));
    facts ??= read.facts;
    problems.push(...read.problems);
    for (const { declaration } of file.declarations) {
      if (declaration.problems.length > 0) problems.push(...syntaxProblems(declaration));
      const own = file === root;
      const tree = declaration.tree;
      switch (tree.kind) {
        case 'broken': {
          const name = openingOf(tree.text)?.name;
          if (name !== undefined) damaged.add(name);
          break;
        }
        case 'sizes':
          addChoice('size', { name: 'size', options: distinct(tree.options, declaration, problems), declaration: declaration as Choice['declaration'] }, undefined);
          break;
        case 'choice':
          addChoice(tree.name.text, { name: tree.name.text, options: distinct(tree.options, declaration, problems), declaration: declaration as Choice['declaration'] }, tree.name);
          break;
        case 'value':
        case 'thing':
        case 'material':
          addName(tree.name, declaration as NamedDeclaration);
          break;
        case 'supply':
        case 'piece':
          if (own) addName(tree.name, declaration as NamedDeclaration);
      }
    }
  }

  function addName(name: Name, declaration: NamedDeclaration): void {
    const earlier = names.get(name.text);
    if (earlier === undefined) names.set(name.text, declaration);
    else problems.push(duplicate(name, declaration, earlier, earlier.tree.name));
  }
  function addChoice(key: string, choice: Choice, name: Name | undefined): void {
    const earlier = choices.get(key);
    if (earlier === undefined) choices.set(key, unchanged(previous?.choices.get(key), choice, sameChoice));
    else if (name !== undefined) problems.push(duplicate(name, choice.declaration, earlier.declaration, earlier.declaration.tree.kind === 'choice' ? earlier.declaration.tree.name : name));
  }

  const optionOwners = new Map<string, string[]>();
  for (const choice of choices.values()) {
    for (const option of choice.options) optionOwners.set(option, [...(optionOwners.get(option) ?? []), choice.name]);
  }
  const written = root.declarations.flatMap(({ declaration }) => (declaration.tree.kind === 'allowance' ? neededNames(declaration, names, []) : []));
  const general = previous?.general.join(' ') === written.join(' ') ? previous.general : written;
  return {
    files, root, names, problems,
    settings: sameMap(previous?.settings, settings),
    damaged: previous !== undefined && previous.damaged.size === 0 && damaged.size === 0 ? previous.damaged : damaged,
    choices: sameMap(previous?.choices, choices),
    optionOwners: sameMap(previous?.optionOwners, optionOwners, (a, b) => a.join(' ') === b.join(' ')),
    facts: facts ?? readSettings(root).facts,
    general,
    cycles: cyclesAfter(previous, names, general),
  };
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

// ------------------------------------------------------------------------------------------------ files

function collectFiles(root: SourceFile, library: Library, problems: Problem[]): readonly SourceFile[] {
  const files: SourceFile[] = [];
  const visit = (file: SourceFile, way: readonly string[]): void => {
    if (files.includes(file)) return;
    files.push(file);
    for (const { declaration } of file.declarations) {
      const tree = declaration.tree;
      if (tree.kind !== 'use') continue;
      const place = placeOf(declaration, tree.path);
      const path = resolvePath(file.path, tree.path.value);
      if (path === undefined) {
        problems.push(problem('file-outside', place, { path: tree.path.value }));
        continue;
      }
      if (path === file.path || way.includes(path)) {
        problems.push(problem('file-cycle', place, { files: [...way.slice(Math.max(0, way.indexOf(path))), ...(path === file.path ? [] : [file.path]), path] }));
        continue;
      }
      const used = library(path);
      if (used === undefined) problems.push(problem('missing-file', place, { path: tree.path.value }));
      else {
        if (used.declarations.some((one) => ['piece', 'supply', 'check'].includes(one.declaration.tree.kind))) {
          problems.push(problem('pieces-not-shared', place, { path: tree.path.value }));
        }
        visit(used, [...way, file.path]);
      }
    }
  };
  visit(root, []);
  return files;
}

// ------------------------------------------------------------------------------------------------ cycles

/**
 * Where there was no cycle before, a new one must go through a name that has a new declaration; as long as none of those
 * comes back to itself, the whole need not be searched.
 */
function cyclesAfter(previous: World | undefined, names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): ReadonlyMap<Declaration, readonly string[]> {
  if (previous === undefined || previous.cycles.size > 0 || previous.general !== general) return findCycles(names, general);
  for (const [name, declaration] of names) {
    if (previous.names.get(name) !== declaration && needsItself(name, names, general)) return findCycles(names, general);
  }
  return previous.cycles;
}

function needsItself(name: string, names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): boolean {
  const met = new Set<string>();
  const work = [...neededNames(names.get(name), names, general)];
  for (let next = work.pop(); next !== undefined; next = work.pop()) {
    if (next === name) return true;
    if (met.has(next)) continue;
    met.add(next);
    work.push(...neededNames(names.get(next), names, general));
  }
  return false;
}

/** Declarations that need themselves by way of others (Tarjan's strongly connected components, 1972). */
function findCycles(names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): ReadonlyMap<Declaration, readonly string[]> {
  const cycles = new Map<Declaration, readonly string[]>();
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const onStack = new Set<string>();
  const stack: string[] = [];
  const needs = (name: string): readonly string[] => neededNames(names.get(name), names, general);

  // Kept off the call stack, since a long chain of values may be deeper than that allows.
  for (const start of names.keys()) {
    if (order.has(start)) continue;
    const work: { name: string; rest: Iterator<string> }[] = [];
    const enter = (name: string): void => {
      order.set(name, order.size);
      low.set(name, order.get(name) ?? 0);
      stack.push(name);
      onStack.add(name);
      work.push({ name, rest: needs(name)[Symbol.iterator]() });
    };
    enter(start);
    for (let top = work.at(-1); top !== undefined; top = work.at(-1)) {
      const { name, rest } = top;
      const next = rest.next();
      if (next.done !== true) {
        if (!order.has(next.value)) enter(next.value);
        else if (onStack.has(next.value)) low.set(name, Math.min(low.get(name) ?? 0, order.get(next.value) ?? 0));
        continue;
      }
      work.pop();
      const above = work.at(-1)?.name;
      if (above !== undefined) low.set(above, Math.min(low.get(above) ?? 0, low.get(name) ?? 0));
      if (low.get(name) !== order.get(name)) continue;
      const members = stack.splice(stack.indexOf(name));
      for (const member of members) onStack.delete(member);
      if (members.length > 1 || needs(name).includes(name)) {
        for (const member of members) {
          const declaration = names.get(member);
          if (declaration !== undefined) cycles.set(declaration, [member, ...members.filter((other) => other !== member)]);
        }
      }
    }
  }
  return cycles;
}

const keptNeeds = new WeakMap<Declaration, readonly string[]>();

/**
 * The names that a declaration needs the values or shapes of.
 *
 * @param general those that the pattern's allowance for all pieces needs
 */
export function neededNames(declaration: Declaration | undefined, names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): readonly string[] {
  if (declaration === undefined) return [];
  let needed = keptNeeds.get(declaration);
  if (needed === undefined) {
    const found = new Set<string>();
    for (const use of nameUses(declaration.tree)) {
      if (use.path.length === 0 && (use.role === 'any' || use.role === 'piece' || use.role === 'thing' || use.role === 'supply')) found.add(use.name.text);
    }
    keptNeeds.set(declaration, (needed = [...found]));
  }
  const all = declaration.tree.kind === 'piece' && general.length > 0 ? [...new Set([...needed, ...general])] : needed;
  return all.filter((name) => names.has(name));
}

// ------------------------------------------------------------------------------------------------ the text's own problems

const blockWords: Readonly<Record<string, string>> = { piece: 'a piece', material: 'a material', supply: 'a supply' };

function syntaxProblems(declaration: Declaration): readonly Problem[] {
  return declaration.problems.map((one) => {
    const place = placeOf(declaration, one);
    if (one.kind === 'unclosed block') {
      const end = declaration.text.trimEnd().length;
      return problem('unclosed-block', place, { what: blockWords[declaration.tree.kind] ?? '' }, {
        fixes: [{ title: 'Close the block', edits: [{ place: { chunk: declaration, start: end, end }, newText: '\n}' }], safe: true }],
      });
    }
    if (one.kind === 'unopened block') {
      return problem('unopened-block', place, { what: blockWords[/^\s*(\w+)/.exec(declaration.text.slice(declaration.tree.start))?.[1] ?? ''] ?? '' }, {
        fixes: [{ title: 'Add “{”', edits: [{ place: { chunk: declaration, start: place.end, end: place.end }, newText: ' {' }], safe: false }],
      });
    }
    if (one.kind === 'unclosed text') {
      return problem('unclosed-text', place, { hint: one.hint }, { fixes: [replacement('Close the text', { chunk: declaration, start: place.end, end: place.end }, '"', false)] });
    }
    const near = nearestName(one.found, one.expected);
    return problem('unreadable-line', place, { ...one, near }, near === undefined ? {} : { fixes: [replacement(`Change to “${near}”`, place, near, false)] });
  });
}
