import type { Polygon } from '../../geometry/shape.ts';
import { convexHull } from '../../geometry/hull.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import { movePolyline, rotation } from '../../geometry/transform.ts';
import type { CutLine } from './cut-line.ts';

/**
 * The turns, in degrees counter-clockwise, that bring a piece's grain along the length of the cloth, which is drawn
 * upright; `any` where it has no grain to follow.
 */
export type PermittedTurns = readonly number[] | 'any';

export function permittedTurns({ piece, material, thisWayUp }: Pick<CutLine, 'piece' | 'material' | 'thisWayUp'>): PermittedTurns {
  const { angle, orAcross } = piece.grain;
  if (material.direction === 'any' || angle === undefined) return 'any';
  const along = material.direction === 'one way' || thisWayUp ? [-angle] : [-angle, 180 - angle];
  // What has a way up on cloth that runs one way lies that way alone; that both are asked for is an error of its own.
  const across = orAcross && !(thisWayUp && material.direction === 'one way') ? along.map((turn) => turn + 90) : [];
  return [...along, ...across].map((turn) => ((turn % 360) + 360) % 360);
}

/** Least width, in millimetres, of a polygon across the cloth over its permitted turns. */
export function widthNeeded(polygon: Polygon, turns: PermittedTurns): number {
  return Math.min(...boxesNeeded(polygon, turns).map(({ width }) => width));
}

/** What a polygon takes up across and along the cloth, in millimetres, in each of its permitted turns; in those that lay a side along the cloth where any is. */
export function boxesNeeded(polygon: Polygon, turns: PermittedTurns): readonly { readonly width: number; readonly height: number }[] {
  // Half a turn changes nothing.
  const angles = turns === 'any' ? turnsTried(polygon) : [...new Set(turns.map((turn) => turn % 180))];
  return angles.map((degrees) => {
    const box = boundsOfPoints(degrees === 0 ? polygon : movePolyline(rotation((degrees * Math.PI) / 180), polygon));
    return { width: box.maxX - box.minX, height: box.maxY - box.minY };
  });
}

/**
 * Where any turn is permitted, those to try, in degrees counter-clockwise: as drawn, a quarter turn on, and those that lay
 * a side of the polygon's hull along the cloth, which is upright, or across it. The least width is had in one of them.
 */
export function turnsTried(polygon: Polygon): readonly number[] {
  const hull = convexHull(polygon);
  const along = hull.flatMap((point, index) => {
    const next = hull[(index + 1) % hull.length] ?? point;
    const angle = 90 - (Math.atan2(next.y - point.y, next.x - point.x) * 180) / Math.PI;
    return [angle, angle + 90];
  });
  return [0, 90, ...along];
}
