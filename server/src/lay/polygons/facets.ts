import { boxOf, type Ring } from './ring.ts';

/**
 * The sides of a convex ring in order of their outward normals round the circle from +x, five numbers each: unit normal
 * x, y; reach c = n·p along it, millimetres; the corner x, y at which the side starts. With the ring's box.
 */
export interface Facets {
  readonly sides: Float64Array;
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

export const facetSize = 5;

/** Most half-planes that cutting the corners of one sum adds. */
export const mostCorners = 24;

/** The facets of a convex counter-clockwise ring, reflected in the origin when `sign` is −1. */
export function facetsOf(ring: Ring, sign: 1 | -1): Facets {
  const corners = ring.map((value) => sign * value);
  const sides: number[][] = [];
  for (let a = 0; a < corners.length; a += 2) {
    const b = (a + 2) % corners.length;
    const [ax, ay] = [corners[a]!, corners[a + 1]!];
    const dx = corners[b]! - ax;
    const dy = corners[b + 1]! - ay;
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length === 0) continue;
    const [nx, ny] = [dy / length, -dx / length];
    sides.push([nx, ny, nx * ax + ny * ay, ax, ay]);
  }
  // A convex ring has its sides in order already: only find where they come round to +x.
  const start = Math.max(0, sides.findIndex((side, i) => lower(side[0]!, side[1]!) < lower(...before(sides, i))));
  const [left, right, low, high] = boxOf(corners);
  return { sides: Float64Array.from([...sides.slice(start), ...sides.slice(0, start)].flat()), left, right, low, high };
}

function before(sides: readonly number[][], at: number): [number, number] {
  const side = sides[(at + sides.length - 1) % sides.length]!;
  return [side[0]!, side[1]!];
}

/** 0 for directions from +x up to −x, 1 for those from −x on. */
function lower(x: number, y: number): number {
  return y < 0 || (y === 0 && x < 0) ? 1 : 0;
}

/** Order of directions round the circle from +x, without an arc tangent: machines round those differently. */
function order(ax: number, ay: number, bx: number, by: number): number {
  return lower(ax, ay) - lower(bx, by) || ay * bx - ax * by;
}

/**
 * Writes the half-planes n·d ≤ c of the Minkowski sum of two convex rings, widened by `gap`, from index `at` on, three
 * numbers each, and gives the index after the last. Merging the sides by direction gives them in order; the reach of
 * the other ring along a side's normal is that of the corner at which its next side starts.
 */
export function addSum(planes: Float64Array, at: number, one: Float64Array, two: Float64Array, gap: number): number {
  const first = at;
  let i = 0;
  let k = 0;
  while (i < one.length || k < two.length) {
    const which = i >= one.length ? 1 : k >= two.length ? -1 : order(one[i]!, one[i + 1]!, two[k]!, two[k + 1]!);
    const [from, side, other, next] = which <= 0 ? [one, i, two, k < two.length ? k : 0] : [two, k, one, i < one.length ? i : 0];
    const [nx, ny] = [from[side]!, from[side + 1]!];
    const c = from[side + 2]! + nx * other[next + 3]! + ny * other[next + 4]! + gap;
    if (which <= 0) i += facetSize;
    else k += facetSize;
    if (at > first && parallel(planes, at - 1, nx, ny)) continue;
    if (gap > 0 && at > first) at = addCorners(planes, at, planes[3 * at - 3]!, planes[3 * at - 2]!, planes[3 * at - 1]!, nx, ny, c, gap);
    planes[3 * at] = nx;
    planes[3 * at + 1] = ny;
    planes[3 * at + 2] = c;
    at++;
  }
  if (at - first > 1 && parallel(planes, first, planes[3 * at - 3]!, planes[3 * at - 2]!)) at--; // the circle closes
  if (gap > 0) at = addCorners(planes, at, planes[3 * at - 3]!, planes[3 * at - 2]!, planes[3 * at - 1]!, planes[3 * first]!, planes[3 * first + 1]!, planes[3 * first + 2]!, gap);
  return at;
}

function parallel(planes: Float64Array, at: number, nx: number, ny: number): boolean {
  return Math.abs(planes[3 * at]! * ny - planes[3 * at + 1]! * nx) < 1e-9 && planes[3 * at]! * nx + planes[3 * at + 1]! * ny > 0;
}

/** Cuts between half-planes more than this far apart: a corner then overshoots a round one by at most 3.5 % of the gap. */
const cosThirty = Math.sqrt(3) / 2;

/** Half-planes between two neighbouring ones, all touching the circle of radius `gap` about the sum's corner between them. */
function addCorners(planes: Float64Array, at: number, ax: number, ay: number, ac: number, bx: number, by: number, bc: number, gap: number): number {
  const det = ax * by - ay * bx;
  if (ax * bx + ay * by >= cosThirty || Math.abs(det) < 1e-9) return at;
  const cornerX = ((ac - gap) * by - (bc - gap) * ay) / det;
  const cornerY = (ax * (bc - gap) - bx * (ac - gap)) / det;
  for (const [nx, ny] of between(ax, ay, bx, by, 3)) {
    planes[3 * at] = nx;
    planes[3 * at + 1] = ny;
    planes[3 * at + 2] = nx * cornerX + ny * cornerY + gap;
    at++;
  }
  return at;
}

function between(ax: number, ay: number, bx: number, by: number, depth: number): [number, number][] {
  if (depth === 0 || ax * bx + ay * by >= cosThirty) return [];
  const length = Math.sqrt((ax + bx) ** 2 + (ay + by) ** 2);
  const [mx, my] = [(ax + bx) / length, (ay + by) / length];
  return [...between(ax, ay, mx, my, depth - 1), [mx, my], ...between(mx, my, bx, by, depth - 1)];
}
