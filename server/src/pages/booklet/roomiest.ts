import { distancePointToBoundary } from '../../geometry/distance.ts';
import { pointInside } from '../../geometry/inside.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';

/** The point of a shape that is farthest from its border, on a coarse grid; the middle where that is about as good. */
export function roomiestPoint(ring: Polygon): Point {
  const box = boundsOfPoints(ring);
  const at = (across: number, down: number): Point => ({ x: box.minX + (box.maxX - box.minX) * across, y: box.minY + (box.maxY - box.minY) * down });
  let best = at(0.5, 0.5);
  let most = pointInside(best, ring) ? distancePointToBoundary(best, ring) * 1.1 : -1;
  // No point is farther from the border than half the shorter side of the box round it.
  if (most >= Math.min(box.maxX - box.minX, box.maxY - box.minY) / 2) return best;
  const steps = 10;
  for (let i = 1; i < steps; i++) {
    for (let k = 1; k < steps; k++) {
      const point = at(i / steps, k / steps);
      const room = pointInside(point, ring) ? distancePointToBoundary(point, ring) : -1;
      if (room > most) [best, most] = [point, room];
    }
  }
  return best;
}
