import { distancePointToBoundary } from '../../geometry/distance.ts';
import { convexHull } from '../../geometry/hull.ts';
import { pointInside } from '../../geometry/inside.ts';
import type { LayPoint } from '../problem.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';

/**
 * The least distance between two parallel lines that hold an outline, millimetres: what it takes of the cloth's length in
 * any turn. It is had with a side of the hull on one of them (H. Freeman and R. Shapira, Communications of the ACM 18, 1975).
 */
export function leastBreadth(outline: readonly LayPoint[]): number {
  const hull = convexHull(outline);
  const breadths = hull.map((a, index) => {
    const b = hull[(index + 1) % hull.length] ?? a;
    const side = Math.hypot(b.x - a.x, b.y - a.y);
    return hull.reduce((most, p) => Math.max(most, ((b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)) / side), 0);
  });
  return breadths.reduce((least, breadth) => Math.min(least, breadth), Infinity);
}

/** Corners of the ring that stands for a disc. */
const corners = 48;
/** Points looked at in each direction, and how often the best is looked at more closely. */
const looks = 12;
const rounds = 5;

/**
 * A ring within a large disc within an outline: whichever way a piece is turned, it takes at least what a disc in it does.
 * Any disc in it will do; the largest is sought on a grid that is drawn ever closer around the best point.
 */
export function discIn(outline: readonly LayPoint[]): readonly LayPoint[] {
  const disc = discs.get(outline) ?? findDisc(outline);
  discs.set(outline, disc);
  return disc;
}

/** An outline is asked about many times while panels are filled. */
const discs = new WeakMap<readonly LayPoint[], readonly LayPoint[]>();

function findDisc(outline: readonly LayPoint[]): readonly LayPoint[] {
  const box = boundsOfPoints(outline);
  let [x, y, width, height] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2, box.maxX - box.minX, box.maxY - box.minY];
  const roomAt = (point: LayPoint): number => (pointInside(point, outline) ? distancePointToBoundary(point, outline) : 0);
  let radius = roomAt({ x, y });
  for (let round = 0; round < rounds; round++) {
    const [left, low] = [x - width / 2, y - height / 2];
    for (let i = 0; i <= looks; i++) {
      for (let k = 0; k <= looks; k++) {
        const point = { x: left + (width * i) / looks, y: low + (height * k) / looks };
        const room = roomAt(point);
        if (room > radius) [x, y, radius] = [point.x, point.y, room];
      }
    }
    [width, height] = [(2 * width) / looks, (2 * height) / looks];
  }
  return Array.from({ length: corners }, (_, index) => {
    const angle = (2 * Math.PI * index) / corners;
    return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
  });
}
