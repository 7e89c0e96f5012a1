import type { CutLine } from '../model/piece/cut-line.ts';
import type { ExactSize, PieceShape } from '../model/piece/piece.ts';
import { showValue, type Value } from '../model/formulas/value.ts';
import type { Place } from '../problems/place.ts';
import { beforeComment } from '../syntax/ends.ts';
import type { Declaration, Expression, Node, OutlineStatement, PieceDeclaration } from '../syntax/tree.ts';
import { nameUses } from '../syntax/walk.ts';
import { mixedNumber, roundedFrom, showLength, type Display } from '../units/length.ts';
import type { Asking } from './kept.ts';
import { sizeWords, type Side } from './size-words.ts';
import { keptFor } from '../table/per-display.ts';

/** More steps than anyone reads at a glance are left out, and it is said how many. */
const mostSteps = 9;
const andSoOn = 'and so on';

/** Tells how numbers came about, in one combination of a pattern. */
export interface Trails {
  readonly count: (line: CutLine) => readonly string[];
  readonly cutSize: (line: CutLine) => readonly string[];
  readonly pieceSize: (shape: PieceShape, of: 'cutting' | 'stitching', side: Side) => readonly string[];
  /** Where a piece’s size is written. */
  readonly sizePlace: (shape: PieceShape, side: Side) => Place | undefined;
}

export function trailsOf({ value, shape: shapeNamed }: Pick<Asking, 'value' | 'shape'>, display: Display): Trails {
  const source: Source = { value, shapeNamed, display };
  return {
    count: (line) => countTrail(source, line),
    cutSize: (line) => {
      const { rectangle } = line;
      const head = rectangle === undefined ? [] : [rectangleText(rectangle, display)];
      return [...head, ...shorten([...new Set(cutSteps(source, line))])];
    },
    pieceSize: (shape, of, side) => {
      const { text, from, allowances } = sizeWords(shape, display)[of][side];
      const steps = drawnSteps(source, shape, side);
      if (allowances !== undefined) steps.push(allowances);
      return [...(from === undefined ? [] : [`${text}, rounded from ${from}`]), ...shorten(steps)];
    },
    sizePlace,
  };
}

/** Where the numbers come from. */
interface Source {
  readonly value: Asking['value'];
  readonly shapeNamed: Asking['shape'];
  readonly display: Display;
}

function countTrail(source: Source, { statement, piece, count }: CutLine): readonly string[] {
  if (statement.count.kind === 'number') return [];
  const own = statement.count.kind === 'reference' && statement.count.path.length === 1 ? [] : [`${textOf(piece.declaration, statement.count)} = ${mixedNumber(count)}`];
  return shorten([...own, ...stepsOf(source, piece.declaration, statement.count)]);
}

function cutSteps(source: Source, line: CutLine): readonly string[] {
  const steps = [...outlineSteps(source, line)];
  if (line.large !== undefined) steps.push(`${showLength(line.large, source.display)} larger all round`);
  return steps;
}

/** How the line came about that is cut along. */
function outlineSteps(source: Source, { statement, piece, along }: CutLine): readonly string[] {
  const sized = statement.clauses.find((clause) => clause.kind === 'sized');
  if (sized !== undefined) {
    return [
      `sized ${textOf(piece.declaration, sized.width)} by ${textOf(piece.declaration, sized.height)}`,
      ...stepsOf(source, piece.declaration, sized.width),
      ...stepsOf(source, piece.declaration, sized.height),
    ];
  }
  if (along === 'cutting' || along === 'stitching') {
    const drawn = [...drawnSteps(source, piece, 'width'), ...drawnSteps(source, piece, 'height')];
    return along === piece.drawnTo ? drawn : [...drawn, `${along === 'stitching' ? 'less' : 'plus'} the allowances`];
  }
  const inner = piece.lines.find((one) => one.name === along);
  return inner === undefined ? [] : [beforeComment(inner.place.chunk.text.slice(inner.place.start).split('\n', 1)[0] ?? '')];
}

/** @param left how many more pieces are followed that this one was taken from */
function drawnSteps(source: Source, shape: PieceShape, side: Side, left = mostSteps): string[] {
  const { declaration } = shape;
  if (declaration.tree.kind !== 'piece') return [];
  const outline = outlineOf(declaration.tree);
  if (outline === undefined) {
    const { parent: taken } = declaration.tree;
    const parent = taken && source.shapeNamed(taken.name.text);
    if (taken === undefined || parent === undefined) return [];
    const from = `taken from piece “${parent.name}”${taken.parts.map((part) => ` ${declaration.text.slice(part.start, part.end)}`).join('')}`;
    if (!taken.parts.every((part) => part.kind === 'mirrored')) return [from];
    return left === 0 ? [from, andSoOn] : [from, ...drawnSteps(source, parent, side, left - 1)];
  }
  const expression = sizeOf(outline, side);
  if (expression === undefined) return ['measured on the outline'];
  const steps = [`${side} drawn = ${textOf(declaration, expression)}`, ...stepsOf(source, declaration, expression)];
  if (isDoubled(shape, side)) steps.push('twice that, opened out on the fold');
  return steps;
}

/** The steps of the values that a formula names. */
function stepsOf({ value: valueNamed, display }: Source, declaration: Declaration, expression: Expression): readonly string[] {
  const steps = new Map<string, string>();
  for (const use of nameUses(declaration.tree)) {
    if (use.role !== 'any' || use.path.length > 0 || use.name.start < expression.start || use.name.end > expression.end) continue;
    const value = valueNamed(use.name.text);
    if (value !== undefined) addAll(steps, stepsOfValue(value, display));
  }
  return [...steps.values()];
}

function sizePlace(shape: PieceShape, side: Side): Place {
  const { tree } = shape.declaration;
  if (tree.kind !== 'piece') return shape.place;
  const outline = outlineOf(tree);
  const node = outline === undefined ? parentNode(tree) : (sizeOf(outline, side) ?? outline.shape);
  return node === undefined ? shape.place : { chunk: shape.declaration, start: node.start, end: node.end };
}

// ------------------------------------------------------------------------------------------------ steps of named values

type Steps = ReadonlyMap<string, string>;

/** One step for a named value and one for each that it comes from, each once; the name is the key. */
const stepsOfValue: (value: Value, display: Display) => Steps = keptFor((value, display) => {
  const steps = new Map<string, string>();
  if (value.name === undefined) return steps;
  const [formula] = value.from;
  const written = formula === undefined ? '' : formula.place.chunk.text.slice(formula.place.start, formula.place.end).replace(/\s+/g, ' ');
  const result = showValue(value, display);
  const isPlain = formula === undefined || formula.from.length === 0 || written === result;
  steps.set(value.name, isPlain ? `${value.name} = ${result}` : `${value.name} = ${written} = ${result}`);
  if (formula !== undefined) addNamed(steps, formula, display);
  return steps;
});

function addNamed(steps: Map<string, string>, value: Value, display: Display): void {
  for (const one of value.name === undefined ? value.from : [value]) {
    const [declared] = one.from;
    if (one.name === undefined) addNamed(steps, one, display);
    else if (declared?.name === one.name) addAll(steps, stepsOfValue(declared, display));
    else if (!steps.has(one.name)) steps.set(one.name, `${one.name} = ${showValue(one, display)}`);
  }
}

function addAll(steps: Map<string, string>, more: Steps): void {
  for (const [name, step] of more) if (!steps.has(name)) steps.set(name, step);
}

// ------------------------------------------------------------------------------------------------ words

const outlineOf = (tree: PieceDeclaration): OutlineStatement | undefined => tree.body.statements.find((statement) => statement.kind === 'outline');

function sizeOf({ shape }: OutlineStatement, side: Side): Expression | undefined {
  if (shape.kind === 'rectangle') return shape[side];
  if (shape.kind === 'round' && shape.part === undefined) return side === 'width' ? shape.width : (shape.height ?? shape.width);
  return undefined;
}

/** What a piece says of where it is taken from. */
function parentNode({ parent }: PieceDeclaration): Node | undefined {
  return parent && { start: parent.name.start, end: parent.parts.at(-1)?.end ?? parent.name.end };
}

const textOf = (declaration: Declaration, { start, end }: Node): string => declaration.text.slice(start, end).replace(/\s+/g, ' ');

/** Whether a side of a piece on a fold is twice what is drawn: the one square to the fold. */
function isDoubled(shape: PieceShape, side: Side): boolean {
  const edge = shape.drawn.edges.find((one) => one.name === shape.fold);
  const end = edge?.segments.at(-1)?.to;
  if (edge === undefined || end === undefined) return false;
  return side === 'width' ? Math.abs(end.x - edge.start.x) < 1e-6 : Math.abs(end.y - edge.start.y) < 1e-6;
}

const rectangleText: (size: ExactSize, display: Display) => string = keptFor((size, display) => {
  const [width, height] = [showLength(size.width, display), showLength(size.height, display)];
  const [fromWidth, fromHeight] = [roundedFrom(size.width, display), roundedFrom(size.height, display)];
  const from = fromWidth === undefined && fromHeight === undefined ? '' : `, rounded from ${fromWidth ?? width} × ${fromHeight ?? height}`;
  return `${width} × ${height}${from}`;
});

function shorten(steps: readonly string[]): readonly string[] {
  return steps.length <= mostSteps ? steps : [...steps.slice(0, mostSteps - 1), steps.at(-1) === andSoOn ? 'and many more steps' : `and ${steps.length - mostSteps + 1} more steps`];
}
