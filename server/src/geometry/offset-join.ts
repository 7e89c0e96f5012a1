import { SAME_POINT } from './segment.ts';
import type { Point } from './shape.ts';
import { ahead, cross, distance, dot, plus, rightOf, times, turned } from './vector.ts';

/**
 * How two offset edges meet where they have drawn apart: in a point, unless it
 * lies further than `limit` times the greater distance from the corner (then
 * bevelled); in a straight cut; or in an arc about the corner.
 */
export type CornerStyle =
  | { readonly kind: 'mitre'; readonly limit: number }
  | { readonly kind: 'bevel' }
  | { readonly kind: 'round' };

/** One side of a corner: the unit direction it runs there and how far it moves to its right, in mm. */
export interface CornerSide {
  readonly direction: Point;
  readonly distance: number;
}

/** The points joining the offset of one side to that of the next; `trimmed` when both sides lost length to it. */
export interface Join {
  readonly points: readonly [Point, ...Point[]];
  readonly trimmed: boolean;
}

/** How far off, in greater distances, unequal sides may still meet before they step (invented). */
const FARTHEST = 4;

/** Directions closer than this (radians) run smoothly on, whatever style the corner has. */
const SMOOTH = 0.2;

/**
 * Joins the offsets of the sides before and after a corner. `style` is asked
 * only when both sides need lengthening to meet. With unequal distances one
 * side may need lengthening and the other shortening: they meet where their
 * lines cross unless that is far off, and otherwise step from one to the other at
 * the corner, as sides running straight on do.
 */
export function join(
  corner: Point,
  before: CornerSide,
  after: CornerSide,
  style: () => CornerStyle,
  tolerance: number,
): Join {
  const end = ahead(corner, rightOf(before.direction), before.distance);
  const start = ahead(corner, rightOf(after.direction), after.distance);
  const sin = cross(before.direction, after.direction);
  const cos = dot(before.direction, after.direction);
  const step: Join = { points: distance(end, start) > SAME_POINT ? [end, start] : [end], trimmed: false };
  if (Math.abs(sin) < 1e-9) {
    return cos > 0 && Math.abs(before.distance - after.distance) < 1e-9 ? { points: [end], trimmed: false } : step;
  }
  // How far the side before runs past its end, and the side after past its start, to where both lines meet.
  const beyond = (after.distance - before.distance * cos) / sin;
  const into = (after.distance * cos - before.distance) / sin;
  const meeting = ahead(end, before.direction, beyond);
  if (beyond <= 0 && into >= 0) return { points: [meeting], trimmed: true };
  const widest = Math.max(Math.abs(before.distance), Math.abs(after.distance));
  if (beyond < 0 || into > 0) {
    return Math.max(Math.abs(beyond), Math.abs(into)) <= FARTHEST * widest ? { points: [meeting], trimmed: false } : step;
  }
  if (before.distance === after.distance && cos > Math.cos(SMOOTH)) return { points: [meeting], trimmed: false };
  const chosen = style();
  switch (chosen.kind) {
    case 'mitre':
      return distance(corner, meeting) <= chosen.limit * widest + 1e-9 ? { points: [meeting], trimmed: false } : step;
    case 'bevel':
      return step;
    case 'round':
      return { points: roundJoin(corner, before, after, Math.atan2(sin, cos), tolerance), trimmed: false };
  }
}

/** An arc about the corner whose radius grows evenly from one distance to the other. */
function roundJoin(corner: Point, before: CornerSide, after: CornerSide, turn: number, tolerance: number): [Point, ...Point[]] {
  const widest = Math.max(Math.abs(before.distance), Math.abs(after.distance));
  const step = 2 * Math.acos(Math.max(0, 1 - tolerance / widest));
  const count = Math.max(1, Math.ceil(Math.abs(turn) / step));
  const at = (t: number) => {
    const radius = before.distance + (after.distance - before.distance) * t;
    return plus(corner, times(turned(rightOf(before.direction), turn * t), radius));
  };
  const rest = Array.from({ length: count }, (_, i) => at((i + 1) / count));
  return [at(0), ...rest];
}
