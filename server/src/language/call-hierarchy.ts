import type { PieceDeclaration } from '../syntax/tree.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { TextRange } from './results.ts';

/** A piece in the tree of those drawn from others. */
export interface PieceItem extends TextRange {
  readonly name: string;
  readonly title: string;
  /** Its name in its declaration. */
  readonly nameRange: TextRange;
}

export interface PieceLink {
  readonly piece: PieceItem;
  /** Where the one names the other. */
  readonly places: readonly TextRange[];
}

/** The piece that is declared or named at an offset. */
export function pieceAt(snapshot: Snapshot, offset: number): PieceItem | undefined {
  const found = snapshot.declarationAt(offset);
  const tree = found?.declaration.tree;
  if (found === undefined || tree?.kind !== 'piece') return undefined;
  const at = offset - found.offset;
  const named = [tree.name, tree.parent?.name].find((name) => name !== undefined && name.start <= at && at <= name.end);
  return named && pieceNamed(snapshot, named.text);
}

/** The pieces that a piece is drawn from: none or one. */
export function parentsOf(snapshot: Snapshot, name: string): readonly PieceLink[] {
  const own = declared(snapshot).find((one) => one.item.name === name);
  const parent = own?.tree.parent;
  const piece = parent && pieceNamed(snapshot, parent.name.text);
  return own === undefined || parent === undefined || piece === undefined ? [] : [{ piece, places: [{ start: own.offset + parent.name.start, end: own.offset + parent.name.end }] }];
}

/** The pieces drawn from a piece. */
export function childrenOf(snapshot: Snapshot, name: string): readonly PieceLink[] {
  return declared(snapshot).flatMap(({ item, tree, offset }) => {
    const parent = tree.parent?.name;
    return parent?.text === name ? [{ piece: item, places: [{ start: offset + parent.start, end: offset + parent.end }] }] : [];
  });
}

function pieceNamed(snapshot: Snapshot, name: string): PieceItem | undefined {
  return declared(snapshot).find((one) => one.item.name === name)?.item;
}

/** Pieces stand in the pattern's own file alone; of two with one name the first counts. */
function declared(snapshot: Snapshot): readonly { readonly item: PieceItem; readonly tree: PieceDeclaration; readonly offset: number }[] {
  return snapshot.file.declarations.flatMap(({ declaration, offset }) => {
    const { tree } = declaration;
    if (tree.kind !== 'piece') return [];
    const nameRange = { start: offset + tree.name.start, end: offset + tree.name.end };
    return [{ tree, offset, item: { name: tree.name.text, title: tree.title?.value ?? tree.name.text, start: offset + tree.start, end: offset + tree.end, nameRange } }];
  });
}
