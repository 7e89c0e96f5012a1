import type { PieceShape } from '../piece/piece.ts';
import { allSeams } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { copiedSeams, countsOf } from './copies.ts';
import { timesOf } from './joints.ts';
import { seamOf } from './read-seam.ts';
import { drawnName, type Seam } from './seam.ts';

/** How often each seam is sewn, by its name: on as many copies as {@link copiedSeams} gives it, in outside and lining together. */
export const timesSewn: Query<'all', ReadonlyMap<string, number>> = {
  name: 'times sewn',
  input: false,
  compute: (context) => {
    const seams = context.get(allSeams, 'all').map((one) => context.get(seamOf, one)).filter((seam) => seam !== undefined);
    const copied = copiedSeams(context, seams.filter(({ way }) => way === 'with'));
    const countOf = (piece: PieceShape): number => [...countsOf(context, piece).values()].reduce((sum, count) => sum + count, 0);
    return new Map(seams.map((seam) => {
      const each = copied.filter((one) => one.seam === seam).flatMap(({ first, second }) => [[timesOf(first), timesOf(second)] as const]);
      const known = each.map(([first, second]) => (first === undefined || second === undefined ? undefined : Math.min(first, second)));
      const isKnown = known.length > 0 && !known.includes(undefined);
      return [seam.name, isKnown ? known.reduce<number>((sum, times) => sum + (times ?? 0), 0) : atMost(seam, countOf)];
    }));
  },
};

/** Where copies don't come out: as often as there are all the pieces that it joins, and half as often where an edge is sewn to its like. */
function atMost({ first, second }: Seam, countOf: (piece: PieceShape) => number): number {
  const runs = [first, second].map(({ stretches }) => stretches.map(({ piece, edge }) => `${piece.name} ${drawnName(edge)}`).sort().join(', '));
  const least = Math.min(...[...first.stretches, ...second.stretches].map(({ piece }) => countOf(piece)));
  return Number.isFinite(least) ? Math.max(1, runs[0] === runs[1] ? Math.floor(least / 2) : least) : 1;
}
