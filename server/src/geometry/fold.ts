import { polygonArea } from './measure.ts';
import type { Point, Polygon } from './shape.ts';
import { between } from './vector.ts';

/** Layers on either side of a fold, all as they lie once it is made. */
export interface Fold {
  readonly stays: readonly Polygon[];
  readonly turned: readonly Polygon[];
  /** Whether what was on the left of the line is turned over. */
  readonly turnsLeft: boolean;
}

/** A fold as it is made: a line, and whether what is on its left is turned over. */
export interface Turn {
  readonly along: readonly [Point, Point];
  readonly turnsLeft: boolean;
}

/**
 * Folds layers that lie on one another along a straight line that goes on beyond its ends: what is on the smaller side of it
 * is turned over on to the other. Undefined where nothing lies on one of its sides.
 */
export function foldLayers(layers: readonly Polygon[], [a, b]: readonly [Point, Point]): Fold | undefined {
  const left = layers.map((layer) => onLeft(layer, a, b)).filter(isArea);
  const right = layers.map((layer) => onLeft(layer, b, a)).filter(isArea);
  if (left.length === 0 || right.length === 0) return undefined;
  const turnsLeft = areaOf(left) < areaOf(right);
  const [stays, turned] = turnsLeft ? [right, left] : [left, right];
  // A mirrored ring runs the other way round.
  return { stays, turnsLeft, turned: turned.map((layer) => layer.map((point) => mirrored(point, a, b)).reverse()) };
}

/** How far apart the ends of a straight run of points lie, in their unit, once folds are made one after the other. */
export function foldedReach(points: readonly Point[], turns: readonly Turn[]): number {
  let lying = points;
  for (const { along: [a, b], turnsLeft } of turns) {
    lying = withCrossings(lying, a, b).map((point) => (sideOf(point, a, b) > 0 === turnsLeft ? mirrored(point, a, b) : point));
  }
  return Math.max(0, ...lying.flatMap((one) => lying.map((other) => Math.hypot(one.x - other.x, one.y - other.y))));
}

/** The points with those between, where the run crosses a line. */
const withCrossings = (points: readonly Point[], a: Point, b: Point): readonly Point[] => points.flatMap((point, index) => {
  const next = points[index + 1];
  const [here, there] = [sideOf(point, a, b), next === undefined ? 0 : sideOf(next, a, b)];
  return next !== undefined && here * there < 0 ? [point, between(point, next, here / (here - there))] : [point];
});

/** Positive on the left of a line. */
const sideOf = ({ x, y }: Point, a: Point, b: Point): number => (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);

/** Less than this, in square millimetres, is a rounding error. */
const leastArea = 0.01;

const isArea = (polygon: Polygon): boolean => Math.abs(polygonArea(polygon)) > leastArea;
const areaOf = (layers: readonly Polygon[]): number => layers.reduce((sum, layer) => sum + Math.abs(polygonArea(layer)), 0);

/** The part of a polygon on the left of a line. One in several parts is joined along the line, which takes no area (Sutherland and Hodgman, 1974). */
function onLeft(polygon: Polygon, a: Point, b: Point): Polygon {
  const side = (point: Point): number => sideOf(point, a, b);
  return polygon.flatMap((point, index) => {
    const next = polygon[(index + 1) % polygon.length] ?? point;
    const [here, there] = [side(point), side(next)];
    const crossing = here * there < 0 ? [between(point, next, here / (here - there))] : [];
    return here >= 0 ? [point, ...crossing] : crossing;
  });
}

function mirrored({ x, y }: Point, a: Point, b: Point): Point {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const along = ((x - a.x) * dx + (y - a.y) * dy) / (dx * dx + dy * dy);
  return { x: 2 * (a.x + along * dx) - x, y: 2 * (a.y + along * dy) - y };
}
