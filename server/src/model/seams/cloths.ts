import type { CutLine } from '../piece/cut-line.ts';
import type { PieceShape } from '../piece/piece.ts';
import { cutsOf } from '../piece/cuts.ts';
import type { Context } from '../query/query.ts';
import { isCloth } from '../stock/material.ts';

export type Layer = 'outside' | 'lining';

/** The cloth that a piece is cut from, its lining apart. */
export function clothsOf(context: Context, piece: PieceShape): ReadonlyMap<Layer, readonly CutLine[]> {
  const cloths = new Map<Layer, CutLine[]>();
  for (const line of context.get(cutsOf, piece.declaration)) {
    if (line.layer !== undefined || !isCloth(line.material)) continue;
    const layer = line.material.role === 'lining' ? 'lining' : 'outside';
    cloths.set(layer, [...(cloths.get(layer) ?? []), line]);
  }
  return cloths;
}
