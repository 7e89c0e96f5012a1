import { selfCrossing } from './crossing.ts';
import { cyclic, nextOf } from './cyclic.ts';
import { stretches } from './edge.ts';
import { flattenOutline, FLATNESS } from './flatten.ts';
import { polygonArea } from './measure.ts';
import { join } from './offset-join.ts';
import type { CornerStyle, Join } from './offset-join.ts';
import { SAME_POINT, tangentOn } from './segment.ts';
import type { Edge, Outline, Point, Segment } from './shape.ts';
import { ahead, cross, distance, dot, minus, rightOf, unit } from './vector.ts';

type Simple = Extract<Segment, { readonly kind: 'line' | 'arc' }>;

/** A line or arc of the outline, with the directions it leaves and arrives in. */
interface Piece {
  readonly edge: number;
  /** How far, in mm, it moves to its right. */
  readonly move: number;
  readonly from: Point;
  readonly segment: Simple;
  readonly leaves: Point;
  readonly arrives: Point;
}

/** An exact offset, with the lines and arcs that are left of the outline and the join that leads to each. */
export interface ExactOffset {
  readonly outline: Outline;
  readonly pieces: readonly { readonly edge: number }[];
  readonly joins: readonly Join[];
}

/**
 * The offset of an outline of lines and circular arcs, arcs staying arcs, so that an offset of an offset is as exact as
 * the first. Arcs that shrink to nothing between straight sides leave a corner where those meet. Undefined where that
 * can't be: with other curves, with arcs that their neighbours shorten, and where a side is turned round or anything
 * crosses.
 */
export function exactOffset(outline: Outline, moves: readonly number[], corners: (before: number, after: number) => CornerStyle): ExactOffset | undefined {
  const all = piecesOf(outline, moves);
  if (all === undefined) return undefined;
  const gone = all.map((piece) => radiusAfter(piece) <= SAME_POINT);
  // An arc that runs smoothly into its neighbours asks no more of the moved outline than they do.
  if (gone.some((is, i) => is && !(smooth(cyclic(all, i - 1), cyclic(all, i)) && smooth(cyclic(all, i), nextOf(all, i))))) return undefined;
  const pieces = all.filter((_, i) => gone[i] !== true);
  if (pieces.length < 2) return undefined;
  const joins: Join[] = [];
  for (const [i, after] of pieces.entries()) {
    const made = joinOf(cyclic(pieces, i - 1), after, corners);
    if (made === undefined) return undefined;
    joins.push(made);
  }
  const runs: { start: Point | undefined; segments: Segment[] }[] = outline.edges.map(() => ({ start: undefined, segments: [] }));
  for (const [i, piece] of pieces.entries()) {
    const arriving = cyclic(joins, i).points;
    const from = arriving.at(-1) ?? arriving[0];
    const next = nextOf(joins, i);
    const moved = movedPiece(piece, from, next.points[0]);
    if (moved === undefined) return undefined;
    const run = cyclic(runs, piece.edge);
    run.start ??= from;
    run.segments.push(moved, ...next.points.slice(1).map((to): Segment => ({ kind: 'line', to })));
  }
  const edges = outline.edges.flatMap(({ name, measuredFrom }, i): Edge[] => {
    const { start, segments } = cyclic(runs, i);
    return start ? [{ name, start, segments, measuredFrom }] : [];
  });
  const { polygon } = flattenOutline({ edges });
  return selfCrossing(polygon) || polygonArea(polygon) < FLATNESS ? undefined : { outline: { edges }, pieces, joins };
}

/** How two pieces join; undefined where an arc between them is gone and they don't meet, and where unequal ones meet along an arc or not at once. */
function joinOf(before: Piece, after: Piece, corners: (before: number, after: number) => CornerStyle): Join | undefined {
  if (distance(before.segment.to, after.from) > SAME_POINT) {
    const meeting = meetingOf(before, after);
    return meeting && { kind: 'trimmed', points: [meeting] };
  }
  const sides = [{ direction: before.arrives, distance: before.move }, { direction: after.leaves, distance: after.move }] as const;
  const made = join(after.from, ...sides, () => corners(before.edge, after.edge), FLATNESS);
  if (made.kind === 'step') return smooth(before, after) ? made : undefined;
  return made.kind === 'met' && !(before.segment.kind === 'line' && after.segment.kind === 'line') ? undefined : made;
}

function piecesOf(outline: Outline, moves: readonly number[]): readonly Piece[] | undefined {
  const pieces: Piece[] = [];
  for (const [edge, one] of outline.edges.entries()) {
    const move = moves[edge] ?? 0;
    for (const { start, segment } of stretches(one)) {
      if (segment.kind === 'line') {
        const direction = unit(minus(segment.to, start));
        pieces.push({ edge, move, from: start, segment, leaves: direction, arrives: direction });
      } else if (segment.kind === 'arc') {
        pieces.push({ edge, move, from: start, segment, leaves: tangentOn(start, segment, 0), arrives: tangentOn(start, segment, 1) });
      } else return undefined;
    }
  }
  return pieces.length < 2 ? undefined : pieces;
}

const smooth = (before: Piece, after: Piece): boolean => Math.abs(cross(before.arrives, after.leaves)) < 1e-9 && dot(before.arrives, after.leaves) > 0;

/** The radius of a moved arc, zero or less where it is gone; of a line, infinite. */
function radiusAfter({ segment, move }: Piece): number {
  return segment.kind === 'line' ? Infinity : distance(segment.centre, segment.to) + (segment.turn === 'left' ? move : -move);
}

/** Where two straight sides meet that an arc between them, now gone, ran smoothly into. */
function meetingOf(before: Piece, after: Piece): Point | undefined {
  const sin = cross(before.arrives, after.leaves);
  if (before.segment.kind !== 'line' || after.segment.kind !== 'line' || sin < 1e-9) return undefined;
  const end = ahead(before.segment.to, rightOf(before.arrives), before.move);
  const start = ahead(after.from, rightOf(after.leaves), after.move);
  return ahead(end, before.arrives, cross(minus(start, end), after.leaves) / sin);
}

function movedPiece({ from: corner, segment, move, leaves, arrives }: Piece, from: Point, to: Point): Segment | undefined {
  if (segment.kind === 'line') return dot(minus(to, from), leaves) > SAME_POINT ? { kind: 'line', to } : undefined;
  const whole =
    distance(from, ahead(corner, rightOf(leaves), move)) <= SAME_POINT && distance(to, ahead(segment.to, rightOf(arrives), move)) <= SAME_POINT;
  return whole ? { ...segment, to } : undefined;
}
