import { stretches } from './edge.ts';
import { pointOn, sweepOf, tangentOn } from './segment.ts';
import type { Edge, Outline, Point, Polygon, Polyline, Segment } from './shape.ts';
import { dot, length, minus, plus, times } from './vector.ts';

/** How far, in mm, straight lines may stray from a curve they stand for. */
export const FLATNESS = 0.01;

/** Which corners of a flattened outline one edge runs over; `to` may equal the corner count, meaning corner 0. */
export interface EdgeRange {
  readonly name: string;
  readonly from: number;
  readonly to: number;
}

/**
 * Parameters, without 0 and ending in 1, at which to break a segment so that
 * its chords stray at most `tolerance` mm from it and, where that can be had,
 * turn at most `maxTurn` radians each.
 */
export function breaks(start: Point, segment: Segment, tolerance: number, maxTurn = Infinity): readonly number[] {
  if (segment.kind === 'line') return [1];
  const count = Math.max(1, Math.ceil(piecesFor(start, segment, tolerance, maxTurn)));
  const even = Array.from({ length: count }, (_, i) => (i + 1) / count);
  if (segment.kind === 'arc' || maxTurn === Infinity) return even;
  return even.flatMap((t, i) => halved(start, segment, i / count, t, Math.cos(maxTurn), 8));
}

function piecesFor(start: Point, segment: Segment, tolerance: number, maxTurn: number): number {
  switch (segment.kind) {
    case 'line':
      return 1;
    case 'arc': {
      const { radiusX: radius, sweep } = sweepOf(start, segment);
      // The middle of a chord lies r(1 − cos(turn/2)) inside its arc.
      const turn = radius <= tolerance ? Math.PI / 2 : 2 * Math.acos(1 - tolerance / radius);
      return Math.abs(sweep) / Math.min(turn, maxTurn) - 1e-9;
    }
    case 'elliptical': {
      // A chord strays at most h²/8 times the greatest second derivative, here the larger radius.
      const { radiusX, radiusY, sweep } = sweepOf(start, segment);
      return Math.abs(sweep) * Math.sqrt(Math.max(radiusX, radiusY) / (8 * tolerance));
    }
    case 'cubic': {
      // The same bound, the second derivative being at most six times the control points' second difference (Wang's formula).
      const { control1: p1, control2: p2, to } = segment;
      const bend = (a: Point, b: Point, c: Point) => length(plus(minus(a, times(b, 2)), c));
      return Math.sqrt((6 * Math.max(bend(start, p1, p2), bend(p1, p2, to))) / (8 * tolerance));
    }
  }
}

/** Halves a stretch until each part turns less than the limit; a cusp never does, hence the depth. */
function halved(start: Point, segment: Segment, a: number, b: number, minCosine: number, depth: number): number[] {
  if (depth === 0 || dot(tangentOn(start, segment, a), tangentOn(start, segment, b)) >= minCosine) return [b];
  const middle = (a + b) / 2;
  return [
    ...halved(start, segment, a, middle, minCosine, depth - 1),
    ...halved(start, segment, middle, b, minCosine, depth - 1),
  ];
}

/** The edge as straight lines, both ends included, no further than `tolerance` mm from it. */
export function flattenEdge(edge: Edge, tolerance: number = FLATNESS): Polyline {
  const points: Point[] = [edge.start];
  for (const { start, segment } of stretches(edge)) {
    if (segment.kind === 'line') points.push(segment.to);
    else for (const t of breaks(start, segment, tolerance)) points.push(pointOn(start, segment, t));
  }
  return points;
}

/** The outline as a polygon no further than `tolerance` mm from it, and which corners belong to which edge. */
export function flattenOutline(
  outline: Outline,
  tolerance: number = FLATNESS,
): { readonly polygon: Polygon; readonly ranges: readonly EdgeRange[] } {
  const polygon: Point[] = [];
  const ranges = outline.edges.map((edge) => {
    const from = polygon.length;
    const points = flattenEdge(edge, tolerance);
    // The last point is the next edge's first.
    for (let i = 0; i < points.length - 1; i++) polygon.push(points[i] as Point);
    return { name: edge.name, from, to: polygon.length };
  });
  return { polygon, ranges };
}
