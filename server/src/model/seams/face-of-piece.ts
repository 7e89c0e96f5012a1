import { stretches } from '../../geometry/edge.ts';
import { flattenEdge } from '../../geometry/flatten.ts';
import type { Face, Side } from '../../geometry/gluing-cells.ts';
import { edgeLength } from '../../geometry/measure.ts';
import { tangentOn } from '../../geometry/segment.ts';
import type { Edge, Point } from '../../geometry/shape.ts';
import { cross, distance, dot, minus } from '../../geometry/vector.ts';
import type { PieceShape } from '../piece/piece.ts';
import { sewnAlong } from './seam.ts';

/** A piece within its stitching line, with its darts closed; what a dart bends is left out of how far an edge turns. */
export function faceOf(piece: PieceShape): Face {
  const { edges } = piece.whole.stitching;
  return { sides: edges.map((edge, index) => sideOf(piece, edge, edges.at(index - 1) ?? edge)) };
}

function sideOf(piece: PieceShape, edge: Edge, before: Edge): Side {
  const sewn = (along: number): number => sewnAlong({ piece, edge: edge.name, from: 0 }, along);
  const bends = bendsOf(edge).map(({ at, by }) => ({ at: sewn(at), by }));
  return {
    length: sewn(edgeLength(edge)),
    angle: angleBetween(before, edge),
    turn: (from, to) => bends.reduce((sum, { at, by }) => (at > from && at < to ? sum + by : sum), 0),
  };
}

/** The angle inside a piece where one edge of its outline goes over into the next, in radians. */
export function angleBetween(edge: Edge, next: Edge): number {
  const last = stretches(edge).at(-1);
  const [first] = stretches(next);
  return last === undefined || first === undefined ? Math.PI : Math.PI - bend(tangentOn(last.start, last.segment, 1), tangentOn(first.start, first.segment, 0));
}

/** How far one direction lies to the left of another. */
const bend = (from: Point, to: Point): number => Math.atan2(cross(from, to), dot(from, to));

function bendsOf(edge: Edge): readonly { readonly at: number; readonly by: number }[] {
  const points = flattenEdge(edge, 0.05);
  let at = 0;
  return points.slice(1, -1).map((point, index) => {
    const [before = point, after = point] = [points[index], points[index + 2]];
    at += distance(before, point);
    return { at, by: bend(minus(point, before), minus(after, point)) };
  });
}
