import { edgeEnd } from '../../geometry/edge.ts';
import type { Edge, Point } from '../../geometry/shape.ts';
import { cross, dot, minus } from '../../geometry/vector.ts';
import { foldedOf } from '../piece/folded.ts';
import type { PieceShape } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { sizeOfPiece } from '../piece/size.ts';
import { declarationOf } from '../query/inputs.ts';
import type { Context } from '../query/query.ts';
import type { Supply } from '../stock/supply.ts';

/** A piece that a ring is threaded on. */
export interface Threaded {
  readonly piece: PieceShape;
  /** The edges that run across it, named as on the opened-out piece: over any that is free, the ring still goes on. */
  readonly ends: readonly string[];
}

/** The piece that a supply fits; undefined where it fits none, or a fault stands in the way. */
export function threadedOn(context: Context, { fits }: Supply): Threaded | undefined {
  const [owner, name] = fits?.path ?? [];
  const declaration = owner && context.get(declarationOf, owner.text);
  const piece = declaration?.tree.kind === 'piece' && context.get(isWanted, declaration) ? context.get(shapeOf, declaration) : undefined;
  if (declaration === undefined || piece === undefined) return undefined;
  const { edges } = piece.whole.stitching;
  const named = name && edges.find((edge) => edge.name === name.text);
  if (name !== undefined && named === undefined) return undefined;
  const across = named === undefined ? narrowerSide(context, piece) : chord(named);
  return { piece, ends: edges.filter((edge) => Math.abs(dot(chord(edge), across)) > Math.abs(cross(chord(edge), across))).map((edge) => edge.name) };
}

/** The direction that a strap is measured across, where no edge is named. */
function narrowerSide(context: Context, piece: PieceShape): Point {
  const { width, height } = context.get(foldedOf, piece.declaration)?.size ?? sizeOfPiece(piece, 'stitching');
  return width.compare(height) < 0 ? { x: 1, y: 0 } : { x: 0, y: 1 };
}

const chord = (edge: Edge): Point => minus(edgeEnd(edge), edge.start);
