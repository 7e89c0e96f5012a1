import { edgeLength } from '../../geometry/measure.ts';
import type { Edge } from '../../geometry/shape.ts';
import { replacement } from '../../problems/problem.ts';
import type { Node } from '../../syntax/tree.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';

/** What lies beyond its edge, or runs off it. */
type Lying = { readonly what: 'notch' } | {
  readonly what: 'dart' | 'pleat';
  readonly name: string;
  /** How much of its edge it takes to either side of its place, in millimetres. */
  readonly reach: number;
};

/** Reports what doesn't lie on its edge, at its place; the middle is offered where there is room. */
export function reportOffEdge(scope: Scope, at: Node, edge: Edge, lying: Lying): void {
  const length = edgeLength(edge);
  const isRoom = lying.what === 'notch' || lying.reach * 2 <= length;
  report(scope, 'off-edge', at, { what: lying.what, edge: edge.name, length: lengthText(scope, length), ...(lying.what === 'notch' ? {} : { name: lying.name, reach: lengthText(scope, lying.reach) }) }, {
    fixes: isRoom ? [replacement(`Put the ${lying.what} in the middle`, placeIn(scope, at), '50%', false)] : [],
  });
}
