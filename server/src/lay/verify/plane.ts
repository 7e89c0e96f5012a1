/** Plane geometry for the verifier alone. Rings are flat arrays x0, y0, x1, y1, … in millimetres, counter-clockwise. */

export type Ring = readonly number[];

/** Twice the signed area of the triangle a, b, c: positive when the walk a → b → c turns left. */
function leftOf(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return (ax - cx) * (by - cy) - (bx - cx) * (ay - cy);
}

/** Signed area of a ring, square millimetres, reckoned about its first point so that far-off rings lose no digits. */
export function ringArea(ring: Ring): number {
  let twice = 0;
  for (let i = 2; i + 3 < ring.length; i += 2) twice += leftOf(ring[i]!, ring[i + 1]!, ring[i + 2]!, ring[i + 3]!, ring[0]!, ring[1]!);
  return twice / 2;
}

/** The box of a ring: [least x, least y, greatest x, greatest y]. */
export function ringBox(ring: Ring): [number, number, number, number] {
  const box: [number, number, number, number] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < ring.length; i += 2) {
    box[0] = Math.min(box[0], ring[i]!);
    box[1] = Math.min(box[1], ring[i + 1]!);
    box[2] = Math.max(box[2], ring[i]!);
    box[3] = Math.max(box[3], ring[i + 1]!);
  }
  return box;
}

/**
 * A simple ring cut into triangles by ear clipping, or undefined when no ear is left to clip. Corners flatter than
 * `fuzz` millimetres are dropped on the way.
 */
export function trianglesOf(ring: Ring, fuzz: number): Ring[] | undefined {
  const points: [number, number][] = [];
  for (let i = 0; i < ring.length; i += 2) points.push([ring[i]!, ring[i + 1]!]);
  const triangles: Ring[] = [];
  while (points.length > 3) {
    const ear = points.findIndex((_, i) => isEar(points, i, fuzz));
    if (ear < 0) return undefined;
    const [a, b, c] = cornerAt(points, ear);
    const triangle = [...a, ...b, ...c];
    if (ringArea(triangle) > 0) triangles.push(triangle);
    points.splice(ear, 1);
  }
  if (points.length === 3) triangles.push(points.flat());
  return triangles;
}

/** Whether two edges of a ring cross one another, rather than touch. */
export function crossesItself(ring: Ring): boolean {
  const count = ring.length / 2;
  const point = (i: number): Point => [ring[2 * (i % count)]!, ring[2 * (i % count) + 1]!];
  for (let i = 0; i < count; i++) {
    for (let k = i + 2; k < count; k++) if (cross(point(i), point(i + 1), point(k), point(k + 1))) return true;
  }
  return false;
}

type Point = [number, number];

function cornerAt(points: readonly Point[], at: number): [Point, Point, Point] {
  return [points[(at + points.length - 1) % points.length]!, points[at]!, points[(at + 1) % points.length]!];
}

/** Whether the corner can be cut off: it turns left and holds no other point, or it is flat, or a spike of no width. */
function isEar(points: readonly Point[], at: number, fuzz: number): boolean {
  const [a, b, c] = cornerAt(points, at);
  const twice = leftOf(a[0], a[1], b[0], b[1], c[0], c[1]);
  const reach = Math.sqrt(Math.max((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2, (c[0] - b[0]) ** 2 + (c[1] - b[1]) ** 2));
  if (Math.abs(twice) <= fuzz * reach) return true;
  if (twice < 0) return false;
  return points.every((p) => {
    if (same(p, a) || same(p, b) || same(p, c)) return true;
    return leftOf(a[0], a[1], b[0], b[1], p[0], p[1]) < 0 || leftOf(b[0], b[1], c[0], c[1], p[0], p[1]) < 0 || leftOf(c[0], c[1], a[0], a[1], p[0], p[1]) < 0;
  });
}

function same(a: Point, b: Point): boolean {
  return a[0] === b[0] && a[1] === b[1];
}

/** What two triangles have in common: a convex ring, empty when nothing (I. Sutherland and G. Hodgman, 1974). */
export function commonPart(subject: Ring, clip: Ring): Ring {
  let ring = [...subject];
  for (let e = 0; e < clip.length && ring.length > 0; e += 2) {
    const [ax, ay] = [clip[e]!, clip[e + 1]!];
    const [bx, by] = [clip[(e + 2) % clip.length]!, clip[(e + 3) % clip.length]!];
    const kept: number[] = [];
    for (let i = 0; i < ring.length; i += 2) {
      const [px, py] = [ring[i]!, ring[i + 1]!];
      const [qx, qy] = [ring[(i + 2) % ring.length]!, ring[(i + 3) % ring.length]!];
      const p = leftOf(ax, ay, bx, by, px, py);
      const q = leftOf(ax, ay, bx, by, qx, qy);
      if (p >= 0) kept.push(px, py);
      if (p < 0 !== q < 0) kept.push(px + ((qx - px) * p) / (p - q), py + ((qy - py) * p) / (p - q));
    }
    ring = kept;
  }
  return ring;
}

/** The least distance between two parallel lines that hold a convex ring, millimetres: how thick it is. */
export function thickness(ring: Ring): number {
  let least = Infinity;
  for (let e = 0; e < ring.length; e += 2) {
    const [ax, ay] = [ring[e]!, ring[e + 1]!];
    const [bx, by] = [ring[(e + 2) % ring.length]!, ring[(e + 3) % ring.length]!];
    const length = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
    if (length < 1e-12) continue;
    let most = 0;
    for (let i = 0; i < ring.length; i += 2) most = Math.max(most, Math.abs(leftOf(ax, ay, bx, by, ring[i]!, ring[i + 1]!)) / length);
    least = Math.min(least, most);
  }
  return least === Infinity ? 0 : least;
}

/** The least distance between the borders of two rings, millimetres; 0 when they cross, Infinity when `far` or more. */
export function borderDistance(one: Ring, two: Ring, far: number): number {
  let least = Infinity;
  for (let i = 0; i < one.length; i += 2) {
    const a: Point = [one[i]!, one[i + 1]!];
    const b: Point = [one[(i + 2) % one.length]!, one[(i + 3) % one.length]!];
    const [left, right, low, high] = [Math.min(a[0], b[0]) - far, Math.max(a[0], b[0]) + far, Math.min(a[1], b[1]) - far, Math.max(a[1], b[1]) + far];
    for (let k = 0; k < two.length; k += 2) {
      const [cx, cy, dx, dy] = [two[k]!, two[k + 1]!, two[(k + 2) % two.length]!, two[(k + 3) % two.length]!];
      if ((cx >= right && dx >= right) || (cx <= left && dx <= left) || (cy >= high && dy >= high) || (cy <= low && dy <= low)) continue;
      const c: Point = [cx, cy];
      const d: Point = [dx, dy];
      if (cross(a, b, c, d)) return 0;
      least = Math.min(least, toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b));
    }
  }
  return least;
}

function cross(a: Point, b: Point, c: Point, d: Point): boolean {
  const abc = leftOf(...a, ...b, ...c);
  const abd = leftOf(...a, ...b, ...d);
  const cda = leftOf(...c, ...d, ...a);
  const cdb = leftOf(...c, ...d, ...b);
  return abc * abd < 0 && cda * cdb < 0;
}

function toSegment(p: Point, a: Point, b: Point): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.sqrt((p[0] - a[0] - t * dx) ** 2 + (p[1] - a[1] - t * dy) ** 2);
}
