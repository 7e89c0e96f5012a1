import { stretches } from './edge.ts';
import { integrate } from './quadrature.ts';
import { onSweep, pointOn, sweepOf, tangentOn, turningPoints, velocityOn } from './segment.ts';
import type { Edge, Outline, Point, Polygon, Polyline, Segment } from './shape.ts';
import { cross, distance, length } from './vector.ts';

/** How exactly curve lengths are found, in mm. */
const LENGTH_TOLERANCE = 1e-7;

/** Lengths worked out along curves and offsets are right to about this much, in mm, for whoever compares them. */
export const measuring = 0.05;

export interface Bounds {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** A place on an edge: where it is and the unit direction the outline runs there, material on its left. */
export interface PlaceOnEdge {
  readonly point: Point;
  readonly tangent: Point;
}

function segmentLength(start: Point, segment: Segment, until = 1): number {
  switch (segment.kind) {
    case 'line':
      return distance(start, segment.to) * until;
    case 'arc': {
      const s = sweepOf(start, segment);
      return s.radiusX * Math.abs(s.sweep) * until;
    }
    case 'elliptical':
    case 'cubic':
      return integrate((t) => length(velocityOn(start, segment, t)), 0, until, LENGTH_TOLERANCE);
  }
}

/** Length of the edge in mm: exact for lines and circular arcs, to 1e-6 mm for other curves. */
export const edgeLength = (edge: Edge): number =>
  stretches(edge).reduce((sum, { start, segment }) => sum + segmentLength(start, segment), 0);

/** Length of the whole outline in mm. */
export const perimeter = (outline: Outline): number => outline.edges.reduce((sum, edge) => sum + edgeLength(edge), 0);

/**
 * The place `along` mm from the end the edge is measured from, or undefined
 * when that is off the edge. The tangent always follows the outline, whichever
 * end was measured from, so outward is always to its right.
 */
export function pointAlong(edge: Edge, along: number): PlaceOnEdge | undefined {
  const total = edgeLength(edge);
  const slack = 1e-6;
  if (!(along >= -slack && along <= total + slack)) return undefined;
  let left = Math.min(Math.max(edge.measuredFrom === 'start' ? along : total - along, 0), total);
  const all = stretches(edge);
  for (const [i, { start, segment }] of all.entries()) {
    const here = segmentLength(start, segment);
    if (left <= here || i === all.length - 1) {
      const t = parameterAt(start, segment, left, here);
      return { point: pointOn(start, segment, t), tangent: tangentOn(start, segment, t) };
    }
    left -= here;
  }
  return undefined;
}

/** The parameter at which `wanted` mm of the segment's `total` lie behind. */
function parameterAt(start: Point, segment: Segment, wanted: number, total: number): number {
  const guess = total === 0 ? 0 : Math.min(wanted / total, 1);
  if (segment.kind === 'line' || segment.kind === 'arc') return guess;
  // Newton's steps, kept inside a bracket that shrinks each time so that cusps cannot throw them off.
  let low = 0;
  let high = 1;
  let t = guess;
  for (let i = 0; i < 60; i++) {
    const over = segmentLength(start, segment, t) - wanted;
    if (Math.abs(over) <= LENGTH_TOLERANCE) break;
    if (over > 0) high = t;
    else low = t;
    const next = t - over / length(velocityOn(start, segment, t));
    t = next > low && next < high ? next : (low + high) / 2;
  }
  return t;
}

/** What one segment adds to ½∮(x dy − y dx), Green's theorem for the area. */
function segmentArea(start: Point, segment: Segment): number {
  const chord = cross(start, segment.to) / 2;
  switch (segment.kind) {
    case 'line':
      return chord;
    case 'arc':
    case 'elliptical': {
      const s = sweepOf(start, segment);
      return chord + (s.radiusX * s.radiusY * (s.sweep - Math.sin(s.sweep))) / 2;
    }
    case 'cubic': {
      // ½∫(x y′ − y x′)dt over the Bernstein form, multiplied out.
      const { control1: p1, control2: p2, to: p3 } = segment;
      return (
        (6 * cross(start, p1) +
          3 * cross(start, p2) +
          cross(start, p3) +
          3 * cross(p1, p2) +
          3 * cross(p1, p3) +
          6 * cross(p2, p3)) /
        20
      );
    }
  }
}

/** Signed area in mm², positive for a counter-clockwise outline; exact for every kind of segment. */
export const outlineArea = (outline: Outline): number =>
  outline.edges.reduce(
    (sum, edge) => stretches(edge).reduce((inner, { start, segment }) => inner + segmentArea(start, segment), sum),
    0,
  );

/** Signed area of a polygon in mm², positive when counter-clockwise. */
export function polygonArea(polygon: Polygon): number {
  let sum = 0;
  let previous = polygon.at(-1);
  for (const point of polygon) {
    if (previous) sum += cross(previous, point);
    previous = point;
  }
  return sum / 2;
}

/** Length in mm of an open run of straight lines. */
export function polylineLength(points: Polyline): number {
  let sum = 0;
  let previous = points[0];
  for (const point of points) {
    if (previous) sum += distance(previous, point);
    previous = point;
  }
  return sum;
}

/** The least upright rectangle round the given points; of none at all, one turned inside out (min > max). */
export function boundsOfPoints(points: Polyline): Bounds {
  let minX = Infinity;
  let minY = Infinity;
  let maxX = -Infinity;
  let maxY = -Infinity;
  for (const { x, y } of points) {
    if (x < minX) minX = x;
    if (x > maxX) maxX = x;
    if (y < minY) minY = y;
    if (y > maxY) maxY = y;
  }
  return { minX, minY, maxX, maxY };
}

/** The least upright rectangle round the outline, reaching exactly to where its curves do. */
export const bounds = (outline: Outline): Bounds =>
  boundsOfPoints(
    outline.edges.flatMap((edge) =>
      stretches(edge).flatMap(({ start, segment }) => [start, segment.to, ...extremes(start, segment)]),
    ),
  );

function extremes(start: Point, segment: Segment): Point[] {
  if (segment.kind === 'line') return [];
  if (segment.kind === 'cubic') {
    const at = [{ x: 1, y: 0 }, { x: 0, y: 1 }].flatMap((axis) => turningPoints(start, segment, axis));
    return at.map((t) => pointOn(start, segment, t));
  }
  // An ellipse parallel to the axes reaches furthest at whole quarter turns.
  const s = sweepOf(start, segment);
  const quarter = Math.PI / 2;
  const low = Math.ceil(Math.min(s.from, s.from + s.sweep) / quarter);
  const high = Math.floor(Math.max(s.from, s.from + s.sweep) / quarter);
  const found: Point[] = [];
  for (let k = low; k <= high; k++) found.push(onSweep(s, k * quarter));
  return found;
}
