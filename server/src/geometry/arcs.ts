import type { Point, Segment, Turn } from './shape.ts';
import { ahead, between, cross, distance, dot, minus, rightOf, times, unit } from './vector.ts';

/** The circular arc from one point through a second to a third; undefined when they lie on a line or coincide. */
export function arcThrough(from: Point, via: Point, to: Point): Segment | undefined {
  const a = minus(via, from);
  const b = minus(to, from);
  const twice = 2 * cross(a, b);
  const longest = Math.max(dot(a, a), dot(b, b));
  if (!(Math.abs(twice) > 1e-9 * longest)) return undefined;
  // Circumcentre of the triangle, seen from `from`.
  const centre = {
    x: from.x + (b.y * dot(a, a) - a.y * dot(b, b)) / twice,
    y: from.y + (a.x * dot(b, b) - b.x * dot(a, a)) / twice,
  };
  return { kind: 'arc', to, centre, turn: twice > 0 ? 'left' : 'right' };
}

/**
 * The circular arc of at most half a turn between two points with the given
 * radius in mm; undefined when the radius is less than half their distance or
 * the points coincide.
 */
export function arcByRadius(from: Point, to: Point, radius: number, turn: Turn): Segment | undefined {
  const half = distance(from, to) / 2;
  if (!(half > 0 && radius >= half - 1e-9)) return undefined;
  const away = Math.sqrt(Math.max(0, radius * radius - half * half));
  const towardsCentre = times(rightOf(unit(minus(to, from))), turn === 'left' ? -1 : 1);
  return { kind: 'arc', to, centre: ahead(between(from, to, 0.5), towardsCentre, away), turn };
}
