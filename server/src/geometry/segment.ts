import type { Point, Segment } from './shape.ts';
import { between, cross, distance, length, minus, plus, times, unit } from './vector.ts';

type Arc = Extract<Segment, { kind: 'arc' | 'elliptical' }>;
type Cubic = Extract<Segment, { kind: 'cubic' }>;

/** Closer than this (mm) two points are one. */
export const SAME_POINT = 1e-9;

/** A circular or elliptical arc as a run of parametric angles: `sweep` is signed, positive to the left. */
export interface Sweep {
  readonly centre: Point;
  readonly radiusX: number;
  readonly radiusY: number;
  readonly from: number;
  readonly sweep: number;
}

/**
 * The angles a circular or elliptical arc runs over. A circular arc that ends
 * where it starts is read as having no length, never as a whole turn.
 */
export function sweepOf(start: Point, arc: Arc): Sweep {
  if (arc.kind === 'elliptical') {
    return {
      centre: arc.centre,
      radiusX: arc.radiusX,
      radiusY: arc.radiusY,
      from: arc.startAngle,
      sweep: arc.endAngle - arc.startAngle,
    };
  }
  const radius = distance(start, arc.centre);
  const from = Math.atan2(start.y - arc.centre.y, start.x - arc.centre.x);
  const until = Math.atan2(arc.to.y - arc.centre.y, arc.to.x - arc.centre.x);
  const whole = 2 * Math.PI;
  let sweep = arc.turn === 'left' ? until - from : from - until;
  if (sweep < 0) sweep += whole;
  // An end a rounding error short of the start would otherwise become a whole turn.
  if (sweep > whole - 1e-9) sweep = 0;
  return { centre: arc.centre, radiusX: radius, radiusY: radius, from, sweep: arc.turn === 'left' ? sweep : -sweep };
}

/** The point at parametric angle `angle` of a sweep. */
export const onSweep = (s: Sweep, angle: number): Point => ({
  x: s.centre.x + s.radiusX * Math.cos(angle),
  y: s.centre.y + s.radiusY * Math.sin(angle),
});

/** The point at parameter `t` in 0…1; the ends are exact. */
export function pointOn(start: Point, segment: Segment, t: number): Point {
  if (t <= 0) return start;
  if (t >= 1) return segment.to;
  switch (segment.kind) {
    case 'line':
      return between(start, segment.to, t);
    case 'arc':
    case 'elliptical': {
      const s = sweepOf(start, segment);
      return onSweep(s, s.from + s.sweep * t);
    }
    case 'cubic': {
      const r = 1 - t;
      const a = r * r * r;
      const b = 3 * r * r * t;
      const c = 3 * r * t * t;
      const d = t * t * t;
      const { control1, control2, to } = segment;
      return {
        x: a * start.x + b * control1.x + c * control2.x + d * to.x,
        y: a * start.y + b * control1.y + c * control2.y + d * to.y,
      };
    }
  }
}

/** The derivative of the point by its parameter at `t` in 0…1. */
export function velocityOn(start: Point, segment: Segment, t: number): Point {
  switch (segment.kind) {
    case 'line':
      return minus(segment.to, start);
    case 'arc':
    case 'elliptical': {
      const s = sweepOf(start, segment);
      const angle = s.from + s.sweep * t;
      return { x: -s.radiusX * Math.sin(angle) * s.sweep, y: s.radiusY * Math.cos(angle) * s.sweep };
    }
    case 'cubic': {
      const r = 1 - t;
      const { control1: p1, control2: p2, to } = segment;
      return plus(
        times(minus(p1, start), 3 * r * r),
        plus(times(minus(p2, p1), 6 * r * t), times(minus(to, p2), 3 * t * t)),
      );
    }
  }
}

/** The unit direction of travel at `t`; at the end of a cubic whose handle has no length, the limit there. */
export function tangentOn(start: Point, segment: Segment, t: number): Point {
  const velocity = velocityOn(start, segment, t);
  if (segment.kind !== 'cubic' || length(velocity) > SAME_POINT) return unit(velocity);
  const points = [start, segment.control1, segment.control2, segment.to];
  if (t > 0.5) points.reverse();
  const origin = points[0] as Point;
  const other = points.find((p) => distance(p, origin) > SAME_POINT) ?? segment.to;
  return unit(t > 0.5 ? minus(origin, other) : minus(other, origin));
}

/** The same curve travelled the other way; `start` becomes its end. */
export function reverseSegment(start: Point, segment: Segment): Segment {
  switch (segment.kind) {
    case 'line':
      return { kind: 'line', to: start };
    case 'arc':
      return { ...segment, to: start, turn: segment.turn === 'left' ? 'right' : 'left' };
    case 'elliptical':
      return { ...segment, to: start, startAngle: segment.endAngle, endAngle: segment.startAngle };
    case 'cubic':
      return { kind: 'cubic', control1: segment.control2, control2: segment.control1, to: start };
  }
}

/** Whether the segment goes nowhere at all. */
export function isZeroLength(start: Point, segment: Segment): boolean {
  const closed = distance(start, segment.to) <= SAME_POINT;
  switch (segment.kind) {
    case 'line':
    case 'arc':
      return closed;
    case 'elliptical':
      return Math.abs(segment.endAngle - segment.startAngle) <= 1e-12;
    case 'cubic':
      return closed && distance(start, segment.control1) <= SAME_POINT && distance(start, segment.control2) <= SAME_POINT;
  }
}

/** The stretch of a segment between parameters `from` < `until`. */
export function sliceSegment(
  start: Point,
  segment: Segment,
  from: number,
  until: number,
): { readonly start: Point; readonly segment: Segment } {
  const a = pointOn(start, segment, from);
  const to = pointOn(start, segment, until);
  switch (segment.kind) {
    case 'line':
    case 'arc':
      return { start: a, segment: { ...segment, to } };
    case 'elliptical': {
      const sweep = segment.endAngle - segment.startAngle;
      const angle = (t: number) => segment.startAngle + sweep * t;
      return { start: a, segment: { ...segment, to, startAngle: angle(from), endAngle: angle(until) } };
    }
    case 'cubic': {
      // The handles of a stretch are its end velocities over three, scaled to its share of the parameter.
      const third = (until - from) / 3;
      const control1 = plus(a, times(velocityOn(start, segment, from), third));
      const control2 = minus(to, times(velocityOn(start, segment, until), third));
      return { start: a, segment: { kind: 'cubic', control1, control2, to } };
    }
  }
}

/**
 * The parameters, in order, at which the segment meets the endless line through
 * `origin` along the unit vector `direction`. A stretch lying on the line gives
 * its two ends.
 */
export function meetings(start: Point, segment: Segment, origin: Point, direction: Point): readonly number[] {
  const offLine = (t: number) => cross(direction, minus(pointOn(start, segment, t), origin));
  const stops = [0, ...turningPoints(start, segment, direction), 1];
  const found: number[] = [];
  const add = (t: number) => {
    if (found.length === 0 || t - (found.at(-1) as number) > 1e-12) found.push(t);
  };
  // Between turning points the distance from the line only rises or only falls, so a sign change brackets one root.
  for (let i = 0; i < stops.length; i++) {
    const t = stops[i] as number;
    const here = offLine(t);
    if (Math.abs(here) <= SAME_POINT) add(t);
    const next = stops[i + 1];
    if (next === undefined) break;
    const there = offLine(next);
    if (Math.abs(here) > SAME_POINT && Math.abs(there) > SAME_POINT && here > 0 !== there > 0) {
      add(bisect(offLine, t, next));
    }
  }
  return found;
}

/** Parameters strictly inside the segment at which it runs parallel to `direction`, in order. */
export function turningPoints(start: Point, segment: Segment, direction: Point): readonly number[] {
  switch (segment.kind) {
    case 'line':
      return [];
    case 'arc':
    case 'elliptical': {
      const s = sweepOf(start, segment);
      if (s.sweep === 0) return [];
      const first = Math.atan2(-direction.x * s.radiusY, direction.y * s.radiusX);
      const low = Math.min(s.from, s.from + s.sweep);
      const high = Math.max(s.from, s.from + s.sweep);
      const found: number[] = [];
      for (let k = Math.ceil((low - first) / Math.PI); first + k * Math.PI <= high; k++) {
        found.push((first + k * Math.PI - s.from) / s.sweep);
      }
      return found.filter((t) => t > 0 && t < 1).sort((a, b) => a - b);
    }
    case 'cubic':
      return cubicTurningPoints(start, segment, direction);
  }
}

function cubicTurningPoints(start: Point, { control1, control2, to }: Cubic, direction: Point): readonly number[] {
  // The derivative of the distance from the line, in Bernstein form and then as a·t² + b·t + c.
  const d0 = cross(direction, minus(control1, start));
  const d1 = cross(direction, minus(control2, control1));
  const d2 = cross(direction, minus(to, control2));
  return quadraticRoots(d0 - 2 * d1 + d2, 2 * (d1 - d0), d0)
    .filter((t) => t > 0 && t < 1)
    .sort((a, b) => a - b);
}

/** Real roots of a·t² + b·t + c by the form that does not cancel (Press et al., Numerical Recipes, section 5.6). */
function quadraticRoots(a: number, b: number, c: number): number[] {
  const scale = Math.max(Math.abs(a), Math.abs(b), Math.abs(c));
  if (Math.abs(a) <= 1e-14 * scale) return b === 0 ? [] : [-c / b];
  const discriminant = b * b - 4 * a * c;
  if (discriminant < 0) return [];
  const q = -0.5 * (b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant));
  return q === 0 ? [0] : [q / a, c / q];
}

function bisect(f: (t: number) => number, low: number, high: number): number {
  const rising = f(low) < 0;
  for (let i = 0; i < 60 && high - low > 1e-16; i++) {
    const middle = (low + high) / 2;
    if (f(middle) < 0 === rising) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
