import { edgeLength } from '../../geometry/measure.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import { openingOf } from '../../syntax/tokens.ts';
import type { Name, ThingDeclaration } from '../../syntax/tree.ts';
import { measured, one, type Rational } from '../../units/rational.ts';
import { evaluateAs, valueOf } from './evaluate.ts';
import { choiceOf, cycleOf, declarationOf, isDamaged, similarTo } from '../query/inputs.ts';
import { materialOf } from '../stock/material.ts';
import { takenByDarts } from '../piece/darts.ts';
import { foldedOf } from '../piece/folded.ts';
import type { InnerLine, PieceShape } from '../piece/piece.ts';
import { shapeOf } from '../piece/shape.ts';
import { areaOfLine, areaOfPiece, lengthOfLine, lengthRound, sizeOfLine, sizeOfPiece, type Size } from '../piece/size.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { supplyMeasure, supplyMeasures, supplyOf } from '../stock/supply.ts';
import { seamLengthOf, seamOf } from '../seams/read-seam.ts';
import { sewnLength } from '../seams/seam.ts';
import type { Dimension, Value } from './value.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { polygonOf } from '../piece/polygons.ts';

/** What a formula may ask of a piece, with what each means. */
export const pieceMeasures: Readonly<Record<string, string>> = {
  width: 'finished width, between stitching lines',
  height: 'finished height, between stitching lines',
  cut_width: 'width of the cutting line',
  cut_height: 'height of the cutting line',
  folded_width: 'finished width as it is folded',
  folded_height: 'finished height as it is folded',
  area: 'area inside the cutting line',
  perimeter: 'length of the whole stitching line',
};
export const lineMeasures: Readonly<Record<string, string>> = { width: 'width', height: 'height', area: 'area inside', length: 'length' };

export const seamMeasures: Readonly<Record<string, string>> = {
  length: 'how long it is sewn, along the stitching line that the other is eased or gathered to',
  fullness: 'how many times as long what is eased or gathered is',
  open: 'how much of it is left open',
  open_from: 'how far from its start that begins',
};

const whatWords = { work: 'seam, supply or piece', strap: 'supply or piece' } as const;

/** Finds the declaration of a name; reports an unknown one, with the near miss. Damaged ones stay quiet. */
export function findDeclaration(scope: Scope, name: Name, what: 'value' | 'work' | 'strap' | NamedDeclaration['tree']['kind'] = 'value'): NamedDeclaration | undefined {
  const declaration = scope.context.get(declarationOf, name.text);
  if (declaration !== undefined || scope.context.get(isDamaged, name.text)) return declaration;
  const choice = scope.context.get(choiceOf, name.text);
  if (choice !== undefined) {
    const wanted = what === 'work' || what === 'strap' ? `a ${whatWords[what]}` : kindWords[what];
    report(scope, 'wrong-thing', name, { name: name.text, is: 'a choice', wanted: what === 'material' ? `a material, on a line for each option, as in cut 1 canvas when ${name.text} is ${choice.options[0] ?? 'soft'},` : wanted });
    return undefined;
  }
  const near = what === 'value' ? (numberWord(name.text) ?? nearestName(name.text, scope.context.get(similarTo, 'all'))) : nearestName(name.text, scope.context.get(similarTo, what === 'work' || what === 'strap' ? 'all' : what));
  report(scope, 'unknown-name', name, { what: what === 'work' || what === 'strap' ? whatWords[what] : what, name: name.text, near }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, name), near, false)],
  });
  return undefined;
}

const numberWords: Readonly<Record<string, string>> = {
  one: '1', two: '2', three: '3', four: '4', five: '5', six: '6', seven: '7', eight: '8', nine: '9', ten: '10', twelve: '12', half: '1/2', quarter: '1/4',
};

const numberWord = (word: string): string | undefined => (Object.hasOwn(numberWords, word) ? numberWords[word] : undefined);

const kindWords = { value: 'a value', thing: 'a thing', material: 'a material', supply: 'a supply', piece: 'a piece', seam: 'a seam' } as const;

/** Finds a declaration that must be of a certain kind. */
export function findOf(scope: Scope, name: Name, kind: 'piece' | 'material' | 'supply' | 'thing'): NamedDeclaration | undefined {
  const declaration = findDeclaration(scope, name, kind);
  if (declaration === undefined || declaration.tree.kind === kind) return declaration;
  report(scope, 'wrong-thing', name, { name: name.text, is: kindWords[declaration.tree.kind], wanted: kindWords[kind] });
  return undefined;
}

/** A path of names whose first is declared, and what is asked of it. */
interface Asked {
  readonly scope: Scope;
  readonly declaration: NamedDeclaration;
  readonly owner: Name;
  readonly rest: readonly Name[];
  readonly made: (dimension: Dimension, amount: Rational, exact: boolean, from?: readonly Value[]) => Value;
}

/** The value of `cover_w`, `cover.top`, `cover.core.area`, `strap.across`. */
export function resolveReference(scope: Scope, path: readonly Name[]): Value | undefined {
  const [owner, ...rest] = path;
  if (owner === undefined) return undefined;
  if (owner.text === 'pi' && rest.length === 0 && scope.context.get(declarationOf, 'pi') === undefined) {
    return { dimension: 'number', amount: measured(Math.PI), exact: false, place: placeIn(scope, owner), name: 'pi', from: [] };
  }
  const declaration = findDeclaration(scope, owner);
  // What goes round in a circle is told where it is declared.
  if (declaration === undefined || scope.context.get(cycleOf, declaration) !== undefined) return undefined;
  const place = { ...placeIn(scope, owner), end: path.at(-1)?.end ?? owner.end };
  const name = path.map((part) => part.text).join('.');
  return valueAsked({ scope, declaration, owner, rest, made: (dimension, amount, exact, from = []) => ({ dimension, amount, exact, place, name, from }) });
}

function valueAsked(asked: Asked): Value | undefined {
  const { tree } = asked.declaration;
  switch (tree.kind) {
    case 'value':
      return ofValue(asked);
    case 'thing':
      return ofThing(asked, tree);
    case 'material':
      return ofMaterial(asked);
    case 'supply':
      return ofSupply(asked);
    case 'piece':
      return ofPiece(asked);
    case 'seam':
      return ofSeam(asked);
  }
}

function ofValue({ scope, declaration, owner, rest, made }: Asked): Value | undefined {
  if (rest[0] !== undefined) return unknownPart(scope, owner.text, rest[0], []);
  const value = scope.context.get(valueOf, declaration);
  return value && made(value.dimension, value.amount, value.exact, [value]);
}

function ofThing({ scope, declaration, owner, rest, made }: Asked, tree: ThingDeclaration): Value | undefined {
  const part = wantedPart(scope, owner, rest, ['width', 'height']);
  const value = part && evaluateAs(scopeOf(scope.context, declaration), tree[part], 'length');
  return value && made('length', value.amount, value.exact, [value]);
}

function ofMaterial({ scope, declaration, owner, rest, made }: Asked): Value | undefined {
  const part = wantedPart(scope, owner, rest, ['width', 'usable']);
  const material = part && scope.context.get(materialOf, declaration);
  if (part === undefined || material === undefined) return undefined;
  const amount = material[part];
  if (amount !== undefined) return made('length', amount, true);
  // A material without any width is told so where it is declared; sheets have none to be asked for.
  return material.purchase.form === 'lengths' ? undefined : unknownPart(scope, owner.text, rest[0] ?? owner, []);
}

function ofSupply({ scope, declaration, owner, rest, made }: Asked): Value | undefined {
  const part = wantedPart(scope, owner, rest, supplyMeasures);
  if (part === undefined) return undefined;
  const value = supplyMeasure(scope.context, declaration, part);
  if (value !== undefined) return made(value.dimension, value.amount, value.exact, [value]);
  if (part === 'count') return made('number', scope.context.get(supplyOf, declaration)?.count ?? one, true);
  return givesMeasure(declaration, part) ? undefined : unknownPart(scope, owner.text, rest[0] ?? owner, []);
}

function ofSeam({ scope, declaration, owner, rest, made }: Asked): Value | undefined {
  const part = wantedPart(scope, owner, rest, Object.keys(seamMeasures));
  if (part === 'length') {
    // A piece may rest on a length, but nothing on the sentence of a step: that can tell what stands first, too, as the table does.
    const told = scope.declaration.tree.kind === 'work step' ? scope.context.get(seamOf, declaration) : undefined;
    const length = told === undefined ? scope.context.get(seamLengthOf, declaration) : sewnLength(told);
    return length === undefined ? undefined : made('length', measured(length), false);
  }
  const seam = part === undefined ? undefined : scope.context.get(seamOf, declaration);
  if (seam === undefined) return undefined;
  switch (part) {
    case 'open': return made('length', measured(seam.opening.length), false);
    case 'open_from': {
      const { from } = seam.opening;
      if (from !== undefined) return made('length', measured(from), false);
      report(scope, 'wrong-thing', rest[0] ?? owner, { name: 'open_from', is: `a measure of seams that say where their opening lies, and “${owner.text}” doesn’t`, wanted: 'another' });
      return undefined;
    }
    default: return made('number', measured(seam.first.length / seam.second.length), false);
  }
}

function ofPiece({ scope, declaration, owner, rest, made }: Asked): Value | undefined {
  const shape = scope.context.get(shapeOf, declaration);
  const measure = shape && measureOf(scope, shape, owner, rest);
  return measure && made(measure.dimension, measure.amount, measure.exact);
}

/** Whether a supply has a line for a measure, be it faulty. */
function givesMeasure(declaration: NamedDeclaration, part: string): boolean {
  return declaration.tree.kind === 'supply' && declaration.tree.body.statements.some((statement) => statement.kind === part);
}

function wantedPart<Part extends string>(scope: Scope, owner: Name, rest: readonly Name[], known: readonly Part[]): Part | undefined {
  const [part] = rest;
  const found = known.find((one) => one === part?.text);
  if (found === undefined) unknownPart(scope, owner.text, part ?? owner, known);
  return found;
}

function unknownPart(scope: Scope, owner: string, part: Name, known: readonly string[]): undefined {
  const near = nearestName(part.text, known);
  report(scope, 'unknown-part', part, { owner, name: part.text, near, known: known.filter((one) => !one.endsWith('_twin')) }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, part), near, false)],
  });
  return undefined;
}

interface Measure {
  readonly dimension: Dimension;
  readonly amount: Rational;
  readonly exact: boolean;
}

const sideOf = (size: Size, side: 'width' | 'height'): Measure => ({ dimension: 'length', amount: size[side], exact: size.exact });

const measuredAs = (dimension: Dimension, amount: Rational): Measure => ({ dimension, amount, exact: false });

function measureOf(scope: Scope, shape: PieceShape, owner: Name, rest: readonly Name[]): Measure | undefined {
  const [part, ofPart] = rest;
  if (part === undefined) {
    report(scope, 'wrong-thing', owner, { name: owner.text, is: 'a piece', wanted: `one of its measures, such as ${owner.text}.width,` });
    return undefined;
  }
  const line = shape.lines.find((one) => one.name === part.text);
  if (line !== undefined) return lineMeasure(scope, shape, line, part, ofPart);
  const row = shape.stitchRows.find((one) => one.name === part.text);
  if (row !== undefined) return ofPart === undefined || ofPart.text === 'length' ? measuredAs('length', measured(row.length)) : unknownPart(scope, `${shape.name}.${part.text}`, ofPart, ['length']);
  if (ofPart !== undefined) return unknownPart(scope, `${shape.name}.${part.text}`, ofPart, []);
  const edge = shape.stitching.edges.find((one) => one.name === part.text);
  if (edge !== undefined) return measuredAs('length', measured(edgeLength(edge) - takenByDarts(shape, edge.name)));
  switch (part.text) {
    case 'width':
      return sideOf(sizeOfPiece(shape, 'stitching'), 'width');
    case 'height':
      return sideOf(sizeOfPiece(shape, 'stitching'), 'height');
    case 'cut_width':
      return sideOf(sizeOfPiece(shape, 'cutting'), 'width');
    case 'cut_height':
      return sideOf(sizeOfPiece(shape, 'cutting'), 'height');
    case 'folded_width':
    case 'folded_height':
      return foldedSide(scope, shape, part, part.text === 'folded_width' ? 'width' : 'height');
    case 'area':
      return measuredAs('area', areaOfPiece(shape, 'cutting'));
    case 'perimeter':
      return measuredAs('length', lengthRound(shape, 'stitching'));
    default:
      return failedToDraw(shape, part.text) && !isMark(shape, part.text) ? undefined : unknownPart(scope, shape.name, part, partsOf(shape));
  }
}

function foldedSide(scope: Scope, shape: PieceShape, part: Name, side: 'width' | 'height'): Measure | undefined {
  const folded = scope.context.get(foldedOf, shape.declaration);
  if (folded !== undefined) return sideOf(folded.size, side);
  // A fold that can't be made is told where it is said.
  const { tree } = shape.declaration;
  if (tree.kind === 'piece' && tree.body.statements.some(({ kind }) => kind === 'folded' || kind === 'broken')) return undefined;
  report(scope, 'wrong-thing', part, { name: part.text, is: `a measure of folded pieces, and “${shape.name}” isn’t`, wanted: 'another' });
  return undefined;
}

/** Lines of a piece's text that give something in it a name. */
const namesPart: ReadonlySet<string> = new Set(['line', 'mark', 'dart', 'pleat', 'topstitch', 'quilt']);

/** Whether a piece's text has a line of this name, or may have one, that couldn't be drawn: its own problem says enough. */
export function failedToDraw(shape: PieceShape, name: string): boolean {
  const { tree } = shape.declaration;
  return tree.kind === 'piece' && tree.body.statements.some((statement) =>
    statement.kind === 'broken' ? openingOf(statement.text)?.name === name : namesPart.has(statement.kind) && 'name' in statement && statement.name.text === name);
}

/** Marks are points: there is nothing of them to measure. */
const isMark = ({ marks }: PieceShape, name: string): boolean => marks.some((mark) => mark.name === name);

/** Every name that may follow a piece and a dot. */
export function partsOf(shape: PieceShape): readonly string[] {
  return [...shape.drawn.edges.map((edge) => edge.name), ...shape.lines.map((line) => line.name), ...shape.stitchRows.map((row) => row.name), ...Object.keys(pieceMeasures)];
}

function lineMeasure(scope: Scope, shape: PieceShape, line: InnerLine, part: Name, ofPart: Name | undefined): Measure | undefined {
  switch (ofPart?.text) {
    case undefined:
    case 'length':
      return measuredAs('length', lengthOfLine(shape, line));
    case 'width':
      return sideOf(sizeOfLine(shape, line), 'width');
    case 'height':
      return sideOf(sizeOfLine(shape, line), 'height');
    case 'area':
      return measuredAs('area', areaOfLine(shape, line));
    default:
      return ofPart && unknownPart(scope, part.text, ofPart, Object.keys(lineMeasures));
  }
}

/** The cutting or stitching line of a piece, or a closed line inside it, as a polygon of the piece as drawn. */
export function polygonNamed(shape: PieceShape, name: string): readonly { readonly x: number; readonly y: number }[] | undefined {
  if (name === 'cutting' || name === 'stitching') return polygonOf(shape[name]);
  return shape.lines.find((line) => line.name === name)?.points;
}
