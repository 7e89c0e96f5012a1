import { edgeLength } from '../../geometry/measure.ts';
import { holds } from '../formulas/evaluate.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { PieceShape } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { allSeams, declarationOf } from '../query/inputs.ts';
import type { Context, Query } from '../query/query.ts';
import { scopeOf } from '../query/scope.ts';
import { finishesOf } from './finishes.ts';
import { seamOf, usualTolerance } from './read-seam.ts';
import { drawnName, piecesOf, type Seam } from './seam.ts';

/** The edges of a piece that no seam joins, and of which nothing else is said; those sewn in part say so. */
export const edgesLeft: Query<NamedDeclaration, readonly { readonly edge: string; readonly isPart: boolean }[]> = {
  name: 'edges left',
  input: false,
  compute: (context, declaration) => {
    const seams = context.get(allSeams, 'all');
    const shape = seams.length === 0 ? undefined : context.get(shapeOf, declaration);
    if (shape === undefined) return [];
    const sewn = new Map<string, { from: number; to: number }[]>();
    for (const one of seams) {
      const seam = context.get(seamOf, one);
      if (seam === undefined) {
        if (isFaulty(context, one) && mayName(context, one, shape.name)) return [];
        continue;
      }
      if (!piecesOf(seam).has(shape)) continue;
      for (const { piece, edge, from, to } of [...seam.first.stretches, ...seam.second.stretches]) if (piece === shape) sewn.set(edge, [...(sewn.get(edge) ?? []), { from, to }]);
    }
    const finishes = context.get(finishesOf, declaration);
    return shape.whole.stitching.edges.flatMap((edge) => {
      if (finishes.has(edge.name) || finishes.has(drawnName(edge.name))) return [];
      const left = edgeLength(edge) - coveredBy(sewn.get(edge.name) ?? []);
      return left > usualTolerance ? [{ edge: edge.name, isPart: sewn.has(edge.name) }] : [];
    });
  },
};

/**
 * The seam that takes up an edge of a piece as it is drawn, from end to end and on both halves; undefined where none does
 * alone. What is laid on something, and what it is laid on, may be left as it is, or hemmed first.
 */
export function takenBy(context: Context, shape: PieceShape, edge: string): Seam | undefined {
  const edges = shape.whole.stitching.edges.filter(({ name }) => drawnName(name) === edge);
  return context.get(allSeams, 'all').map((one) => context.get(seamOf, one)).find((seam) => {
    const stretches = seam?.way === 'with' ? [...seam.first.stretches, ...seam.second.stretches] : [];
    return edges.length > 0 && edges.every((one) => edgeLength(one) - coveredBy(stretches.filter((stretch) => stretch.piece === shape && stretch.edge === one.name)) <= usualTolerance);
  });
}

/** How much of an edge stretches of it take together, in millimetres. */
export function coveredBy(spans: readonly { readonly from: number; readonly to: number }[]): number {
  let reached = 0;
  let covered = 0;
  for (const { from, to } of [...spans].sort((a, b) => a.from - b.from)) {
    covered += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return covered;
}

/** What of an edge so long no stretch of it takes, in millimetres; nothing that is no longer than seams may be out by. */
export function leftBetween(length: number, spans: readonly { readonly from: number; readonly to: number }[]): readonly { readonly from: number; readonly to: number }[] {
  const ends = [...[...spans].sort((a, b) => a.from - b.from), { from: length, to: length }];
  let reached = 0;
  return ends.flatMap(({ from, to }) => {
    const gap = { from: reached, to: from };
    reached = Math.max(reached, to);
    return gap.to - gap.from > usualTolerance ? [gap] : [];
  });
}

/** Whether a seam is there and only a fault, which is told elsewhere, stands in its way. */
export function isFaulty(context: Context, { tree, ...rest }: NamedDeclaration): boolean {
  if (tree.kind !== 'seam') return false;
  const scope = scopeOf(context, { ...rest, tree });
  if (tree.condition !== undefined && holds(scope, tree.condition) === false) return false;
  return [...tree.first, ...tree.second].every(({ edge }) => {
    const piece = context.get(declarationOf, edge.path[0]?.text ?? '');
    return piece === undefined || context.get(isWanted, piece);
  });
}

/** Whether a seam that can't be read names a piece, or one that there is not, which may be meant for it. */
const mayName = (context: Context, { tree }: NamedDeclaration, piece: string): boolean =>
  tree.kind === 'seam' && [...tree.first, ...tree.second].some(({ edge: { path: [name] } }) => name !== undefined && (name.text === piece || context.get(declarationOf, name.text) === undefined));
