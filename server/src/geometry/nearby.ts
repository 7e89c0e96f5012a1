import Flatbush from 'flatbush';
import type { Point } from './shape.ts';

interface Line {
  readonly from: Point;
  readonly to: Point;
}

/**
 * Finds lines by where they are: the indexes, lowest first, of all whose upright rectangle comes within a distance (mm)
 * of the upright rectangle round `from` and `to`. Comparing each line with each takes seconds for outlines of thousands
 * of edges.
 */
export function nearbyIn(lines: readonly Line[]): (from: Point, to: Point, distance: number) => number[] {
  if (lines.length === 0) return () => [];
  const index = new Flatbush(lines.length);
  for (const { from, to } of lines) index.add(Math.min(from.x, to.x), Math.min(from.y, to.y), Math.max(from.x, to.x), Math.max(from.y, to.y));
  index.finish();
  return (from, to, distance) =>
    index
      .search(Math.min(from.x, to.x) - distance, Math.min(from.y, to.y) - distance, Math.max(from.x, to.x) + distance, Math.max(from.y, to.y) + distance)
      .sort((a, b) => a - b);
}
