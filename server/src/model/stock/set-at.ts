import { allDefined } from '../formulas/evaluate.ts';
import { cutsOf } from '../piece/cuts.ts';
import type { CutLine } from '../piece/cut-line.ts';
import type { Mark, PieceShape } from '../piece/piece.ts';
import { openedMarks } from '../piece/opened-parts.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { foldMirroring } from '../piece/whole.ts';
import { declarationOf } from '../query/inputs.ts';
import type { Context } from '../query/query.ts';
import type { Reference } from '../../syntax/tree.ts';
import { rational, zero, type Rational } from '../../units/rational.ts';
import type { SupplyKind } from './supply.ts';

/** A mark that a supply is set at, on a piece that is cut in the combination at hand, and how many of that piece. */
export interface SetAt {
  readonly piece: PieceShape;
  readonly mark: Mark;
  readonly pieces: Rational;
  /** How often the mark is on each: twice where a piece drawn as half has it beside the fold. */
  readonly onEach: number;
}

/** Where marks lie in the combination at hand: none of a piece that isn't cut; undefined where a mark isn't there at all. */
export function placesSetAt(context: Context, marks: readonly Reference[]): readonly SetAt[] | undefined {
  const places = allDefined(marks.map(({ path: [pieceName, markName, ...more] }): readonly SetAt[] | undefined => {
    const declaration = pieceName && context.get(declarationOf, pieceName.text);
    if (declaration?.tree.kind !== 'piece' || more.length > 0) return undefined;
    if (!context.get(isWanted, declaration)) return [];
    const piece = context.get(shapeOf, declaration);
    const mark = piece?.marks.find((one) => one.name === markName?.text);
    if (piece === undefined || mark === undefined) return undefined;
    const pieces = piecesCut(context.get(cutsOf, declaration));
    return pieces.n === 0n ? [] : [{ piece, mark, pieces, onEach: onOpened(piece, mark) }];
  }));
  return places?.flat();
}

/** How often a mark is on the piece once it is opened out: twice, unless the piece has no fold or the mark lies on it. */
function onOpened(piece: PieceShape, mark: Mark): number {
  const mirror = foldMirroring(piece);
  return mirror === undefined ? 1 : openedMarks(mirror, [mark]).length;
}

/** How many of a piece there are once its layers are put together: as many as of the cloth that most are cut from. */
function piecesCut(lines: readonly CutLine[]): Rational {
  const cloths = lines.filter((line) => line.layer === undefined);
  const counts = new Map<string, Rational>();
  for (const { material, count } of cloths) counts.set(material.name, (counts.get(material.name) ?? zero).add(count));
  return [...counts.values()].reduce((most, count) => (count.compare(most) > 0 ? count : most), zero);
}

/**
 * How many of a supply its places take: one for each mark on each piece. A snap has two halves, so it takes two places: one
 * on each of two pieces, or both on alike ones; a half that has no place of its own goes unsaid. A tab that is cut twice, to
 * be sewn into one, doesn't make two snaps of one on a pocket.
 */
export function countOf(kind: SupplyKind, places: readonly SetAt[]): Rational {
  const onPiece = new Map<PieceShape, Rational>();
  for (const { piece, pieces, onEach } of places) onPiece.set(piece, (onPiece.get(piece) ?? zero).add(pieces.mul(onEach)));
  const counts = [...onPiece.values()].sort((a, b) => b.compare(a));
  const [most = zero, ...others] = counts;
  const rest = others.reduce((sum, count) => sum.add(count), zero);
  if (kind !== 'snap') return most.add(rest);
  if (others.length === 0) return most.div(2).ceil();
  return rational(most.compare(rest) < 0 ? most.n : rest.n);
}
