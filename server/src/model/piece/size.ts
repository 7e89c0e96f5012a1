import { isCircle } from '../../geometry/circle.ts';
import { bounds, boundsOfPoints, outlineArea, perimeter, polygonArea, polylineLength } from '../../geometry/measure.ts';
import type { Bounds } from '../../geometry/measure.ts';
import type { Polygon } from '../../geometry/shape.ts';
import { measured } from '../../units/rational.ts';
import type { Rational } from '../../units/rational.ts';
import type { CutLine } from './cut-line.ts';
import type { ExactSize, InnerLine, PieceShape } from './piece.ts';
import { polygonOf } from './polygons.ts';
import { openedLine } from './whole.ts';

/** Width and height in millimetres. `exact` where every figure is as written, not measured along curves or offsets. */
export interface Size extends ExactSize {
  /** Whether it is the size of a plain rectangle, which needs no template; else that of the upright box round it. */
  readonly plain: boolean;
  /** Whether it is that of a circle, both ways its diameter. */
  readonly circle: boolean;
}

/** The lines that run round a piece. */
export type Round = 'cutting' | 'stitching';

/**
 * The size of a piece opened out: as cut, or between its stitching lines, which is its finished size. Its box reaches
 * exactly to where its curves do.
 */
export function sizeOfPiece(shape: PieceShape, along: Round): Size {
  return plainOrMeasured(shape.rectangle?.[along], () => bounds(shape.whole[along]), () => polygonOf(shape.whole[along]));
}

/** The area in mm² inside a line round a piece, opened out. */
export const areaOfPiece = (shape: PieceShape, along: Round): Rational => measured(outlineArea(shape.whole[along]));

/** The length in mm all the way round a piece, opened out. */
export const lengthRound = (shape: PieceShape, along: Round): Rational => measured(perimeter(shape.whole[along]));

/** The size of a line inside a piece: of a closed one opened out, as its piece is; of an open one as it is drawn. */
export function sizeOfLine(shape: PieceShape, line: InnerLine): Size {
  const { outline, rectangle } = linePoints(shape, line);
  return plainOrMeasured(rectangle, () => boundsOfPoints(outline), () => (line.closed ? outline : []));
}

/** The length in mm of an open line as it is drawn, or all the way round a closed one, opened out. */
export function lengthOfLine(shape: PieceShape, line: InnerLine): Rational {
  const { outline } = linePoints(shape, line);
  return measured(polylineLength(line.closed ? [...outline, ...outline.slice(0, 1)] : outline));
}

/** The area in mm² inside a line, opened out where it is closed. */
export const areaOfLine = (shape: PieceShape, line: InnerLine): Rational => measured(Math.abs(polygonArea(linePoints(shape, line).outline)));

/** The size of what a cut line has cut, windows aside: of the line that it is cut along, opened out. */
export const sizeOfCut = ({ rectangle, bounds: { width, height }, outline }: CutLine): Size =>
  rectangle === undefined ? { width: measured(width), height: measured(height), exact: false, plain: false, circle: isCircle(outline) } : { ...rectangle, plain: true, circle: false };

const linePoints = (shape: PieceShape, line: InnerLine): Pick<ReturnType<typeof openedLine>, 'outline' | 'rectangle'> =>
  line.closed ? openedLine(shape, line) : { outline: line.points, rectangle: undefined };

function plainOrMeasured(rectangle: ExactSize | undefined, box: () => Bounds, outline: () => Polygon): Size {
  if (rectangle !== undefined) return { ...rectangle, plain: true, circle: false };
  const { minX, minY, maxX, maxY } = box();
  return { width: measured(maxX - minX), height: measured(maxY - minY), exact: false, plain: false, circle: isCircle(outline()) };
}
