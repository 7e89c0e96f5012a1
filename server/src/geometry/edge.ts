import { isZeroLength, reverseSegment } from './segment.ts';
import type { Edge, Outline, Point, Segment } from './shape.ts';

/** Where the edge ends; an edge without segments ends where it starts. */
export const edgeEnd = (edge: Edge): Point => edge.segments.at(-1)?.to ?? edge.start;

/** The start of each segment together with the segment, in order. */
export function stretches(edge: Edge): readonly { readonly start: Point; readonly segment: Segment }[] {
  let start = edge.start;
  return edge.segments.map((segment) => {
    const stretch = { start, segment };
    start = segment.to;
    return stretch;
  });
}

/** A straight edge, measured from the given end. */
export const straightEdge = (name: string, start: Point, to: Point, measuredFrom: 'start' | 'end' = 'start'): Edge => ({
  name,
  start,
  segments: [{ kind: 'line', to }],
  measuredFrom,
});

/** The edge through the given points, all of them joined by straight lines. */
export const polylineEdge = (name: string, points: readonly [Point, ...Point[]], measuredFrom: 'start' | 'end'): Edge => ({
  name,
  start: points[0],
  segments: points.slice(1).map((to) => ({ kind: 'line', to })),
  measuredFrom,
});

/** The same edge travelled the other way; a designer still measures it from the same place. */
export const reverseEdge = (edge: Edge): Edge => ({
  name: edge.name,
  start: edgeEnd(edge),
  segments: stretches(edge)
    .map(({ start, segment }) => reverseSegment(start, segment))
    .reverse(),
  measuredFrom: edge.measuredFrom === 'start' ? 'end' : 'start',
});

/** The outline travelled the other way round. Reversing twice gives the outline back. */
export const reverseOutline = (outline: Outline): Outline => ({ edges: outline.edges.map(reverseEdge).reverse() });

/** The edge without segments that go nowhere, or undefined when nothing is left of it. */
export function withoutEmptySegments(edge: Edge): Edge | undefined {
  const kept = stretches(edge).filter(({ start, segment }) => !isZeroLength(start, segment));
  const first = kept[0];
  return first && { ...edge, start: first.start, segments: kept.map(({ segment }) => segment) };
}
