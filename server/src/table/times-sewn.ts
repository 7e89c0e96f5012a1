import type { Resolved } from '../model/pattern.ts';
import { drawnName, type Seam } from '../model/seams/seam.ts';

/** How many of a piece there are, of cloth: its layers are no pieces of their own. */
export function clothCount({ pieces }: Resolved, name: string): number {
  const cuts = pieces.find(({ shape }) => shape.name === name)?.cuts ?? [];
  return cuts.reduce((sum, cut) => (cut.layer === undefined ? sum + Number(cut.count.n) : sum), 0);
}

/**
 * How often a seam is sewn: as often as there are all the pieces that it joins, and half as often where a piece is sewn to
 * another of its own, edge to the same edge.
 */
export function timesSewn({ first, second }: Seam, resolved: Resolved): number {
  const runs = [first, second].map(({ stretches }) => stretches.map(({ piece, edge }) => `${piece.name} ${drawnName(edge)}`).sort().join(', '));
  const counts = [...first.stretches, ...second.stretches].map(({ piece }) => clothCount(resolved, piece.name));
  const least = Math.min(...counts);
  return Number.isFinite(least) ? Math.max(1, runs[0] === runs[1] ? Math.floor(least / 2) : least) : 1;
}
