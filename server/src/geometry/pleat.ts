import { crossing, mirrored } from './dart.ts';
import { distancePointToPolyline } from './distance.ts';
import { flattenEdge } from './flatten.ts';
import type { Edge, Point, Polyline } from './shape.ts';
import { between, distance, dot, minus, plus, times, unit } from './vector.ts';

/** Where a line of a pleat leaves the stitching line, and the unit direction in which it runs into the piece. */
export interface PleatLine {
  readonly at: Point;
  readonly inwards: Point;
}

/** What is cut as near as this to where it was, in millimetres, is left as it was. */
const least = 0.05;

/**
 * A cutting edge trued over a pleat on its stitching line: once that is laid, all its layers are cut as the one on top, which
 * is the cloth before the fold. From the fold to the middle the edge is the mirror image of that in the fold; from there to
 * where the fold is laid, its image as it is moved there. Undefined where nothing is to be done: the edge is straight or round
 * there, or what lies on top ends before the pleat does.
 *
 * @param isAhead whether the fold is laid the way that the outline runs
 */
export function truedOverPleat(edge: Edge, fold: PleatLine, laid: PleatLine, isAhead: boolean): Edge | undefined {
  const plain = flattenEdge(edge);
  const points = isAhead ? plain : plain.toReversed();
  const [out, back] = [fold, laid].map(({ at, inwards }) => crossing(points, plus(at, inwards), minus(at, times(inwards, 1e-3))));
  if (out === undefined || back === undefined || out.index > back.index) return undefined;
  const top = [out.point, ...points.slice(0, out.index + 1).toReversed()];
  const middle = middleLine(fold, laid);
  const under = upTo(middle, top.map((point) => mirrored(point, fold.at, plus(fold.at, fold.inwards))));
  const below = upTo(middle, top.map((point) => carried(point, fold, laid)));
  if (under === undefined || below === undefined) return undefined;
  const over = [...under, ...below.toReversed()];
  if (over.every((point) => distancePointToPolyline(point, plain) < least)) return undefined;
  const all = [...points.slice(0, out.index + 1), ...over, ...points.slice(back.index + 1)];
  const [start, ...rest] = isAhead ? all : all.toReversed();
  return start === undefined ? undefined : { ...edge, start, segments: rest.filter((point, index) => distance(point, rest[index - 1] ?? start) > 1e-9).map((to) => ({ kind: 'line', to })) };
}

/** Where the pleat turns back: a line from inside the piece out of it, square to what joins fold and laid line. No allowance is as wide as it is long. */
function middleLine({ at: from }: PleatLine, { at: to, inwards }: PleatLine): readonly [Point, Point] {
  const along = unit(minus(to, from));
  const square = { x: -along.y, y: along.x };
  const inside = times(square, dot(square, inwards) > 0 ? 200 : -200);
  const middle = between(from, to, 0.5);
  return [plus(middle, inside), plus(middle, times(inside, 0.98))];
}

/** A run of points up to where it meets a line; undefined where it doesn't. */
function upTo([tip, end]: readonly [Point, Point], points: Polyline): Polyline | undefined {
  const met = crossing(points, tip, end);
  return met && [...points.slice(0, met.index + 1), met.point];
}

/** A point as it lies once the fold is laid: turned and moved with it. */
function carried(point: Point, fold: PleatLine, laid: PleatLine): Point {
  const off = minus(point, fold.at);
  const square = ({ inwards: { x, y } }: PleatLine): Point => ({ x: -y, y: x });
  return plus(laid.at, plus(times(laid.inwards, dot(off, fold.inwards)), times(square(laid), dot(off, square(fold)))));
}
