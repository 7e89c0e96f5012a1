import { selfCrossing } from './crossing.ts';
import { stretches } from './edge.ts';
import { flattenOutline, FLATNESS } from './flatten.ts';
import { polygonArea } from './measure.ts';
import { join } from './offset-join.ts';
import type { CornerStyle, Join } from './offset-join.ts';
import { SAME_POINT, tangentOn } from './segment.ts';
import type { Edge, Outline, Point, Segment } from './shape.ts';
import { ahead, distance, dot, minus, rightOf, unit } from './vector.ts';

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
 * the first. Undefined where that can't be: with other curves, with arcs that their neighbours shorten or that shrink to
 * nothing, and where a side is turned round or anything crosses.
 */
export function exactOffset(outline: Outline, moves: readonly number[], corners: (before: number, after: number) => CornerStyle): Outline | undefined {
  const pieces = piecesOf(outline);
  if (pieces === undefined) return undefined;
  const joins = pieces.map((after, i) => {
    const before = pieces.at(i - 1) as Piece;
    return join(
      after.from,
      { direction: before.arrives, distance: moves[before.edge] as number },
      { direction: after.leaves, distance: moves[after.edge] as number },
      () => corners(before.edge, after.edge),
      FLATNESS,
    );
  });
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

function movedPiece({ from: corner, segment, leaves, arrives }: Piece, move: number, from: Point, to: Point): Segment | undefined {
  if (segment.kind === 'line') return dot(minus(to, from), leaves) > SAME_POINT ? { kind: 'line', to } : undefined;
  const radius = distance(segment.centre, segment.to) + (segment.turn === 'left' ? move : -move);
  const whole =
    distance(from, ahead(corner, rightOf(leaves), move)) <= SAME_POINT && distance(to, ahead(segment.to, rightOf(arrives), move)) <= SAME_POINT;
  return radius > SAME_POINT && whole ? { ...segment, to } : undefined;
}
