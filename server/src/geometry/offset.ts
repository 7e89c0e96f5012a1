import { positivelyWound } from './boolean.ts';
import { isConvex, selfCrossing } from './crossing.ts';
import { polylineEdge, stretches } from './edge.ts';
import { breaks, FLATNESS } from './flatten.ts';
import { polygonArea } from './measure.ts';
import { leftOfAll } from './offset-convex.ts';
import type { ConvexCorner } from './offset-convex.ts';
import { namedRuns } from './offset-names.ts';
import type { RawLine } from './offset-names.ts';
import { join } from './offset-join.ts';
import { exactOffset } from './offset-exact.ts';
import type { CornerStyle, Join } from './offset-join.ts';
import { pointOn, tangentOn } from './segment.ts';
import type { Edge, Outline, Point, Polygon } from './shape.ts';
import { ahead, cross, distance, dot, minus, rightOf, unit } from './vector.ts';

/**
 * The offset outline, or that nothing is left of it. `partsLost` counts further
 * pieces an inward offset fell apart into; only the largest is kept.
 */
export type OffsetResult =
  | { readonly kind: 'ok'; readonly outline: Outline; readonly partsLost: number }
  | { readonly kind: 'vanished' };

/** A straight piece of a flattened edge, with the direction of the curve it stands for at both of its ends. */
interface Chord {
  readonly edge: number;
  readonly from: Point;
  readonly to: Point;
  readonly direction: Point;
  readonly leaves: Point;
  readonly arrives: Point;
}

/** Regions smaller than this, in mm², are rounding left-overs. */
const CRUMB = 0.01;

/**
 * Moves each edge outward by `distances(its name)` mm (inward when negative).
 * Edges keep their names and the ends they are measured from. Lines stay lines
 * and, where nothing shortens them, arcs arcs; other curves come as lines within
 * 0.01 mm. What
 * joins two edges belongs to the one before it. Edges that lose all their length
 * are gone, and so are the loops that narrow hollows would leave; an edge left
 * in two runs is `<name>` and `<name>_2`. With every distance zero the very
 * outline comes back.
 */
export function offsetOutline(
  outline: Outline,
  distances: (edgeName: string) => number,
  corners: (before: string, after: string) => CornerStyle,
): OffsetResult {
  const moves = outline.edges.map((edge) => distances(edge.name));
  if (moves.every((d) => d === 0)) return { kind: 'ok', outline, partsLost: 0 };
  const nameOf = (edge: number): string => outline.edges[edge]?.name ?? '';
  const exact = exactOffset(outline, moves, (before, after) => corners(nameOf(before), nameOf(after)));
  if (exact) return { kind: 'ok', outline: exact, partsLost: 0 };
  const chords = outline.edges.flatMap((edge, i) => chordsOf(edge, i, moves[i] as number));
  if (chords.length < 2) return { kind: 'vanished' };

  const names = outline.edges.map(({ name }) => name);
  const joinsOf = (all: readonly Chord[]): readonly Join[] =>
    all.map((after, i) => {
      const before = all.at(i - 1) as Chord;
      return join(
        after.from,
        { direction: before.arrives, distance: moves[before.edge] as number },
        { direction: after.leaves, distance: moves[after.edge] as number },
        () => corners(names[before.edge] as string, names[after.edge] as string),
        FLATNESS,
      );
    });
  const joins = joinsOf(chords);
  return (
    simpleOffset(outline.edges, chords, joins) ??
    convexInset(outline.edges, chords, moves, joins) ??
    untangledOffset(outline.edges, chords, moves, joinsOf)
  );
}

function chordsOf(edge: Edge, index: number, move: number): Chord[] {
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
      chords.push({ edge: index, from, to, direction, leaves: leaves ?? direction, arrives: arrives ?? direction });
      from = to;
      leaves = arrives;
    }
  }
  return chords;
}

/** The offset when no chord is turned round and nothing crosses, which most pieces are. */
function simpleOffset(edges: readonly Edge[], chords: readonly Chord[], joins: readonly Join[]): OffsetResult | undefined {
  const ring: Point[] = [];
  const runs: Point[][] = edges.map(() => []);
  for (const [i, chord] of chords.entries()) {
    const arriving = joins[i] as Join;
    const from = arriving.points.at(-1) as Point;
    const next = joins[i + 1 < joins.length ? i + 1 : 0] as Join;
    if (remaining(arriving, next, chord.direction) <= 1e-9) return undefined;
    for (const point of arriving.points) ring.push(point);
    const run = runs[chord.edge] as Point[];
    if (run.length === 0) run.push(from);
    run.push(...next.points);
  }
  if (selfCrossing(ring) || polygonArea(ring) < CRUMB) return undefined;
  return { kind: 'ok', partsLost: 0, outline: { edges: edgesAlong(runs, edges) } };
}

/** The length in mm that the joins at both its ends leave of a side; negative when they turn it round. */
const remaining = (arriving: Join, leaving: Join, direction: Point): number =>
  dot(minus(leaving.points[0], arriving.points.at(-1) as Point), direction);

/**
 * The offset inward of a convex outline: what lies on the inner side of every
 * line and every tangent, each moved. Undefined when the outline is not convex,
 * or steps from one distance to another.
 */
function convexInset(
  edges: readonly Edge[],
  chords: readonly Chord[],
  moves: readonly number[],
  joins: readonly Join[],
): OffsetResult | undefined {
  if (moves.some((d) => d > 0) || joins.some(({ points }) => points.length > 1)) return undefined;
  if (!isConvex(chords.map(({ from }) => from))) return undefined;
  const borders = inTangents(chords).map(({ edge, from, direction }) => ({
    edge,
    point: ahead(from, rightOf(direction), moves[edge] as number),
    direction,
  }));
  const corners = leftOfAll(borders);
  if (!corners) return undefined;
  const ring = corners.map(({ from }) => from);
  if (polygonArea(ring) < CRUMB) return { kind: 'vanished' };
  const runs: Point[][] = edges.map(() => []);
  // The corners may begin in the middle of an edge's run; each edge has but one.
  const begin = corners.findIndex(({ edge }, i) => corners.at(i - 1)?.edge !== edge);
  corners.forEach((_, k) => {
    const i = (Math.max(begin, 0) + k) % corners.length;
    const { edge, from } = corners[i] as ConvexCorner;
    const run = runs[edge] as Point[];
    if (run.length === 0) run.push(from);
    run.push(ring[(i + 1) % ring.length] as Point);
  });
  return { kind: 'ok', partsLost: 0, outline: { edges: edgesAlong(runs, edges) } };
}

/** Each edge along its own run of points; one without a run is gone. */
const edgesAlong = (runs: readonly (readonly Point[])[], edges: readonly Edge[]): Edge[] =>
  edges.flatMap(({ name, measuredFrom }, i) => {
    const [first, ...rest] = runs[i] as readonly Point[];
    return first ? [polylineEdge(name, [first, ...rest], measuredFrom)] : [];
  });

/**
 * The offset with its loops taken out. Where a corner shortens a side by more
 * than it has, the raw boundary goes by way of the corner itself, so that
 * whatever it cuts off is run round clockwise; what remains is run round
 * counter-clockwise. This is the construction of X. Chen and S. McMains,
 * "Polygon Offsetting by Computing Winding Numbers", 2005.
 */
function untangledOffset(
  edges: readonly Edge[],
  curved: readonly Chord[],
  moves: readonly number[],
  joinsOf: (chords: readonly Chord[]) => readonly Join[],
): OffsetResult {
  const chords = inTangents(curved);
  const plain = joinsOf(chords);
  const turnedRound = chords.map(
    ({ direction }, i) => remaining(plain[i] as Join, plain[i + 1 < plain.length ? i + 1 : 0] as Join, direction) <= 0,
  );
  const joins = plain.map(({ trimmed, points }, i) =>
    trimmed && (turnedRound.at(i - 1) || turnedRound[i]) ? throughCorner(chords, moves, i) : points,
  );
  const ring: Point[] = [];
  const lines: RawLine[] = [];
  for (const [i, chord] of chords.entries()) {
    const arriving = joins[i] as readonly Point[];
    const nextIndex = i + 1 < joins.length ? i + 1 : 0;
    const leaving = joins[nextIndex] as readonly Point[];
    ring.push(...arriving);
    lines.push({ edge: chord.edge, from: arriving.at(-1) as Point, to: leaving[0] as Point });
    const detour = leaving.length === 3 && distance(leaving[1] as Point, chord.to) === 0;
    if (!detour) {
      leaving.slice(1).forEach((to, k) => lines.push({ edge: chord.edge, from: leaving[k] as Point, to }));
    }
  }
  const parts = positivelyWound(ring).filter((part) => polygonArea(part) > CRUMB);
  const largest = parts.reduce<Polygon | undefined>(
    (best, part) => (best && polygonArea(best) >= polygonArea(part) ? best : part),
    undefined,
  );
  if (!largest) return { kind: 'vanished' };
  return { kind: 'ok', outline: { edges: namedRuns(largest, lines, edges) }, partsLost: parts.length - 1 };
}

/**
 * The outline with each chord of a curve replaced by the curve's tangents at its
 * ends. Moved, a tangent still touches the moved curve, so a curve that shrinks to a
 * point leaves nothing, where moved chords would leave their own small remainder.
 */
function inTangents(chords: readonly Chord[]): readonly Chord[] {
  const lines: Chord[] = [];
  const add = (chord: Chord, from: Point, to: Point, direction: Point) => {
    const last = lines.at(-1);
    const goesOn = last?.edge === chord.edge && dot(last.direction, direction) > 0 && Math.abs(cross(last.direction, direction)) < 1e-12;
    if (goesOn) lines.pop();
    lines.push({ edge: chord.edge, from: goesOn ? last.from : from, to, direction, leaves: direction, arrives: direction });
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

function throughCorner(chords: readonly Chord[], moves: readonly number[], i: number): readonly Point[] {
  const before = chords.at(i - 1) as Chord;
  const after = chords[i] as Chord;
  return [
    ahead(after.from, rightOf(before.direction), moves[before.edge] as number),
    after.from,
    ahead(after.from, rightOf(after.direction), moves[after.edge] as number),
  ];
}
