import { itemAt } from '../geometry/lists.ts';
import type { LayPoint } from '../lay/problem.ts';

/**
 * A closed outline with as few corners as keep every dropped corner within `tolerance` millimetres of it (U. Ramer,
 * Computer Graphics and Image Processing 1, 1972; D. Douglas and T. Peucker, The Canadian Cartographer 10, 1973). What is
 * kept are corners of the outline itself.
 */
export function simplified(outline: readonly LayPoint[], tolerance: number): readonly LayPoint[] {
  if (outline.length <= 4) return outline;
  const first = farthest(outline, itemAt(outline, 0));
  const around = [...outline.slice(first), ...outline.slice(0, first)];
  const start = itemAt(around, 0);
  const other = farthest(around, start);
  const kept = [...chain(around.slice(0, other + 1), tolerance), ...chain([...around.slice(other), start], tolerance)];
  return kept.length < 3 ? outline : kept;
}

function farthest(points: readonly LayPoint[], from: LayPoint): number {
  const distances = points.map((point) => distance(point, from));
  return distances.indexOf(distances.reduce((a, b) => Math.max(a, b)));
}

/** An open run without the corners that may go, its last point left to the run that follows. */
function chain(points: readonly LayPoint[], tolerance: number): LayPoint[] {
  const keep = new Uint8Array(points.length);
  keep[0] = 1;
  const open: [number, number][] = [[0, points.length - 1]];
  for (let stretch = open.pop(); stretch !== undefined; stretch = open.pop()) {
    const [from, to] = stretch;
    let worst = tolerance;
    let at = -1;
    for (let index = from + 1; index < to; index++) {
      const off = distanceToSegment(itemAt(points, index), itemAt(points, from), itemAt(points, to));
      if (off > worst) [worst, at] = [off, index];
    }
    if (at < 0) continue;
    keep[at] = 1;
    open.push([from, at], [at, to]);
  }
  return points.filter((_, index) => keep[index] === 1);
}

const distance = (a: LayPoint, b: LayPoint): number => Math.hypot(a.x - b.x, a.y - b.y);

function distanceToSegment(p: LayPoint, a: LayPoint, b: LayPoint): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * dx + (p.y - a.y) * dy) / square));
  return Math.hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}
