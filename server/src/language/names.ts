import type { Choice } from '../model/names/world.ts';
import { lineMeasures, pieceMeasures, seamMeasures } from '../model/formulas/reference.ts';
import { supplyMeasures } from '../model/stock/supply.ts';
import type { Declaration, Name, PieceDeclaration } from '../syntax/tree.ts';
import { nameUses, type NameUse } from '../syntax/walk.ts';
import type { Located, Snapshot } from '../workspace/snapshot.ts';

type PieceOf = Declaration & { readonly tree: PieceDeclaration };
export type PartKind = 'edge' | 'line' | 'mark';

/** What a name in the text stands for. */
export type Target =
  /** A value, thing, material, supply or piece. */
  | { readonly kind: 'named'; readonly declaration: Declaration; readonly name: Name }
  /** A choice; the sizes have no name of their own in the text. */
  | { readonly kind: 'choice'; readonly declaration: Declaration; readonly choice: string; readonly name: Name | undefined }
  | { readonly kind: 'option'; readonly declaration: Declaration; readonly choice: string; readonly name: Name }
  /** A part of a piece that the piece's text names: an edge, a line or a mark. */
  | { readonly kind: 'part'; readonly part: PartKind; readonly declaration: PieceOf; readonly name: Name }
  /** A side that a shape has by itself, such as `top` of a rectangle; it belongs to the piece whose outline it is. */
  | { readonly kind: 'side'; readonly declaration: PieceOf; readonly text: string }
  /** A measure such as `cover.width` or `zip.finished`. */
  | { readonly kind: 'measure'; readonly declaration: Declaration; readonly of: string; readonly text: string }
  | { readonly kind: 'function'; readonly text: string };

/** A name as it is used somewhere, with what it stands for. */
export interface FoundName {
  readonly declaration: Declaration;
  /** Where the declaration starts in its file. */
  readonly offset: number;
  readonly use: NameUse;
  readonly target: Target;
}

/** What the name at an offset of the snapshot's own file stands for; undefined where there is no known name. */
export function nameAt(snapshot: Snapshot, offset: number): FoundName | undefined {
  const found = snapshot.declarationAt(offset);
  const before = offset > 0 ? snapshot.declarationAt(offset - 1) : undefined;
  for (const at of [found, before]) {
    if (at === undefined) continue;
    const inside = offset - at.offset;
    const uses = nameUses(at.declaration.tree);
    const use = uses.find(({ name }) => name.start <= inside && inside < name.end) ?? uses.find(({ name }) => name.end === inside);
    const target = use && resolveName(snapshot, at.declaration, use);
    if (use !== undefined && target !== undefined) return { ...at, use, target };
  }
  return undefined;
}

/** What a name used in a declaration stands for in the snapshot's pattern. */
export function resolveName(snapshot: Snapshot, declaration: Declaration, use: NameUse): Target | undefined {
  const { world } = snapshot.pattern;
  const { name, role, path } = use;
  switch (role) {
    case 'declared':
      return declared(declaration, name, path);
    case 'choice':
      return choiceTarget(world.choices.get(name.text));
    case 'option': {
      const owners = path[0] === undefined ? (world.optionOwners.get(name.text) ?? []) : [path[0].text];
      return owners.length === 1 ? optionTarget(world.choices.get(owners[0] ?? ''), name.text) : undefined;
    }
    case 'function':
      return { kind: 'function', text: name.text };
    case 'edge':
      return isPiece(declaration) ? partOf(snapshot, declaration, name.text, ['edge', 'line']) : undefined;
    case 'line':
    case 'mark':
      return lineOf(snapshot, declaration, use);
    default:
      return path.length === 0 ? named(snapshot, name.text) : member(snapshot, path, name.text);
  }
}

/** A line or mark of the piece itself, or a line of the piece that is named beside it. */
function lineOf(snapshot: Snapshot, declaration: Declaration, { name, path: [beside] }: NameUse): Target | undefined {
  const owner = beside === undefined ? declaration : snapshot.pattern.world.names.get(beside.text);
  const own = owner === declaration && isPiece(declaration) ? ownPart(declaration, name.text, ['line', 'mark'], name) : undefined;
  return own ?? (owner !== undefined && isPiece(owner) ? partOf(snapshot, owner, name.text, ['line']) : undefined);
}

function declared(declaration: Declaration, name: Name, path: readonly Name[]): Target | undefined {
  const { tree } = declaration;
  if (tree.kind === 'sizes') return { kind: 'option', declaration, choice: 'size', name };
  if (tree.kind !== 'choice') return { kind: 'named', declaration, name };
  return path[0] === undefined
    ? { kind: 'choice', declaration, choice: tree.name.text, name }
    : { kind: 'option', declaration, choice: tree.name.text, name };
}

function named(snapshot: Snapshot, text: string): Target | undefined {
  const declaration = snapshot.pattern.world.names.get(text);
  return declaration && { kind: 'named', declaration, name: declaration.tree.name };
}

function choiceTarget(choice: Choice | undefined): Target | undefined {
  if (choice === undefined) return undefined;
  const { tree } = choice.declaration;
  return { kind: 'choice', declaration: choice.declaration, choice: choice.name, name: tree.kind === 'choice' ? tree.name : undefined };
}

function optionTarget(choice: Choice | undefined, text: string): Target | undefined {
  const name = choice?.declaration.tree.options.find((option) => option.text === text);
  return choice && name && { kind: 'option', declaration: choice.declaration, choice: choice.name, name };
}

/** `top` of `cover.top`, `width` of `zip.width`, `area` of `cover.core.area`. */
function member(snapshot: Snapshot, path: readonly Name[], text: string): Target | undefined {
  const owner = snapshot.pattern.world.names.get(path[0]?.text ?? '');
  if (owner === undefined) return undefined;
  const measure = (known: readonly string[], of: string): Target | undefined => (known.includes(text) ? { kind: 'measure', declaration: owner, of, text } : undefined);
  if (path[1] !== undefined) return measure(Object.keys(lineMeasures), `${owner.tree.name.text}.${path[1].text}`);
  const of = owner.tree.name.text;
  switch (owner.tree.kind) {
    case 'piece':
      return (isPiece(owner) ? partOf(snapshot, owner, text, ['line', 'mark', 'edge']) : undefined) ?? measure([...Object.keys(pieceMeasures), 'cutting', 'stitching'], of);
    case 'supply':
      return measure(supplyMeasures, of);
    case 'thing':
      return measure(['width', 'height'], of);
    case 'material':
      return measure(['width', 'usable'], of);
    case 'seam':
      return measure(Object.keys(seamMeasures), of);
    case 'value':
      return undefined;
  }
}

// ------------------------------------------------------------------------------------------------ parts of pieces

export const isPiece = (declaration: Declaration): declaration is PieceOf => declaration.tree.kind === 'piece';

/** An edge of the half that unfolding makes is called after the one that is drawn. */
const twin = /_twin$/;

/** A part of a piece, its own or its parent's. */
function partOf(snapshot: Snapshot, piece: PieceOf, text: string, kinds: readonly PartKind[]): Target | undefined {
  const plain = text.replace(twin, '');
  const met = new Set<Declaration>();
  for (let at: Declaration | undefined = piece; at !== undefined && isPiece(at) && !met.has(at); at = parentOf(snapshot, at)) {
    met.add(at);
    const own = ownPart(at, plain, kinds);
    if (own !== undefined) return own;
    // A piece with an outline of its own has none of its parent's edges, but its parent's lines unless it redraws them.
    if (kinds.includes('edge') && (hasOutline(at) || parentOf(snapshot, at) === undefined)) {
      const side = sideOf(snapshot, piece, at, plain);
      if (side !== undefined) return side;
    }
  }
  return undefined;
}

function parentOf(snapshot: Snapshot, piece: PieceOf): Declaration | undefined {
  const name = piece.tree.parent?.name.text;
  return name === undefined ? undefined : snapshot.pattern.world.names.get(name);
}

const hasOutline = (piece: PieceOf): boolean => piece.tree.body.statements.some((statement) => statement.kind === 'outline');

/** A part that a piece's own text names. `at` asks for the one that is written just there. */
function ownPart(piece: PieceOf, text: string, kinds: readonly PartKind[], at?: Name): Target | undefined {
  let found: { part: PartKind; name: Name } | undefined;
  const offer = (part: PartKind, name: Name | undefined): void => {
    if (name === undefined || name.text !== text || !kinds.includes(part)) return;
    if (found === undefined || name === at || (found.name !== at && kinds.indexOf(part) < kinds.indexOf(found.part))) found = { part, name };
  };
  for (const { name, role, declares } of nameUses(piece.tree)) if (declares && (role === 'line' || role === 'mark' || role === 'edge')) offer(role, name);
  return found && { kind: 'part', declaration: piece, ...found };
}

/** Sides that shapes have by themselves: of the shape as computed, or the usual ones where nothing is computed. */
function sideOf(snapshot: Snapshot, piece: PieceOf, owner: PieceOf, text: string): Target | undefined {
  const drawn = snapshot.pattern.shape(piece.tree.name.text, new Map())?.drawn.edges.map((edge) => edge.name);
  const known = [...(drawn ?? []), 'all', ...rectangleSides];
  return known.includes(text) ? { kind: 'side', declaration: owner, text } : undefined;
}

const rectangleSides = ['top', 'bottom', 'left', 'right', 'top_left', 'top_right', 'bottom_left', 'bottom_right'];

// ------------------------------------------------------------------------------------------------ uses

export const sameTarget = (a: Target, b: Target): boolean => a.kind === b.kind && whatItIs(a).every((one, index) => one === whatItIs(b)[index]);

/** What tells a target from all others of its kind. */
const whatItIs = (target: Target): readonly unknown[] => [
  textOf(target), 'declaration' in target ? target.declaration : undefined, 'part' in target ? target.part : undefined, 'of' in target ? target.of : undefined,
];

/** What a target is called in the text. */
export const textOf = (target: Target): string => (target.kind === 'choice' ? target.choice : 'name' in target ? target.name.text : target.text);

/** Where a target's name is declared; undefined for what no text declares. */
export function declarationPlace(snapshot: Snapshot, target: Target): Located | undefined {
  if (target.kind === 'choice' && target.name === undefined) {
    return snapshot.locate({ chunk: target.declaration, start: target.declaration.tree.start, end: target.declaration.tree.start + 'sizes'.length });
  }
  if (!('name' in target) || target.name === undefined) return undefined;
  return snapshot.locate({ chunk: target.declaration, start: target.name.start, end: target.name.end });
}

export interface Use extends Located {
  /** Where the name is made, as against used. */
  readonly declares: boolean;
}

/** Every use of a target in all files of a pattern, in the order of the files. */
export function usesIn(snapshot: Snapshot, target: Target): readonly Use[] {
  const wanted = textOf(target);
  const uses: Use[] = [];
  for (const file of snapshot.pattern.world.files) {
    for (const { declaration, offset } of file.declarations) {
      for (const use of nameUses(declaration.tree)) {
        const { name } = use;
        if (name.text.replace(twin, '') !== wanted && name.text !== wanted) continue;
        const found = resolveName(snapshot, declaration, use);
        if (found === undefined || !sameTarget(found, target)) continue;
        const declares = 'name' in target && declaration === target.declaration && name === target.name;
        const end = name.start + wanted.length;
        uses.push({ file: file.path, start: offset + name.start, end: offset + end, declares });
      }
    }
  }
  return uses;
}

/**
 * Every use of a target in a pattern and in others that share a file with it, each once.
 *
 * @param others the snapshots of other patterns that use the file where the target is declared
 */
export function usesInAll(snapshot: Snapshot, others: readonly Snapshot[], target: Target): readonly Use[] {
  const all = new Map<string, Use>();
  for (const one of [snapshot, ...others]) for (const use of usesIn(one, target)) all.set(`${use.file} ${use.start}`, use);
  return [...all.values()].sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : a.start - b.start));
}

/** The file that a target is declared in, so that a host can find what else uses it. */
export const fileOf = (target: Target): string | undefined => (target.kind === 'function' ? undefined : target.declaration.file);
