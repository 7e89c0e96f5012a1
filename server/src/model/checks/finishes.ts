import type { NamedDeclaration } from '../names/world.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { shapeOf } from '../piece/shape.ts';
import { lengthText, report, type Scope } from '../query/scope.ts';
import { finishesOf } from '../seams/finishes.ts';

/** A hem is turned into the allowance, so that must be as wide. */
export function checkFinishes(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const shape = scope.context.get(shapeOf, declaration);
  if (shape === undefined || !lines.some((line) => line.layer === undefined)) return;
  for (const [edge, { kind, size, place }] of scope.context.get(finishesOf, declaration)) {
    const allowance = shape.allowances.get(edge)?.size;
    if (kind !== 'hemmed' || place.chunk !== declaration || size === undefined || allowance === undefined || allowance.compare(size) >= 0) continue;
    report(scope, 'hem-too-wide', place, { edge, hem: lengthText(scope, size), allowance: allowance.n === 0n ? 'no allowance' : `an allowance of ${lengthText(scope, allowance)}` });
  }
}
