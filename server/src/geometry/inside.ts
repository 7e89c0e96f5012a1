import { isConvex } from './crossing.ts';
import { distanceToLine } from './distance.ts';
import { itemAt } from './lists.ts';
import { nearbyIn } from './nearby.ts';
import type { Point, Polygon, Polyline } from './shape.ts';
import { between, cross, distance, minus } from './vector.ts';

/** Millimetres by which rounding may part what meets. */
const SAME = 1e-9;

/**
 * Whether a point lies inside a polygon, by counting how often a ray to its
 * right crosses the boundary. On the boundary itself the answer may be either.
 */
export function pointInside(p: Point, polygon: Polygon): boolean {
  let inside = false;
  let a = polygon.at(-1);
  for (const b of polygon) {
    if (a && isRightOf(p, a, b)) inside = !inside;
    a = b;
  }
  return inside;
}

/** Whether no part of the closed polygon `inner` lies more than `tolerance` mm outside `outer`. */
export const contains = (outer: Polygon, inner: Polygon, tolerance: number): boolean =>
  inner.length > 0 && containsPolyline(outer, [...inner, inner[0] as Point], tolerance);

/** Whether no part of an open run of lines lies more than `tolerance` mm outside `outer`. */
export function containsPolyline(outer: Polygon, inner: Polyline, tolerance: number): boolean {
  const ground = groundOf(outer);
  return inner.every((p) => ground.reaches(p, tolerance)) &&
    // Between two points of a convex shape a line can't leave it.
    (isConvex(outer) || inner.every((b, i) => {
      const a = inner[i - 1];
      return a === undefined || lineStays(a, b, ground, tolerance);
    }));
}

/** Whether some stretch of an open run of lines lies further than `tolerance` mm inside the polygon. */
export const runsInside = (line: Polyline, polygon: Polygon, tolerance: number): boolean =>
  line.some((b, i) => {
    const a = line[i - 1];
    if (a === undefined) return false;
    const stops = stopsAlong(a, b, polygon);
    return stops.some((t, k) => {
      const middle = between(a, b, ((stops[k - 1] ?? t) + t) / 2);
      return pointInside(middle, polygon) && clearance([middle], polygon) > tolerance;
    });
  });

/** How much of an open run of lines, in mm, lies inside the polygon or on its boundary. */
export function lengthInside(line: Polyline, polygon: Polygon): number {
  let length = 0;
  line.forEach((b, i) => {
    const a = line[i - 1];
    if (a === undefined) return;
    const stops = stopsAlong(a, b, polygon);
    stops.forEach((t, k) => {
      const from = stops[k - 1] ?? t;
      const middle = between(a, b, (from + t) / 2);
      if (pointInside(middle, polygon) || clearance([middle], polygon) < 1e-6) length += (t - from) * distance(a, b);
    });
  });
  return length;
}

/**
 * Least distance in mm between a run of lines and the boundary of a polygon: 0
 * when they touch or cross, infinite when either is empty. Inside or outside is
 * not looked at.
 */
export function clearance(inner: Polyline, outer: Polygon): number {
  let least = Infinity;
  inner.forEach((b, i) => {
    const a = inner[i - 1] ?? b;
    sides(outer, (c, d) => {
      if (least > 0) least = Math.min(least, linesApart(a, b, c, d));
    });
  });
  return least;
}

function sides(polygon: Polygon, visit: (a: Point, b: Point) => void): void {
  let a = polygon.at(-1);
  for (const b of polygon) {
    if (a) visit(a, b);
    a = b;
  }
}

function linesApart(a: Point, b: Point, c: Point, d: Point): number {
  if (crossingAt(a, b, c, d) !== undefined) return 0;
  return Math.min(distanceToLine(a, c, d), distanceToLine(b, c, d), distanceToLine(c, a, b), distanceToLine(d, a, b));
}

/** How far along a–b, from 0 to 1, it meets c–d; undefined when it does not or they are parallel. */
function crossingAt(a: Point, b: Point, c: Point, d: Point): number | undefined {
  const u = minus(b, a);
  const v = minus(d, c);
  const denominator = cross(u, v);
  if (denominator === 0) return undefined;
  const w = minus(c, a);
  const s = cross(w, v) / denominator;
  const t = cross(w, u) / denominator;
  return s >= 0 && s <= 1 && t >= 0 && t <= 1 ? s : undefined;
}

/** A polygon that many points and lines are held against: its sides are found by where they are. */
interface Ground {
  /** Whether a point lies inside or no more than `tolerance` mm outside. */
  readonly reaches: (p: Point, tolerance: number) => boolean;
  /** As {@link pointInside}. */
  readonly holds: (p: Point) => boolean;
  /** The sides that may come within a distance (mm) of the upright rectangle round two points. */
  readonly sidesNear: (a: Point, b: Point, distance: number) => readonly (readonly [Point, Point])[];
}

function groundOf(outer: Polygon): Ground {
  const all: { readonly from: Point; readonly to: Point }[] = [];
  sides(outer, (from, to) => void all.push({ from, to }));
  const rightmost = outer.reduce((most, { x }) => Math.max(most, x), -Infinity);
  const near = nearbyIn(all);
  const sidesNear: Ground['sidesNear'] = (a, b, distance) => near(a, b, distance).map((index) => {
    const { from, to } = itemAt(all, index);
    return [from, to];
  });
  const holds: Ground['holds'] = (p) => {
    let inside = false;
    for (const [a, b] of sidesNear(p, { x: Math.max(p.x, rightmost), y: p.y }, 0)) if (isRightOf(p, a, b)) inside = !inside;
    return inside;
  };
  return { holds, sidesNear, reaches: (p, tolerance) => holds(p) || sidesNear(p, p, tolerance).some(([a, b]) => distanceToLine(p, a, b) <= tolerance) };
}

/** Whether the ray from a point to the right crosses a line. */
const isRightOf = (p: Point, a: Point, b: Point): boolean => a.y > p.y !== b.y > p.y && p.x < a.x + ((p.y - a.y) / (b.y - a.y)) * (b.x - a.x);

/** The shares of a line, from 0 to 1, at which it begins, meets the boundary and ends. */
function stopsAlong(a: Point, b: Point, polygon: Polygon): readonly number[] {
  const stops = [0, 1];
  sides(polygon, (c, d) => {
    const at = crossingAt(a, b, c, d);
    if (at !== undefined) stops.push(at);
  });
  return stops.sort((s, t) => s - t);
}

/** As `reaches`, for a whole line both ends of which are near enough: between crossings it is in or out altogether. */
function lineStays(a: Point, b: Point, ground: Ground, tolerance: number): boolean {
  const met = ground.sidesNear(a, b, SAME).flatMap(([c, d]) => crossingAt(a, b, c, d) ?? []);
  const stops = [0, 1, ...met].sort((s, t) => s - t);
  return stops.every((t, i) => {
    const s = stops[i - 1];
    if (s === undefined || t - s < 1e-12) return true;
    return ground.holds(between(a, b, (s + t) / 2)) || outsideStays(between(a, b, s), between(a, b, t), ground, tolerance);
  });
}

/**
 * Whether an outside stretch keeps within the tolerance. The distance to one
 * side of the polygon is a convex function along a line, so a side near enough
 * to both ends is near enough throughout; where there is none, look at halves.
 */
function outsideStays(a: Point, b: Point, ground: Ground, tolerance: number): boolean {
  const slack = tolerance + 1e-9;
  if (distance(a, b) < 1e-6 || ground.sidesNear(a, a, slack).some(([c, d]) => distanceToLine(a, c, d) <= slack && distanceToLine(b, c, d) <= slack)) return true;
  const middle = between(a, b, 0.5);
  if (!ground.reaches(middle, slack)) return false;
  // A line along the boundary leaves it by rounding alone, so a stretch that is taken to be outside may well be inside.
  const half = distance(a, b) / 2;
  if (ground.holds(middle) && ground.sidesNear(middle, middle, half).every(([c, d]) => distanceToLine(middle, c, d) >= half)) return true;
  return outsideStays(a, middle, ground, tolerance) && outsideStays(middle, b, ground, tolerance);
}
