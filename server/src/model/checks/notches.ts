import type { NamedDeclaration } from '../names/world.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { shapeOf } from '../piece/shape.ts';
import { report, type Scope } from '../query/scope.ts';

/** A notch is cut into the allowance; where there is none it would be cut into the article, so the table leaves it out. */
export function checkNotches(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const shape = lines.some((line) => line.along === 'cutting' && line.layer === undefined) ? scope.context.get(shapeOf, declaration) : undefined;
  for (const notch of shape?.notches ?? []) {
    const allowance = shape?.allowances.get(notch.edge)?.size;
    // Notches that a copy takes over are told of where they are written.
    if (notch.place.chunk !== declaration || (allowance !== undefined && allowance.n > 0n)) continue;
    report(scope, 'notch-without-allowance', notch.place, { edge: notch.edge });
  }
}
