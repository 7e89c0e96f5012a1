import { showLength } from '../../units/length.ts';
import { zero, type Rational } from '../../units/rational.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { shapeOf } from '../piece/shape.ts';
import { report, type Scope } from '../query/scope.ts';
import type { NamedDeclaration } from '../names/world.ts';

/** Where one edge runs into another of another allowance too smoothly for the two to meet, the line beside them jumps; at a corner it would not. */
export function checkSteps(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const shape = lines.length === 0 ? undefined : scope.context.get(shapeOf, declaration);
  if (shape === undefined || declaration.tree.kind !== 'piece') return;
  const sizeOf = (edge: string): Rational => shape.allowances.get(edge)?.size ?? zero;
  const { display } = scope.settings;
  for (const [first, second] of shape.steps) {
    if (first === shape.fold || second === shape.fold || sizeOf(first).equals(sizeOf(second))) continue;
    const line = shape.drawnTo === 'cutting' ? 'stitching' : 'cutting';
    report(scope, 'stepped-allowance', declaration.tree.name, { line, first, second, sizes: [first, second].map((edge) => showLength(sizeOf(edge), display)) });
  }
}
