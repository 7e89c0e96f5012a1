import type { Declaration, Name } from '../../syntax/tree.ts';
import { nameUses, type NameUse } from '../../syntax/walk.ts';
import type { NamedDeclaration, World } from './world.ts';

/** A way from a name back to itself. */
export interface Cycle {
  /** From the name on; where {@link count} is more, only some of the names that need one another. */
  readonly names: readonly string[];
  readonly count: number;
}

/**
 * Where there was no cycle before, a new one must go through a name that has a new declaration; as long as none of those
 * comes back to itself, the whole need not be searched.
 */
export function cyclesAfter(previous: World | undefined, names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): ReadonlyMap<Declaration, Cycle> {
  if (previous === undefined || previous.cycles.size > 0 || previous.general !== general) return sameCycles(previous?.cycles, findCycles(names, general));
  const changed = [...names].filter(([name, declaration]) => previous.names.get(name) !== declaration);
  // Whoever needs a seam's length needs what stands second in it, and so may come back to itself past the seam.
  const isMuch = changed.length > mostSearched || changed.some(([name, { tree }]) => tree.kind === 'seam' || previous.names.get(name)?.tree.kind === 'seam');
  return isMuch || changed.some(([name]) => needsItself(name, names, general)) ? findCycles(names, general) : previous.cycles;
}

/** Where more names than this have changed, the whole is searched at once. */
const mostSearched = 10;

/** The new ones, each the very same object as before where it says the same. */
function sameCycles(before: World['cycles'] | undefined, now: Map<Declaration, Cycle>): World['cycles'] {
  for (const [declaration, cycle] of now) {
    const old = before?.get(declaration);
    if (old?.count === cycle.count && old.names.join(' ') === cycle.names.join(' ')) now.set(declaration, old);
  }
  return now;
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
function findCycles(names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): Map<Declaration, Cycle> {
  const cycles = new Map<Declaration, Cycle>();
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
      const members = stack.splice(stack.lastIndexOf(name));
      for (const member of members) onStack.delete(member);
      if (members.length > 1 || needs(name).includes(name)) for (const [member, cycle] of cyclesIn(members, needs)) {
        const declaration = names.get(member);
        if (declaration !== undefined) cycles.set(declaration, cycle);
      }
    }
  }
  return cycles;
}

/** Of so many names that need one another, each is told its own way round; of more, only a few of their names. */
const mostWaysRound = 12;

/** For each of the names that need one another, the shortest way from it back to itself. */
function* cyclesIn(members: readonly string[], needs: (name: string) => readonly string[]): Generator<readonly [string, Cycle]> {
  const among = new Set(members);
  for (const member of members) {
    if (members.length > mostWaysRound) {
      const next = needs(member).find((name) => name !== member && among.has(name)) ?? member;
      const others = members.slice(0, 4).filter((name) => name !== member && name !== next);
      yield [member, { names: [member, ...(next === member ? [] : [next]), ...others.slice(0, 2)], count: members.length }];
      continue;
    }
    const names = wayRound(member, among, needs);
    yield [member, { names, count: names.length }];
  }
}

function wayRound(from: string, among: ReadonlySet<string>, needs: (name: string) => readonly string[]): readonly string[] {
  const cameFrom = new Map<string, string | undefined>([[from, undefined]]);
  // A map is walked in the order in which it was filled, which here is breadth first.
  for (const name of cameFrom.keys()) {
    for (const needed of needs(name)) {
      if (needed === from) {
        const way = [name];
        for (let before = cameFrom.get(name); before !== undefined; before = cameFrom.get(before)) way.push(before);
        return way.reverse();
      }
      if (among.has(needed) && !cameFrom.has(needed)) cameFrom.set(needed, name);
    }
  }
  return [from];
}

const lengthWord = '.length';
const lengthOf = (name: string): string => `${name}${lengthWord}`;
const isLength = (name: string): boolean => name.endsWith(lengthWord);

/** How long a seam is is told by its second run alone: what stands first may be made as long. */
function behindLength(declaration: NamedDeclaration | undefined): readonly string[] {
  if (declaration?.tree.kind !== 'seam') return declaration === undefined ? [] : [declaration.tree.name.text];
  const { second } = declaration.tree;
  const [start, end] = [second[0]?.start ?? 0, second.at(-1)?.end ?? 0];
  return nameUses(declaration.tree).filter(({ name, path, role }) => path.length === 0 && role === 'any' && name.start >= start && name.end <= end).map(({ name }) => name.text);
}

const needsByDeclaration = new WeakMap<Declaration, readonly string[]>();

/** Whether a name stands in the size of a layer, which hangs on its piece's shape, but nothing of that shape on it. */
export const isLayerSize = (tree: Declaration['tree'], { start, end }: Name): boolean => tree.kind === 'piece' && tree.body.statements.some((statement) =>
  statement.kind === 'cut' && statement.clauses.some((clause) => (clause.kind === 'sized' || clause.kind === 'large') && clause.start <= start && end <= clause.end));

/** Whether a name stands where something is only held against what it names: nothing rests on it. */
function isComparedOnly(tree: Declaration['tree'], { start, end }: Name): boolean {
  const holds = (statement: { readonly start: number; readonly end: number }): boolean => statement.start <= start && end <= statement.end;
  if (tree.kind === 'supply') return tree.body.statements.some((statement) => statement.kind === 'fits' && holds(statement));
  return tree.kind === 'piece' && tree.body.statements.some((statement) => statement.kind === 'edge finish' && statement.hem !== undefined && holds(statement.hem));
}

/**
 * The names that a declaration needs the values or shapes of.
 *
 * @param general those that the pattern's allowance for all pieces needs
 */
export function neededNames(declaration: Declaration | undefined, names: ReadonlyMap<string, NamedDeclaration>, general: readonly string[]): readonly string[] {
  if (declaration === undefined) return [];
  let needed = needsByDeclaration.get(declaration);
  if (needed === undefined) needsByDeclaration.set(declaration, (needed = ownNeeds(declaration)));
  const own = needed.some(isLength) ? needed.flatMap((name) => (isLength(name) ? behindLength(names.get(name.slice(0, -lengthWord.length))) : [name])) : needed;
  const all = declaration.tree.kind === 'piece' && general.length > 0 ? [...new Set([...own, ...general])] : own;
  return all.filter((name) => names.has(name));
}

/** The names that a declaration's own text needs, with what of them is asked. */
function ownNeeds({ tree }: Declaration): readonly string[] {
  const uses = new Set<string>();
  const lengths = new Set<Name>();
  for (const { name, path: [owner, ...more] } of nameUses(tree)) if (owner !== undefined && more.length === 0 && name.text === 'length') lengths.add(owner);
  for (const use of nameUses(tree)) if (isNeeded(tree, use)) uses.add(lengths.has(use.name) ? lengthOf(use.name.text) : use.name.text);
  return [...uses];
}

function isNeeded(tree: Declaration['tree'], { name, path, role, isTold }: NameUse): boolean {
  const own = 'name' in tree ? tree.name.text : undefined;
  // A note may tell of its own piece, and of seams that it is sewn in.
  if ((own !== undefined && isTold === true) || path.length > 0 || isComparedOnly(tree, name)) return false;
  // A tape may be as long as the edge that it binds: a piece names its supplies, but nothing of it rests on them.
  if (tree.kind === 'piece' && (role === 'supply' || (name.text === own && isLayerSize(tree, name)))) return false;
  return role === 'any' || role === 'piece' || role === 'thing' || role === 'supply';
}
