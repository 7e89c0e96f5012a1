import { edgeEnd, reverseEdge } from './edge.ts';
import { flattenEdge } from './flatten.ts';
import type { Outline } from './shape.ts';
import { mirroringAcross, moveEdge } from './transform.ts';
import { cross, distance, minus, unit } from './vector.ts';

/** The whole piece, or why there is none; `by` is how far in mm the half reaches over its fold. */
export type UnfoldResult =
  | { readonly kind: 'ok'; readonly outline: Outline }
  | { readonly kind: 'no_such_edge' }
  | { readonly kind: 'fold_not_straight' }
  | { readonly kind: 'crosses_fold'; readonly by: number };

/** A rounding error, in mm, that is no bend and no crossing. */
const SLACK = 1e-6;

/**
 * The piece cut from folded cloth: the half and its mirror image across the
 * straight edge `foldEdge`, which disappears. The half's edges keep their names
 * and the mirrored ones are `<name>_twin`, measured from matching ends; an edge
 * that meets the fold stays apart from its twin. The outline starts where the
 * fold edge ended.
 */
export function unfold(half: Outline, foldEdge: string): UnfoldResult {
  const at = half.edges.findIndex((edge) => edge.name === foldEdge);
  const fold = half.edges[at];
  if (!fold) return { kind: 'no_such_edge' };
  const origin = fold.start;
  const end = edgeEnd(fold);
  const direction = unit(minus(end, origin));
  const left = (p: { readonly x: number; readonly y: number }) => cross(direction, minus(p, origin));
  const straight =
    distance(origin, end) > SLACK && fold.segments.every(({ kind, to }) => kind === 'line' && Math.abs(left(to)) <= SLACK);
  if (!straight) return { kind: 'fold_not_straight' };

  const edges = [...half.edges.slice(at + 1), ...half.edges.slice(0, at)];
  const lowest = Math.min(...edges.flatMap((edge) => flattenEdge(edge, 0.001).map(left)));
  if (lowest < -SLACK) return { kind: 'crosses_fold', by: -lowest };

  const mirror = mirroringAcross(origin, end);
  const twins = edges.map((edge) => ({ ...reverseEdge(moveEdge(mirror, edge)), name: `${edge.name}_twin` })).reverse();
  return { kind: 'ok', outline: { edges: [...edges, ...twins] } };
}
