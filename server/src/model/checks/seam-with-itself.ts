import { report, type Scope } from '../query/scope.ts';
import { countsOf } from '../seams/copies.ts';
import { usualTolerance } from '../seams/read-seam.ts';
import type { Seam, Stretch } from '../seams/seam.ts';

/**
 * An edge sewn to the same edge is that of a second copy, so there must be one. A piece on a fold has that edge on both its
 * halves.
 *
 * @returns whether that is reported
 */
export function checkWithItself(scope: Scope, { first, second }: Seam): boolean {
  const same = second.stretches.find((one) => one.piece.fold === undefined && first.stretches.some((other) => isSame(one, other)));
  if (same === undefined) return false;
  const count = [...countsOf(scope.context, same.piece).values()].reduce((sum, one) => sum + one, 0);
  if (count !== 1) return false;
  report(scope, 'seam-with-itself', { start: same.place.start, end: same.place.end }, { piece: same.piece.name, edge: `${same.piece.name}.${same.edge}` });
  return true;
}

const isSame = (one: Stretch, other: Stretch): boolean =>
  one.piece === other.piece && one.edge === other.edge && Math.min(one.to, other.to) - Math.max(one.from, other.from) > usualTolerance;
