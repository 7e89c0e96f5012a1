import type { Statement } from '../syntax/tree.ts';
import { report, type Scope } from './query/scope.ts';

/** What may stand in a block more than once. */
const repeatable = new Set(['note', 'at', 'broken']);

/** The statements of a block with each fact once: a second one is reported and left out. */
export function factsOnce<S extends Statement & { readonly kind: string }>(scope: Scope, statements: readonly S[]): readonly S[] {
  const seen = new Set<string>();
  return statements.filter((statement) => {
    if (repeatable.has(statement.kind)) return true;
    const repeated = seen.has(statement.kind);
    seen.add(statement.kind);
    if (repeated) report(scope, 'repeated-fact', statement, { what: `The ${statement.kind === 'supply kind' ? 'kind' : statement.kind}` });
    return !repeated;
  });
}
