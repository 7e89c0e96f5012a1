import { saidIn, wordsOf } from '../notes.ts';
import { isCongruent, isMirrorImageOf, isSymmetric } from '../../geometry/congruence.ts';
import { clearance, runsInside } from '../../geometry/inside.ts';
import type { Polygon } from '../../geometry/shape.ts';
import { movePolyline } from '../../geometry/transform.ts';
import { problem } from '../../problems/problem.ts';
import type { CheckDeclaration, CheckRule, Declaration, Expression, Name, Reference } from '../../syntax/tree.ts';
import { exactLength, showFinely, type Display } from '../../units/length.ts';
import { measured, rational, zero, type Rational } from '../../units/rational.ts';
import { evaluate, evaluateAs, holds, notNegative } from '../formulas/evaluate.ts';
import { declarationOf } from '../query/inputs.ts';
import type { Query } from '../query/query.ts';
import { foldedOf, saysFolded } from '../piece/folded.ts';
import type { PieceShape } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { failedToDraw, findOf, partsOf, polygonNamed } from '../formulas/reference.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { nearestName } from '../../problems/near.ts';
import { polygonOf } from '../piece/polygons.ts';
import { showValue, type Value } from '../formulas/value.ts';
import { sizeOfLine, sizeOfPiece, type Size } from '../piece/size.ts';
import { foldMirroring, openedLine } from '../piece/whole.ts';

/** What became of a check; `undecided` where a fault elsewhere stands in its way. */
export type Outcome = 'passed' | 'failed' | 'undecided' | 'not asked';

/** Lengths worked out along curves and offsets are right to about this much, in millimetres. */
const measuring = rational(1, 20);

/** Something that a check measured: a length, or what is so wide and so high. */
export interface Measure {
  /** As it is written, or a word for what is not. */
  readonly says: string;
  /** What its width has beyond what was measured: ` with 1/4 in to ease in`. */
  readonly more?: string;
  readonly width: Rational;
  readonly height?: Rational;
  /** Names of the pieces that it was measured on, each with the part of it; left out of what was reckoned otherwise than by adding those up. */
  readonly on?: readonly MeasuredOn[];
}

export type MeasuredOn = readonly [piece: string, part?: string];

/** What a check that fails has measured against one another: what there is, and what it should be. */
export type Compared = readonly [is: Measure, wanted: Measure];

/** What comes of a check, before anyone is told. */
export const verdictOf: Query<Declaration & { readonly tree: CheckDeclaration }, Verdict> = {
  name: 'verdict',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    const scope = scopeOf(context, declaration);
    return tree.condition !== undefined && holds(scope, tree.condition) !== true ? 'not asked' : verdictOn(scope, tree.rule);
  },
};

/** Undefined of a check that does not fail, and of one that measures nothing. */
export const comparedBy: Query<Declaration & { readonly tree: CheckDeclaration }, Compared | undefined> = {
  name: 'compared',
  input: false,
  compute: (context, declaration) => {
    const verdict = context.get(verdictOf, declaration);
    return typeof verdict === 'string' ? undefined : verdict.compared;
  },
};

/** The designer's own checks, with her own words where she gave any. */
export const outcomeOf: Query<Declaration & { readonly tree: CheckDeclaration }, Outcome> = {
  name: 'check',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    const scope = scopeOf(context, declaration);
    const verdict = context.get(verdictOf, declaration);
    if (typeof verdict === 'string') return verdict;
    const { failure } = verdict;
    const severity = tree.otherwise?.severity ?? 'error';
    const message = tree.otherwise?.message;
    const words = message && wordsOf(scope, context.get(saidIn, declaration).get(message) ?? []);
    context.report(problem('check-failed', placeIn(scope, tree.rule), { message: words === undefined ? failure : `${words} (${failure})` }, { severity }));
    return 'failed';
  },
};

/** What comes of a rule; not asked is one on a piece that the combination at hand leaves out. */
type Verdict = Exclude<Outcome, 'failed'> | Failure;

interface Failure {
  /** In words. */
  readonly failure: string;
  readonly compared?: Compared;
}

function verdictOn(scope: Scope, rule: CheckRule): Verdict {
  switch (rule.kind) {
    case 'matches':
      return matches(scope, rule);
    case 'clears':
      return clears(scope, rule);
    case 'holds':
      return holdsThing(scope, rule);
    case 'mates':
      return mates(scope, rule);
    case 'condition': {
      const result = holds(scope, rule.condition);
      if (result === undefined) return 'undecided';
      if (result) return 'passed';
      const { words, compared } = comparedValues(scope, rule);
      return { failure: `${textOf(scope, rule)} doesn’t hold${words}`, ...(compared === undefined ? {} : { compared }) };
    }
  }
}

const textOf = (scope: Scope, node: { readonly start: number; readonly end: number }): string => scope.declaration.text.slice(node.start, node.end);

const finely = (display: Display, length: Rational): string => showFinely(length, display);

function comparedValues(scope: Scope, rule: Extract<CheckRule, { kind: 'condition' }>): { readonly words: string; readonly compared?: Compared } {
  const { condition } = rule;
  if (condition.kind !== 'comparison') return { words: '' };
  const { display } = scope.settings;
  const plain = [evaluate(scope, condition.left), evaluate(scope, condition.right)] as const;
  // A bare number takes the unit of the length that it is compared with.
  const isLength = plain.some((value) => value?.dimension === 'length');
  const [left, right] = isLength ? [evaluateAs(scope, condition.left, 'length'), evaluateAs(scope, condition.right, 'length')] : plain;
  if (left === undefined || right === undefined) return { words: '' };
  const show = (value: Value): string => (isLength ? finely(display, value.amount) : showValue(value, display));
  const words = `: ${show(left)} against ${show(right)}`;
  return isLength ? { words, compared: [lengthOf(scope, condition.left, left.amount), lengthOf(scope, condition.right, right.amount)] } : { words };
}

function lengthOf(scope: Scope, expression: Expression, width: Rational): Measure {
  const on = addedUp(expression);
  return { says: textOf(scope, expression), width, ...(on === undefined ? {} : { on }) };
}

/** The parts of pieces whose lengths a formula adds up; undefined of any other formula. */
function addedUp(expression: Expression): readonly MeasuredOn[] | undefined {
  switch (expression.kind) {
    case 'reference':
      return expression.path.length === 2 ? [namesOf(expression)] : undefined;
    case 'group':
      return addedUp(expression.inner);
    case 'binary': {
      const [left, right] = [addedUp(expression.left), addedUp(expression.right)];
      return expression.operator === '+' && left !== undefined && right !== undefined ? [...left, ...right] : undefined;
    }
    default:
      return undefined;
  }
}

const namesOf = ({ path: [piece, part] }: Reference): MeasuredOn => (part === undefined ? [piece?.text ?? ''] : [piece?.text ?? '', part.text]);

function matches(scope: Scope, rule: Extract<CheckRule, { kind: 'matches' }>): Verdict {
  const left = evaluateAs(scope, rule.left, 'length');
  const right = evaluateAs(scope, rule.right, 'length');
  const eased = rule.eased === undefined ? zero : evaluateAs(scope, rule.eased, 'length')?.amount;
  const within = rule.within === undefined ? zero : notNegative(scope, rule.within, 'A tolerance', 'length')?.amount;
  if (left === undefined || right === undefined || eased === undefined || within === undefined) return 'undecided';
  if (sameText(scope, rule.left, rule.right)) report(scope, 'needless-check', rule, {});
  if (missing(scope, rule.left) || missing(scope, rule.right)) return 'not asked';
  // The left edge is the one that is eased in, so it may be that much longer.
  const off = left.amount.sub(right.amount).sub(eased);
  const slack = left.exact && right.exact ? within : within.add(measuring);
  if (off.abs().compare(slack) <= 0) return 'passed';
  const { display } = scope.settings;
  const easing = eased.n === 0n ? '' : ` with ${finely(display, eased)} to ease in`;
  const compared: Compared = [lengthOf(scope, rule.left, left.amount), { ...lengthOf(scope, rule.right, right.amount.add(eased)), more: easing }];
  return { compared, failure: `${textOf(scope, rule.left)} is ${finely(display, left.amount)} and ${textOf(scope, rule.right)} is ${finely(display, right.amount)}${easing}: ${finely(display, off.abs())} too ${off.compare(0) > 0 ? 'long' : 'short'}` };
}

const sameText = (scope: Scope, a: Expression, b: Expression): boolean => textOf(scope, a) === textOf(scope, b);

/** Whether a formula names a piece that the combination at hand leaves out. */
function missing(scope: Scope, expression: Expression): boolean {
  switch (expression.kind) {
    case 'reference': {
      const name = expression.path[0];
      const declaration = name && scope.context.get(declarationOf, name.text);
      return declaration?.tree.kind === 'piece' && !scope.context.get(isWanted, declaration);
    }
    case 'binary':
      return missing(scope, expression.left) || missing(scope, expression.right);
    case 'group':
      return missing(scope, expression.inner);
    case 'negation':
      return missing(scope, expression.operand);
    default:
      return false;
  }
}

function clears(scope: Scope, rule: Extract<CheckRule, { kind: 'clears' }>): Verdict {
  const inner = lineOf(scope, rule.inner);
  const outer = lineOf(scope, rule.outer);
  const by = evaluateAs(scope, rule.by, 'length');
  if (inner === undefined || outer === undefined || by === undefined) return 'undecided';
  if (inner.shape !== outer.shape) {
    report(scope, 'wrong-thing', rule.outer, { name: textOf(scope, rule.outer), is: 'part of another piece', wanted: `a line of “${inner.shape.name}”` });
    return 'undecided';
  }
  if (!scope.context.get(isWanted, inner.shape.declaration)) return 'not asked';
  const least = measured(clearance(closedRun(inner), outer.points));
  if (least.add(measuring).compare(by.amount) >= 0) return 'passed';
  const { display } = scope.settings;
  const between = `from ${textOf(scope, rule.inner)} to ${textOf(scope, rule.outer)}`;
  return { compared: [{ says: between, width: least, on: [namesOf(rule.inner)] }, { says: 'wanted', width: by.amount }], failure: `${textOf(scope, rule.inner)} comes within ${finely(display, least)} of ${textOf(scope, rule.outer)}, and ${exactLength(by.amount, display.unit)} is wanted` };
}

interface LineOf {
  readonly shape: PieceShape;
  readonly points: readonly { readonly x: number; readonly y: number }[];
  readonly closed: boolean;
}

const closedRun = (line: LineOf): LineOf['points'] => (line.closed && line.points[0] !== undefined ? [...line.points, line.points[0]] : line.points);

function lineOf(scope: Scope, reference: Reference): LineOf | undefined {
  const [piece, part] = reference.path;
  const shape = piece && shapeNamed(scope, piece);
  if (piece === undefined || shape === undefined) return undefined;
  const points = part && polygonNamed(shape, part.text);
  if (points === undefined) {
    if (part !== undefined && failedToDraw(shape, part.text)) return undefined;
    const known = ['cutting', 'stitching', ...shape.lines.map((line) => line.name)];
    report(scope, 'unknown-part', part ?? piece, { owner: piece.text, name: part?.text ?? '', near: part && nearestName(part.text, known), known });
    return undefined;
  }
  return { shape, points, closed: shape.lines.find((line) => line.name === part?.text)?.closed ?? true };
}

function shapeNamed(scope: Scope, name: Name): PieceShape | undefined {
  const declaration = findOf(scope, name, 'piece');
  return declaration && scope.context.get(shapeOf, declaration);
}

function holdsThing(scope: Scope, rule: Extract<CheckRule, { kind: 'holds' }>): Verdict {
  const room = roomOf(scope, rule.holder);
  const thing = thingSize(scope, rule);
  const ease = rule.ease === undefined ? zero : evaluateAs(scope, rule.ease, 'length')?.amount;
  if (room === 'not asked') return 'not asked';
  if (room === undefined || thing === undefined || ease === undefined) return 'undecided';
  // What is measured as folded is right to a micrometre.
  const slack = room.outline === undefined ? measuring : zero;
  const fits = (width: Rational, height: Rational): boolean => room.width.add(slack).compare(width.add(ease)) >= 0 && room.height.add(slack).compare(height.add(ease)) >= 0;
  if (fits(thing.width, thing.height) || fits(thing.height, thing.width)) return room.outline !== undefined && isFolded(scope, rule, room) ? 'undecided' : 'passed';
  const { display } = scope.settings;
  const size = (width: Rational, height: Rational): string => `${finely(display, width)} by ${finely(display, height)}`;
  const easing = ease.n === 0n ? '' : ` with ${exactLength(ease, display.unit)} of ease`;
  const compared: Compared = [
    { says: textOf(scope, rule.holder), width: room.width, height: room.height, on: [namesOf(rule.holder)] },
    { says: `${rule.thing?.text ?? 'what it should hold'}${easing}`, width: thing.width.add(ease), height: thing.height.add(ease) },
  ];
  return { compared, failure: `${textOf(scope, rule.holder)} is ${size(room.width, room.height)} inside${room.outline === undefined ? ' as folded' : ''}, too small for ${size(thing.width, thing.height)}${easing}` };
}

type Sides = Pick<Size, 'width' | 'height'>;

/** A room, with the line round it on the opened-out piece. */
interface Room extends Sides {
  readonly shape: PieceShape;
  /** Undefined of what is measured as folded. */
  readonly outline: Polygon | undefined;
}

/** Whether a fold line runs through a room: how much of the room is left once it is folded isn't known, and that is told. */
function isFolded(scope: Scope, rule: Extract<CheckRule, { kind: 'holds' }>, { shape, outline = [] }: Room): boolean {
  const mirror = foldMirroring(shape);
  const line = shape.lines.find(({ use, points, closed }) => {
    const run = closed ? [...points, ...points.slice(0, 1)] : points;
    return use === 'foldline' && [run, ...(mirror === undefined ? [] : [movePolyline(mirror, run)])].some((one) => runsInside(one, outline, measuring.valueOf()));
  });
  if (line === undefined) return false;
  scope.context.report(problem('folded-room', placeIn(scope, rule.holder), { holder: textOf(scope, rule.holder), piece: shape.name, line: line.name }, { related: [{ place: line.place, message: 'It is folded here.' }] }));
  return true;
}

/** The room inside a piece's seams, or inside a closed line of it. */
function roomOf(scope: Scope, holder: Reference): Room | 'not asked' | undefined {
  const [piece, part] = holder.path;
  const shape = piece && shapeNamed(scope, piece);
  if (shape === undefined) return undefined;
  if (!scope.context.get(isWanted, shape.declaration)) return 'not asked';
  const folded = part === undefined ? scope.context.get(foldedOf, shape.declaration) : undefined;
  if (folded !== undefined) return { ...folded.room, shape, outline: undefined };
  if (part === undefined && saysFolded(shape)) return undefined;
  if (part === undefined) return { ...sizeOfPiece(shape, 'stitching'), shape, outline: polygonOf(shape.whole.stitching) };
  const line = shape.lines.find((one) => one.name === part.text);
  if (line === undefined) {
    report(scope, 'unknown-part', part, { owner: shape.name, name: part.text, near: nearestName(part.text, partsOf(shape)), known: shape.lines.map((one) => one.name) });
    return undefined;
  }
  return { ...sizeOfLine(shape, line), shape, outline: line.closed ? openedLine(shape, line).outline : line.points };
}

function thingSize(scope: Scope, rule: Extract<CheckRule, { kind: 'holds' }>): Sides | undefined {
  if (rule.thing !== undefined) {
    const declaration = findOf(scope, rule.thing, 'thing');
    if (declaration?.tree.kind !== 'thing') return undefined;
    const own = scopeOf(scope.context, declaration);
    return bothLengths(own, declaration.tree.width, declaration.tree.height);
  }
  return rule.size && bothLengths(scope, rule.size.width, rule.size.height);
}

function bothLengths(scope: Scope, widthText: Expression, heightText: Expression): Sides | undefined {
  const width = evaluateAs(scope, widthText, 'length');
  const height = evaluateAs(scope, heightText, 'length');
  return width && height && { width: width.amount, height: height.amount };
}

function mates(scope: Scope, rule: Extract<CheckRule, { kind: 'mates' }>): Verdict {
  const left = shapeNamed(scope, rule.left);
  const right = shapeNamed(scope, rule.right);
  if (left === undefined || right === undefined) return 'undecided';
  if (![left, right].every((shape) => scope.context.get(isWanted, shape.declaration))) return 'not asked';
  const a = polygonOf(left.whole.stitching);
  const b = polygonOf(right.whole.stitching);
  if (isMirrorImageOf(a, b, 'half')) return 'passed';
  if (isCongruent(a, b, 'half') && !isSymmetric(a, 'half')) {
    return { failure: `“${left.name}” and “${right.name}” are the same hand, so they would meet wrong sides together: one of them must be mirrored` };
  }
  return { failure: `“${left.name}” and “${right.name}” are not mirror images along their stitching lines` };
}
