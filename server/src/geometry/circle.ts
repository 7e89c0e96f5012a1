import { boundsOfPoints } from './measure.ts';
import type { Polygon } from './shape.ts';

/** How far a point of a flattened circle may lie off it, and the middle of a side within it, in millimetres: less than any pen is wide. */
const slack = { point: 0.02, side: 0.1 } as const;
/** A polygon of fewer corners is seen as one. */
const leastCorners = 16;

/** Whether an outline is a circle, as far as anyone could tell who cuts it. */
export function isCircle(outline: Polygon): boolean {
  if (outline.length < leastCorners) return false;
  const { minX, minY, maxX, maxY } = boundsOfPoints(outline);
  const [x, y, radius] = [(minX + maxX) / 2, (minY + maxY) / 2, (maxX - minX) / 2];
  return Math.abs(maxX - minX - (maxY - minY)) <= slack.point && outline.every((point, index) => {
    const next = outline[(index + 1) % outline.length] ?? point;
    return Math.abs(Math.hypot(point.x - x, point.y - y) - radius) <= slack.point && radius - Math.hypot((point.x + next.x) / 2 - x, (point.y + next.y) / 2 - y) <= slack.side;
  });
}
