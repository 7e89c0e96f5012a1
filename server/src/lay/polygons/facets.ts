import { cyclic } from '../../geometry/cyclic.ts';
import { numberAt, sides } from '../../geometry/lists.ts';
import { boxOf, pointsOf, type Ring } from './ring.ts';

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
  const facets: [number, number, number, number, number][] = [];
  for (const [[ax, ay], [bx, by]] of sides(pointsOf(corners))) {
    const dx = bx - ax;
    const dy = by - ay;
    const length = Math.sqrt(dx * dx + dy * dy);
    if (length === 0) continue;
    const [nx, ny] = [dy / length, -dx / length];
    facets.push([nx, ny, nx * ax + ny * ay, ax, ay]);
  }
  // A convex ring has its sides in order already: only find where they come round to +x.
  const start = Math.max(0, facets.findIndex(([x, y], i) => lower(x, y) < lower(...directionBefore(facets, i))));
  const [left, right, low, high] = boxOf(corners);
  return { sides: new Float64Array([...facets.slice(start), ...facets.slice(0, start)].flat()), left, right, low, high };
}

/** 0 for directions from +x up to −x, 1 for those from −x on. */
function lower(x: number, y: number): number {
  return y < 0 || (y === 0 && x < 0) ? 1 : 0;
}

/** The normal of the facet before one. */
function directionBefore(facets: readonly (readonly [number, number, ...number[]])[], index: number): [number, number] {
  const [x, y] = cyclic(facets, index - 1);
  return [x, y];
}

/** A half-plane n·d ≤ c: its unit normal, x and y, and its reach c, millimetres. */
type Plane = readonly [number, number, number];

/** The half-plane whose three numbers begin at `at`. */
export function planeAt(numbers: Float64Array, at: number): Plane {
  return [numberAt(numbers, at), numberAt(numbers, at + 1), numberAt(numbers, at + 2)];
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
    const isOne = i < one.length && (k >= two.length || order(numberAt(one, i), numberAt(one, i + 1), numberAt(two, k), numberAt(two, k + 1)) <= 0);
    const from = isOne ? one : two;
    const other = isOne ? two : one;
    const side = isOne ? i : k;
    const facing = isOne ? k : i;
    const next = facing < other.length ? facing : 0;
    const nx = numberAt(from, side);
    const ny = numberAt(from, side + 1);
    const c = numberAt(from, side + 2) + nx * numberAt(other, next + 3) + ny * numberAt(other, next + 4) + gap;
    if (isOne) i += facetSize;
    else k += facetSize;
    if (at > first && parallel(planes, at - 1, nx, ny)) continue;
    if (gap > 0 && at > first) at = addCorners(planes, at, planeAt(planes, 3 * at - 3), [nx, ny, c], gap);
    planes[3 * at] = nx;
    planes[3 * at + 1] = ny;
    planes[3 * at + 2] = c;
    at++;
  }
  if (at - first > 1 && parallel(planes, first, numberAt(planes, 3 * at - 3), numberAt(planes, 3 * at - 2))) at--; // the circle closes
  if (gap > 0) at = addCorners(planes, at, planeAt(planes, 3 * at - 3), planeAt(planes, 3 * first), gap);
  return at;
}

function parallel(planes: Float64Array, at: number, nx: number, ny: number): boolean {
  const x = numberAt(planes, 3 * at);
  const y = numberAt(planes, 3 * at + 1);
  return Math.abs(x * ny - y * nx) < 1e-9 && x * nx + y * ny > 0;
}

/** Cuts between half-planes more than this far apart: a corner then overshoots a round one by at most 3.5 % of the gap. */
const cosThirty = Math.sqrt(3) / 2;

/** Half-planes between two neighbouring ones, all touching the circle of radius `gap` about the sum's corner between them. */
function addCorners(planes: Float64Array, at: number, [ax, ay, ac]: Plane, [bx, by, bc]: Plane, gap: number): number {
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
