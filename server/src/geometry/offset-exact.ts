import { selfCrossing } from './crossing.ts';
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
  readonly from: Point;
  readonly segment: Simple;
  readonly leaves: Point;
  readonly arrives: Point;
}

/**
 * The offset of an outline of lines and circular arcs, arcs staying arcs, so that an offset of an offset is as exact as
 * the first. Arcs that shrink to nothing between straight sides leave a corner where those meet. Undefined where that
 * can't be: with other curves, with arcs that their neighbours shorten, and where a side is turned round or anything
 * crosses.
 */
export function exactOffset(outline: Outline, moves: readonly number[], corners: (before: number, after: number) => CornerStyle): Outline | undefined {
  const all = piecesOf(outline);
  if (all === undefined) return undefined;
  const gone = all.map((piece) => radiusAfter(piece, moves[piece.edge] as number) <= SAME_POINT);
  // An arc that runs smoothly into its neighbours asks no more of the moved outline than they do.
  if (gone.some((is, i) => is && !(smooth(all.at(i - 1) as Piece, all[i] as Piece) && smooth(all[i] as Piece, all[(i + 1) % all.length] as Piece)))) return undefined;
  const pieces = all.filter((_, i) => gone[i] !== true);
  if (pieces.length < 2) return undefined;
  const joins: Join[] = [];
  for (const [i, after] of pieces.entries()) {
    const before = pieces.at(i - 1) as Piece;
    if (distance(before.segment.to, after.from) > SAME_POINT) {
      const meeting = meetingOf(before, moves[before.edge] as number, after, moves[after.edge] as number);
      if (meeting === undefined) return undefined;
      joins.push({ points: [meeting], trimmed: true });
      continue;
    }
    joins.push(join(
      after.from,
      { direction: before.arrives, distance: moves[before.edge] as number },
      { direction: after.leaves, distance: moves[after.edge] as number },
      () => corners(before.edge, after.edge),
      FLATNESS,
    ));
  }
  const runs: { start: Point | undefined; segments: Segment[] }[] = outline.edges.map(() => ({ start: undefined, segments: [] }));
  for (const [i, piece] of pieces.entries()) {
    const from = (joins[i] as Join).points.at(-1) as Point;
    const next = joins[i + 1 < joins.length ? i + 1 : 0] as Join;
    const moved = movedPiece(piece, moves[piece.edge] as number, from, next.points[0]);
    if (moved === undefined) return undefined;
    const run = runs[piece.edge] as (typeof runs)[number];
    run.start ??= from;
    run.segments.push(moved, ...next.points.slice(1).map((to): Segment => ({ kind: 'line', to })));
  }
  const edges = outline.edges.flatMap((edge, i): Edge[] => {
    const { start, segments } = runs[i] as (typeof runs)[number];
    return start ? [{ name: edge.name, start, segments, measuredFrom: edge.measuredFrom }] : [];
  });
  const { polygon } = flattenOutline({ edges });
  return selfCrossing(polygon) || polygonArea(polygon) < FLATNESS ? undefined : { edges };
}

function piecesOf(outline: Outline): readonly Piece[] | undefined {
  const pieces: Piece[] = [];
  for (const [edge, one] of outline.edges.entries()) {
    for (const { start, segment } of stretches(one)) {
      if (segment.kind === 'line') {
        const direction = unit(minus(segment.to, start));
        pieces.push({ edge, from: start, segment, leaves: direction, arrives: direction });
      } else if (segment.kind === 'arc') {
        pieces.push({ edge, from: start, segment, leaves: tangentOn(start, segment, 0), arrives: tangentOn(start, segment, 1) });
      } else return undefined;
    }
  }
  return pieces.length < 2 ? undefined : pieces;
}

const smooth = (before: Piece, after: Piece): boolean => Math.abs(cross(before.arrives, after.leaves)) < 1e-9 && dot(before.arrives, after.leaves) > 0;

/** The radius of a moved arc, zero or less where it is gone; of a line, infinite. */
function radiusAfter({ segment }: Piece, move: number): number {
  return segment.kind === 'line' ? Infinity : distance(segment.centre, segment.to) + (segment.turn === 'left' ? move : -move);
}

/** Where two straight sides meet that an arc between them, now gone, ran smoothly into. */
function meetingOf(before: Piece, beforeMove: number, after: Piece, afterMove: number): Point | undefined {
  const sin = cross(before.arrives, after.leaves);
  if (before.segment.kind !== 'line' || after.segment.kind !== 'line' || sin < 1e-9) return undefined;
  const end = ahead(before.segment.to, rightOf(before.arrives), beforeMove);
  const start = ahead(after.from, rightOf(after.leaves), afterMove);
  return ahead(end, before.arrives, cross(minus(start, end), after.leaves) / sin);
}

function movedPiece({ from: corner, segment, leaves, arrives }: Piece, move: number, from: Point, to: Point): Segment | undefined {
  if (segment.kind === 'line') return dot(minus(to, from), leaves) > SAME_POINT ? { kind: 'line', to } : undefined;
  const whole =
    distance(from, ahead(corner, rightOf(leaves), move)) <= SAME_POINT && distance(to, ahead(segment.to, rightOf(arrives), move)) <= SAME_POINT;
  return whole ? { ...segment, to } : undefined;
}
