import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { spaced } from '../model/titles.ts';
import type { Display } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import { figure } from './figures.ts';

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

/** Of what is cut large, trimmed later: `1/4 in more all round`. */
export const largerText = (large: Rational, display: Display): string => `${figure(large, display)} more all round`;

/** `cutting line`, `stitching line`, the title of an inner line, or empty for a size of its own. */
export function alongText({ along, piece }: CutLine): string {
  if (along === undefined) return '';
  return along === 'cutting' || along === 'stitching' ? `${along} line` : lineText(piece, along);
}
