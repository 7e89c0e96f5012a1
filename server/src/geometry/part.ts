import { flattenEdge } from './flatten.ts';
import { edgeLength, pointAlong } from './measure.ts';
import type { Edge, Point, Polyline } from './shape.ts';
import { distance } from './vector.ts';

/** Nearer than this to where a part begins or ends, in millimetres, a point says nothing more. */
const slack = 1e-3;

/**
 * Part of an edge as straight lines, the way the outline runs. Millimetres from where the outline reaches the edge; whatever
 * end it is measured from. What lies beyond the edge is left out.
 */
export function partOfEdge(edge: Edge, from: number, to: number): Polyline {
  const fromStart: Edge = { ...edge, measuredFrom: 'start' };
  const length = edgeLength(edge);
  const at = (along: number): Point => pointAlong(fromStart, Math.min(length, Math.max(0, along)))?.point ?? edge.start;
  let along = 0;
  const points = flattenEdge(edge);
  const between = points.filter((point, index) => {
    along += distance(points[index - 1] ?? point, point);
    return along > Math.max(0, from) + slack && along < Math.min(to, length) - slack;
  });
  return [at(from), ...between, at(to)];
}
