import type { Lay, LayPoint, LayProblem } from '../../../server/src/lay/problem.ts';

export interface Extent {
  readonly minX: number;
  readonly minY: number;
  readonly maxX: number;
  readonly maxY: number;
}

/** A rectangle's outline with one corner at the origin: so long along the cloth, so wide across it. */
export const rectangle = (length: number, across: number): readonly LayPoint[] => box(0, 0, length, across);

export function box(minX: number, minY: number, maxX: number, maxY: number): readonly LayPoint[] {
  return [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
}

/** Where each placed piece's bounding box comes to lie, reckoned afresh from the definition of a placement. */
export function boxesOf(problem: LayProblem, lay: Lay): readonly Extent[] {
  return lay.placements.map(({ piece, mirrored, turn, x, y }) => {
    const angle = (turn * Math.PI) / 180;
    const corners = problem.pieces[piece]!.outline.map((point) => {
      const py = mirrored ? -point.y : point.y;
      return {
        x: point.x * Math.cos(angle) - py * Math.sin(angle) + x,
        y: point.x * Math.sin(angle) + py * Math.cos(angle) + y,
      };
    });
    return {
      minX: Math.min(...corners.map((corner) => corner.x)),
      minY: Math.min(...corners.map((corner) => corner.y)),
      maxX: Math.max(...corners.map((corner) => corner.x)),
      maxY: Math.max(...corners.map((corner) => corner.y)),
    };
  });
}
