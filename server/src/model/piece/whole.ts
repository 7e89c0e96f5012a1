import { union } from '../../geometry/boolean.ts';
import { edgeEnd } from '../../geometry/edge.ts';
import type { Polygon } from '../../geometry/shape.ts';
import { mirroringAcross, movePolyline, type Transform } from '../../geometry/transform.ts';
import type { PieceShape } from './piece.ts';

/** The mirroring across a piece's fold; undefined for a piece that has none. */
export function foldMirroring(shape: PieceShape): Transform | undefined {
  const edge = shape.cutting.edges.find((one) => one.name === shape.fold);
  return edge && mirroringAcross(edge.start, edgeEnd(edge));
}

/** A closed line of a piece as it lies on the opened-out piece: once across the fold, or twice beside it. */
export function openedOut(shape: PieceShape, polygon: Polygon): readonly Polygon[] {
  const mirror = foldMirroring(shape);
  if (mirror === undefined) return [polygon];
  return union([polygon, [...movePolyline(mirror, polygon)].reverse()]);
}
