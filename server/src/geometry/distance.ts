import { itemAt } from './lists.ts';
import type { Point, Polygon, Polyline } from './shape.ts';
import { distance } from './vector.ts';

/** Least distance in mm from a point to the straight stretch a–b. */
export function distanceToLine(p: Point, a: Point, b: Point): number {
  const ux = b.x - a.x;
  const uy = b.y - a.y;
  const squared = ux * ux + uy * uy;
  const along = squared === 0 ? 0 : ((p.x - a.x) * ux + (p.y - a.y) * uy) / squared;
  const t = along < 0 ? 0 : along > 1 ? 1 : along;
  const dx = a.x + t * ux - p.x;
  const dy = a.y + t * uy - p.y;
  return Math.sqrt(dx * dx + dy * dy);
}

/** Least distance in mm from a point to an open run of lines; infinite when it has no points. */
export function distancePointToPolyline(p: Point, line: Polyline): number {
  const first = line[0];
  if (!first) return Infinity;
  let least = distance(first, p);
  let from = first;
  for (let i = 1; i < line.length; i++) {
    const to = itemAt(line, i);
    const d = distanceToLine(p, from, to);
    if (d < least) least = d;
    from = to;
  }
  return least;
}

/** Least distance in mm from a point to the boundary of a polygon, wherever it lies; infinite when that has no corners. */
export function distancePointToBoundary(p: Point, polygon: Polygon): number {
  const first = polygon[0];
  const last = polygon.at(-1);
  if (!first || !last) return Infinity;
  return Math.min(distancePointToPolyline(p, polygon), distanceToLine(p, last, first));
}
