import { edgeLength } from '../../geometry/measure.ts';
import { measured, type Rational } from '../../units/rational.ts';
import { foldedEdge, foldedOf, saysFolded } from '../piece/folded.ts';
import { sizeOfPiece } from '../piece/size.ts';
import type { Expression, MeasureStatement, Name, Reference } from '../../syntax/tree.ts';
import { nearestName } from '../../problems/near.ts';
import type { Query } from '../query/query.ts';
import type { Mark, PieceShape } from '../piece/piece.ts';
import { isWanted, shapeOf } from '../piece/shape.ts';
import { findDeclaration, findOf } from '../formulas/reference.ts';
import { replacement } from '../../problems/problem.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import { countOf, placesSetAt } from '../stock/set-at.ts';
import { supplyOf, type Supply } from '../stock/supply.ts';
import { checkSupplySet } from './order-of-work.ts';
import { checkRims } from './supply-rims.ts';
import type { NamedDeclaration } from '../names/world.ts';

/** A strap runs well through a ring that is at most this much wider or narrower (seen on public pages). */
const ringTolerance = 2;

/** Supplies against what they go on: snaps and their marks, rings and their straps. */
export const supplyChecks: Query<NamedDeclaration, boolean> = {
  name: 'supply checks',
  input: false,
  compute: (context, declaration) => {
    if (!context.get(isWanted, declaration)) return false;
    const supply = context.get(supplyOf, declaration);
    if (supply === undefined) return false;
    const scope = scopeOf(context, declaration);
    checkMarks(scope, supply);
    checkCount(scope, supply);
    checkFit(scope, supply);
    checkRims(scope, supply);
    checkSupplySet(scope, supply);
    return true;
  },
};

/** Marks that are for another size than the snap has: each told by itself, but where none agrees that is one fault of the snap. */
function checkMarks(scope: Scope, supply: Supply): void {
  const { across } = supply;
  const marks = supply.marks.flatMap((reference) => {
    const mark = markAt(scope, reference);
    return mark?.snap === undefined ? [] : [{ reference, mark, size: mark.snap }];
  });
  if (supply.kind !== 'snap' || across === undefined) return;
  const differ = marks.filter(({ size }) => !size.equals(across));
  const [first] = differ;
  const together = differ.length > 1 && differ.length === marks.length && differ.every(({ size }) => first !== undefined && size.equals(first.size));
  for (const { reference, mark, size } of together ? differ.slice(0, 1) : differ) {
    const told = together ? differ : [{ mark }];
    report(scope, 'mark-mismatch', together ? (acrossOf(scope) ?? reference) : reference, { marks: told.map((one) => one.mark.name), markSize: lengthMm(size.valueOf()), supply: supply.name, supplySize: lengthMm(across.valueOf()) }, {
      related: told.map((one) => ({ place: one.mark.place, message: 'The mark is drawn here.' })),
    });
  }
}

function acrossOf({ declaration: { tree } }: Scope): Expression | undefined {
  return tree.kind === 'supply' ? tree.body.statements.find((statement): statement is MeasureStatement => statement.kind === 'across')?.value : undefined;
}

/** A count that is given, against the places that the supply is set at in the combination at hand. */
function checkCount(scope: Scope, supply: Supply): void {
  const { tree } = scope.declaration;
  const given = tree.kind === 'supply' ? tree.body.statements.find((statement): statement is MeasureStatement => statement.kind === 'count') : undefined;
  const places = given === undefined || supply.marks.length === 0 ? undefined : placesSetAt(scope.context, supply.marks);
  if (given === undefined || places === undefined) return;
  const needed = countOf(supply.kind, places);
  if (needed.equals(supply.count)) return;
  const count = needed.toFraction();
  const where = places.map(({ piece, mark, pieces, onEach }) => ({ piece: piece.title, mark: mark.name, pieces: Number(pieces.n), onEach }));
  report(scope, 'count-differs', given.value, { supply: supply.title, given: supply.count.toFraction(), needed: count, where }, {
    fixes: [replacement(`Change to ${count}`, placeIn(scope, given.value), count, false)],
  });
}

const lengthMm = (millimetres: number): string => `${Math.round(millimetres * 10) / 10} mm`;

/** The mark that a reference such as `front.clasp` names. */
export function markAt(scope: Scope, reference: Reference): Mark | undefined {
  const [piece, name, ...more] = reference.path;
  if (piece === undefined) return undefined;
  const declaration = findOf(scope, piece, 'piece');
  const shape = declaration && scope.context.get(shapeOf, declaration);
  if (shape === undefined) return undefined;
  const mark = more.length > 0 ? undefined : shape.marks.find((one) => one.name === name?.text);
  if (mark === undefined) {
    const known = shape.marks.map((one) => one.name);
    const line = shape.lines.find((one) => one.name === name?.text);
    if (name !== undefined && line !== undefined) report(scope, 'wrong-thing', name, { name: name.text, is: 'a line', wanted: 'a mark or drill hole' });
    else report(scope, 'unknown-part', name ?? piece, { owner: shape.name, name: name?.text ?? '', near: name && nearestName(name.text, known), known });
  }
  return mark;
}

/** A ring against what runs through it: a strap that is bought, or a piece as it lies folded. */
function checkFit(scope: Scope, supply: Supply): void {
  const strap = supply.fits && strapOf(scope, supply.fits);
  if (supply.fits === undefined || strap === undefined || supply.across === undefined) return;
  const by = supply.across.sub(strap.across).abs();
  if (by.compare(ringTolerance) > 0) report(scope, 'ring-misfit', supply.fits, { ring: supply.title, strap: strap.title, by: lengthMm(by.valueOf()) });
}

interface Strap {
  readonly title: string;
  readonly across: Rational;
}

function strapOf(scope: Scope, reference: Reference): Strap | undefined {
  const { context } = scope;
  const [owner, edge, more] = reference.path;
  const declaration = owner && findDeclaration(scope, owner, 'strap');
  if (owner === undefined || declaration === undefined) return undefined;
  const { kind } = declaration.tree;
  if ((kind !== 'supply' && kind !== 'piece') || (kind === 'supply' && edge !== undefined) || more !== undefined) {
    report(scope, 'wrong-thing', reference, { name: reference.path.map(({ text }) => text).join('.'), is: edge === undefined ? `a ${kind}` : 'a measure', wanted: 'a strap, a piece or an edge of a piece' });
    return undefined;
  }
  if (!context.get(isWanted, declaration)) return undefined;
  if (kind === 'supply') {
    const strap = context.get(supplyOf, declaration);
    return strap?.across && { title: strap.title, across: strap.across };
  }
  const shape = context.get(shapeOf, declaration);
  return shape && pieceAcross(scope, shape, edge);
}

/** Folded where the piece says so: of an edge from end to end, of a piece its narrower side. */
function pieceAcross(scope: Scope, shape: PieceShape, name: Name | undefined): Strap | undefined {
  const folded = scope.context.get(foldedOf, shape.declaration);
  if (name === undefined) {
    if (folded === undefined && saysFolded(shape)) return undefined;
    const { width, height } = folded?.size ?? sizeOfPiece(shape, 'stitching');
    return { title: shape.title, across: width.compare(height) < 0 ? width : height };
  }
  const edge = shape.whole.stitching.edges.find((one) => one.name === name.text);
  if (edge !== undefined) return { title: `${shape.title}: ${name.text}`, across: measured(folded === undefined ? edgeLength(edge) : foldedEdge(folded, edge)) };
  const known = shape.drawn.edges.map((one) => one.name);
  report(scope, 'unknown-part', name, { owner: shape.name, name: name.text, near: nearestName(name.text, known), known });
  return undefined;
}
