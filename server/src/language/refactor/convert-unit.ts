import type { Snapshot } from '../../workspace/snapshot.ts';
import type { Expression, NumberLiteral } from '../../syntax/tree.ts';
import { exactLength, millimetresIn, usualDisplay, type FileUnit } from '../../units/length.ts';
import { parseNumber } from '../../units/number-text.ts';
import type { Rational } from '../../units/rational.ts';
import type { World } from '../../model/names/world.ts';
import { edited, type Action, type TextEdit } from '../results.ts';
import { factsOf, tried, valuesOf } from '../trial.ts';
import { dimensionOf, placedFormulas, placedParts, type Placed } from './dimensions.ts';

/**
 * On the line that says the unit, or the first line where none does, offers the two other units. Every number that takes the file's unit is rewritten so that each length stays
 * exactly what it was; numbers with a unit of their own, counts, ratios and angles stay as they are.
 *
 * @returns nothing for a unit in which the file would not make the very same goods
 */
export function unitActions(snapshot: Snapshot, offset: number): readonly Action[] {
  const { declarations } = snapshot.file;
  const line = declarations.find(({ declaration }) => declaration.tree.kind === 'unit') ?? declarations[0];
  if (line === undefined || snapshot.declarationAt(offset) !== line) return [];
  const from = fileUnit(snapshot);
  return (['in', 'cm', 'mm'] as const).filter((unit) => unit !== from).flatMap((to) => {
    const edits = convertUnit(snapshot, to);
    return edits === undefined ? [] : [{ title: `Write this file in ${to}`, kind: 'rewrite', edits: edits.map((edit) => ({ ...edit, file: snapshot.path })) } satisfies Action];
  });
}

/** The edits that write the file in another unit; undefined where that would change what is made. */
export function convertUnit(snapshot: Snapshot, to: FileUnit): readonly TextEdit[] | undefined {
  const from = fileUnit(snapshot);
  const { world } = snapshot.pattern;
  const factor = millimetresIn[from].div(millimetresIn[to]);
  const edits: TextEdit[] = [...unitLine(snapshot, to), ...boughtLines(snapshot, from, to)];
  for (const { declaration, offset } of snapshot.file.declarations) {
    for (const { start, end, newText } of placedFormulas(world, declaration.tree).flatMap((placed) => scaledNumbers(world, placed, factor, to))) {
      edits.push({ start: offset + start, end: offset + end, newText });
    }
  }
  const { pattern } = tried(snapshot, edited(snapshot.file.text, edits));
  return factsOf(pattern) === factsOf(snapshot.pattern) && valuesOf(pattern) === valuesOf(snapshot.pattern) ? edits : undefined;
}

const fileUnit = (snapshot: Snapshot): FileUnit => snapshot.pattern.display.unit;

function scaledNumbers(world: World, whole: Placed, factor: Rational, to: FileUnit): readonly TextEdit[] {
  const numbers = new Map<NumberLiteral, Rational>();
  let within = -1;
  for (const { expression, wanted } of placedParts(world, whole)) {
    if (expression.start < within) continue;
    if (dimensionOf(world, expression) !== 'bare' || (wanted !== 'length' && wanted !== 'area')) continue;
    // The largest formula that is bare all through becomes a length as a whole.
    scale(expression, wanted === 'area' ? factor.mul(factor) : factor, numbers);
    within = expression.end;
  }
  return [...numbers].map(([number, by]) => ({ start: number.start, end: number.end, newText: numberText(parseNumber(number.digits)?.mul(by), number, to) }));
}

/** Finds the numbers that must be multiplied to multiply a whole formula of bare numbers. */
function scale(node: Expression, by: Rational, numbers: Map<NumberLiteral, Rational>): void {
  switch (node.kind) {
    case 'number':
      numbers.set(node, by);
      return;
    case 'group':
      scale(node.inner, by, numbers);
      return;
    case 'negation':
      scale(node.operand, by, numbers);
      return;
    case 'selection':
      for (const arm of node.arms) scale(arm.value, by, numbers);
      return;
    case 'call':
      for (const argument of node.arguments) scale(argument, node.name.text === 'sqrt' ? by.mul(by) : by, numbers);
      return;
    case 'binary':
      scale(node.left, by, numbers);
      if (node.operator === '+' || node.operator === '-') scale(node.right, by, numbers);
      return;
    case 'reference':
  }
}

/** A number as it is written in the unit; one that has no end as a decimal is a fraction. */
function numberText(value: Rational | undefined, number: NumberLiteral, to: FileUnit): string {
  return value === undefined ? number.digits : exactLength(value.mul(millimetresIn[to]), to).slice(0, -to.length - 1);
}

// ------------------------------------------------------------------------------------------------ the file's own lines

function unitLine(snapshot: Snapshot, to: FileUnit): readonly TextEdit[] {
  const edits: TextEdit[] = [];
  let given = false;
  for (const { declaration, offset } of snapshot.file.declarations) {
    const { tree } = declaration;
    if (tree.kind === 'unit') {
      // Where both units are shown, they change places.
      const also = tree.also === to ? tree.unit : tree.also;
      const end = offset + tree.end;
      if (also === undefined) edits.push({ start: end - tree.unit.length, end, newText: to });
      else edits.push({ start: offset + tree.start, end, newText: `unit ${to} and ${also}` });
      given = true;
    } else if (tree.kind === 'step') edits.push({ start: offset + tree.size.start, end: offset + tree.size.end, newText: stepText(snapshot, to) });
  }
  if (given) return edits;
  const first = snapshot.file.declarations.find(({ declaration }) => !['pattern', 'revision', 'issued'].includes(declaration.tree.kind));
  const at = first === undefined ? snapshot.file.text.length : first.offset;
  return [{ start: at, end: at, newText: `unit ${to}\n` }, ...edits];
}

/** The usual step of the unit, or its finest where the file was finer than usual. */
function stepText(snapshot: Snapshot, to: FileUnit): string {
  const { display } = snapshot.pattern;
  const isFine = display.step.compare(usualDisplay(display.unit).step) < 0;
  return isFine ? { in: '1/16', cm: '0.1', mm: '0.5' }[to] : { in: '1/8', cm: '0.1', mm: '1' }[to];
}

/** A material without a line that says how it is sold follows the usual step of its file's unit: written out, it stays. */
function boughtLines(snapshot: Snapshot, from: FileUnit, to: FileUnit): readonly TextEdit[] {
  if ((from === 'in') === (to === 'in')) return [];
  const usual = from === 'in' ? '1/8 yd' : '10 cm';
  return snapshot.file.declarations.flatMap(({ declaration, offset }) => {
    const { tree } = declaration;
    if (tree.kind !== 'material' || !tree.body.closed || tree.body.statements.some((statement) => statement.kind === 'bought')) return [];
    const end = offset + tree.body.end - 1;
    return [{ start: end, end, newText: `${tree.body.statements.length === 0 && !/[\n\r]/.test(declaration.text.slice(tree.body.start, tree.body.end)) ? '\n' : ''}  bought in lengths of ${usual}\n` }];
  });
}
