import { exactLength, showLength } from '../../units/length.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { report, type Scope } from '../scope.ts';

/** Exact cut sizes that the table can only show rounded. */
export function checkRounding(scope: Scope, lines: readonly CutLine[]): void {
  const { display } = scope.settings;
  for (const line of lines) {
    const size = line.rectangle;
    if (size?.exact !== true) continue;
    for (const side of ['width', 'height'] as const) {
      const shown = showLength(size[side], display);
      if (shown.rounded) report(scope, 'rounded-size', line.statement, { what: `The cut ${side}`, exact: exactLength(size[side], display.unit), shown: shown.text });
    }
  }
}
