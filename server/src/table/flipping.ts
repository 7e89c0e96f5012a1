import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point, Polyline } from '../geometry/shape.ts';
import { takesFromEdge } from '../model/piece/darts.ts';
import type { CutLine } from '../model/piece/cut-line.ts';

/** Two places that are nearer than this, in millimetres, are one. */
const near = 0.05;

/**
 * Whether what is cut along a line may be flipped, left to right, and nothing is told from what it was: its outline, and
 * all that is marked on it. Cloth that is alike on both sides may be turned over once it is cut.
 */
export function flipsOnToItself({ symmetric, fold, outline, piece, material }: CutLine): boolean {
  if (material.faces === 'alike') return true;
  if (!symmetric) return false;
  // Opened out, a piece drawn as half is its own mirror image.
  if (fold !== undefined) return true;
  const { minX, maxX } = boundsOfPoints(outline);
  const flipped = ({ x, y }: Point): Point => ({ x: minX + maxX - x, y });
  const points = [piece.notches, piece.marks].every((list) => isOwnImage(list.map(({ point }) => point), flipped));
  return points && piece.lines.every((line) => (line.use === 'line' && !takesFromEdge(line)) || piece.lines.some((other) => other.use === line.use && isImage(line.points, other.points, flipped)));
}

const isOwnImage = (points: Polyline, flipped: (point: Point) => Point): boolean => isImage(points, points, flipped);

const isImage = (points: Polyline, others: Polyline, flipped: (point: Point) => Point): boolean =>
  points.length === others.length && points.every((point) => {
    const image = flipped(point);
    return others.some(({ x, y }) => Math.hypot(x - image.x, y - image.y) < near);
  });
