import { boundsOfPoints, edgeLength } from '../geometry/measure.ts';
import { partOfEdge } from '../geometry/part.ts';
import type { CutLine } from '../model/piece/cut-line.ts';
import type { PieceShape } from '../model/piece/piece.ts';
import { polygonOf } from '../model/piece/polygons.ts';
import { drawnName } from '../model/seams/seam.ts';
import { spaced } from '../model/titles.ts';
import type { Display } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import { figure } from './figures.ts';

/** A name of the spec as a table shows it: `zip_box` reads “zip box”. */
export const nameText = spaced;

/** What an edge of a piece is called: its title, else its name. Of two that are alike, in both halves of a fold, the second is “the other left”. */
export function edgeText({ edgeTitles }: PieceShape, edge: string): string {
  const drawn = drawnName(edge);
  const text = edgeTitles.get(edge) ?? edgeTitles.get(drawn) ?? spaced(drawn);
  return drawn === edge || edgeTitles.has(edge) ? text : `the other ${text}`;
}

/**
 * The same where it is measured: an edge called after one side of its piece that lies at the other, as a mirrored copy has
 * it, says so: `side left (here on the right)`.
 */
export function edgeTextHere(shape: PieceShape, edge: string): string {
  const text = edgeText(shape, edge);
  const [isLeft, isRight] = [/\bleft\b/i.test(text), /\bright\b/i.test(text)];
  const found = shape.whole.stitching.edges.find(({ name }) => name === edge);
  if (isLeft === isRight || found === undefined) return text;
  const [all, own] = [boundsOfPoints(polygonOf(shape.whole.stitching)), boundsOfPoints(partOfEdge(found, 0, edgeLength(found)))];
  const middle = (all.minX + all.maxX) / 2;
  const isElsewhere = isLeft ? own.minX > middle : own.maxX < middle;
  return isElsewhere ? `${text} (here on the ${isLeft ? 'right' : 'left'})` : text;
}

/** What a line inside a piece is called. */
export const lineText = ({ lines }: PieceShape, name: string): string => lines.find((line) => line.name === name)?.title ?? spaced(name);

/** What a line that stitches run along is called, on templates and in tables alike: `Quilting: Middle`. */
export const stitchedLineText = (row: string, line: string): string => (row === line ? row : `${row}: ${line}`);

/** Of what is cut large, trimmed later: `1/4 in more all round`. */
export const largerText = (large: Rational, display: Display): string => `${figure(large, display)} more all round`;

/** `cutting line`, `stitching line`, the title of an inner line, or empty for a size of its own. */
export function alongText({ along, piece }: CutLine): string {
  if (along === undefined) return '';
  return along === 'cutting' || along === 'stitching' ? `${along} line` : lineText(piece, along);
}
