import { doubleArea, hullOf, turnOf, type Ring } from './ring.ts';

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
  const count = ring.length / 2;
  let wraps = 0; // a convex ring changes from going right to going left once only
  for (let i = 0; i < count; i++) {
    if (cornerTurn(ring, (i + count - 1) % count, i, (i + 1) % count) < 0) return false;
    const here = ring[2 * ((i + 1) % count)]! - ring[2 * i]!;
    const next = ring[2 * ((i + 2) % count)]! - ring[2 * ((i + 1) % count)]!;
    if (here >= 0 !== next >= 0) wraps++;
  }
  return wraps <= 2;
}

function cornerTurn(ring: Ring, a: number, b: number, c: number): number {
  return turnOf(ring[2 * a]!, ring[2 * a + 1]!, ring[2 * b]!, ring[2 * b + 1]!, ring[2 * c]!, ring[2 * c + 1]!);
}

/** The ring cut into triangles of point indexes, or undefined when no ear is left to clip. */
function earTriangles(ring: Ring): [number, number, number][] | undefined {
  const left = Array.from({ length: ring.length / 2 }, (_, i) => i);
  const triangles: [number, number, number][] = [];
  while (left.length > 3) {
    let best = -1;
    let bestQuality = -1;
    for (let i = 0; i < left.length; i++) {
      const a = left[(i + left.length - 1) % left.length]!;
      const b = left[i]!;
      const c = left[(i + 1) % left.length]!;
      const quality = earQuality(ring, left, a, b, c);
      if (quality > bestQuality) [best, bestQuality] = [i, quality];
    }
    if (best < 0) return undefined;
    triangles.push([left[(best + left.length - 1) % left.length]!, left[best]!, left[(best + 1) % left.length]!]);
    left.splice(best, 1);
  }
  triangles.push([left[0]!, left[1]!, left[2]!]);
  return triangles;
}

/** −1 when a, b, c is no ear, else how far from a sliver it is: area over the square of its cut, so short cuts go first. */
function earQuality(ring: Ring, left: readonly number[], a: number, b: number, c: number): number {
  const area = cornerTurn(ring, a, b, c);
  if (area < 0) return -1;
  const [ax, ay, cx, cy] = [ring[2 * a]!, ring[2 * a + 1]!, ring[2 * c]!, ring[2 * c + 1]!];
  const [bx, by] = [ring[2 * b]!, ring[2 * b + 1]!];
  for (const other of left) {
    if (other === a || other === b || other === c) continue;
    const [x, y] = [ring[2 * other]!, ring[2 * other + 1]!];
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
      const b = part[(i + 1) % part.length]!;
      if (sides.has(`${b},${a}`)) cuts.push([a, b]);
      sides.add(`${a},${b}`);
    });
  }
  const length = ([a, b]: [number, number]): number => (ring[2 * a]! - ring[2 * b]!) ** 2 + (ring[2 * a + 1]! - ring[2 * b + 1]!) ** 2;
  cuts.sort((one, two) => length(two) - length(one));
  for (const [a, b] of cuts) {
    const one = parts.find((part) => hasSide(part, a, b));
    const two = parts.find((part) => hasSide(part, b, a));
    if (!one || !two || one === two) continue;
    const joined = [...walkFrom(one, b), ...walkFrom(two, a)];
    if (!allLeft(ring, joined)) continue;
    parts = [...parts.filter((part) => part !== one && part !== two), joined];
  }
  return parts.map((part) => Float64Array.from(part.flatMap((i) => [ring[2 * i]!, ring[2 * i + 1]!])));
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
  return part.every((b, i) => cornerTurn(ring, part[(i + part.length - 1) % part.length]!, b, part[(i + 1) % part.length]!) >= 0);
}
