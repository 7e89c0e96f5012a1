import { replacement } from '../../problems/problem.ts';
import type { Binary, Comparison, Expression } from '../../syntax/tree.ts';
import { parseNumber } from '../../units/number-text.ts';
import { choiceOf, declarationOf } from '../query/inputs.ts';
import { placeIn, report, type Scope } from '../query/scope.ts';

/** Formulas and conditions that can be read, and hardly mean what they say. */

/** Five and a half is often written 5-1/2 or 5.1/2, which here is five minus a half, and half of 5.1. */
export function warnOfFraction(scope: Scope, { operator, left, right, start, end }: Binary): void {
  if ((operator !== '-' && operator !== '/') || left.kind !== 'number' || right.kind !== 'number' || left.unit !== undefined) return;
  const [, whole, sign, fraction] = /^(\d+)([-.])(\d+\/\d+)(?:\s|[a-z]|$)/.exec(scope.declaration.text.slice(start, end)) ?? [];
  if (whole === undefined || fraction === undefined) return;
  const [above = '', below = ''] = fraction.split('/');
  const read = parseNumber(sign === '.' ? `${whole}.${above}` : whole);
  const other = parseNumber(sign === '.' ? below : fraction);
  if (read === undefined || other === undefined) return;
  const details = { fixes: [replacement(`Change to “${whole} ${fraction}”`, { chunk: scope.declaration, start, end: start + whole.length + 1 + fraction.length }, `${whole} ${fraction}`, false)] };
  if (sign === '-') report(scope, 'minus-fraction', { start, end }, { whole, fraction, value: read.sub(other).toFraction(true) }, details);
  else report(scope, 'point-fraction', { start, end }, { whole, fraction, dividend: `${whole}.${above}`, divisor: below, value: String(Number(read.div(other).valueOf().toFixed(6))) }, details);
}

/** Whether a comparison asks for a choice as if it were a size; reports it then. */
export function comparesChoice(scope: Scope, { left, right, operator, start, end }: Comparison): boolean {
  const choice = soleName(left);
  if (choice === undefined || scope.context.get(choiceOf, choice) === undefined || scope.context.get(declarationOf, choice) !== undefined) return false;
  const between = scope.declaration.text.slice(left.end, right.start);
  const at = left.end + between.indexOf(operator);
  const word = operator === '!=' ? 'is not' : 'is';
  const option = soleName(right);
  const place = { start: between.includes(operator) ? at : start, end: between.includes(operator) ? at + operator.length : end };
  const spaced = `${/\s/.test(between.charAt(0)) ? '' : ' '}${word}${/\s$/.test(between) ? '' : ' '}`;
  report(scope, 'choice-compared', place, { choice, example: `${choice} ${word} ${option ?? '…'}` }, {
    fixes: option === undefined || !/^!?=$/.test(operator) ? [] : [replacement(`Change to “${word}”`, placeIn(scope, place), spaced, false)],
  });
  return true;
}

/** Whether the middle of an edge is asked for by a word that is no value of the spec; reports it then. */
export function saysMiddle(scope: Scope, expression: Expression): boolean {
  const name = soleName(expression);
  if (name === undefined || !/^(?:cent(?:re|er)|mid(?:dle)?|half|halfway)$/i.test(name) || scope.context.get(declarationOf, name) !== undefined) return false;
  const near = '50%';
  report(scope, 'unknown-name', expression, { what: 'value', name, near }, { fixes: [replacement(`Change to “${near}”`, placeIn(scope, expression), near, false)] });
  return true;
}

/** Whether a word that is no value of the spec is one of some others, which stand before a size and not for it; reports it then. */
export function isLeftAlone(scope: Scope, expression: Expression, words: readonly string[], told: (name: string) => { readonly is: string; readonly wanted: string }): boolean {
  const name = soleName(expression);
  if (name === undefined || !words.includes(name) || scope.context.get(declarationOf, name) !== undefined) return false;
  report(scope, 'wrong-thing', expression, { name, ...told(name) });
  return true;
}

const soleName = (expression: Expression): string | undefined => (expression.kind === 'reference' && expression.path.length === 1 ? expression.path[0]?.text : undefined);
