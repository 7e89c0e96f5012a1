import { holds } from '../formulas/evaluate.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { isWanted } from '../piece/shape.ts';
import { report, type Scope } from '../query/scope.ts';
import type { NamedDeclaration } from '../names/world.ts';

/**
 * A piece that has a cut line for each of some choices, and none for others: an option that was forgotten. With a single
 * cut line it is a piece that is wanted with some choices only.
 */
export function checkUncut(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const { tree } = declaration;
  if (lines.length > 0 || tree.kind !== 'piece') return;
  const cuts = tree.body.statements.filter((statement) => statement.kind === 'cut');
  const isMeantElsewhere = cuts.every(({ clauses }) => clauses.some((clause) => clause.kind === 'when' && holds(scope, clause.condition) === false));
  if (cuts.length > 1 && isMeantElsewhere && scope.context.get(isWanted, declaration)) report(scope, 'uncut-here', tree.name, { piece: tree.title?.value ?? tree.name.text });
}
