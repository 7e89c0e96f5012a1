import { edgeEnd } from '../../geometry/edge.ts';
import { contains, pointInside } from '../../geometry/inside.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import { movePolyline, rotation } from '../../geometry/transform.ts';
import { offsetOutline } from '../../geometry/offset.ts';
import { polygon as polygonOutline } from '../../geometry/path.ts';
import type { Polygon } from '../../geometry/shape.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import type { CutClause, CutStatement, Name, PieceDeclaration } from '../../syntax/tree.ts';
import type { Rational } from '../../units/rational.ts';
import { allDefined, holds, isTooFar, positiveLength, wholeNumber } from '../formulas/evaluate.ts';
import { isCloth, materialOf, type Material } from '../stock/material.ts';
import type { Query } from '../query/query.ts';
import { failedToDraw, findOf } from '../formulas/reference.ts';
import { declarationOf } from '../query/inputs.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import type { NamedDeclaration } from '../names/world.ts';
import type { CutLine, Hand, WayUp } from './cut-line.ts';
import { foldingOf } from './folded-template.ts';
import type { ExactSize, PieceShape } from './piece.ts';
import { isWanted, shapeOf } from './shape.ts';
import { sizeOfPiece } from './size.ts';
import { openedLine, openedOut } from './whole.ts';
import { isOwnMirrorImage, polygonOf } from './polygons.ts';

/** A piece's cut lines in the combination at hand, in the order written; none where the piece isn't wanted. */
export const cutsOf: Query<NamedDeclaration, readonly CutLine[]> = {
  name: 'cuts',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'piece' || !context.get(isWanted, declaration)) return [];
    const scope = scopeOf(context, declaration);
    const shape = context.get(shapeOf, declaration);
    const lines: CutLine[] = [];
    // A line that is broken or faulty may be the cloth that the next ones go on; its own problem says enough.
    let whole = true;
    for (const statement of tree.body.statements) {
      if (statement.kind === 'broken') whole &&= !statement.text.startsWith('cut');
      if (statement.kind !== 'cut') continue;
      const line = cutLine(scope, tree, statement, shape, lines, whole);
      if (line === 'faulty') whole = false;
      else if (line !== undefined) lines.push(line);
    }
    return fromFolded(scope, declaration, tree, lines);
  },
};

/** The lines of a piece that are cut from its parent’s folded template, where that is asked for and the parent has one here. */
function fromFolded(scope: Scope, declaration: NamedDeclaration, tree: PieceDeclaration, lines: readonly CutLine[]): readonly CutLine[] {
  const folding = scope.context.get(foldingOf, declaration);
  const statement = tree.body.statements.find(({ kind }) => kind === 'template folded');
  if (folding === undefined || statement === undefined || !lines.some(isOfWholeTemplate)) return lines;
  const template = scope.context.get(cutsOf, folding.parent).find(isOfWholeTemplate);
  // What is cut to measure may be printed or not; its part then is cut to measure too.
  if (template === undefined || template.foldedFrom !== undefined || lines.some((line) => isOfWholeTemplate(line) && line.rectangle === undefined && template.rectangle !== undefined)) {
    report(scope, 'no-folded-template', statement, { why: `“${folding.parentName}” has no template to fold here: it isn’t cut along its cutting line, is cut to measure, or is itself cut from a folded one` });
    return lines;
  }
  const { minX, minY, maxX, maxY } = boundsOfPoints(folding.outline);
  const shaped = { outline: folding.outline, bounds: { width: maxX - minX, height: maxY - minY } };
  return lines.map((line) => (isOfWholeTemplate(line) ? { ...line, ...(line.rectangle === undefined ? shaped : {}), foldedFrom: folding } : line));
}

/** Whether its template is that of the whole cutting line, nothing cut out of it. */
const isOfWholeTemplate = ({ along, windows, large }: CutLine): boolean => along === 'cutting' && windows.length === 0 && large === undefined;

type Clause<Kind extends CutClause['kind']> = Extract<CutClause, { kind: Kind }>;

/** The clause of a kind, where a cut line has one. */
type Clauses = <Kind extends CutClause['kind']>(kind: Kind) => Clause<Kind> | undefined;

/** The clauses of a cut line, each once; a second one is reported and left out. */
function clausesOf(scope: Scope, statement: CutStatement): Clauses {
  const clauses = new Map<string, CutClause>();
  for (const clause of statement.clauses) {
    if (clauses.has(clause.kind) && clause.kind !== 'note') report(scope, 'repeated-fact', clause, { what: `“${clause.kind}”` });
    else clauses.set(clause.kind, clause);
  }
  return <Kind extends CutClause['kind']>(kind: Kind) => clauses.get(kind) as Clause<Kind> | undefined;
}

function cutLine(scope: Scope, tree: PieceDeclaration, statement: CutStatement, shape: PieceShape | undefined, earlier: readonly CutLine[], whole: boolean): CutLine | 'faulty' | undefined {
  const clause = clausesOf(scope, statement);
  if (lacksCount(scope, statement)) return 'faulty';
  const material = materialNamed(scope, statement.material);
  const count = wholeNumber(scope, statement.count, 'A number of pieces', 0);
  const when = clause('when');
  const wanted = when === undefined || holds(scope, when.condition) === true;
  if (shape === undefined) return undefined;
  const cut = outlineOf(scope, statement, shape, clause('along')?.line, clause('sized'), clause('large'), clause('without'));
  const along = clause('along');
  if (along !== undefined && clause('sized') !== undefined) report(scope, 'along-and-sized', along, {});
  const fold = foldLine(shape);
  const folded = clause('fold');
  if (folded !== undefined && fold === undefined) report(scope, 'no-fold-edge', folded, {});
  if (material === undefined || count === undefined || cut === undefined) return 'faulty';
  if (!wanted || count.amount.n === 0n) return undefined;
  const layer = layerOf(scope, statement, material, earlier, clause('side'), whole);
  const hand = handOf(scope, statement, clause, count.amount);
  const thisWayUp = liesThisWayUp(shape, material, clause('way up'));
  const symmetric = isSymmetricCut(cut, shape, material, thisWayUp);
  return {
    statement,
    place: placeIn(scope, statement),
    piece: shape,
    material,
    count: count.amount,
    along: cut.along,
    hand,
    onFold: folded !== undefined,
    windows: cut.windows,
    large: cut.large,
    outline: cut.outline,
    holes: cut.holes,
    fold,
    rectangle: cut.rectangle,
    bounds: boundsOfCut(shape, cut),
    symmetric,
    wayUp: wayUpOf(material, hand, symmetric, layer?.side),
    thisWayUp,
    layer,
    notes: statement.clauses.filter((one): one is Clause<'note'> => one.kind === 'note').map(({ text }) => ({ declaration: scope.declaration, sentence: text })),
    foldedFrom: undefined,
  };
}

/** Which hand is cut; twins that don't come out even are reported. */
function handOf(scope: Scope, statement: CutStatement, clause: Clauses, count: Rational): Hand {
  if (clause('twins') === undefined) return clause('mirrored') === undefined ? 'as drawn' : 'mirrored';
  if (count.n % 2n === 1n) report(scope, 'odd-twins', statement.count, { count: count.toFraction() });
  return 'twins';
}

/** Whether a material stands where the count should, and the next word was taken for the material; reports it then. */
function lacksCount(scope: Scope, { count, material, start }: CutStatement): boolean {
  const name = count.kind === 'reference' && count.path.length === 1 ? count.path[0] : undefined;
  if (name === undefined || scope.context.get(declarationOf, name.text)?.tree.kind !== 'material' || scope.context.get(declarationOf, material.text) !== undefined) return false;
  report(scope, 'wrong-thing', name, { name: name.text, is: 'a material', wanted: `how many are cut, as in cut 1 ${name.text},` }, {
    fixes: [replacement(`Change to “cut 1 ${name.text}”`, { chunk: scope.declaration, start, end: name.end }, `cut 1 ${name.text}`, false)],
  });
  return true;
}

function materialNamed(scope: Scope, name: Name): Material | undefined {
  const declaration = findOf(scope, name, 'material');
  return declaration && scope.context.get(materialOf, declaration);
}

// ------------------------------------------------------------------------------------------------ what is cut

interface CutOutline {
  readonly along: string | undefined;
  readonly outline: Polygon;
  readonly holes: readonly Polygon[];
  readonly windows: readonly string[];
  readonly large: Rational | undefined;
  readonly rectangle: ExactSize | undefined;
}

function outlineOf(
  scope: Scope,
  statement: CutStatement,
  shape: PieceShape,
  alongName: Name | undefined,
  sized: Clause<'sized'> | undefined,
  largeClause: Clause<'large'> | undefined,
  without: Clause<'without'> | undefined,
): CutOutline | undefined {
  const large = largeClause && positiveLength(scope, largeClause.by, 'An extra');
  if (largeClause !== undefined && (large === undefined || isTooFar(scope, large, largeClause.by, 'an extra'))) return undefined;
  const windows = windowsOf(scope, shape, without);
  const base = sized === undefined ? alongLine(scope, shape, alongName) : ownSize(scope, shape, sized);
  if (base === undefined || windows === undefined) return undefined;
  const { outline, rectangle } = large === undefined ? base : enlarged(base, large.amount);
  const holes = windows.flatMap((name) => openedOut(shape, shape.lines.find((line) => line.name === name)?.points ?? []));
  return {
    outline,
    holes,
    windows,
    large: large?.amount,
    along: sized === undefined ? (alongName?.text ?? 'cutting') : undefined,
    rectangle: holes.length > 0 ? undefined : rectangle,
  };
}

/** The box round what is cut; that of a line round the piece is the piece's own, exact along curves. */
function boundsOfCut(shape: PieceShape, { along, large, outline }: CutOutline): CutLine['bounds'] {
  if (large === undefined && (along === 'cutting' || along === 'stitching')) {
    const { width, height } = sizeOfPiece(shape, along);
    return { width: width.valueOf(), height: height.valueOf() };
  }
  const box = boundsOfPoints(outline);
  return { width: box.maxX - box.minX, height: box.maxY - box.minY };
}

interface Line {
  readonly outline: Polygon;
  readonly rectangle: ExactSize | undefined;
}

function alongLine(scope: Scope, shape: PieceShape, name: Name | undefined): Line | undefined {
  const wanted = name?.text ?? 'cutting';
  if (wanted === 'cutting' || wanted === 'stitching') {
    return { outline: polygonOf(shape.whole[wanted]), rectangle: shape.rectangle?.[wanted] };
  }
  const line = shape.lines.find((one) => one.name === wanted);
  if (name === undefined) return undefined;
  if (line === undefined) {
    const known = ['cutting', 'stitching', ...shape.lines.filter((one) => one.closed).map((one) => one.name)];
    reportPart(scope, shape, name, known);
    return undefined;
  }
  if (!line.closed) {
    report(scope, 'not-closed', name, { line: wanted });
    return undefined;
  }
  return openedLine(shape, line);
}

function reportPart(scope: Scope, shape: PieceShape, name: Name, known: readonly string[]): void {
  if (!shape.lines.some((line) => line.name === name.text) && failedToDraw(shape, name.text)) return;
  const near = nearestName(name.text, known);
  report(scope, 'unknown-part', name, { owner: shape.name, name: name.text, near, known }, {
    fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, name), near, false)],
  });
}

/** A layer with a size of its own lies in the middle of its piece. */
function ownSize(scope: Scope, shape: PieceShape, sized: Clause<'sized'>): Line | undefined {
  const width = positiveLength(scope, sized.width, 'A width');
  const height = positiveLength(scope, sized.height, 'A height');
  if (width === undefined || height === undefined) return undefined;
  const box = boundsOfPoints(polygonOf(shape.whole.cutting));
  const [x, y] = [(box.minX + box.maxX) / 2, (box.minY + box.maxY) / 2];
  const [w, h] = [width.amount.valueOf() / 2, height.amount.valueOf() / 2];
  return {
    outline: [{ x: x - w, y: y - h }, { x: x + w, y: y - h }, { x: x + w, y: y + h }, { x: x - w, y: y + h }],
    rectangle: { width: width.amount, height: height.amount, exact: width.exact && height.exact },
  };
}

function enlarged(line: Line, by: Rational): Line {
  const outline = polygonOutline(line.outline);
  const moved = outline && offsetOutline(outline, () => by.valueOf(), () => ({ kind: 'mitre', limit: 4 }));
  const twice = by.mul(2);
  return {
    outline: moved?.kind === 'ok' ? polygonOf(moved.outline) : line.outline,
    rectangle: line.rectangle && { ...line.rectangle, width: line.rectangle.width.add(twice), height: line.rectangle.height.add(twice) },
  };
}

function windowsOf(scope: Scope, shape: PieceShape, without: Clause<'without'> | undefined): readonly string[] | undefined {
  const windows = shape.lines.filter((line) => line.use === 'window').map((line) => line.name);
  return allDefined((without?.windows ?? []).map((name) => {
    if (windows.includes(name.text)) return name.text;
    reportPart(scope, shape, name, windows);
    return undefined;
  }));
}

function foldLine(shape: PieceShape): CutLine['fold'] {
  const edge = shape.cutting.edges.find((one) => one.name === shape.fold);
  return edge && [edge.start, edgeEnd(edge)];
}

// ------------------------------------------------------------------------------------------------ hands

/** A piece says it of what is seen, so not of what is glued behind it; what has no direction has no way up. */
const liesThisWayUp = (shape: PieceShape, { direction, faces }: Material, own: CutClause | undefined): boolean =>
  direction !== 'any' && (own !== undefined || (shape.thisWayUp && faces !== 'glued'));

/**
 * Whether the piece may be flipped over along its grain and then lie as it did, windows and all, turned only as its
 * material allows.
 */
function isSymmetricCut({ outline, holes, rectangle }: CutOutline, shape: PieceShape, material: Material, thisWayUp: boolean): boolean {
  const { angle } = shape.grain;
  // Most pieces are plain rectangles, and those along or across the grain need no looking at.
  if (rectangle !== undefined && (angle ?? 0) % 90 === 0) return true;
  const free = material.direction === 'any' || angle === undefined;
  const turns = free ? 'any' : material.direction === 'one way' || thisWayUp ? 'none' : 'half';
  const upright = free || angle === 0 ? undefined : rotation((-angle * Math.PI) / 180);
  const turned = (polygon: Polygon): Polygon => (upright === undefined ? polygon : movePolyline(upright, polygon));
  const whole = turned(outline);
  if (!isOwnMirrorImage(whole, turns)) return false;
  return holes.length === 0 || holesFlip(whole, holes.map(turned), turns === 'none');
}

/** Whether flipping across the upright middle, or unless forbidden the level one, brings outline and windows on to themselves. */
function holesFlip(outline: Polygon, holes: readonly Polygon[], uprightOnly: boolean): boolean {
  const box = boundsOfPoints(outline);
  const flips: readonly ((polygon: Polygon) => Polygon)[] = [
    (polygon) => polygon.map((point) => ({ x: box.minX + box.maxX - point.x, y: point.y })),
    (polygon) => polygon.map((point) => ({ x: point.x, y: box.minY + box.maxY - point.y })),
  ];
  const all = [outline, ...holes];
  return flips.slice(0, uprightOnly ? 1 : 2).some((flip) => all.every((one) => all.some((other) => sameBoundary(flip(one), other))));
}

const sameBoundary = (a: Polygon, b: Polygon): boolean =>
  a.every((point) => distancePointToBoundary(point, b) < 0.05) && b.every((point) => distancePointToBoundary(point, a) < 0.05);

function wayUpOf(material: Material, hand: Hand, symmetric: boolean, side: 'wrong' | 'right' | undefined): WayUp {
  if (symmetric || material.faces === 'alike') return 'either';
  if (hand === 'twins') return 'half each way';
  if (material.faces === 'differ') return hand === 'mirrored' ? 'wrong side up' : 'right side up';
  // Behind the cloth the glue looks at the viewer; a mirrored shell, or a layer on the right side, turns that round.
  return (hand === 'mirrored') === (side === 'right') ? 'glue up' : 'glue down';
}

// ------------------------------------------------------------------------------------------------ layers

/** What a layer goes on: the cloth named, or the last cloth above it. */
function layerOf(scope: Scope, statement: CutStatement, material: Material, earlier: readonly CutLine[], side: Clause<'side'> | undefined, whole: boolean): CutLine['layer'] {
  if (isCloth(material) && side === undefined) return undefined;
  const named = side?.of?.text;
  let shell = -1;
  earlier.forEach((line, index) => {
    if (line.layer === undefined && (named === undefined ? isCloth(line.material) : line.material.name === named)) shell = index;
  });
  if (shell >= 0) return { shell, side: side?.side ?? 'wrong' };
  if (!whole) return undefined;
  if (side?.of !== undefined) {
    const known = earlier.filter((line) => line.layer === undefined).map((line) => line.material.name);
    if (findOf(scope, side.of, 'material') !== undefined) {
      report(scope, 'layer-without-shell', side.of, { material: known.length === 0 ? material.name : side.of.text });
    }
  } else report(scope, 'layer-without-shell', statement.material, { material: material.name });
  return undefined;
}

/** How far, in millimetres, a layer reaches beyond its shell; 0 where it lies within. */
export function reachesBeyond(layer: CutLine, shell: CutLine): number {
  if (layer.outline === shell.outline || contains(shell.outline, layer.outline, 0.02)) return 0;
  return Math.max(0, ...layer.outline.map((point) => (pointInside(point, shell.outline) ? 0 : distancePointToBoundary(point, shell.outline))));
}

