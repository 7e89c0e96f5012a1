import { cyclic, nextOf } from './cyclic.ts';
import { stretches } from './edge.ts';
import { breaks, FLATNESS } from './flatten.ts';
import { farthestMeeting, join, stepJoin } from './offset-join.ts';
import type { CornerSide, CornerStyle, Join } from './offset-join.ts';
import { pointOn, tangentOn } from './segment.ts';
import type { Edge, Point } from './shape.ts';
import { ahead, cross, distance, dot, minus, rightOf, times, unit } from './vector.ts';

/** A straight piece of a flattened edge, with the direction of the curve it stands for at both of its ends. */
export interface Chord {
  readonly edge: number;
  /** How far, in mm, it moves to its right. */
  readonly move: number;
  readonly from: Point;
  readonly to: Point;
  readonly direction: Point;
  readonly leaves: Point;
  readonly arrives: Point;
}

/** Chords in order, and the join that leads to each from the one before it. */
export interface JoinedChords {
  readonly chords: readonly Chord[];
  readonly joins: readonly Join[];
}

/** The straight pieces that stand for an edge when it is moved by `move` mm to its right. */
export function chordsOf(edge: Edge, index: number, move: number): readonly Chord[] {
  const chords: Chord[] = [];
  // Moving a curve outward lengthens its chords: half the tolerance is for the curve, half for the distance, over
  // which a turn of a radians strays by distance·a²/8.
  const maxTurn = Math.min(0.15, Math.sqrt((4 * FLATNESS) / Math.max(Math.abs(move), 1e-9)));
  for (const { start, segment } of stretches(edge)) {
    let from = start;
    let leaves = segment.kind === 'line' ? undefined : tangentOn(start, segment, 0);
    for (const t of breaks(start, segment, FLATNESS / 2, maxTurn)) {
      const to = pointOn(start, segment, t);
      const direction = unit(minus(to, from));
      const arrives = leaves && tangentOn(start, segment, t);
      chords.push({ edge: index, move, from, to, direction, leaves: leaves ?? direction, arrives: arrives ?? direction });
      from = to;
      leaves = arrives;
    }
  }
  return chords;
}

/** Where a chord's own start and end come to lie, whatever joins them. */
const movedStart = (chord: Chord): Point => ahead(chord.from, rightOf(chord.leaves), chord.move);
const movedEnd = (chord: Chord): Point => ahead(chord.to, rightOf(chord.arrives), chord.move);

/** The join at the corner between two chords that follow each other. */
export function joinBetween(before: Chord, after: Chord, corners: (before: number, after: number) => CornerStyle): Join {
  return join(after.from, sideBefore(before), sideAfter(after), () => corners(before.edge, after.edge), FLATNESS);
}

const sideBefore = (chord: Chord): CornerSide => ({ direction: chord.arrives, distance: chord.move });
const sideAfter = (chord: Chord): CornerSide => ({ direction: chord.leaves, distance: chord.move });

/**
 * Joins the chords. Sides that move unequally meet where the line of the one
 * that is lengthened first meets the chords of the other, and the chords before
 * that are left out; where it meets none, they step. A side that the lines of
 * both its neighbours cut off altogether is left out, and those meet.
 */
export function joinChords(chords: readonly Chord[], corners: (before: number, after: number) => CornerStyle): JoinedChords {
  const joins: Join[] = chords.map((after, i) => joinBetween(cyclic(chords, i - 1), after, corners));
  if (!joins.some(isUnequal)) return { chords, joins };
  const resolved = [...joins];
  const gone = new Set<number>();
  const settled = new Set<number>();
  const isFree = ({ passed, corner }: Met): boolean => !passed.some((index) => gone.has(index)) && (corner === undefined || !settled.has(corner));
  for (const [i, own] of joins.entries()) {
    if (!isUnequal(own) || settled.has(i)) continue;
    // What one corner has passed, another can't meet.
    const ways = [() => meetAt(chords, joins, i), () => stepAt(chords, joins, i)];
    let taken: Met | undefined;
    for (const way of ways) {
      const met = way();
      if (met === undefined || !isFree(met)) continue;
      taken = met;
      break;
    }
    resolved[i] = taken?.join ?? plainStep(cyclic(chords, i - 1), cyclic(chords, i));
    settled.add(i);
    for (const index of taken?.passed ?? []) gone.add(index);
    if (taken?.corner === undefined) continue;
    resolved[taken.corner] = taken.join;
    settled.add(taken.corner);
  }
  return withoutPassed(chords, resolved, gone);
}

const isUnequal = ({ kind }: Join): boolean => kind === 'met' || kind === 'step';

/** The chords that are still there; of the joins since the last of them, an unequal one passes over the others. */
function withoutPassed(chords: readonly Chord[], joins: readonly Join[], gone: ReadonlySet<number>): JoinedChords {
  const included = chords.flatMap((_, i) => (gone.has(i) ? [] : [i]));
  if (included.length < 2) return { chords, joins };
  return {
    chords: included.map((i) => cyclic(chords, i)),
    joins: included.map((i, k) => {
      const previous = cyclic(included, k - 1);
      for (let back = i; back !== previous; back = back === 0 ? chords.length - 1 : back - 1) {
        const own = cyclic(joins, back);
        if (isUnequal(own)) return own;
      }
      return cyclic(joins, i);
    }),
  };
}

interface Met {
  readonly join: Join;
  /** The chords between the meeting and the corner. */
  readonly passed: readonly number[];
  /** The corner at the other end of what is passed, where this is its meeting too. */
  readonly corner?: number | undefined;
}

/** Where the lines of the unequal sides at the corner before chord `i` meet; undefined where they don't. */
function meetAt(chords: readonly Chord[], joins: readonly Join[], i: number): Met | undefined {
  const [before, after] = [cyclic(chords, i - 1), cyclic(chords, i)];
  const shortened = shortenedAt(before, after);
  const met = shortened && firstMeeting(chords, joins, i, shortened === 'after' ? 1 : -1, lengthened(before, after, shortened));
  return met && { join: { kind: 'met', points: met.points }, passed: met.passed, corner: met.corner };
}

/** The step at the corner before chord `i`: the end of the wider allowance, square to its side, down to the line of the narrower one. */
function stepAt(chords: readonly Chord[], joins: readonly Join[], i: number): Met {
  const [before, after] = [cyclic(chords, i - 1), cyclic(chords, i)];
  const [end, start] = [movedEnd(before), movedStart(after)];
  const beforeWider = Math.abs(before.move) > Math.abs(after.move);
  const foot = beforeWider ? end : start;
  const face = { from: foot, direction: unit(minus(after.from, foot)), reach: distance(after.from, foot) };
  const met = firstMeeting(chords, joins, i, beforeWider ? 1 : -1, face);
  if (met !== undefined && met.corner === undefined) {
    const [first, ...rest] = met.points;
    return { join: { kind: 'step', points: beforeWider ? [end, first, ...rest] : [first, ...rest, start] }, passed: met.passed };
  }
  const step = stepJoin(after.from, sideBefore(before), sideAfter(after));
  const outside = beforeWider ? dot(minus(step.points.at(-1) ?? end, start), after.leaves) <= 0 : dot(minus(step.points[0], end), before.arrives) >= 0;
  return { join: outside ? step : plainStep(before, after), passed: [] };
}

/** Which of two sides that move unequally loses length to the other; neither where they run straight on. */
function shortenedAt(before: Chord, after: Chord): 'before' | 'after' | undefined {
  const sin = cross(before.arrives, after.leaves);
  if (Math.abs(sin) < 1e-9) return undefined;
  return (after.move - before.move * dot(before.arrives, after.leaves)) / sin > 0 ? 'after' : 'before';
}

/** Straight from the end of one side to the start of the next. */
const plainStep = (before: Chord, after: Chord): Join => ({ kind: 'step', points: [movedEnd(before), movedStart(after)] });

interface Ray {
  readonly from: Point;
  readonly direction: Point;
  readonly reach: number;
}

/** The line of the side that gains length, from the corner on. */
function lengthened(before: Chord, after: Chord, shortened: 'before' | 'after'): Ray {
  const reach = farthestMeeting(before.move, after.move);
  return shortened === 'after'
    ? { from: movedEnd(before), direction: before.arrives, reach }
    : { from: movedStart(after), direction: times(after.leaves, -1), reach };
}

interface Meeting {
  /** Where the ray meets it and, within a join, the rest of that. */
  readonly points: readonly [Point, ...Point[]];
  readonly passed: readonly number[];
  readonly corner?: number | undefined;
}

/**
 * Where a ray first meets the moved chords from chord `i` on (`way` 1), or from
 * the one before it back (-1), up to the next corner that is unequal, or the line
 * that cuts those off there; undefined where it meets neither within its reach.
 */
function firstMeeting(chords: readonly Chord[], joins: readonly Join[], i: number, way: 1 | -1, ray: Ray): Meeting | undefined {
  const count = chords.length;
  const first = way === 1 ? i : i - 1;
  const stepped = cyclic(joins, i).kind === 'step';
  const passed: number[] = [];
  let met: Meeting | undefined;
  let walked = 0;
  for (let k = 0; k < count - 1; k++) {
    const at = (((first + way * k) % count) + count) % count;
    const corner = (way === 1 ? at + 1 : at) % count;
    const far = cyclic(joins, corner);
    if (met === undefined && walked <= ray.reach) {
      const [from, to] = movedChord(chords, joins, at, way);
      const point = meetingWith(ray, from, to);
      if (point !== undefined) met = { points: [point], passed: [...passed] };
      walked += distance(from, to);
    }
    passed.push(at);
    // Where their lines are too far off to meet, only the bend of a curve brings sides together.
    if (stepped && far.kind !== 'runs on') return met;
    if (isUnequal(far)) return nearerCutOff(chords, joins, { i, corner, way, ray }, met, passed);
    if (met === undefined && walked <= ray.reach) {
      const points = meetingJoin(ray, far.points, way);
      if (points !== undefined) met = { points, passed: [...passed] };
    }
  }
  return met;
}

/** Where a ray meets the points of a join, walked forward or back: the meeting and what is left of the join. */
function meetingJoin(ray: Ray, points: readonly Point[], way: 1 | -1): readonly [Point, ...Point[]] | undefined {
  for (let k = 1; k < points.length; k++) {
    const index = way === 1 ? k : points.length - k;
    const point = meetingWith(ray, cyclic(points, index - 1), cyclic(points, index));
    if (point === undefined) continue;
    if (way === 1) return [point, ...points.slice(index)];
    const [head = point, ...rest] = points.slice(0, index);
    return [head, ...rest, point];
  }
  return undefined;
}

/** The meeting with the line that cuts off the chords at the corner beyond them, where that comes before any other and both corners meet. */
function nearerCutOff(
  chords: readonly Chord[],
  joins: readonly Join[],
  { i, corner, way, ray }: { readonly i: number; readonly corner: number; readonly way: 1 | -1; readonly ray: Ray },
  met: Meeting | undefined,
  passed: readonly number[],
): Meeting | undefined {
  if (cyclic(joins, i).kind !== 'met' || cyclic(joins, corner).kind !== 'met') return met;
  // It reaches as far as to where it meets those chords itself.
  const cutOff = cutOffAt(chords, corner, way);
  const point = cutOff && meetingWith(ray, cutOff.from, cyclic(joins, corner).points[0]);
  const nearer = point !== undefined && (met === undefined || distance(ray.from, point) < distance(ray.from, met.points[0]));
  return nearer ? { points: [point], passed, corner } : met;
}

/** The line of the chord beyond a corner, where it shortens the chords on this side of it. */
function cutOffAt(chords: readonly Chord[], corner: number, way: 1 | -1): Ray | undefined {
  const [before, after] = [cyclic(chords, corner - 1), cyclic(chords, corner)];
  const shortened = shortenedAt(before, after);
  return shortened === (way === 1 ? 'before' : 'after') ? lengthened(before, after, shortened) : undefined;
}

/**
 * A moved chord, walked to from one end, up to its join at the other; as far as
 * it goes by itself where that is unequal. What trims it at the end that is
 * walked from has been passed.
 */
function movedChord(chords: readonly Chord[], joins: readonly Join[], i: number, way: 1 | -1): readonly [Point, Point] {
  const chord = cyclic(chords, i);
  const [arriving, leaving] = [cyclic(joins, i), nextOf(joins, i)];
  return way === 1
    ? [arriving.kind === 'apart' ? (arriving.points.at(-1) ?? movedStart(chord)) : movedStart(chord), isUnequal(leaving) ? movedEnd(chord) : leaving.points[0]]
    : [isUnequal(arriving) ? movedStart(chord) : (arriving.points.at(-1) ?? movedStart(chord)), leaving.kind === 'apart' ? leaving.points[0] : movedEnd(chord)];
}

function meetingWith({ from, direction, reach }: Ray, a: Point, b: Point): Point | undefined {
  const along = minus(b, a);
  const denominator = cross(direction, along);
  if (Math.abs(denominator) < 1e-12) return undefined;
  const gap = minus(a, from);
  const t = cross(gap, along) / denominator;
  const s = cross(gap, direction) / denominator;
  return t >= -1e-9 && t <= reach + 1e-9 && s >= -1e-9 && s <= 1 + 1e-9 ? ahead(from, direction, t) : undefined;
}
