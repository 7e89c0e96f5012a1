import type { Expression, ValueKind } from '../../syntax/tree.ts';
import { printExpression } from '../../syntax/print-words.ts';
import { lineEndOf } from '../../syntax/print.ts';
import type { Snapshot } from '../../workspace/snapshot.ts';
import { edited, type Action, type TextEdit, type TextRange } from '../results.ts';
import { factsOf, tried } from '../trial.ts';
import { dimensionOf, placedFormulas, placedParts, type Placed } from './dimensions.ts';
import { aboveDeclaration, freeName } from './places.ts';

/**
 * Offers to give the selected formula a name: a new value above the declaration, of the kind that leaves all that is
 * made as it was. A lone name needs no other.
 */
export function nameValueActions(snapshot: Snapshot, selection: TextRange): readonly Action[] {
  const found = snapshot.declarationAt(selection.start);
  if (found === undefined || selection.start === selection.end) return [];
  const { declaration, offset } = found;
  const { world } = snapshot.pattern;
  const placed = placedFormulas(world, declaration.tree)
    .flatMap((whole) => [...placedParts(world, whole)])
    .filter(({ expression }) => offset + expression.start <= selection.start && selection.end <= offset + expression.end && expression.kind !== 'reference')
    .at(-1);
  if (placed === undefined) return [];
  const isWholeValue = declaration.tree.kind === 'value' && declaration.tree.value === placed.expression;
  if (isWholeValue) return [];
  const before = factsOf(snapshot.pattern);
  const errors = errorCount(snapshot);
  for (const kind of kindsFor(snapshot, placed)) {
    const name = freeName(world, `new_${kind}`);
    const at = offset + aboveDeclaration(declaration);
    const { expression } = placed;
    const edits: TextEdit[] = [
      { start: at, end: at, newText: `${kind} ${name} = ${printExpression(withoutBrackets(expression))}${lineEndOf(snapshot.file.text)}` },
      { start: offset + expression.start, end: offset + expression.end, newText: name },
    ];
    const after = tried(snapshot, edited(snapshot.file.text, edits));
    if (errorCount(after) <= errors && factsOf(after.pattern) === before) {
      return [{ title: `Name this ${kind}`, kind: 'extract', edits: edits.map((edit) => ({ ...edit, file: snapshot.path })) }];
    }
  }
  return [];
}

const withoutBrackets = (expression: Expression): Expression => (expression.kind === 'group' ? expression.inner : expression);

const errorCount = (snapshot: Snapshot): number => snapshot.pattern.problems.filter((one) => one.severity === 'error').length;

/** The kinds that a formula could be declared as, the likeliest first. Which one is right, trying tells. */
function kindsFor(snapshot: Snapshot, { expression, wanted }: Placed): readonly ValueKind[] {
  const own = dimensionOf(snapshot.pattern.world, expression);
  const numbers = ['count', 'ratio'] as const;
  switch (own === 'bare' || own === undefined ? wanted : own) {
    case 'length':
      return ['length'];
    case 'area':
      return ['area'];
    case 'angle':
      return ['angle'];
    case 'number':
      return numbers;
    default:
      return [...numbers, 'length', 'area'];
  }
}
