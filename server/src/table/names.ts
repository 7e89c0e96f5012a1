import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { spaced } from '../model/titles.ts';

/** A name of the spec as a table shows it: `zip_box` reads “zip box”. */
export const nameText = spaced;

/** What an edge of a piece is called: its title, else its name; that of the other half after its twin. */
export function edgeText({ edgeTitles }: PieceShape, edge: string): string {
  const own = edge.replace(/_twin$/, '');
  const title = edgeTitles.get(edge) ?? (own === edge ? undefined : edgeTitles.get(own));
  return title ?? spaced(edge);
}

/** What a line inside a piece is called. */
export const lineText = ({ lines }: PieceShape, name: string): string => lines.find((line) => line.name === name)?.title ?? spaced(name);

/** `cutting line`, `stitching line`, the title of an inner line, or empty for a size of its own. */
export function alongText({ along, piece }: CutLine): string {
  if (along === undefined) return '';
  return along === 'cutting' || along === 'stitching' ? `${along} line` : lineText(piece, along);
}
