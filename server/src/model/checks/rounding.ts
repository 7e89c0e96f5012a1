import { roundedFrom, showLength } from '../../units/length.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { report, type Scope } from '../query/scope.ts';

/** Cut sizes that the table can only show rounded. */
export function checkRounding(scope: Scope, lines: readonly CutLine[]): void {
  const { display } = scope.settings;
  for (const line of lines) {
    if (line.rectangle === undefined) continue;
    for (const side of ['width', 'height'] as const) {
      const exact = roundedFrom(line.rectangle[side], display);
      if (exact !== undefined) report(scope, 'rounded-size', line.statement, { what: `The cut ${side}`, exact, shown: showLength(line.rectangle[side], display) });
    }
  }
}
