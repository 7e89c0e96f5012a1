import { dualFunctions, valueAt, type DualFunction } from '../lay/bounds/dual.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { areaOf, boxAsLaid } from '../lay/bounds/outline.ts';
import { lowerBound } from '../lay/bounds/bound.ts';
import type { LayProblem } from '../lay/problem.ts';
import { totalOf } from './requirements.ts';

const perMm = 1000;
/** Functions tried in each direction. */
const most = 24;

/**
 * A number of panels that no cutting can be under. Panels of length `length` (millimetres), laid end to end a gap apart,
 * would be a lay, so they are at least as long together as the bound on lays; and for rectangles laid square, the product
 * of a dual feasible function of width and one of length is a share of a panel (S. Fekete and J. Schepers, Mathematical
 * Methods of Operations Research 60, 2004).
 */
export function panelBound(problem: LayProblem, length: number): number {
  const count = problem.pieces.reduce((sum, piece) => sum + totalOf(piece.count), 0);
  if (count === 0) return 0;
  const endToEnd = (lowerBound(problem).length + problem.gap) / (length + problem.gap);
  return Math.max(1, Math.ceil(endToEnd - 1e-6), squareBound(problem, length));
}

function squareBound(problem: LayProblem, length: number): number {
  const isSquare = problem.pieces.every((piece) => {
    const box = boundsOfPoints(piece.outline);
    return !piece.anyTurn && piece.turns.every((turn) => turn % 90 === 0) && Math.abs(areaOf(piece.outline) - (box.maxX - box.minX) * (box.maxY - box.minY)) <= 1e-3;
  });
  if (!isSquare) return 0;
  const gap = Math.floor(problem.gap * perMm);
  const whole = (millimetres: number): number => Math.floor(millimetres * perMm + 1e-6) + gap;
  const capacity = { across: Math.ceil(problem.width * perMm) + gap, along: Math.ceil(length * perMm) + gap };
  const pieces = problem.pieces.map((piece) => ({
    count: totalOf(piece.count),
    ways: piece.turns.map((turn) => {
      const box = boxAsLaid(piece.outline, false, turn);
      return { across: Math.min(capacity.across, whole(box.maxY - box.minY)), along: Math.min(capacity.along, whole(box.maxX - box.minX)) };
    }),
  }));
  const ways = pieces.flatMap((piece) => piece.ways);
  const shareAt = (f: DualFunction, size: number): number => valueAt(f, size) / f.total;
  let best = 0;
  for (const f of dualFunctions(capacity.across, ways.map((way) => way.across), most)) {
    for (const g of dualFunctions(capacity.along, ways.map((way) => way.along), most)) {
      const sum = pieces.reduce((total, piece) => total + piece.count * Math.min(...piece.ways.map((way) => shareAt(f, way.across) * shareAt(g, way.along))), 0);
      if (Number.isFinite(sum)) best = Math.max(best, sum);
    }
  }
  return Math.ceil(best - 1e-6);
}
