import { edgeLength } from '../../geometry/measure.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { PieceShape } from '../piece/piece.ts';
import { allSeams } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { copiedSeams, countsOf } from './copies.ts';
import { timesOf } from './joints.ts';
import { seamOf, usualTolerance } from './read-seam.ts';
import { drawnName, type Run, type Seam } from './seam.ts';
import { isFaulty } from './sewn-edges.ts';

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

/** How often the two runs of a seam are there, on the copies that are cut. */
export interface Uneven {
  readonly first: number;
  readonly second: number;
}

/**
 * Seams of which the one run is there more often than the other, so that some of it is sewn to nothing: by their declarations.
 * What is sewn to part of an edge alone may be sewn all along it, as flags are to a tape.
 */
export const unevenSeams: Query<'all', ReadonlyMap<NamedDeclaration, Uneven>> = {
  name: 'uneven seams',
  input: false,
  compute: (context) => {
    const all = context.get(allSeams, 'all').map((one) => [one, context.get(seamOf, one)] as const);
    // What a seam that can't be read would sew isn't known.
    if (all.some(([one, seam]) => seam === undefined && isFaulty(context, one))) return new Map();
    const seams = all.flatMap(([, seam]) => seam ?? []);
    return new Map(copiedSeams(context, seams.filter(({ way }) => way === 'with')).flatMap(({ seam, first, second }): readonly (readonly [NamedDeclaration, Uneven])[] => {
      const [a, b] = [timesOf(first), timesOf(second)];
      if (a === undefined || b === undefined || a === b || isPart(a < b ? first.run : second.run)) return [];
      return [[seam.declaration, { first: a, second: b }]];
    }));
  },
};

const isPart = ({ stretches }: Run): boolean => stretches.some(({ piece, edge, from, to }) => {
  const whole = piece.whole.stitching.edges.find(({ name }) => name === edge);
  return whole !== undefined && edgeLength(whole) - (to - from) > usualTolerance;
});

/** Where copies don't come out: as often as there are all the pieces that it joins, and half as often where an edge is sewn to its like. */
function atMost({ first, second }: Seam, countOf: (piece: PieceShape) => number): number {
  const runs = [first, second].map(({ stretches }) => stretches.map(({ piece, edge }) => `${piece.name} ${drawnName(edge)}`).sort().join(', '));
  const least = Math.min(...[...first.stretches, ...second.stretches].map(({ piece }) => countOf(piece)));
  return Number.isFinite(least) ? Math.max(1, runs[0] === runs[1] ? Math.floor(least / 2) : least) : 1;
}
