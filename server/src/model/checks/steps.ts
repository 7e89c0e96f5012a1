import { edgeLength, pointAlong } from '../../geometry/measure.ts';
import { dot } from '../../geometry/vector.ts';
import { showLength } from '../../units/length.ts';
import { zero, type Rational } from '../../units/rational.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { shapeOf } from '../piece/shape.ts';
import { report, type Scope } from '../query/scope.ts';
import type { NamedDeclaration } from '../names/world.ts';

/** Edges that turn by less than this run into each other without a corner: the cosine of 10 degrees (invented). */
const smooth = Math.cos((10 * Math.PI) / 180);

/** Where one edge runs smoothly into another of another allowance, the cutting line jumps; at a corner it would not. */
export function checkSteps(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const shape = lines.length === 0 ? undefined : scope.context.get(shapeOf, declaration);
  if (shape === undefined || declaration.tree.kind !== 'piece') return;
  const sizeOf = (edge: string): Rational => shape.allowances.get(edge)?.size ?? zero;
  const { edges } = shape.drawn;
  for (const [index, edge] of edges.entries()) {
    const next = edges[(index + 1) % edges.length];
    if (next === undefined || next === edge || edge.name === shape.fold || next.name === shape.fold || sizeOf(edge.name).equals(sizeOf(next.name))) continue;
    const arrives = pointAlong(edge, edgeLength(edge))?.tangent;
    const leaves = pointAlong(next, 0)?.tangent;
    if (arrives === undefined || leaves === undefined || dot(arrives, leaves) < smooth) continue;
    const { display } = scope.settings;
    report(scope, 'stepped-allowance', declaration.tree.name, { first: edge.name, second: next.name, sizes: [sizeOf(edge.name), sizeOf(next.name)].map((size) => showLength(size, display)) });
  }
}
