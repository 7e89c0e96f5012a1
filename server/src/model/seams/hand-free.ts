import { takesFromEdge } from '../piece/darts.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import type { Point } from '../../geometry/shape.ts';
import { distance } from '../../geometry/vector.ts';
import type { CutLine } from '../piece/cut-line.ts';

/** How far a point may be from its mirror image, in millimetres, as for outlines. */
const same = 0.05;

/**
 * Whether it makes no difference which way round a piece is cut: the cloth looks the same on both sides, or the piece is
 * its own mirror image with all that is marked on it.
 */
export function isHandFree(line: CutLine): boolean {
  if (line.material.faces === 'alike') return true;
  if (line.wayUp !== 'either') return false;
  // A piece drawn as half has its other half marked alike.
  if (line.piece.fold !== undefined) return true;
  const { minX, maxX, minY, maxY } = boundsOfPoints(line.outline);
  const marked = markedOn(line);
  const flips: readonly ((point: Point) => Point)[] = [({ x, y }) => ({ x: minX + maxX - x, y }), ({ x, y }) => ({ x, y: minY + maxY - y })];
  return flips.some((flip) => marked.every((points) => points.every((point) => points.some((other) => distance(flip(point), other) < same))));
}

/** What is marked on a piece, each kind by itself. */
const markedOn = ({ piece }: CutLine): readonly (readonly Point[])[] => [
  piece.notches.map(({ point }) => point),
  piece.marks.map(({ point }) => point),
  piece.lines.filter((line) => line.use === 'placement' || line.use === 'window' || takesFromEdge(line)).flatMap(({ points }) => points),
];
