import type { LayPoint } from '../problem.ts';

/** Plane geometry for the verifier alone. Rings are the corners of closed outlines in millimetres, counter-clockwise. */

export type Ring = readonly LayPoint[];

/** Twice the signed area of the triangle a, b, c: positive when the walk a → b → c turns left. */
function leftOf(a: LayPoint, b: LayPoint, c: LayPoint): number {
  return (a.x - c.x) * (b.y - c.y) - (b.x - c.x) * (a.y - c.y);
}

/** The sides of a ring, each from a corner to the next. */
export function sidesOf(ring: Ring): readonly (readonly [LayPoint, LayPoint])[] {
  return ring.map((a, i) => [a, ring.at((i + 1) % ring.length) ?? a]);
}

/** The corners of a ring, each between the one before and the one after. */
function cornersOf(ring: Ring): readonly (readonly [LayPoint, LayPoint, LayPoint])[] {
  return ring.map((b, i) => [ring.at(i - 1) ?? b, b, ring.at((i + 1) % ring.length) ?? b]);
}

/** Signed area of a ring, square millimetres, reckoned about its first point so that far-off rings lose no digits. */
export function ringArea(ring: Ring): number {
  const [first] = ring;
  if (first === undefined) return 0;
  return sidesOf(ring).reduce((twice, [a, b]) => twice + leftOf(a, b, first), 0) / 2;
}

/** The box of a ring: [least x, least y, greatest x, greatest y]. */
export function ringBox(ring: Ring): [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of ring) {
    box[0] = Math.min(box[0], x);
    box[1] = Math.min(box[1], y);
    box[2] = Math.max(box[2], x);
    box[3] = Math.max(box[3], y);
  }
  return box;
}

/**
 * A simple ring cut into triangles by ear clipping, or undefined when no ear is left to clip. Corners flatter than
 * `fuzz` millimetres are dropped on the way.
 */
export function trianglesOf(ring: Ring, fuzz: number): Ring[] | undefined {
  const points = [...ring];
  const triangles: Ring[] = [];
  while (points.length > 3) {
    const corners = cornersOf(points);
    const ear = corners.findIndex((corner) => isEar(points, corner, fuzz));
    const triangle = corners[ear];
    if (triangle === undefined) return undefined;
    if (ringArea(triangle) > 0) triangles.push(triangle);
    points.splice(ear, 1);
  }
  if (points.length === 3) triangles.push(points);
  return triangles;
}

/** Whether two edges of a ring cross one another, rather than touch. */
export function crossesItself(ring: Ring): boolean {
  const sides = sidesOf(ring);
  return sides.some(([a, b], i) => sides.slice(i + 2).some(([c, d]) => cross(a, b, c, d)));
}

/** Whether the corner can be cut off: it turns left and holds no other point, or it is flat, or a spike of no width. */
function isEar(points: Ring, [a, b, c]: readonly [LayPoint, LayPoint, LayPoint], fuzz: number): boolean {
  const twice = leftOf(a, b, c);
  const reach = Math.sqrt(Math.max((b.x - a.x) ** 2 + (b.y - a.y) ** 2, (c.x - b.x) ** 2 + (c.y - b.y) ** 2));
  if (Math.abs(twice) <= fuzz * reach) return true;
  if (twice < 0) return false;
  return points.every((p) => {
    if (same(p, a) || same(p, b) || same(p, c)) return true;
    return leftOf(a, b, p) < 0 || leftOf(b, c, p) < 0 || leftOf(c, a, p) < 0;
  });
}

function same(a: LayPoint, b: LayPoint): boolean {
  return a.x === b.x && a.y === b.y;
}

/** What two triangles have in common: a convex ring, empty when nothing (I. Sutherland and G. Hodgman, 1974). */
export function commonPart(subject: Ring, clip: Ring): Ring {
  return sidesOf(clip).reduce((ring, side) => partOnTheLeft(ring, side), subject);
}

function partOnTheLeft(ring: Ring, [a, b]: readonly [LayPoint, LayPoint]): Ring {
  const part: LayPoint[] = [];
  for (const [from, to] of sidesOf(ring)) {
    const p = leftOf(a, b, from);
    const q = leftOf(a, b, to);
    if (p >= 0) part.push(from);
    if (p < 0 !== q < 0) part.push({ x: from.x + ((to.x - from.x) * p) / (p - q), y: from.y + ((to.y - from.y) * p) / (p - q) });
  }
  return part;
}

/** The least distance between two parallel lines that hold a convex ring, millimetres: how thick it is. */
export function thickness(ring: Ring): number {
  let least = Infinity;
  for (const [a, b] of sidesOf(ring)) {
    const length = Math.sqrt((b.x - a.x) ** 2 + (b.y - a.y) ** 2);
    if (length < 1e-12) continue;
    least = Math.min(least, ring.reduce((most, point) => Math.max(most, Math.abs(leftOf(a, b, point)) / length), 0));
  }
  return least === Infinity ? 0 : least;
}

/** The least distance between the borders of two rings, millimetres; 0 when they cross, Infinity when `far` or more. */
export function borderDistance(one: Ring, two: Ring, far: number): number {
  let least = Infinity;
  const others = sidesOf(two);
  for (const [a, b] of sidesOf(one)) {
    const [left, right, low, high] = [Math.min(a.x, b.x) - far, Math.max(a.x, b.x) + far, Math.min(a.y, b.y) - far, Math.max(a.y, b.y) + far];
    for (const [c, d] of others) {
      if ((c.x >= right && d.x >= right) || (c.x <= left && d.x <= left) || (c.y >= high && d.y >= high) || (c.y <= low && d.y <= low)) continue;
      if (cross(a, b, c, d)) return 0;
      least = Math.min(least, toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b));
    }
  }
  return least;
}

function cross(a: LayPoint, b: LayPoint, c: LayPoint, d: LayPoint): boolean {
  const abc = leftOf(a, b, c);
  const abd = leftOf(a, b, d);
  const cda = leftOf(c, d, a);
  const cdb = leftOf(c, d, b);
  return abc * abd < 0 && cda * cdb < 0;
}

function toSegment(p: LayPoint, a: LayPoint, b: LayPoint): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square));
  return Math.sqrt((p.x - a.x - t * dx) ** 2 + (p.y - a.y - t * dy) ** 2);
}
