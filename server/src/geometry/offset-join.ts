import { SAME_POINT } from './segment.ts';
import type { Point } from './shape.ts';
import { ahead, cross, distance, dot, minus, plus, rightOf, times, turned } from './vector.ts';

/**
 * How two offset edges meet where they have drawn apart: in a point, unless it
 * lies further than `limit` times the greater distance from the corner (then
 * bevelled); in a straight cut; in an arc about the corner, as wide as the
 * greater distance, that ends where it meets the line of the lesser; or so that
 * what is added to one side, `turned` back along it, lies on the other's line.
 */
export type CornerStyle =
  | { readonly kind: 'mitre'; readonly limit: number }
  | { readonly kind: 'bevel' }
  | { readonly kind: 'round' }
  | { readonly kind: 'turned'; readonly side: 'before' | 'after' };

/** One side of a corner: the unit direction it runs there and how far it moves to its right, in mm. */
export interface CornerSide {
  readonly direction: Point;
  readonly distance: number;
}

/**
 * The points joining the offset of one side to that of the next. Both sides
 * `run on`, lose length to it (`trimmed`) or gain some (`apart`). Where they
 * move unequally one may lose and the other gain: their lines have `met`; or,
 * too far off for that, make a `step`.
 */
export interface Join {
  readonly kind: 'runs on' | 'trimmed' | 'apart' | 'met' | 'step';
  readonly points: readonly [Point, ...Point[]];
}

/** How far off, in greater distances, unequal sides may still meet before they step (invented). */
const FARTHEST = 4;

/** How far from their corner, in mm, sides that move so far may still meet. */
export const farthestMeeting = (before: number, after: number): number => FARTHEST * Math.max(Math.abs(before), Math.abs(after));

/** Directions closer than this (radians) run smoothly on, whatever style the corner has. */
const SMOOTH = 0.2;

/** Joins the offsets of the sides before and after a corner. `style` is asked only where it may make a difference. */
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
  if (Math.abs(sin) < 1e-9) {
    const runsOn = cos > 0 && Math.abs(before.distance - after.distance) < 1e-9;
    return runsOn ? { kind: 'runs on', points: [end] } : { kind: 'step', points: cut(end, start) };
  }
  // How far the side before runs past its end, and the side after past its start, to where both lines meet.
  const beyond = (after.distance - before.distance * cos) / sin;
  const into = (after.distance * cos - before.distance) / sin;
  const meeting = ahead(end, before.direction, beyond);
  const smooth = before.distance === after.distance && cos > Math.cos(SMOOTH);
  const outward = sin > 0 && !smooth ? style() : undefined;
  const turnedBack = outward?.kind === 'turned' ? turnedJoin(corner, before, after, outward.side) : undefined;
  if (turnedBack) return { kind: 'apart', points: turnedBack };
  if (beyond <= 0 && into >= 0) return { kind: 'trimmed', points: [meeting] };
  if (beyond < 0 || into > 0) {
    const near = Math.max(Math.abs(beyond), Math.abs(into)) <= farthestMeeting(before.distance, after.distance);
    return near ? { kind: 'met', points: [meeting] } : stepJoin(corner, before, after);
  }
  if (smooth) return { kind: 'apart', points: [meeting] };
  return { kind: 'apart', points: drawnApart(corner, before, after, outward ?? style(), { end, start, meeting, tolerance }) };
}

interface Ends {
  readonly end: Point;
  readonly start: Point;
  readonly meeting: Point;
  readonly tolerance: number;
}

/** From the end of one moved side to the start of the next, where both need lengthening to meet. */
function drawnApart(corner: Point, before: CornerSide, after: CornerSide, style: CornerStyle, { end, start, meeting, tolerance }: Ends): Join['points'] {
  const widest = Math.max(Math.abs(before.distance), Math.abs(after.distance));
  const mitred = (limit: number): Join['points'] => (distance(corner, meeting) <= limit * widest + 1e-9 ? [meeting] : cut(end, start));
  switch (style.kind) {
    case 'mitre':
      return mitred(style.limit);
    case 'turned':
      return mitred(FARTHEST);
    case 'bevel':
      return cut(end, start);
    case 'round':
      return roundJoin(corner, before, after, tolerance);
  }
}

const cut = (end: Point, start: Point): Join['points'] => (distance(end, start) > SAME_POINT ? [end, start] : [end]);

/** From one distance to the other at the corner, square to the side that moves further. */
export function stepJoin(corner: Point, before: CornerSide, after: CornerSide): Join {
  const cos = dot(before.direction, after.direction);
  const end = ahead(corner, rightOf(before.direction), before.distance);
  const start = ahead(corner, rightOf(after.direction), after.distance);
  if (cos < 0.5) return { kind: 'step', points: cut(end, start) };
  return Math.abs(before.distance) > Math.abs(after.distance)
    ? { kind: 'step', points: cut(end, ahead(corner, rightOf(before.direction), after.distance / cos)) }
    : { kind: 'step', points: cut(ahead(corner, rightOf(after.direction), before.distance / cos), start) };
}

/**
 * The other side's line as far as the unmoved line of the side that is turned, and from there its mirror image in that;
 * undefined where the corner is not turned outward, or the two lines meet too far off.
 */
function turnedJoin(corner: Point, before: CornerSide, after: CornerSide, turnedSide: 'before' | 'after'): Join['points'] | undefined {
  const [hem, side] = turnedSide === 'before' ? [before, after] : [after, before];
  if (hem.distance <= 0 || side.distance < 0) return undefined;
  const away = rightOf(hem.direction);
  // How far the side runs along the hem's line for each mm that it runs away from it.
  const slant = dot(side.direction, hem.direction) / dot(side.direction, away);
  const foot = ahead(corner, rightOf(side.direction), side.distance);
  const fold = ahead(foot, side.direction, -dot(minus(foot, corner), away) / dot(side.direction, away));
  const tip = plus(fold, plus(times(hem.direction, -slant * hem.distance), times(away, hem.distance)));
  if (Math.max(distance(corner, fold), distance(fold, tip)) > farthestMeeting(before.distance, after.distance)) return undefined;
  if (Math.abs(slant) < 1e-9) return [tip];
  return turnedSide === 'before' ? [tip, fold] : [fold, tip];
}

/**
 * An arc about the corner as wide as the greater distance. It touches the line
 * of the side that moves so far, and ends where it meets the other side's line,
 * so that nothing stands out past either.
 */
function roundJoin(corner: Point, before: CornerSide, after: CornerSide, tolerance: number): Join['points'] {
  const [first, last] = [rightOf(before.direction), rightOf(after.direction)];
  const turn = Math.atan2(cross(first, last), dot(first, last));
  const widest = Math.max(Math.abs(before.distance), Math.abs(after.distance));
  const outward = before.distance + after.distance < 0 ? -1 : 1;
  // The circle meets a line that lies nearer than its radius at this angle from the line's foot.
  const short = (side: CornerSide): number => Math.sign(turn) * Math.acos(Math.min(1, Math.max(0, (side.distance * outward) / widest)));
  const [from, until] = [short(before), turn - short(after)];
  const at = (angle: number): Point => plus(corner, times(turned(first, angle), widest * outward));
  if ((until - from) * Math.sign(turn) < 1e-9) return [at(until)];
  const step = 2 * Math.acos(Math.max(0, 1 - tolerance / widest));
  const count = Math.max(1, Math.ceil(Math.abs(until - from) / step));
  return [at(from), ...Array.from({ length: count }, (_, i) => at(from + ((until - from) * (i + 1)) / count))];
}
