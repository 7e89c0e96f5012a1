import { cyclic, nextOf } from '../../geometry/cyclic.ts';
import { doubleArea, hullOf, pointAt, pointsOf, turnOf, type Ring } from './ring.ts';

/**
 * Cuts a simple counter-clockwise ring into convex rings that together cover it: ear clipping into triangles
 * (G. H. Meisters, 1975), then diagonals are taken out again, longest first, as long as both ends stay convex
 * (S. Hertel and K. Mehlhorn, 1983). A ring that cannot be cut cleanly (it crosses itself) is answered with its convex
 * hull, which covers at least as much, so a lay planned with it stays free of overlap.
 */
export function convexParts(ring: Ring): Ring[] {
  if (ring.length < 6) return [];
  if (isConvex(ring)) return [ring];
  const triangles = earTriangles(ring);
  const parts = triangles && mergedParts(ring, triangles);
  if (!parts) return [hullOf(ring)];
  const covered = parts.reduce((sum, part) => sum + doubleArea(part), 0);
  const whole = doubleArea(ring);
  return Math.abs(covered - whole) <= 1e-9 * whole ? parts : [hullOf(ring)];
}

/** Whether a counter-clockwise ring never turns right and goes round once. */
function isConvex(ring: Ring): boolean {
  const points = pointsOf(ring);
  let wraps = 0; // a convex ring changes from going right to going left once only
  for (let i = 0; i < points.length; i++) {
    const before = cyclic(points, i - 1);
    const here = cyclic(points, i);
    const next = nextOf(points, i);
    if (turnOf(before[0], before[1], here[0], here[1], next[0], next[1]) < 0) return false;
    if (next[0] - here[0] >= 0 !== cyclic(points, i + 2)[0] - next[0] >= 0) wraps++;
  }
  return wraps <= 2;
}

function cornerTurn(ring: Ring, a: number, b: number, c: number): number {
  return turnOf(...pointAt(ring, a), ...pointAt(ring, b), ...pointAt(ring, c));
}

/** The ring cut into triangles of point indexes, or undefined when no ear is left to clip. */
function earTriangles(ring: Ring): [number, number, number][] | undefined {
  const left = Array.from({ length: ring.length / 2 }, (_, i) => i);
  const triangles: [number, number, number][] = [];
  while (left.length > 3) {
    let best = -1;
    let bestQuality = -1;
    for (let i = 0; i < left.length; i++) {
      const quality = earQuality(ring, left, ...around(left, i));
      if (quality > bestQuality) [best, bestQuality] = [i, quality];
    }
    if (best < 0) return undefined;
    triangles.push(around(left, best));
    left.splice(best, 1);
  }
  triangles.push(around(left, 1));
  return triangles;
}

/** The item at a place in a list that goes round, between the one before and the one after it. */
function around(items: readonly number[], at: number): [number, number, number] {
  return [cyclic(items, at - 1), cyclic(items, at), nextOf(items, at)];
}

/** −1 when a, b, c is no ear, else how far from a sliver it is: area over the square of its cut, so short cuts go first. */
function earQuality(ring: Ring, left: readonly number[], a: number, b: number, c: number): number {
  const area = cornerTurn(ring, a, b, c);
  if (area < 0) return -1;
  const [[ax, ay], [bx, by], [cx, cy]] = [pointAt(ring, a), pointAt(ring, b), pointAt(ring, c)];
  for (const other of left) {
    if (other === a || other === b || other === c) continue;
    const [x, y] = pointAt(ring, other);
    if ((x === ax && y === ay) || (x === bx && y === by) || (x === cx && y === cy)) continue;
    if (turnOf(ax, ay, bx, by, x, y) >= 0 && turnOf(bx, by, cx, cy, x, y) >= 0 && turnOf(cx, cy, ax, ay, x, y) >= 0) return -1;
  }
  return area / ((cx - ax) ** 2 + (cy - ay) ** 2 + 1e-300);
}

/** Triangles joined over shared cuts, longest cut first, while the join stays convex. */
function mergedParts(ring: Ring, triangles: readonly [number, number, number][]): Ring[] {
  let parts: number[][] = triangles.map((triangle) => [...triangle]);
  const cuts: [number, number][] = [];
  const sides = new Set<string>();
  for (const part of parts) {
    part.forEach((a, i) => {
      const b = nextOf(part, i);
      if (sides.has(`${b},${a}`)) cuts.push([a, b]);
      sides.add(`${a},${b}`);
    });
  }
  const length = ([a, b]: [number, number]): number => {
    const [[ax, ay], [bx, by]] = [pointAt(ring, a), pointAt(ring, b)];
    return (ax - bx) ** 2 + (ay - by) ** 2;
  };
  cuts.sort((one, two) => length(two) - length(one));
  for (const [a, b] of cuts) {
    const one = parts.find((part) => hasSide(part, a, b));
    const two = parts.find((part) => hasSide(part, b, a));
    if (!one || !two || one === two) continue;
    const joined = [...walkFrom(one, b), ...walkFrom(two, a)];
    if (!allLeft(ring, joined)) continue;
    parts = [...parts.filter((part) => part !== one && part !== two), joined];
  }
  return parts.map((part) => new Float64Array(part.flatMap((i) => pointAt(ring, i))));
}

function hasSide(part: readonly number[], a: number, b: number): boolean {
  return part.some((from, i) => from === a && part[(i + 1) % part.length] === b);
}

/** The part's points from `start` round to just before the point that leads back to `start`. */
function walkFrom(part: readonly number[], start: number): number[] {
  const at = part.indexOf(start);
  return [...part.slice(at), ...part.slice(0, at)].slice(0, -1);
}

function allLeft(ring: Ring, part: readonly number[]): boolean {
  return part.every((_, i) => cornerTurn(ring, ...around(part, i)) >= 0);
}
