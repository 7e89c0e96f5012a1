import { edgeLength } from '../../geometry/measure.ts';
import type { Declaration } from '../../syntax/tree.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { allPieces, allSeams } from '../query/inputs.ts';
import type { Context, Query } from '../query/query.ts';
import type { Layer } from './cloths.ts';
import { countsOf } from './copies.ts';
import { finishesOf } from './finishes.ts';
import { seamOf } from './read-seam.ts';
import { drawnName, sewnAlong, type Stretch } from './seam.ts';
import { coveredBy } from './sewn-edges.ts';

/** Edges of a piece, and how many are cut in each layer. */
export interface EdgeWith {
  readonly name: string;
  readonly length: number;
  readonly counts: ReadonlyMap<Layer, number>;
}

/** On all that is cut; of an outside and its lining, which go together, the longer. */
export const lengthOf = (edges: readonly EdgeWith[]): number =>
  Math.max(...(['outside', 'lining'] as const).map((layer) => edges.reduce((sum, one) => sum + one.length * (one.counts.get(layer) ?? 0), 0)));

/** The edges that the supply binds, or through whose hems it runs, as long as no seam takes them up. */
export function edgesWith(context: Context, declaration: Declaration, kind: 'bound' | 'hemmed'): readonly EdgeWith[] {
  const stretches = context.get(allSeams, 'all').flatMap((one): readonly Stretch[] => {
    const seam = context.get(seamOf, one);
    return seam === undefined ? [] : [...seam.first.stretches, ...(seam.way === 'with' ? seam.second.stretches : [])];
  });
  return context.get(allPieces, 'all').flatMap((one) => {
    const shape = context.get(isWanted, one) ? context.get(shapeOf, one) : undefined;
    const finishes = shape && context.get(finishesOf, one);
    if (shape === undefined || finishes === undefined) return [];
    const counts = countsOf(context, shape);
    return shape.whole.stitching.edges.flatMap((edge) => {
      const finish = finishes.get(drawnName(edge.name));
      if (finish?.kind !== kind || finish.supply !== declaration) return [];
      const whole = edgeLength(edge);
      const length = sewnAlong({ piece: shape, edge: edge.name, from: 0 }, whole) - coveredBy(stretches.filter((stretch) => stretch.piece === shape && stretch.edge === edge.name));
      return [{ name: `${shape.name}.${edge.name}`, length: Math.max(0, length), counts }];
    });
  });
}

/** How long the hems are that a supply runs through, on all that is cut, in millimetres; undefined where there are none. */
export const casingOf: Query<NamedDeclaration, number | undefined> = {
  name: 'casing',
  input: false,
  compute: (context, declaration) => {
    const cased = edgesWith(context, declaration, 'hemmed');
    return cased.length === 0 ? undefined : lengthOf(cased);
  },
};
