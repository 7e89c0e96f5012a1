import { positivelyWound } from './boolean.ts';
import { isConvex, selfCrossing } from './crossing.ts';
import { cyclic, nextOf } from './cyclic.ts';
import { polylineEdge } from './edge.ts';
import { polygonArea } from './measure.ts';
import { chordsOf, joinChords } from './offset-chords.ts';
import type { Chord, JoinedChords } from './offset-chords.ts';
import { leftOfAll } from './offset-convex.ts';
import { exactOffset } from './offset-exact.ts';
import type { CornerStyle, Join } from './offset-join.ts';
import { namedRuns } from './offset-names.ts';
import type { RawLine } from './offset-names.ts';
import type { Edge, Outline, Point, Polygon } from './shape.ts';
import { ahead, cross, distance, dot, minus, rightOf } from './vector.ts';

/**
 * The offset outline, or that nothing is left of it. `others` are further parts
 * that an inward offset fell apart into, from the largest on; the outline is the
 * largest of all. `steps` are the edges between which the outline steps from one
 * distance to the other, since they run on too straight to meet.
 */
export type OffsetResult =
  | { readonly kind: 'ok'; readonly outline: Outline; readonly others: readonly Polygon[]; readonly steps: readonly Step[] }
  | { readonly kind: 'vanished' };

/** The names of the edges before and after a step. */
export type Step = readonly [before: string, after: string];

/** Regions smaller than this, in mm², are rounding left-overs. */
const CRUMB = 0.01;

/** A part narrower than this, in mm, is what rounding leaves of a passage that just closes (invented). */
const THREAD = 0.5;

/**
 * Moves each edge outward by `distances(its name)` mm (inward when negative).
 * Edges keep their names and the ends they are measured from. Lines stay lines
 * and, where nothing shortens them, arcs arcs; other curves come as lines within
 * 0.01 mm. What joins two edges belongs to the one before it. Edges that lose all
 * their length are gone, and so are the loops that narrow hollows would leave; an
 * edge left in two runs is `<name>` and `<name>_2`. With every distance zero the
 * very outline comes back.
 */
export function offsetOutline(
  outline: Outline,
  distances: (edgeName: string) => number,
  corners: (before: string, after: string) => CornerStyle,
): OffsetResult {
  const moves = outline.edges.map((edge) => distances(edge.name));
  if (moves.every((d) => d === 0)) return { kind: 'ok', outline, others: [], steps: [] };
  const nameOf = (edge: number): string => outline.edges[edge]?.name ?? '';
  const cornerStyle = (before: number, after: number): CornerStyle => corners(nameOf(before), nameOf(after));
  const exact = exactOffset(outline, moves, cornerStyle);
  if (exact) return { kind: 'ok', others: [], outline: exact.outline, steps: stepsOf(exact.pieces, exact.joins, nameOf) };

  const chords = outline.edges.flatMap((edge, i) => chordsOf(edge, i, moves[i] ?? 0));
  if (chords.length < 2) return { kind: 'vanished' };
  const joined = joinChords(chords, cornerStyle);
  const made = simpleOffset(outline.edges, joined) ?? convexInset(outline.edges, chords, joined) ?? untangledOffset(outline.edges, joinChords(inTangents(chords), cornerStyle));
  if (made === undefined) return { kind: 'vanished' };
  return { kind: 'ok', others: [], ...made, steps: stepsOf(joined.chords, joined.joins, nameOf) };
}

/** The outline made, and what else it fell apart into. */
interface Made {
  readonly outline: Outline;
  readonly others?: readonly Polygon[];
}

const stepsOf = (sides: readonly { readonly edge: number }[], joins: readonly Join[], nameOf: (edge: number) => string): readonly Step[] =>
  joins.flatMap(({ kind }, i) => (kind === 'step' ? [[nameOf(cyclic(sides, i - 1).edge), nameOf(cyclic(sides, i).edge)] as const] : []));

/** The offset when no chord is turned round and nothing crosses, which most pieces are. */
function simpleOffset(edges: readonly Edge[], { chords, joins }: JoinedChords): Made | undefined {
  const ring: Point[] = [];
  const runs: Point[][] = edges.map(() => []);
  for (const [i, chord] of chords.entries()) {
    const arriving = cyclic(joins, i);
    const next = nextOf(joins, i);
    if (remaining(arriving, next, chord.direction) <= 1e-9) return undefined;
    for (const point of arriving.points) ring.push(point);
    const run = cyclic(runs, chord.edge);
    if (run.length === 0) run.push(lastOf(arriving));
    run.push(...next.points);
  }
  if (selfCrossing(ring) || polygonArea(ring) < CRUMB) return undefined;
  return { outline: { edges: edgesAlong(runs, edges) } };
}

const lastOf = ({ points }: Join): Point => points.at(-1) ?? points[0];

/** The length in mm that the joins at both its ends leave of a side; negative when they turn it round. */
const remaining = (arriving: Join, leaving: Join, direction: Point): number => dot(minus(leaving.points[0], lastOf(arriving)), direction);

/**
 * The offset inward of a convex outline: what lies on the inner side of every
 * line and every tangent, each moved. Undefined when the outline is not convex,
 * steps from one distance to another, or leaves nothing.
 */
function convexInset(edges: readonly Edge[], chords: readonly Chord[], { joins }: JoinedChords): Made | undefined {
  if (chords.some(({ move }) => move > 0) || joins.some(({ points }) => points.length > 1)) return undefined;
  if (!isConvex(chords.map(({ from }) => from))) return undefined;
  const borders = inTangents(chords).map(({ edge, move, from, direction }) => ({ edge, point: ahead(from, rightOf(direction), move), direction }));
  const corners = leftOfAll(borders);
  if (!corners) return undefined;
  const ring = corners.map(({ from }) => from);
  if (polygonArea(ring) < CRUMB) return undefined;
  const runs: Point[][] = edges.map(() => []);
  // The corners may begin in the middle of an edge's run; each edge has but one.
  const begin = Math.max(0, corners.findIndex(({ edge }, i) => corners.at(i - 1)?.edge !== edge));
  for (const k of corners.keys()) {
    const { edge, from } = cyclic(corners, begin + k);
    const run = cyclic(runs, edge);
    if (run.length === 0) run.push(from);
    run.push(nextOf(corners, begin + k).from);
  }
  return { outline: { edges: edgesAlong(runs, edges) } };
}

/** Each edge along its own run of points; one without a run is gone. */
const edgesAlong = (runs: readonly (readonly Point[])[], edges: readonly Edge[]): Edge[] =>
  edges.flatMap(({ name, measuredFrom }, i) => {
    const [first, ...rest] = runs[i] ?? [];
    return first ? [polylineEdge(name, [first, ...rest], measuredFrom)] : [];
  });

/**
 * The offset with its loops taken out; undefined when nothing is left. Where a
 * corner shortens a side by more than it has, the raw boundary goes by way of
 * the corner itself, so that whatever it cuts off is run round clockwise; what
 * remains is run round counter-clockwise. This is the construction of X. Chen
 * and S. McMains, "Polygon Offsetting by Computing Winding Numbers", 2005.
 */
function untangledOffset(edges: readonly Edge[], { chords, joins: plain }: JoinedChords): Made | undefined {
  const turnedRound = chords.map(({ direction }, i) => remaining(cyclic(plain, i), nextOf(plain, i), direction) <= 0);
  const joins = plain.map(({ kind, points }, i): readonly [Point, ...Point[]] =>
    kind === 'trimmed' && (cyclic(turnedRound, i - 1) || turnedRound[i] === true) ? throughCorner(cyclic(chords, i - 1), cyclic(chords, i)) : points,
  );
  const ring: Point[] = [];
  const lines: RawLine[] = [];
  for (const [i, chord] of chords.entries()) {
    const arriving = cyclic(joins, i);
    const leaving = nextOf(joins, i);
    ring.push(...arriving);
    lines.push({ edge: chord.edge, from: arriving.at(-1) ?? arriving[0], to: leaving[0] });
    const [first, second, third] = leaving;
    const detour = leaving.length === 3 && second !== undefined && third !== undefined && distance(second, chord.to) === 0;
    if (!detour) leaving.slice(1).forEach((to, k) => lines.push({ edge: chord.edge, from: leaving[k] ?? first, to }));
  }
  const parts = positivelyWound(ring).filter((part) => polygonArea(part) > CRUMB).sort((a, b) => polygonArea(b) - polygonArea(a));
  const [largest, ...others] = parts;
  if (!largest) return undefined;
  return { outline: { edges: namedRuns(largest, lines, edges) }, others: others.filter(isMoreThanThread) };
}

/** A long part of width w has an area of about w times half its way round. */
const isMoreThanThread = (part: Polygon): boolean => 2 * polygonArea(part) > THREAD * perimeterOf(part);

const perimeterOf = (part: Polygon): number => part.reduce((sum, point, i) => sum + distance(cyclic(part, i - 1), point), 0);

/**
 * The outline with each chord of a curve replaced by the curve's tangents at its
 * ends. Moved, a tangent still touches the moved curve, so a curve that shrinks to a
 * point leaves nothing, where moved chords would leave their own small remainder.
 */
function inTangents(chords: readonly Chord[]): readonly Chord[] {
  const lines: Chord[] = [];
  const add = (chord: Chord, from: Point, to: Point, direction: Point): void => {
    const last = lines.at(-1);
    const goesOn = last?.edge === chord.edge && dot(last.direction, direction) > 0 && Math.abs(cross(last.direction, direction)) < 1e-12;
    if (goesOn) lines.pop();
    lines.push({ ...chord, from: goesOn ? last.from : from, to, direction, leaves: direction, arrives: direction });
  };
  for (const chord of chords) {
    const { from, to, direction, leaves, arrives } = chord;
    const sin = cross(leaves, arrives);
    const until = Math.abs(sin) > 1e-9 ? cross(minus(to, from), arrives) / sin : 0;
    // Across an inflection the tangents do not meet between the ends, and the chord is as good.
    if (until > 0 && until < distance(from, to)) {
      const meeting = ahead(from, leaves, until);
      add(chord, from, meeting, leaves);
      add(chord, meeting, to, arrives);
    } else {
      add(chord, from, to, direction);
    }
  }
  return lines;
}

const throughCorner = (before: Chord, after: Chord): readonly [Point, ...Point[]] => [
  ahead(after.from, rightOf(before.direction), before.move),
  after.from,
  ahead(after.from, rightOf(after.direction), after.move),
];
