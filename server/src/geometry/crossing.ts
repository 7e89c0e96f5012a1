import type { Point, Polygon } from './shape.ts';
import { ahead, cross, dot, minus, turnOf } from './vector.ts';

/**
 * Where two straight stretches a–b and c–d touch or cross, if they do. When
 * they overlap along a line, one of the overlap's ends.
 */
export function lineMeeting(a: Point, b: Point, c: Point, d: Point): Point | undefined {
  const u = minus(b, a);
  const v = minus(d, c);
  const w = minus(c, a);
  const denominator = cross(u, v);
  const scale = Math.sqrt(dot(u, u) * dot(v, v));
  if (Math.abs(denominator) > 1e-12 * scale) {
    const s = cross(w, v) / denominator;
    const t = cross(w, u) / denominator;
    return s >= 0 && s <= 1 && t >= 0 && t <= 1 ? ahead(a, u, s) : undefined;
  }
  const squared = dot(u, u);
  if (squared === 0 || Math.abs(cross(w, u)) > 1e-9 * Math.sqrt(squared)) return undefined;
  const from = dot(w, u) / squared;
  const until = dot(minus(d, a), u) / squared;
  const low = Math.max(0, Math.min(from, until));
  return low <= Math.min(1, Math.max(from, until)) ? ahead(a, u, low) : undefined;
}

/** Whether the polygon is convex and runs once round counter-clockwise; straight corners are allowed. */
export function isConvex(polygon: Polygon): boolean {
  const n = polygon.length;
  if (n < 3) return false;
  let xTurns = 0;
  let previous = 0;
  for (let i = 0; i < n; i++) {
    const a = polygon[i] as Point;
    const b = polygon[i + 1 < n ? i + 1 : 0] as Point;
    const c = polygon[i + 2 < n ? i + 2 : i + 2 - n] as Point;
    const turn = turnOf(a, b, c);
    if (turn < 0) return false;
    if (turn === 0 && (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y) < 0) return false;
    // Once round, the direction changes between rightward and leftward exactly twice.
    const side = Math.sign(b.x - a.x);
    if (side !== 0) {
      if (previous !== 0 && side !== previous) xTurns++;
      previous = side;
    }
  }
  return xTurns <= 2;
}

/**
 * A point where the boundary touches or crosses itself, or undefined when it is
 * simple. Neighbouring sides share their corner, which is no crossing unless one
 * folds back on to the other.
 */
export function selfCrossing(polygon: Polygon): Point | undefined {
  if (isConvex(polygon)) return undefined;
  const corners = polygon.filter((p, i) => !samePlace(p, polygon.at(i - 1) as Point));
  const n = corners.length;
  if (n < 3) return polygon[0];
  const corner = (i: number) => corners[i < n ? i : i - n] as Point;
  for (let i = 0; i < n; i++) {
    const back = minus(corner(i), corner(i + 1));
    const on = minus(corner(i + 2), corner(i + 1));
    if (dot(back, on) > 0 && Math.abs(cross(back, on)) <= 1e-12 * dot(back, on)) return corner(i + 1);
  }
  const apart = (i: number, j: number) => Math.abs(i - j) > 1 && Math.abs(i - j) < n - 1;
  const meet = (i: number, j: number) =>
    apart(i, j) ? lineMeeting(corner(i), corner(i + 1), corner(j), corner(j + 1)) : undefined;

  // Sweeping from left to right, a side need only be tried against those that have not yet ended.
  const low = (i: number) => Math.min(corner(i).x, corner(i + 1).x);
  const high = (i: number) => Math.max(corner(i).x, corner(i + 1).x);
  const order = Array.from({ length: n }, (_, i) => i).sort((i, j) => low(i) - low(j));
  let open: number[] = [];
  for (const i of order) {
    const from = low(i);
    open = open.filter((j) => high(j) >= from);
    for (const j of open) {
      if (!overlapInY(corner(i), corner(i + 1), corner(j), corner(j + 1))) continue;
      const at = meet(i, j);
      if (at) return at;
    }
    open.push(i);
  }
  return undefined;
}

const samePlace = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;

const overlapInY = (a: Point, b: Point, c: Point, d: Point): boolean =>
  Math.max(a.y, b.y) >= Math.min(c.y, d.y) && Math.max(c.y, d.y) >= Math.min(a.y, b.y);
