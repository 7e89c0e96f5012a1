import { union } from '../../geometry/boolean.ts';
import { edgeEnd } from '../../geometry/edge.ts';
import { boundsOfPoints, polygonArea } from '../../geometry/measure.ts';
import type { Polygon } from '../../geometry/shape.ts';
import { mirroringAcross, movePolyline, type Transform } from '../../geometry/transform.ts';
import type { Rational } from '../../units/rational.ts';
import type { ExactSize, InnerLine, PieceShape } from './piece.ts';

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

/** The mirror image of a line beside the fold is as large, but for rounding: what is cut is the one that was drawn. */
const larger = 1 + 1e-6;

/** A closed line as it is on the opened-out piece, with its size where it is a plain rectangle; one of two where it lies beside the fold. */
export function openedLine(shape: PieceShape, line: InnerLine): { readonly outline: Polygon; readonly rectangle: ExactSize | undefined } {
  const outline = openedOut(shape, line.points).reduce((most, one) => (Math.abs(polygonArea(one)) > Math.abs(polygonArea(most)) * larger ? one : most), line.points);
  return { outline, rectangle: line.rectangle && openedSize(line.rectangle, outline) };
}

/** The exact size of a rectangle once it is opened out: one that begins at the fold doubles across it. */
export function openedSize(drawn: ExactSize, whole: Polygon): ExactSize | undefined {
  const box = boundsOfPoints(whole);
  const opened = (side: Rational, measured: number): Rational | undefined =>
    [side, side.mul(2)].find((one) => Math.abs(one.valueOf() - measured) < 0.01);
  const width = opened(drawn.width, box.maxX - box.minX);
  const height = opened(drawn.height, box.maxY - box.minY);
  return width && height && { width, height, exact: drawn.exact };
}
