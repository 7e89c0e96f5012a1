import type { Polygon } from '../../geometry/shape.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import { movePolyline, rotation } from '../../geometry/transform.ts';
import type { Material } from '../stock/material.ts';
import type { PieceShape } from './piece.ts';

/**
 * The turns, in degrees counter-clockwise, that bring a piece's grain along the length of the cloth, which is drawn
 * upright; `any` where it has no grain to follow.
 */
export type PermittedTurns = readonly number[] | 'any';

export function permittedTurns(piece: PieceShape, material: Material): PermittedTurns {
  const { angle, orAcross } = piece.grain;
  if (material.direction === 'any' || angle === undefined) return 'any';
  const along = material.direction === 'one way' || piece.thisWayUp ? [-angle] : [-angle, 180 - angle];
  const across = orAcross ? along.map((turn) => turn + 90) : [];
  return [...along, ...across].map((turn) => ((turn % 360) + 360) % 360);
}

/** Least width, in millimetres, of a polygon across the cloth over its permitted turns. */
export function widthNeeded(polygon: Polygon, turns: PermittedTurns): number {
  return Math.min(...boxesNeeded(polygon, turns).map(({ width }) => width));
}

/** What a polygon takes up across and along the cloth, in millimetres, in each of its permitted turns; in those that lay a side along the cloth where any is. */
export function boxesNeeded(polygon: Polygon, turns: PermittedTurns): readonly { readonly width: number; readonly height: number }[] {
  // Half a turn changes nothing.
  const angles = turns === 'any' ? sideAngles(polygon).flatMap((angle) => [angle, angle + 90]) : [...new Set(turns.map((turn) => turn % 180))];
  return angles.map((degrees) => {
    const box = boundsOfPoints(degrees === 0 ? polygon : movePolyline(rotation((degrees * Math.PI) / 180), polygon));
    return { width: box.maxX - box.minX, height: box.maxY - box.minY };
  });
}

/** The least width of a polygon is had with a side of its hull upright; its own sides hold all that matter unless it is hollow. */
function sideAngles(polygon: Polygon): readonly number[] {
  const hull = convexHull(polygon);
  return hull.map((point, index) => {
    const next = hull[(index + 1) % hull.length] ?? point;
    return 90 - (Math.atan2(next.y - point.y, next.x - point.x) * 180) / Math.PI;
  });
}

/** Convex hull, counter-clockwise (A. M. Andrew's monotone chain, Information Processing Letters 9(5), 1979). */
export function convexHull(points: Polygon): Polygon {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (run: Polygon): { x: number; y: number }[] => {
    const chain: { x: number; y: number }[] = [];
    for (const point of run) {
      for (;;) {
        const b = chain.at(-1);
        const a = chain.at(-2);
        if (a === undefined || b === undefined || (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x) > 0) break;
        chain.pop();
      }
      chain.push({ x: point.x, y: point.y });
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half(sorted.reverse())];
}
