import { cyclic } from '../../geometry/cyclic.ts';
import { itemAt } from '../../geometry/lists.ts';
import type { LayPoint } from '../problem.ts';

/** A closed ring of points, counter-clockwise, flat: x0, y0, x1, y1, … millimetres, first point not repeated. */
export type Ring = Float64Array;

/** Twice the signed area of a ring, square millimetres; positive when counter-clockwise (shoelace formula). */
export function doubleArea(ring: ArrayLike<number>): number {
  let sum = 0;
  const size = ring.length;
  for (let a = 0; a < size; a += 2) {
    const b = a + 2 < size ? a + 2 : 0;
    sum += itemAt(ring, a) * itemAt(ring, b + 1) - itemAt(ring, b) * itemAt(ring, a + 1);
  }
  return sum;
}

/** Twice the signed area of the triangle a, b, c: positive when the walk a → b → c turns left. */
export function turnOf(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
}

/** The points of a ring, as x and y. */
export function pointsOf(ring: Ring): [number, number][] {
  const points: [number, number][] = [];
  for (let index = 0; 2 * index < ring.length; index++) points.push(pointAt(ring, index));
  return points;
}

/** The point at a place in a ring, as x and y. Throws a RangeError where there is none. */
export function pointAt(ring: ArrayLike<number>, index: number): [number, number] {
  return [itemAt(ring, 2 * index), itemAt(ring, 2 * index + 1)];
}

/** Smallest and largest x and y of a ring, as [least x, greatest x, least y, greatest y]. */
export function boxOf(ring: ArrayLike<number>): [number, number, number, number] {
  let left = Infinity;
  let right = -Infinity;
  let low = Infinity;
  let high = -Infinity;
  for (let a = 0; a < ring.length; a += 2) {
    const x = itemAt(ring, a);
    const y = itemAt(ring, a + 1);
    left = Math.min(left, x);
    right = Math.max(right, x);
    low = Math.min(low, y);
    high = Math.max(high, y);
  }
  return [left, right, low, high];
}

/** An outline's points as a ring, every coordinate rounded to a multiple of `grid` millimetres. */
export function ringOf(outline: readonly LayPoint[], grid: number): Ring {
  const ring = new Float64Array(2 * outline.length);
  for (let index = 0; index < outline.length; index++) {
    const { x, y } = itemAt(outline, index);
    ring[2 * index] = toGrid(x, grid);
    ring[2 * index + 1] = toGrid(y, grid);
  }
  return ring;
}

/**
 * A ring as it lies after mirroring (y → −y) and turning (degrees, counter-clockwise), every coordinate rounded to a
 * multiple of `grid` millimetres, so that a last-bit difference between machines' sines cannot reach the planner.
 */
export function turnedRing(ring: Ring, mirrored: boolean, turn: number, grid: number): Ring {
  const [cos, sin] = directionOf(turn);
  const turned = new Float64Array(ring.length);
  for (let a = 0; a < ring.length; a += 2) {
    const x = itemAt(ring, a);
    const y = mirrored ? -itemAt(ring, a + 1) : itemAt(ring, a + 1);
    const at = mirrored ? ring.length - 2 - a : a; // mirroring reverses the walk: walk it backwards
    turned[at] = toGrid(x * cos - y * sin, grid);
    turned[at + 1] = toGrid(x * sin + y * cos, grid);
  }
  return turned;
}

/** Cosine and sine of a turn in degrees; exact for multiples of a quarter turn. */
function directionOf(turn: number): [number, number] {
  const degrees = ((turn % 360) + 360) % 360;
  if (degrees === 0) return [1, 0];
  if (degrees === 90) return [0, 1];
  if (degrees === 180) return [-1, 0];
  if (degrees === 270) return [0, -1];
  return [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
}

/** The multiple of `grid` nearest to a length. `grid` is a power of ten, so dividing by its inverse gives clean decimals. */
export function toGrid(value: number, grid: number): number {
  const perUnit = Math.round(1 / grid);
  return Math.round(value * perUnit) / perUnit + 0; // + 0 turns −0 into 0
}

/** The ring without repeated points and without points in the middle of a straight edge or at the tip of a spike of no width. */
export function cleanRing(ring: Ring): Ring {
  const points = pointsOf(ring);
  let changed = true;
  while (changed && points.length > 2) {
    changed = false;
    for (let i = points.length - 1; i >= 0 && points.length > 2; i--) {
      const [before, here, after] = [cyclic(points, i - 1), cyclic(points, i), cyclic(points, i + 1)];
      if (turnOf(before[0], before[1], here[0], here[1], after[0], after[1]) === 0) {
        points.splice(i, 1);
        changed = true;
      }
    }
  }
  const flat = new Float64Array(points.flat());
  return doubleArea(flat) >= 0 ? flat : reversed(flat);
}

function reversed(ring: Ring): Ring {
  return new Float64Array(pointsOf(ring).reverse().flat());
}

/** The convex hull of a ring, counter-clockwise (A. M. Andrew's monotone chain, 1979). */
export function hullOf(ring: Ring): Ring {
  const points = pointsOf(ring).sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (walk: readonly (readonly [number, number])[]): (readonly [number, number])[] => {
    const chain: (readonly [number, number])[] = [];
    for (const point of walk) {
      for (;;) {
        const [a, b] = [chain.at(-2), chain.at(-1)];
        if (a === undefined || b === undefined || turnOf(...a, ...b, ...point) > 0) break;
        chain.pop();
      }
      chain.push(point);
    }
    chain.pop();
    return chain;
  };
  return Float64Array.from([...half(points), ...half([...points].reverse())].flat());
}
