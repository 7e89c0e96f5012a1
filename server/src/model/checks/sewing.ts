import type { NamedDeclaration } from '../names/world.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { allSeams } from '../query/inputs.ts';
import { placeIn, report, type Scope } from '../query/scope.ts';
import { handsOf } from '../seams/hands.ts';
import { drawnName } from '../seams/seam.ts';
import { edgesLeft } from '../seams/sewn-edges.ts';
import type { Fix } from '../../problems/problem.ts';

/** In a pattern that says how it is sewn, each piece is cut in the hand that its seams need, and each of its edges is spoken of. */
export function checkSewing(scope: Scope, lines: readonly CutLine[], declaration: NamedDeclaration): void {
  const { context } = scope;
  const { tree } = declaration;
  if (tree.kind !== 'piece' || context.get(allSeams, 'all').length === 0) return;
  const { wrong } = context.get(handsOf, 'all');
  for (const line of lines) {
    const fault = wrong.get(line);
    if (fault === undefined) continue;
    report(scope, 'wrong-hand', line.statement.material, { piece: line.piece.name, seam: fault.seam.name, needs: fault.needs }, {
      related: [{ place: fault.seam.place, message: 'This seam needs it so.' }],
      fixes: [handFix(scope, line, fault.needs)],
    });
  }
  if (!lines.some((line) => line.layer === undefined && line.along === 'cutting')) return;
  const left = context.get(edgesLeft, declaration);
  if (left.length === 0) return;
  // A finish is that of both halves of an edge.
  report(scope, 'edges-left', tree.name, {
    piece: tree.name.text, example: drawnName(left.find(({ isPart }) => !isPart)?.edge ?? left[0]?.edge ?? 'top'), edges: left.filter(({ isPart }) => !isPart).map(({ edge }) => edge), parts: left.filter(({ isPart }) => isPart).map(({ edge }) => edge),
  });
}

function handFix(scope: Scope, { statement }: CutLine, needs: 'as drawn' | 'mirrored' | 'twins'): Fix {
  const clause = statement.clauses.find(({ kind }) => kind === 'mirrored' || kind === 'twins');
  const at = statement.material.end;
  const place = clause === undefined ? { chunk: scope.declaration, start: at, end: at } : { ...placeIn(scope, clause), start: scope.declaration.text.slice(0, clause.start).trimEnd().length };
  return needs === 'as drawn' ? { title: 'Remove “mirrored”', safe: false, edits: [{ place, newText: '' }] } : { title: `Cut “${needs}”`, safe: false, edits: [{ place, newText: ` ${needs}` }] };
}
