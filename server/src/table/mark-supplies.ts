import type { Pattern, Resolved } from '../model/pattern.ts';
import type { Mark, PieceShape } from '../model/piece/piece.ts';
import type { Supply } from '../model/stock/supply.ts';
import type { Reference } from '../syntax/tree.ts';
import type { NamedDeclaration } from '../model/names/world.ts';
import { listed } from './figures.ts';
import { edgeText, lineText } from './names.ts';

/**
 * Whether a mark is to be told in a combination. A mark for a snap, or one that any supply is set at, belongs to that
 * supply, and so do its copies on other pieces: it is told only where a supply that is there names it on this very piece.
 */
export function tellsMark(pattern: Pattern, resolved: Resolved): (shape: PieceShape, mark: Mark) => boolean {
  const set = new Set(resolved.supplies.filter((supply) => supply.count.n > 0n).flatMap((supply) => supply.marks.map(pathOf)));
  const owned = new Map<unknown, Set<number>>();
  for (const declaration of pattern.world.names.values()) {
    for (const reference of referencesOf(declaration)) {
      const [piece, name] = reference.path;
      const mark = pattern.shape(piece?.text ?? '', resolved.combination)?.marks.find((one) => one.name === name?.text);
      if (mark === undefined) continue;
      const starts = owned.get(mark.place.chunk) ?? new Set();
      owned.set(mark.place.chunk, starts.add(mark.place.start));
    }
  }
  return (shape, mark) => {
    const belongs = mark.snap !== undefined || owned.get(mark.place.chunk)?.has(mark.place.start) === true;
    return !belongs || set.has(`${shape.name}.${mark.name}`);
  };
}

function referencesOf({ tree }: NamedDeclaration): readonly Reference[] {
  return tree.kind !== 'supply' ? [] : tree.body.statements.flatMap((statement) => (statement.kind === 'at' ? statement.marks : []));
}

const pathOf = (reference: Reference): string => reference.path.map((name) => name.text).join('.');

/** Where a supply is set, in titles: `Cover: clasp`, `Pouch: top`. Only places that are there in this combination. */
export function placesSet(supply: Supply, resolved: Resolved): readonly string[] {
  const marks = supply.marks.flatMap((reference) => {
    const [pieceName, markName] = reference.path;
    const piece = resolved.pieces.find((one) => one.shape.name === pieceName?.text);
    const mark = piece?.shape.marks.find((one) => one.name === markName?.text);
    return piece === undefined || mark === undefined || piece.cuts.length === 0 ? [] : [`${piece.shape.title}: ${mark.title}`];
  });
  const edges = resolved.pieces.filter(({ cuts }) => cuts.length > 0).flatMap(({ shape, finishes }) => {
    const taking = [...finishes].flatMap(([edge, finish]) => (finish.supply?.tree.name.text === supply.name ? [edgeOrWindow(shape, edge)] : []));
    return taking.length === 0 ? [] : [`${shape.title}: ${listed(taking)}`];
  });
  return [...marks, ...edges];
}

/** What an edge, or a window that takes a supply, is called in tables. */
export const edgeOrWindow = (shape: PieceShape, name: string): string => (shape.lines.some((line) => line.name === name) ? lineText(shape, name) : edgeText(shape, name));
