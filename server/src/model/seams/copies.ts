import type { PieceShape } from '../piece/piece.ts';
import type { Context } from '../query/query.ts';
import { clothsOf, type Layer } from './cloths.ts';
import { usualTolerance } from './read-seam.ts';
import type { Run, Seam, Stretch } from './seam.ts';

/** One run of a seam on the copies of its pieces that are sewn in it, one after the other where it is sewn several times. */
export interface CopiedRun {
  readonly run: Run;
  readonly layer: ReadonlyMap<PieceShape, Layer>;
  /** How many there are of each piece. */
  readonly counts: ReadonlyMap<PieceShape, number>;
  /** Numbers of copies from 1, as many of each piece as the seam is sewn times; undefined where that doesn't come out. */
  readonly copies: ReadonlyMap<PieceShape, readonly number[]> | undefined;
}

/** A seam in one layer of the article. */
export interface CopiedSeam {
  readonly seam: Seam;
  readonly first: CopiedRun;
  readonly second: CopiedRun;
}

/** How many of a piece are cut for each of its layers. */
export function countsOf(context: Context, piece: PieceShape): ReadonlyMap<Layer, number> {
  return new Map([...clothsOf(context, piece)].map(([layer, lines]) => [layer, lines.reduce((sum, { count }) => sum + count.valueOf(), 0)]));
}

/**
 * Which copies of its pieces each seam sews: an edge that several seams sew is that of another copy in each, in the order of
 * the spec; where more are cut, each seam is sewn as often as they go round. What is cut for outside and lining alike is sewn
 * in each of them, or in the one that all pieces of the seam have; else in none.
 */
export function copiedSeams(context: Context, seams: readonly Seam[]): readonly CopiedSeam[] {
  const uses = new Uses(seams);
  return seams.flatMap((seam) => {
    const pieces = [...new Set([...seam.first.stretches, ...seam.second.stretches].map(({ piece }) => piece))];
    const counts = new Map(pieces.map((piece) => [piece, countsOf(context, piece)]));
    const common = (['outside', 'lining'] as const).filter((layer) => pieces.every((piece) => counts.get(piece)?.has(layer) === true));
    const layers: readonly (readonly [PieceShape, Layer])[][] = common.length > 0 ? common.map((layer) => pieces.map((piece) => [piece, layer] as const)) : [pieces.flatMap((piece) => [...(counts.get(piece)?.keys() ?? [])].slice(0, 1).map((layer) => [piece, layer] as const))];
    return layers.map((own): CopiedSeam => {
      const layer = new Map(own);
      const ofLayer = new Map(own.map(([piece, one]) => [piece, counts.get(piece)?.get(one) ?? 0]));
      const copied = (run: Run): CopiedRun => ({ run, layer, counts: ofLayer, copies: copiesIn(run, ofLayer, uses) });
      return { seam, first: copied(seam.first), second: copied(seam.second) };
    });
  });
}

function copiesIn(run: Run, counts: CopiedRun['counts'], uses: Uses): CopiedRun['copies'] {
  const copies = new Map<PieceShape, readonly number[]>();
  for (const stretch of run.stretches) {
    const { number, of } = uses.of(stretch);
    const each = (counts.get(stretch.piece) ?? 0) / of;
    const own = Number.isInteger(each) ? Array.from({ length: each }, (_, index) => (number - 1) * each + index + 1) : [];
    const known = copies.get(stretch.piece) ?? own;
    if (own.length === 0 || String(known) !== String(own)) return undefined;
    copies.set(stretch.piece, own);
  }
  return new Set([...copies.values()].map(({ length }) => length)).size === 1 ? copies : undefined;
}

/** In how many seams each part of an edge is sewn, and in which of them it is. */
class Uses {
  readonly #all = new Map<string, Stretch[]>();

  constructor(seams: readonly Seam[]) {
    for (const { first, second } of seams.filter(({ way }) => way === 'with')) {
      for (const stretch of [...first.stretches, ...second.stretches]) this.#all.set(keyOf(stretch), [...(this.#all.get(keyOf(stretch)) ?? []), stretch]);
    }
  }

  of(stretch: Stretch): { readonly number: number; readonly of: number } {
    const own = (this.#all.get(keyOf(stretch)) ?? []).filter(({ from, to }) => Math.min(to, stretch.to) - Math.max(from, stretch.from) > usualTolerance);
    return { number: own.indexOf(stretch) + 1, of: own.length };
  }
}

const keyOf = ({ piece, edge }: Stretch): string => `${piece.name}.${edge}`;
