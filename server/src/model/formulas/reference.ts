import { edgeLength } from '../../geometry/measure.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import { openingOf } from '../../syntax/tokens.ts';
import type { Name } from '../../syntax/tree.ts';
import { measured, one, type Rational } from '../../units/rational.ts';
import { evaluateAs, valueOf } from './evaluate.ts';
import { cycleOf, declarationOf, isDamaged, similarTo } from '../query/inputs.ts';
import { materialOf } from '../stock/material.ts';
import type { InnerLine, PieceShape } from '../piece/piece.ts';
import { shapeOf } from '../piece/shape.ts';
import { areaOfLine, areaOfPiece, lengthOfLine, lengthRound, sizeOfLine, sizeOfPiece, type Size } from '../piece/size.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { supplyMeasure, supplyMeasures, supplyOf } from '../stock/supply.ts';
import type { Dimension, Value } from './value.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { polygonOf } from '../piece/polygons.ts';

/** What a formula may ask of a piece, with what each means. */
export const pieceMeasures: Readonly<Record<string, string>> = {
  width: 'finished width, between stitching lines',
  height: 'finished height, between stitching lines',
  cut_width: 'width of the cutting line',
  cut_height: 'height of the cutting line',
  area: 'area inside the cutting line',
  perimeter: 'length of the whole stitching line',
};
export const lineMeasures: Readonly<Record<string, string>> = { width: 'width', height: 'height', area: 'area inside', length: 'length' };

/** Finds the declaration of a name; reports an unknown one, with the near miss. Damaged ones stay quiet. */
export function findDeclaration(scope: Scope, name: Name, what: 'value' | NamedDeclaration['tree']['kind'] = 'value'): NamedDeclaration | undefined {
  const declaration = scope.context.get(declarationOf, name.text);
  if (declaration !== undefined || scope.context.get(isDamaged, name.text)) return declaration;
  const near = what === 'value' ? (numberWord(name.text) ?? nearestName(name.text, scope.context.get(similarTo, 'all'))) : nearestName(name.text, scope.context.get(similarTo, what));
  report(scope, 'unknown-name', name, { what, name: name.text, near }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, name), near, false)],
  });
  return undefined;
}

const numberWords: Readonly<Record<string, string>> = {
  one: '1', two: '2', three: '3', four: '4', five: '5', six: '6', seven: '7', eight: '8', nine: '9', ten: '10', twelve: '12', half: '1/2', quarter: '1/4',
};

const numberWord = (word: string): string | undefined => (Object.hasOwn(numberWords, word) ? numberWords[word] : undefined);

const kindWords = { value: 'a value', thing: 'a thing', material: 'a material', supply: 'a supply', piece: 'a piece' } as const;

/** Finds a declaration that must be of a certain kind. */
export function findOf(scope: Scope, name: Name, kind: 'piece' | 'material' | 'supply' | 'thing'): NamedDeclaration | undefined {
  const declaration = findDeclaration(scope, name, kind);
  if (declaration === undefined || declaration.tree.kind === kind) return declaration;
  report(scope, 'wrong-thing', name, { name: name.text, is: kindWords[declaration.tree.kind], wanted: kindWords[kind] });
  return undefined;
}

/** The value of `cover_w`, `cover.top`, `cover.core.area`, `strap.across`. */
export function resolveReference(scope: Scope, path: readonly Name[]): Value | undefined {
  const [first, ...rest] = path;
  if (first === undefined) return undefined;
  if (first.text === 'pi' && rest.length === 0 && scope.context.get(declarationOf, 'pi') === undefined) {
    return { dimension: 'number', amount: measured(Math.PI), exact: false, place: placeIn(scope, first), name: 'pi', from: [] };
  }
  const declaration = findDeclaration(scope, first);
  // What goes round in a circle is told where it is declared.
  if (declaration === undefined || scope.context.get(cycleOf, declaration) !== undefined) return undefined;
  const place = { ...placeIn(scope, first), end: path.at(-1)?.end ?? first.end };
  const name = path.map((part) => part.text).join('.');
  const made = (dimension: Dimension, amount: Rational, exact: boolean, from: readonly Value[] = []): Value => ({ dimension, amount, exact, place, name, from });

  switch (declaration.tree.kind) {
    case 'value': {
      if (rest[0] !== undefined) return unknownPart(scope, first.text, rest[0], []);
      const value = scope.context.get(valueOf, declaration);
      return value && made(value.dimension, value.amount, value.exact, [value]);
    }
    case 'thing': {
      const part = wantedPart(scope, first, rest, ['width', 'height']);
      if (part === undefined) return undefined;
      const own = scopeOf(scope.context, declaration);
      const value = evaluateAs(own, part === 'width' ? declaration.tree.width : declaration.tree.height, 'length');
      return value && made('length', value.amount, value.exact, [value]);
    }
    case 'material': {
      const part = wantedPart(scope, first, rest, ['width', 'usable']);
      const material = part && scope.context.get(materialOf, declaration);
      const amount = part === 'width' ? material?.width : material?.usable;
      // A material without any width is told so where it is declared; sheets have none to be asked for.
      if (amount === undefined && material !== undefined && material.purchase.form !== 'lengths') return unknownPart(scope, first.text, rest[0] ?? first, []);
      return amount && made('length', amount, true);
    }
    case 'supply': {
      const part = wantedPart(scope, first, rest, supplyMeasures);
      const value = part && supplyMeasure(scope.context, declaration, part);
      if (part === 'count' && value === undefined) return made('number', scope.context.get(supplyOf, declaration)?.count ?? one, true);
      if (part !== undefined && value === undefined && !givesMeasure(declaration, part)) unknownPart(scope, first.text, rest[0] ?? first, []);
      return value && made(value.dimension, value.amount, value.exact, [value]);
    }
    case 'piece': {
      const shape = scope.context.get(shapeOf, declaration);
      if (shape === undefined) return undefined;
      const measure = measureOf(scope, shape, first, rest);
      return measure && made(measure.dimension, measure.amount, measure.exact);
    }
  }
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
  if (ofPart !== undefined) return unknownPart(scope, `${shape.name}.${part.text}`, ofPart, []);
  const edge = shape.stitching.edges.find((one) => one.name === part.text);
  if (edge !== undefined) return measuredAs('length', measured(edgeLength(edge)));
  switch (part.text) {
    case 'width':
      return sideOf(sizeOfPiece(shape, 'stitching'), 'width');
    case 'height':
      return sideOf(sizeOfPiece(shape, 'stitching'), 'height');
    case 'cut_width':
      return sideOf(sizeOfPiece(shape, 'cutting'), 'width');
    case 'cut_height':
      return sideOf(sizeOfPiece(shape, 'cutting'), 'height');
    case 'area':
      return measuredAs('area', areaOfPiece(shape, 'cutting'));
    case 'perimeter':
      return measuredAs('length', lengthRound(shape, 'stitching'));
    default:
      return failedToDraw(shape, part.text) ? undefined : unknownPart(scope, shape.name, part, partsOf(shape));
  }
}

/** Whether a piece's text has a line of this name, or may have one, that couldn't be drawn: its own problem says enough. */
export function failedToDraw(shape: PieceShape, name: string): boolean {
  const { tree } = shape.declaration;
  return tree.kind === 'piece' && tree.body.statements.some((statement) =>
    statement.kind === 'broken' ? openingOf(statement.text)?.name === name : (statement.kind === 'line' || statement.kind === 'mark') && statement.name.text === name);
}

/** Every name that may follow a piece and a dot. */
export function partsOf(shape: PieceShape): readonly string[] {
  return [...shape.drawn.edges.map((edge) => edge.name), ...shape.lines.map((line) => line.name), ...Object.keys(pieceMeasures)];
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
