import { flattenEdge } from './flatten.ts';
import { edgeLength } from './measure.ts';
import type { Edge, Point } from './shape.ts';
import { distance } from './vector.ts';

/** How far along an edge its nearest point to another lies, in millimetres from its start. */
export function nearestAlong(edge: Edge, to: Point): number {
  const points = flattenEdge(edge);
  let behind = 0;
  let best = { off: Infinity, along: 0 };
  points.forEach((b, index) => {
    const a = points[index - 1];
    if (a === undefined) return;
    const side = distance(a, b);
    const share = side === 0 ? 0 : Math.min(1, Math.max(0, ((to.x - a.x) * (b.x - a.x) + (to.y - a.y) * (b.y - a.y)) / (side * side)));
    const off = distance(to, { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share });
    if (off < best.off) best = { off, along: behind + share * side };
    behind += side;
  });
  // What flattening takes from a curve's length is spread evenly over it.
  return behind === 0 ? 0 : (best.along / behind) * edgeLength(edge);
}
