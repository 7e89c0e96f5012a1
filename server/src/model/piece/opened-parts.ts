import { distance } from '../../geometry/vector.ts';
import { movePoint, movePolyline, type Transform } from '../../geometry/transform.ts';
import type { Point, Polyline } from '../../geometry/shape.ts';
import { union } from '../../geometry/boolean.ts';
import type { InnerLine, Mark } from './piece.ts';
import { openedSize } from './whole.ts';

/** Nearer than this, in millimetres, two points are one. */
const near = 0.01;

/** What the twin of a line, mark or edge across the fold is called. */
export const twinName = (name: string): string => `${name}_twin`;

const twinTitle = (title: string): string => `${title}, other half`;

/** A mark, and its mirror image across the fold unless it lies on it. */
export function openedMarks(mirror: Transform, marks: readonly Mark[]): readonly Mark[] {
  return marks.flatMap((mark) => {
    const point = movePoint(mirror, mark.point);
    return distance(point, mark.point) < near ? [mark] : [mark, { ...mark, name: twinName(mark.name), title: twinTitle(mark.title), point }];
  });
}

/**
 * A line as it is on the opened-out piece: one line where it lies on the fold, ends there or is its own mirror image, else
 * itself and its twin.
 */
export const openedLines = (mirror: Transform, lines: readonly InnerLine[]): readonly InnerLine[] => lines.flatMap((line) => (line.closed ? openedRing(mirror, line) : openedRun(mirror, line)));

function openedRing(mirror: Transform, line: InnerLine): readonly InnerLine[] {
  const image = [...movePolyline(mirror, line.points)].reverse();
  const [ring, ...more] = union([line.points, image]);
  if (ring === undefined || more.length > 0) return [line, twinOf(line, image)];
  return [{ ...line, points: ring, rectangle: line.rectangle && openedSize(line.rectangle, ring) }];
}

function openedRun(mirror: Transform, line: InnerLine): readonly InnerLine[] {
  const image = movePolyline(mirror, line.points);
  if (isSame(line.points, image) || isSame(line.points, [...image].reverse())) return [line];
  const joined = joinedAtFold(line.points, image);
  return joined === undefined ? [line, twinOf(line, image)] : [{ ...line, points: joined }];
}

const twinOf = (line: InnerLine, points: Polyline): InnerLine => ({ ...line, name: twinName(line.name), title: twinTitle(line.title), points, ...(line.edge === undefined ? {} : { edge: twinName(line.edge) }) });

const isSame = (one: Polyline, other: Polyline): boolean => one.length === other.length && one.every((point, index) => isAt(point, other[index]));

const isAt = (point: Point | undefined, other: Point | undefined): boolean => point !== undefined && other !== undefined && distance(point, other) < near;

/** A line that ends on the fold, with its mirror image, in the direction it was drawn in; a straight one stays one stretch. */
function joinedAtFold(points: Polyline, image: Polyline): Polyline | undefined {
  if (isAt(points[0], image[0])) return withoutBendlessMiddle([...image.slice(1).reverse(), ...points], image.length - 1);
  if (isAt(points.at(-1), image.at(-1))) return withoutBendlessMiddle([...points, ...[...image].reverse().slice(1)], points.length - 1);
  return undefined;
}

function withoutBendlessMiddle(points: Polyline, middle: number): Polyline {
  const [before, at, after] = [points[middle - 1], points[middle], points[middle + 1]];
  if (before === undefined || at === undefined || after === undefined) return points;
  const isStraight = distance(before, at) + distance(at, after) - distance(before, after) < 1e-9;
  return isStraight ? [...points.slice(0, middle), ...points.slice(middle + 1)] : points;
}
