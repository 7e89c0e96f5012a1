import { figure, limits } from '../../problems/limits.ts';
import { NameIndex, nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import type { Arm, Binary, Call, Condition, Expression, Is, Name, Node, NumberLiteral, Selection, ValueDeclaration } from '../../syntax/tree.ts';
import { millimetresIn } from '../../units/length.ts';
import { parseNumber } from '../../units/number-text.ts';
import { measured, multipleAtLeast, nearestMultiple, rational, type Rational } from '../../units/rational.ts';
import { choiceOf, cycleOf, isDamaged, ownersOf, similarTo } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { isLayerSize } from '../names/needs.ts';
import { nameUses } from '../../syntax/walk.ts';
import { comparesChoice, warnOfFraction } from './slips.ts';
import { dimensionNames, exactValue, productDimension, quotientDimension, type Dimension, type Value } from './value.ts';
import type { NamedDeclaration } from '../names/world.ts';

/** Finds what a reference stands for; reports what it can't find, and gives undefined. */
export type Resolve = (scope: Scope, path: readonly Name[]) => Value | undefined;

/**
 * Computes a formula. Problems are reported where they arise, once; undefined then says that there is no value to go on
 * with, and whoever needs it stays quiet.
 */
export function evaluate(scope: Scope, expression: Expression): Value | undefined {
  switch (expression.kind) {
    case 'number':
      return literal(scope, expression);
    case 'reference':
      return scope.context.resolve(scope, expression.path);
    case 'group':
      return evaluate(scope, expression.inner);
    case 'negation': {
      const operand = evaluate(scope, expression.operand);
      return operand && { ...operand, amount: operand.amount.neg(), place: placeIn(scope, expression), from: [operand] };
    }
    case 'binary':
      return binary(scope, expression);
    case 'call':
      return call(scope, expression);
    case 'selection':
      return selection(scope, expression);
  }
}

/** Computes a formula that must give a certain kind; a bare number takes the file's unit. */
export function evaluateAs(scope: Scope, expression: Expression, wanted: 'length' | 'number' | 'angle' | 'area'): Value | undefined {
  const value = evaluate(scope, expression);
  if (value === undefined) return undefined;
  const converted = convert(scope, value, wanted);
  if (converted === undefined) {
    const hint = value.dimension === 'number' && wanted === 'length' ? { hint: `Multiply it by a length, such as 1 ${scope.settings.display.unit}.` } : {};
    report(scope, 'wrong-kind', expression, { got: dimensionNames[value.dimension], wanted: dimensionNames[wanted], ...hint });
  }
  if (converted?.dimension === 'length' && isTooLong(scope, converted, expression)) return undefined;
  return converted;
}

interface Longest {
  readonly length: Rational;
  readonly words: string;
}

/** The longest that a length may be, by the declaration that it stands in. */
const longest: Readonly<Record<string, Longest>> = {
  piece: { length: rational(limits.pieceLength), words: '100 m' },
  allowance: { length: rational(limits.pieceLength), words: '100 m' },
  material: { length: rational(limits.materialLength), words: '1 km' },
};
const longestOther: Longest = { length: rational(limits.otherLength), words: '1000 km' };

function isTooLong(scope: Scope, { amount }: Value, expression: Expression): boolean {
  const { length, words } = longest[scope.declaration.tree.kind] ?? longestOther;
  if (amount.abs().compare(length) <= 0) return false;
  report(scope, 'wrong-kind', expression, { got: `a length of more than ${words}`, wanted: 'a shorter one' });
  return true;
}

/** Below this, which is a nanometre, drawing finds no room between one point and the next. */
const shortest = rational(1, 1_000_000);

/** A length that must be more than nothing. */
export function positiveLength(scope: Scope, expression: Expression, what: string): Value | undefined {
  const value = evaluateAs(scope, expression, 'length');
  if (value === undefined || value.amount.compare(shortest) >= 0) return value;
  report(scope, 'too-small', expression, { what, value: exactValue(value, scope.settings.display), least: 'more than nothing' });
  return undefined;
}

/** Whether an edge would be moved too far, such as by an allowance; reports it. */
export function isTooFar(scope: Scope, { amount }: Value, expression: Expression, what: string): boolean {
  if (amount.abs().compare(limits.offset) <= 0) return false;
  report(scope, 'wrong-kind', expression, { got: `${what} of more than 1 m`, wanted: 'a smaller one' });
  return true;
}

/** A number or a length that may be nothing, but not less. */
export function notNegative(scope: Scope, expression: Expression, what: string, wanted: 'length' | 'number' | 'angle'): Value | undefined {
  const value = evaluateAs(scope, expression, wanted);
  if (value === undefined || value.amount.compare(0) >= 0) return value;
  report(scope, 'too-small', expression, { what, value: exactValue(value, scope.settings.display), least: 'nothing or more' });
  return undefined;
}

/** A whole number, at least `least`. */
export function wholeNumber(scope: Scope, expression: Expression, what: string, least: number): Value | undefined {
  const value = evaluateAs(scope, expression, 'number');
  if (value === undefined) return undefined;
  const text = exactValue(value, scope.settings.display);
  if (value.amount.d !== 1n) report(scope, 'not-whole', expression, { what, value: text });
  else if (value.amount.compare(least) < 0) report(scope, 'too-small', expression, { what, value: text, least: `at least ${least}` });
  else if (value.amount.compare(limits.count) > 0) report(scope, 'wrong-kind', expression, { got: `a count of more than ${figure(limits.count)}`, wanted: 'a smaller one' });
  else return value;
  return undefined;
}

function convert(scope: Scope, value: Value, wanted: Exclude<Dimension, 'bare'>): Value | undefined {
  if (value.dimension === wanted) return value;
  if (value.dimension !== 'bare') return undefined;
  const unit = millimetresIn[scope.settings.display.unit];
  const factor = wanted === 'length' ? unit : wanted === 'area' ? unit.mul(unit) : undefined;
  return { ...value, dimension: wanted, amount: factor === undefined ? value.amount : value.amount.mul(factor) };
}

function literal(scope: Scope, expression: NumberLiteral): Value | undefined {
  if (expression.digits.length > 3 * limits.digits) return tooManyDigits(scope, expression);
  const amount = parseNumber(expression.digits);
  if (amount === undefined) {
    report(scope, 'division-by-zero', expression, {});
    return undefined;
  }
  if (hasTooManyDigits(amount)) return tooManyDigits(scope, expression);
  const place = placeIn(scope, expression);
  const { unit } = expression;
  if (unit === undefined) return { dimension: 'bare', amount, exact: true, place, from: [] };
  if (unit === '%') return { dimension: 'number', amount: amount.div(100), exact: true, place, from: [] };
  if (unit === 'deg') return { dimension: 'angle', amount, exact: true, place, from: [] };
  return { dimension: 'length', amount: amount.mul(millimetresIn[unit]), exact: true, place, from: [] };
}

/** Brings two values to one kind, a bare number taking the other's; undefined, and a problem, where they have none. */
function alike(scope: Scope, expression: Expression | Condition, operator: string, left: Value, right: Value): readonly [Value, Value] | undefined {
  if (left.dimension === right.dimension) return [left, right];
  if (left.dimension === 'bare' && right.dimension !== 'bare') {
    const converted = convert(scope, left, right.dimension);
    if (converted !== undefined) return [converted, right];
  }
  if (right.dimension === 'bare' && left.dimension !== 'bare') {
    const converted = convert(scope, right, left.dimension);
    if (converted !== undefined) return [left, converted];
  }
  report(scope, 'mixed-kinds', expression, { operator, left: sentenceStart(dimensionNames[left.dimension]), right: dimensionNames[right.dimension] });
  return undefined;
}

const sentenceStart = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

function binary(scope: Scope, expression: Binary): Value | undefined {
  const left = evaluate(scope, expression.left);
  const right = evaluate(scope, expression.right);
  if (left === undefined || right === undefined) return undefined;
  const place = placeIn(scope, expression);
  const exact = left.exact && right.exact;
  if (expression.operator === '+' || expression.operator === '-') {
    const pair = alike(scope, expression, expression.operator, left, right);
    if (pair === undefined) return undefined;
    const [a, b] = pair;
    warnOfFraction(scope, expression);
    const sum = expression.operator === '+' ? a.amount.add(b.amount) : a.amount.sub(b.amount);
    return hasTooManyDigits(sum) ? tooManyDigits(scope, expression) : { dimension: a.dimension, amount: sum, exact, place, from: [a, b] };
  }
  const dimension = expression.operator === '*' ? productDimension(left.dimension, right.dimension) : quotientDimension(left.dimension, right.dimension);
  if (dimension === undefined) {
    report(scope, 'mixed-kinds', expression, { operator: expression.operator, left: sentenceStart(dimensionNames[left.dimension]), right: dimensionNames[right.dimension] });
    return undefined;
  }
  if (expression.operator === '/' && right.amount.n === 0n) {
    report(scope, 'division-by-zero', expression.right, {});
    return undefined;
  }
  warnOfFraction(scope, expression);
  const amount = expression.operator === '*' ? left.amount.mul(right.amount) : left.amount.div(right.amount);
  return hasTooManyDigits(amount) ? tooManyDigits(scope, expression) : { dimension, amount, exact, place, from: [left, right] };
}

const tooLarge = 10n ** BigInt(limits.digits);

/** Exact sums and products grow digit by digit, and each takes longer to work out than the one before. */
const hasTooManyDigits = ({ n, d }: Rational): boolean => n >= tooLarge || d >= tooLarge;

function tooManyDigits(scope: Scope, node: Node): undefined {
  report(scope, 'wrong-kind', node, { got: `a number of more than ${limits.digits} digits`, wanted: 'a simpler one' });
  return undefined;
}

// ------------------------------------------------------------------------------------------------ functions

interface Function {
  readonly usage: string;
  readonly doc: string;
  /** Gives undefined where the arguments don't fit. */
  readonly apply: (values: readonly Value[]) => { readonly dimension: Dimension; readonly amount: Rational; readonly exact: boolean } | undefined;
}

const withStep = (round: (value: Rational, step: Rational) => Rational): Function['apply'] => ([value, step, ...rest]) =>
  value === undefined || step === undefined || rest.length > 0 || value.dimension !== step.dimension || step.amount.compare(0) <= 0
    ? undefined
    : { dimension: value.dimension, amount: round(value.amount, step.amount), exact: value.exact };

const extreme = (sign: 1 | -1): Function['apply'] => (values) => {
  const [first, ...rest] = values;
  if (first === undefined || rest.length === 0 || rest.some((one) => one.dimension !== first.dimension)) return undefined;
  const best = rest.reduce((most, one) => (one.amount.compare(most.amount) * sign > 0 ? one : most), first);
  return { dimension: best.dimension, amount: best.amount, exact: values.every((one) => one.exact) };
};

/** The functions that formulas may use. */
export const functions: Readonly<Record<string, Function>> = {
  min: { usage: 'min(a, b, …)', doc: 'The least of several values.', apply: extreme(-1) },
  max: { usage: 'max(a, b, …)', doc: 'The greatest of several values.', apply: extreme(1) },
  round: { usage: 'round(value, step)', doc: 'The multiple of the step nearest to the value.', apply: withStep(nearestMultiple) },
  round_up: { usage: 'round_up(value, step)', doc: 'The least multiple of the step that is not below the value.', apply: withStep(multipleAtLeast) },
  round_down: { usage: 'round_down(value, step)', doc: 'The greatest multiple of the step that is not above the value.', apply: withStep((value, step) => value.div(step).floor().mul(step)) },
  sqrt: {
    usage: 'sqrt(value)',
    doc: 'The square root: of an area, the side of its square.',
    apply: ([value, ...rest]) => {
      if (value === undefined || rest.length > 0 || value.amount.compare(0) < 0 || value.dimension === 'length' || value.dimension === 'angle') return undefined;
      if (!Number.isFinite(value.amount.valueOf())) return undefined;
      return { dimension: value.dimension === 'area' ? 'length' : value.dimension, amount: measured(Math.sqrt(value.amount.valueOf())), exact: false };
    },
  },
  around: {
    usage: 'around(diameter)',
    doc: 'The way round a circle: pi times its diameter.',
    apply: ([value, ...rest]) => (value === undefined || rest.length > 0 || value.dimension !== 'length' || !Number.isFinite(value.amount.valueOf()) ? undefined : { dimension: 'length', amount: measured(Math.PI * value.amount.valueOf()), exact: false }),
  },
};

function call(scope: Scope, expression: Call): Value | undefined {
  const known = Object.hasOwn(functions, expression.name.text) ? functions[expression.name.text] : undefined;
  if (known === undefined) {
    const near = nearestName(expression.name.text, Object.keys(functions));
    report(scope, 'unknown-name', expression.name, { what: 'function', name: expression.name.text, near }, {
      fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, expression.name), near, false)],
    });
    return undefined;
  }
  const values = allDefined(expression.arguments.map((argument) => evaluate(scope, argument)));
  if (values === undefined) return undefined;
  const unbare = values.find((value) => value.dimension !== 'bare')?.dimension ?? (expression.name.text === 'around' ? 'length' : 'bare');
  const converted = values.map((value) => (unbare === 'bare' ? value : (convert(scope, value, unbare) ?? value)));
  const result = known.apply(converted);
  if (result === undefined) {
    report(scope, 'wrong-arguments', expression, { name: expression.name.text, usage: known.usage });
    return undefined;
  }
  return hasTooManyDigits(result.amount) ? tooManyDigits(scope, expression) : { ...result, place: placeIn(scope, expression), from: converted };
}

/** The values, if there are all of them. */
export function allDefined<T>(values: readonly (T | undefined)[]): readonly T[] | undefined {
  const present = values.filter((value) => value !== undefined);
  return present.length === values.length ? present : undefined;
}

// ------------------------------------------------------------------------------------------------ choices

function selection(scope: Scope, expression: Selection): Value | undefined {
  // Every arm is computed, so that a fault in one is told in whichever combination is looked at.
  let chosen: Arm | undefined;
  const covered = new Map<string, Set<string>>();
  let faulty = false;
  for (const arm of expression.arms) {
    if (arm.option === undefined) {
      chosen ??= arm;
      continue;
    }
    const choice = choiceFor(scope, arm.option, arm.choice);
    if (choice === undefined) {
      faulty = true;
      continue;
    }
    covered.set(choice, (covered.get(choice) ?? new Set()).add(arm.option.text));
    if (scope.context.option(choice) === arm.option.text) chosen ??= arm;
  }
  if (chosen !== undefined) {
    const value = evaluate(scope, chosen.value);
    return value && { ...value, place: placeIn(scope, chosen), from: [value] };
  }
  if (!faulty) {
    const missing = [...covered].flatMap(([choice, options]) => (scope.context.get(choiceOf, choice)?.options ?? []).filter((option) => !options.has(option)));
    report(scope, 'missing-option', expression, { missing });
  }
  return undefined;
}

/** The choice that an option belongs to; reports where there is none or more than one. */
function choiceFor(scope: Scope, option: Name, named: Name | undefined): string | undefined {
  if (named !== undefined) return isOption(scope, named, option) ? named.text : undefined;
  const owners = scope.context.get(ownersOf, option.text).split(' ').filter((name) => name !== '');
  const [owner, ...others] = owners;
  if (owner === undefined) {
    if (scope.context.get(isDamaged, option.text)) return undefined;
    reportOption(scope, option, undefined, scope.context.get(similarTo, 'options'));
    return undefined;
  }
  if (others.length > 0) {
    report(scope, 'ambiguous-option', option, { option: option.text, choices: owners });
    return undefined;
  }
  return owner;
}

function isOption(scope: Scope, choiceName: Name, option: Name): boolean {
  const choice = scope.context.get(choiceOf, choiceName.text);
  if (choice === undefined) {
    if (scope.context.get(isDamaged, choiceName.text)) return false;
    const near = nearestName(choiceName.text, scope.context.get(similarTo, 'choices'));
    report(scope, 'unknown-name', choiceName, { what: 'choice', name: choiceName.text, near }, {
      fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, choiceName), near, false)],
    });
    return false;
  }
  if (choice.options.includes(option.text)) return true;
  reportOption(scope, option, choice.name, new NameIndex(choice.options));
  return false;
}

function reportOption(scope: Scope, option: Name, choice: string | undefined, known: NameIndex): void {
  const near = nearestName(option.text, known);
  report(scope, 'unknown-option', option, { option: option.text, choice, near, known: known.names }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, option), near, false)],
  });
}

// ------------------------------------------------------------------------------------------------ conditions

/** Whether a condition holds in the combination at hand; undefined where that can't be told. */
export function holds(scope: Scope, condition: Condition): boolean | undefined {
  switch (condition.kind) {
    case 'is':
      return isHolds(scope, condition);
    case 'not': {
      const operand = holds(scope, condition.operand);
      return operand === undefined ? undefined : !operand;
    }
    case 'condition group':
      return holds(scope, condition.inner);
    case 'logical': {
      const left = holds(scope, condition.left);
      const right = holds(scope, condition.right);
      if (left === undefined || right === undefined) return undefined;
      return condition.operator === 'and' ? left && right : left || right;
    }
    case 'comparison': {
      if (comparesChoice(scope, condition)) return undefined;
      const left = evaluate(scope, condition.left);
      const right = evaluate(scope, condition.right);
      if (left === undefined || right === undefined) return undefined;
      const pair = alike(scope, condition, condition.operator, left, right);
      return pair && compares(condition.operator, pair[0].amount.compare(pair[1].amount));
    }
  }
}

function isHolds(scope: Scope, condition: Is): boolean | undefined {
  let known = true;
  for (const option of condition.options) known = isOption(scope, condition.choice, option) && known;
  if (!known) return undefined;
  const chosen = scope.context.option(condition.choice.text);
  return condition.options.some((option) => option.text === chosen) !== condition.negated;
}

function compares(operator: '<' | '<=' | '>' | '>=' | '=' | '!=', sign: number): boolean {
  switch (operator) {
    case '<':
      return sign < 0;
    case '<=':
      return sign <= 0;
    case '>':
      return sign > 0;
    case '>=':
      return sign >= 0;
    case '=':
      return sign === 0;
    case '!=':
      return sign !== 0;
  }
}

// ------------------------------------------------------------------------------------------------ named values

/** The value of a `length`, `count`, `ratio`, `angle` or `area`. */
export const valueOf: Query<NamedDeclaration, Value | undefined> = {
  name: 'value',
  input: false,
  compute: (context, declaration) => {
    const tree = declaration.tree;
    if (tree.kind !== 'value') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    const value = evaluateAs(scope, tree.value, dimensionOf(tree));
    if (value === undefined) return undefined;
    if (tree.of === 'count' && value.amount.d !== 1n) {
      report(scope, 'not-whole', tree.value, { what: 'A count', value: exactValue(value, scope.settings.display) });
      return undefined;
    }
    return { ...value, name: tree.name.text, place: placeIn(scope, tree.name), from: [value] };
  },
};

function dimensionOf(tree: ValueDeclaration): 'length' | 'number' | 'angle' | 'area' {
  return tree.of === 'count' || tree.of === 'ratio' ? 'number' : tree.of;
}

/** Whether a declaration needs itself; reported at its name. */
export function inCycle(scope: Scope, name: Name): boolean {
  const cycle = scope.context.get(cycleOf, scope.declaration);
  if (cycle === undefined) return false;
  const { tree } = scope.declaration;
  const isPiece = tree.kind === 'piece';
  // A piece that asks for its own measure is told where it does so.
  const own = isPiece && cycle.count === 1 ? nameUses(tree).find((use) => use.name.text === name.text && use.role === 'any' && use.path.length === 0 && use.isTold !== true && !isLayerSize(tree, use.name)) : undefined;
  report(scope, 'cycle', own?.name ?? name, { ...cycle, isPiece });
  return true;
}
