import { polygonArea } from './measure.ts';
import type { Point, Polygon } from './shape.ts';
import { between } from './vector.ts';

/** Layers on either side of a fold, all as they lie once it is made. */
export interface Fold {
  readonly stays: readonly Polygon[];
  readonly turned: readonly Polygon[];
}

/**
 * Folds layers that lie on one another along a straight line that goes on beyond its ends: what is on the smaller side of it
 * is turned over on to the other. Undefined where nothing lies on one of its sides.
 */
export function foldLayers(layers: readonly Polygon[], [a, b]: readonly [Point, Point]): Fold | undefined {
  const left = layers.map((layer) => onLeft(layer, a, b)).filter(isArea);
  const right = layers.map((layer) => onLeft(layer, b, a)).filter(isArea);
  if (left.length === 0 || right.length === 0) return undefined;
  const [stays, turned] = areaOf(left) >= areaOf(right) ? [left, right] : [right, left];
  // A mirrored ring runs the other way round.
  return { stays, turned: turned.map((layer) => layer.map((point) => mirrored(point, a, b)).reverse()) };
}

/** Less than this, in square millimetres, is a rounding error. */
const leastArea = 0.01;

const isArea = (polygon: Polygon): boolean => Math.abs(polygonArea(polygon)) > leastArea;
const areaOf = (layers: readonly Polygon[]): number => layers.reduce((sum, layer) => sum + Math.abs(polygonArea(layer)), 0);

/** The part of a polygon on the left of a line. One in several parts is joined along the line, which takes no area (Sutherland and Hodgman, 1974). */
function onLeft(polygon: Polygon, a: Point, b: Point): Polygon {
  const side = ({ x, y }: Point): number => (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x);
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
