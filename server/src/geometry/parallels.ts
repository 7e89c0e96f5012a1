import type { Point, Polygon, Polyline } from './shape.ts';
import { ahead, cross, dot, minus, unit } from './vector.ts';

/** Shorter than this, in millimetres, a stretch is what rounding leaves. */
const crumb = 0.01;

/**
 * What of an endless straight line lies within a polygon, in stretches along its direction. The line is the one through
 * `a` and `b`, moved to its left by `off` millimetres.
 */
export function stretchesWithin(polygon: Polygon, [a, b]: readonly [Point, Point], off: number): readonly Polyline[] {
  const along = unit(minus(b, a));
  const left = { x: -along.y, y: along.x };
  const met: number[] = [];
  let before = polygon.at(-1);
  for (const point of polygon) {
    if (before !== undefined) {
      const [one, other] = [before, point].map((end) => dot(minus(end, a), left) - off) as [number, number];
      if (one <= 0 !== other <= 0) {
        const share = one / (one - other);
        met.push(dot(minus(before, a), along) * (1 - share) + dot(minus(point, a), along) * share);
      }
    }
    before = point;
  }
  met.sort((one, other) => one - other);
  const at = (far: number): Point => ahead(ahead(a, left, off), along, far);
  return met.flatMap((from, index) => {
    const to = met[index + 1];
    return index % 2 > 0 || to === undefined || to - from < crumb ? [] : [[at(from), at(to)]];
  });
}

/** How far the corners of a polygon lie to the left of the line through `a` and `b`: the least and the most, in millimetres. */
export function reachBeside(polygon: Polygon, [a, b]: readonly [Point, Point]): readonly [number, number] {
  const along = unit(minus(b, a));
  const far = polygon.map((point) => cross(along, minus(point, a)));
  return [Math.min(...far), Math.max(...far)];
}

/** Lines beside one another, so far apart, the one through `a` and `b` among them: what of each lies within a polygon, from the right on. None lies along its border. */
export function rowsWithin(polygon: Polygon, line: readonly [Point, Point], apart: number): readonly (readonly Polyline[])[] {
  const [least, most] = reachBeside(polygon, line);
  const [first, last] = [Math.ceil((least + crumb) / apart), Math.floor((most - crumb) / apart)];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => stretchesWithin(polygon, line, (first + index) * apart)).filter((row) => row.length > 0);
}

/** What of a straight stretch lies on the left of the line through `a` and `b`, or on it; undefined where nothing does. */
export function leftPart([from, to]: readonly [Point, Point], [a, b]: readonly [Point, Point]): readonly [Point, Point] | undefined {
  const along = unit(minus(b, a));
  const [one, other] = [from, to].map((point) => cross(along, minus(point, a))) as [number, number];
  if (one > -crumb && other > -crumb) return [from, to];
  if (one < crumb && other < crumb) return undefined;
  const share = one / (one - other);
  const met = { x: from.x + (to.x - from.x) * share, y: from.y + (to.y - from.y) * share };
  return one > 0 ? [from, met] : [met, to];
}
