import { selfCrossing } from '../../geometry/crossing.ts';
import type { Outline, Point, Polygon } from '../../geometry/shape.ts';
import { unfold } from '../../geometry/unfold.ts';
import { nearestName } from '../../problems/near.ts';
import { replacement } from '../../problems/problem.ts';
import type { Place } from '../../problems/place.ts';
import type { DartStatement, FoldStatement, GrainStatement, LineStatement, OutlineStatement, PieceDeclaration, PieceStatement, PleatStatement } from '../../syntax/tree.ts';
import type { Rational } from '../../units/rational.ts';
import { evaluateAs, holds, inCycle } from '../formulas/evaluate.ts';
import { meantWord } from '../words.ts';
import { declarationOf, isDamaged, similarTo } from '../query/inputs.ts';
import type { Context, Query } from '../query/query.ts';
import { placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import type { Value } from '../formulas/value.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { allowancesOf, hasEdge, moveByAllowances } from './allowances.ts';
import { twinName } from './opened-parts.ts';
import { deriveBase, rectangleSize, withinOutline, type Base } from './derive.ts';
import { drawDart, truedOutline } from './darts.ts';
import { drawPleat } from './pleats.ts';
import { stitchRowsOf } from './stitch-rows.ts';
import { drawLine, drawMark, drawNotch, partsText } from './lines.ts';
import { drawShape, pointText, type Drawn } from './outline.ts';
import { marksWithin, refittedLines } from './refit.ts';
import { notchesMeeting } from './notch-meeting.ts';
import { titleText } from '../titles.ts';
import type { EdgeAllowance, ExactSize, Grain, InnerLine, Mark, Notch, PieceShape } from './piece.ts';
import { polygonOf } from './polygons.ts';

/** Whether a piece or supply is wanted at all in the combination at hand. */
export const isWanted: Query<NamedDeclaration, boolean> = {
  name: 'is wanted',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    const condition = tree.kind === 'piece' || tree.kind === 'supply' ? tree.condition : undefined;
    return condition === undefined || (holds(scopeOf(context, declaration), condition) ?? false);
  },
};

/** A piece's shape, worked out from its own lines and its parent's shape; undefined where a fault stands in the way. */
export const shapeOf: Query<NamedDeclaration, PieceShape | undefined> = {
  name: 'shape',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'piece') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    return computeShape(context, scope, declaration, tree);
  },
};

type Of<Kind extends PieceStatement['kind']> = Extract<PieceStatement, { kind: Kind }>;

function ofKind<Kind extends PieceStatement['kind']>(tree: PieceDeclaration, kind: Kind): readonly Of<Kind>[] {
  return tree.body.statements.filter((statement): statement is Of<Kind> => statement.kind === kind);
}

/** The only statement of a kind; a second one is reported and left out. */
function single<Kind extends PieceStatement['kind']>(scope: Scope, tree: PieceDeclaration, kind: Kind, what: string): Of<Kind> | undefined {
  const [first, ...more] = ofKind(tree, kind);
  for (const repeated of more) report(scope, 'repeated-fact', repeated, { what });
  return first;
}

function computeShape(context: Context, scope: Scope, declaration: NamedDeclaration, tree: PieceDeclaration): PieceShape | undefined {
  const start = startOf(context, scope, tree);
  const lines = start && bothLines(scope, tree, start);
  if (start === undefined || lines === undefined) return undefined;
  const { base, outline } = start;
  const { cutting } = lines;
  const rectangle = rectangleOf(start, lines);
  const cuttingPolygon = cutting === outline ? start.polygon : polygonOf(cutting);
  const own = linesOf(scope, tree, { drawn: outline, ...lines, rectangle }, cuttingPolygon);
  const innerLines = base === undefined ? own : [...refittedLines(scope, tree.name, base.parent, takenOver(base.lines, own), { ...lines, cuttingPolygon }), ...own];
  const trued = truedLines(scope, tree, lines, innerLines);
  const ownMarks = marksOf(scope, tree, innerLines, cuttingPolygon);
  const marks = base === undefined ? ownMarks : [...marksWithin(scope, tree.name, base.parent, takenOver(base.marks, ownMarks), cuttingPolygon), ...ownMarks];
  const notches = notchesOf(scope, tree, start, lines, innerLines);
  const grain = single(scope, tree, 'grain', 'The grain');
  return {
    name: tree.name.text,
    title: titleText(tree.title, tree.name),
    declaration,
    place: placeIn(scope, tree.name),
    ...lines,
    ...trued,
    drawn: outline,
    rectangle: trued === undefined ? rectangle : undefined,
    corners: start.drawn.corners,
    lines: innerLines,
    stitchRows: stitchRowsOf(scope, tree, { ...lines, ...trued, lines: innerLines }, base?.stitchRows ?? []),
    marks,
    edgePlaces: start.edgePlaces,
    notches,
    edgeTitles: edgeTitlesOf(scope, tree, outline, base),
    notes: [...(base?.notes ?? []), ...ofKind(tree, 'note').map(({ text }) => ({ declaration, sentence: text }))],
    grain: grain === undefined ? (base?.grain ?? { given: false, angle: 0, orAcross: false }) : readGrain(scope, grain),
    thisWayUp: ofKind(tree, 'way up').length > 0 || base?.thisWayUp === true,
  };
}

// ------------------------------------------------------------------------------------------------ outline

/** What a piece is drawn from: its outline, its own or its parent's, and what else its parent hands on. */
interface Start {
  /** The piece's own outline; undefined where it has its parent's. */
  readonly statement: OutlineStatement | undefined;
  readonly drawn: Drawn;
  /** The outline with its edges under their new names. */
  readonly outline: Outline;
  readonly polygon: Polygon;
  readonly edgePlaces: ReadonlyMap<string, Place>;
  readonly base: Base | undefined;
}

function startOf(context: Context, scope: Scope, tree: PieceDeclaration): Start | undefined {
  const handed = tree.parent === undefined ? undefined : baseOf(context, scope, tree.parent);
  if (tree.parent !== undefined && handed === undefined) return undefined;
  const parent = leftOut(scope, tree, handed);
  const statement = single(scope, tree, 'outline', 'The outline');
  const drawn = statement === undefined ? inheritedOutline(scope, tree, parent) : drawOutline(scope, tree, statement);
  if (drawn === undefined) return undefined;
  const edgePlaces = new Map(drawn.edgePlaces);
  const { outline, newNames } = renameEdges(scope, tree, drawn.outline, edgePlaces);
  const handedOn = parent && underNewNames(parent, newNames);
  const base = handedOn !== undefined && statement !== undefined ? withinOutline({ ...handedOn, outline }) : handedOn;
  const polygon = polygonOf(outline);
  const crossing = drawn.rectangle === undefined ? selfCrossing(polygon) : undefined;
  if (crossing === undefined) return { statement, drawn, outline, polygon, edgePlaces, base };
  report(scope, 'self-crossing', statement ?? tree.name, { at: pointText(scope, crossing) });
  return undefined;
}

function baseOf(context: Context, scope: Scope, parent: NonNullable<PieceDeclaration['parent']>): Base | undefined {
  const declaration = context.get(declarationOf, parent.name.text);
  if (declaration?.tree.kind !== 'piece') {
    if (context.get(isDamaged, parent.name.text)) return undefined;
    if (declaration === undefined) {
      const near = nearestName(parent.name.text, context.get(similarTo, 'piece'));
      report(scope, 'unknown-name', parent.name, { what: 'piece', name: parent.name.text, near }, {
        fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, parent.name), near, false)],
      });
    } else report(scope, 'wrong-thing', parent.name, { name: parent.name.text, is: `a ${declaration.tree.kind}`, wanted: 'a piece' });
    return undefined;
  }
  const shape = context.get(shapeOf, declaration);
  return shape && deriveBase(scope, shape, parent.parts);
}

function drawOutline(scope: Scope, tree: PieceDeclaration, statement: OutlineStatement): Drawn | undefined {
  const { shape } = statement;
  switch (shape.kind) {
    case 'open':
      report(scope, 'open-shape', shape, {}, { fixes: [replacement('Write it as a polygon', { ...placeIn(scope, shape), end: shape.start }, 'polygon ', false)] });
      return undefined;
    case 'inset':
    case 'across':
      report(scope, 'inset-outline', shape, {});
      return undefined;
    default:
      return drawShape(scope, shape, ofKind(tree, 'corner'));
  }
}

function inheritedOutline(scope: Scope, tree: PieceDeclaration, base: Base | undefined): Drawn | undefined {
  const corner = ofKind(tree, 'corner')[0];
  if (base === undefined) {
    // A line that could not be read may have been the outline; its own problem says enough.
    if (!tree.body.statements.some((statement) => statement.kind === 'broken' && /^(?:outl?i?n?e?|rectangle|circle|ellipse|polygon|path|shape)\b/i.test(statement.text))) {
      report(scope, 'missing-outline', tree.name, { piece: tree.name.text });
    }
    return undefined;
  }
  if (corner !== undefined) report(scope, 'corner-needs-rectangle', corner, {});
  return { outline: base.outline, rectangle: base.rectangle, edgePlaces: new Map(), corners: base.corners };
}

interface Renamed {
  readonly outline: Outline;
  /** From the names that the edges had to those that they have now. */
  readonly newNames: ReadonlyMap<string, string>;
}

function renameEdges(scope: Scope, tree: PieceDeclaration, outline: Outline, places: Map<string, Place>): Renamed {
  let renamed = outline;
  const newNames = new Map<string, string>();
  for (const statement of ofKind(tree, 'edge')) {
    const [from, to] = [statement.edge.text, statement.name.text];
    if (!hasEdge(scope, statement.edge, renamed.edges.map((edge) => edge.name))) continue;
    if (renamed.edges.some((edge) => edge.name === to)) {
      report(scope, 'duplicate-name', statement.name, { name: to });
      continue;
    }
    places.set(to, placeIn(scope, statement.name));
    renamed = { edges: renamed.edges.map((edge) => (edge.name === from ? { ...edge, name: to } : edge)) };
    newNames.set([...newNames].find(([, now]) => now === from)?.[0] ?? from, to);
  }
  return { outline: renamed, newNames };
}

/** What a parent says of an edge holds for the edge under its new name. */
function underNewNames(base: Base, newNames: ReadonlyMap<string, string>): Base {
  if (newNames.size === 0) return base;
  const now = (edge: string): string => newNames.get(edge) ?? edge;
  return {
    ...base,
    fold: base.fold && now(base.fold),
    allowances: new Map([...base.allowances].map(([edge, allowance]) => [now(edge), allowance])),
    edgeTitles: new Map([...base.edgeTitles].map(([edge, title]) => [now(edge), title])),
    lines: base.lines.map((line) => (line.edge === undefined ? line : { ...line, edge: now(line.edge) })),
    notches: base.notches.map((notch) => ({ ...notch, edge: now(notch.edge) })),
    stitchRows: base.stitchRows.map((row) => ({ ...row, from: row.from.map(now) })),
  };
}

/** Titles of edges: those that the parent hands on, and the piece's own. */
function edgeTitlesOf(scope: Scope, tree: PieceDeclaration, outline: Outline, base: Base | undefined): PieceShape['edgeTitles'] {
  const titles = new Map(base?.edgeTitles);
  const names = outline.edges.map((edge) => edge.name);
  for (const { name, title } of ofKind(tree, 'edge')) if (title !== undefined) titles.set(name.text, title.value);
  for (const { edge, title } of ofKind(tree, 'edge title')) if (hasEdge(scope, edge, names)) titles.set(edge.text, title.value);
  return titles;
}

/** What a copy starts from without the lines, marks and notches that it says it leaves out. */
function leftOut(scope: Scope, tree: PieceDeclaration, base: Base | undefined): Base | undefined {
  let left = base;
  for (const name of ofKind(tree, 'without').flatMap((statement) => statement.names)) {
    const known = base?.parts ?? [];
    if (name.text === 'notches' && left !== undefined) left = { ...left, notches: [] };
    else if (left !== undefined && known.includes(name.text)) left = { ...left, lines: left.lines.filter((one) => !isOrTwin(one.name, name.text)), marks: left.marks.filter((one) => !isOrTwin(one.name, name.text)), stitchRows: left.stitchRows.filter((one) => one.name !== name.text) };
    else report(scope, 'nothing-left-out', name, { name: name.text, near: nearestName(name.text, known), known });
  }
  return left;
}

/** A parent's notches on the cutting line as it is now: an allowance may have changed. */
function movedNotches(base: Base, outwards: (edge: string) => number): readonly Notch[] {
  return base.notches.map((notch) => {
    const by = outwards(notch.edge) - outwardsBy(base, notch.edge);
    return by === 0 ? notch : { ...notch, point: { x: notch.point.x - notch.inward.x * by, y: notch.point.y - notch.inward.y * by } };
  });
}

// ------------------------------------------------------------------------------------------------ cutting and stitching line

/** A piece's two lines, and what leads from the one to the other. */
type BothLines = Pick<PieceShape, 'drawnTo' | 'fold' | 'allowances' | 'generalAllowance' | 'cutting' | 'stitching' | 'whole' | 'steps'>;

function bothLines(scope: Scope, tree: PieceDeclaration, { statement, outline, base }: Start): BothLines | undefined {
  const drawnTo = single(scope, tree, 'drawn', 'What it is drawn to')?.to ?? base?.drawnTo ?? scope.settings.drawnTo;
  const fold = foldOf(scope, tree, outline) ?? (statement === undefined ? base?.fold : undefined);
  const inherited = { edges: base?.allowances ?? new Map<string, EdgeAllowance>(), general: base?.generalAllowance };
  const { edges: allowances, general: generalAllowance } = allowancesOf(scope, outline, fold, ofKind(tree, 'allowance'), inherited);
  const moved = moveByAllowances(outline, allowances, drawnTo === 'stitching' ? 1 : -1);
  if (moved.kind !== 'ok') {
    report(scope, 'allowance-vanishes', tree.name, {});
    return undefined;
  }
  if (moved.others.length > 0) report(scope, 'allowance-parts', tree.name, partsText(scope, moved.outline, moved.others));
  const [cutting, stitching] = drawnTo === 'stitching' ? [moved.outline, outline] : [outline, moved.outline];
  const whole = wholeOf(scope, tree, fold, cutting, stitching);
  return whole && { drawnTo, fold, allowances, generalAllowance, cutting, stitching, whole, steps: moved.steps };
}

/** How far outwards of the drawn outline an edge's cutting line lies, in millimetres. */
const outwardsBy = ({ drawnTo, allowances }: Pick<BothLines, 'drawnTo' | 'allowances'>, edge: string): number =>
  drawnTo === 'stitching' ? (allowances.get(edge)?.size.valueOf() ?? 0) : 0;

function foldOf(scope: Scope, tree: PieceDeclaration, outline: Outline): string | undefined {
  const statement: FoldStatement | undefined = single(scope, tree, 'on fold', 'The edge on a fold');
  return statement !== undefined && hasEdge(scope, statement.edge, outline.edges.map((edge) => edge.name)) ? statement.edge.text : undefined;
}

function wholeOf(scope: Scope, tree: PieceDeclaration, fold: string | undefined, cutting: Outline, stitching: Outline): PieceShape['whole'] | undefined {
  if (fold === undefined) return { cutting, stitching };
  const wholeCutting = unfold(cutting, fold);
  const wholeStitching = unfold(stitching, fold);
  if (wholeCutting.kind === 'ok' && wholeStitching.kind === 'ok') return { cutting: wholeCutting.outline, stitching: wholeStitching.outline };
  report(scope, 'fold-not-straight', ofKind(tree, 'on fold')[0]?.edge ?? tree.name, { edge: fold });
  return undefined;
}

// ------------------------------------------------------------------------------------------------ exact sizes

/** The exact sizes of a plain rectangle; undefined of any other outline, and where an allowance is missing. */
function rectangleOf({ statement, drawn, outline, base }: Start, lines: BothLines): PieceShape['rectangle'] {
  // The size that a parent hands on is that of its whole; under another fold only the outline itself can tell.
  const parentFold = statement === undefined ? base?.fold : undefined;
  const isWhole = parentFold !== undefined && parentFold === lines.fold;
  const size = parentFold === undefined || isWhole ? drawn.rectangle : drawn.rectangle && rectangleSize(outline);
  return size && exactSizes(size, outline, lines, isWhole);
}

interface RectangleSide {
  readonly name: string;
  readonly allowance: Rational;
}

/** The drawn size of a plain rectangle and its allowances, added up as written. */
function exactSizes(drawn: ExactSize, outline: Outline, { drawnTo, fold, allowances }: BothLines, alreadyWhole: boolean): PieceShape['rectangle'] {
  if (rectangleSize(outline) === undefined) return undefined;
  const sides = sideNames(outline).flatMap((name): readonly RectangleSide[] => {
    const allowance = allowances.get(name)?.size;
    return allowance === undefined ? [] : [{ name, allowance }];
  });
  // In the order they are drawn in.
  const [below, right, above, left] = sides;
  if (below === undefined || right === undefined || above === undefined || left === undefined) return undefined;
  const openedOut = (length: Rational, ...ends: readonly RectangleSide[]): Rational => (!alreadyWhole && ends.some((end) => end.name === fold) ? length.mul(2) : length);
  const size = { width: openedOut(drawn.width, left, right), height: openedOut(drawn.height, above, below), exact: drawn.exact };
  const across = bothAllowances(left, right, fold);
  const along = bothAllowances(above, below, fold);
  return drawnTo === 'stitching'
    ? { stitching: size, cutting: { ...size, width: size.width.add(across), height: size.height.add(along) } }
    : { cutting: size, stitching: { ...size, width: size.width.sub(across), height: size.height.sub(along) } };
}

/** The allowances at both ends of a size; opened out on a fold, both ends are the one across from it. */
function bothAllowances(one: RectangleSide, other: RectangleSide, fold: string | undefined): Rational {
  if (fold === one.name) return other.allowance.mul(2);
  return fold === other.name ? one.allowance.mul(2) : one.allowance.add(other.allowance);
}

/** The edge names of a rectangle, beginning with the one below. */
function sideNames(outline: Outline): readonly string[] {
  const lowest = outline.edges.findIndex((edge) => {
    const end = edge.segments.at(-1)?.to ?? edge.start;
    return Math.abs(end.y - edge.start.y) < 1e-9 && end.x > edge.start.x;
  });
  return outline.edges.map((_, index) => outline.edges[(lowest + index) % outline.edges.length]?.name ?? '');
}

// ------------------------------------------------------------------------------------------------ lines and marks

/** What darts make of the cutting line; undefined where they make nothing of it. What is drawn to its cutting line is cut as it is drawn. */
function truedLines(scope: Scope, tree: PieceDeclaration, { drawnTo, fold, cutting, stitching }: BothLines, lines: readonly InnerLine[]): Pick<BothLines, 'cutting' | 'whole'> | undefined {
  const trued = drawnTo === 'stitching' ? truedOutline(cutting, { lines, stitching }) : cutting;
  const whole = trued === cutting ? undefined : wholeOf(scope, tree, fold, trued, stitching);
  return whole && { cutting: trued, whole };
}

function linesOf(scope: Scope, tree: PieceDeclaration, ground: Parameters<typeof drawLine>[2], polygon: readonly { x: number; y: number }[]): readonly InnerLine[] {
  const lines: InnerLine[] = [];
  for (const statement of [...ofKind(tree, 'line'), ...ofKind(tree, 'dart'), ...ofKind(tree, 'pleat')]) {
    if (lines.some((line) => line.name === statement.name.text) || ['cutting', 'stitching'].includes(statement.name.text) || ground.cutting.edges.some((edge) => edge.name === statement.name.text)) {
      report(scope, 'duplicate-name', statement.name, { name: statement.name.text });
      continue;
    }
    const line = drawn(scope, statement, ground, polygon, lines);
    if (line !== undefined) lines.push(line);
  }
  return lines;
}

function drawn(scope: Scope, statement: LineStatement | DartStatement | PleatStatement, ground: Parameters<typeof drawLine>[2], polygon: readonly Point[], lines: readonly InnerLine[]): InnerLine | undefined {
  switch (statement.kind) {
    case 'dart': return drawDart(scope, statement, ground.stitching, ground.fold, lines);
    case 'pleat': return drawPleat(scope, statement, ground.stitching, ground.fold, lines);
    default: return drawLine(scope, statement, ground, polygon);
  }
}

function marksOf(scope: Scope, tree: PieceDeclaration, lines: readonly InnerLine[], polygon: readonly { x: number; y: number }[]): readonly Mark[] {
  const marks: Mark[] = [];
  for (const statement of ofKind(tree, 'mark')) {
    if (marks.some((mark) => mark.name === statement.name.text) || lines.some((line) => line.name === statement.name.text)) {
      report(scope, 'duplicate-name', statement.name, { name: statement.name.text });
      continue;
    }
    const mark = drawMark(scope, statement, polygon);
    if (mark !== undefined) marks.push(mark);
  }
  return marks;
}

/** A parent's notches, then a piece's own, then those where lines of it meet. */
function notchesOf(scope: Scope, tree: PieceDeclaration, { outline, base }: Start, both: BothLines, lines: readonly InnerLine[]): readonly Notch[] {
  const outwards = (edge: string): number => outwardsBy(both, edge);
  const own = ofKind(tree, 'notch').map((statement) => drawNotch(scope, statement, outline, outwards)).filter((notch) => notch !== undefined);
  const meeting = ofKind(tree, 'notch meeting').flatMap((statement) => notchesMeeting(scope, statement, lines, outline, outwards));
  return [...(base === undefined ? [] : movedNotches(base, outwards)), ...own, ...meeting];
}

/** What a parent hands on, but for what a child has its own of under the same name. */
const takenOver = <T extends { readonly name: string }>(inherited: readonly T[], own: readonly T[]): readonly T[] => inherited.filter((one) => !own.some((other) => isOrTwin(one.name, other.name)));

/** Whether something is what is named, or its twin across a fold that was opened out: the two come and go together. */
const isOrTwin = (name: string, named: string): boolean => name === named || name === twinName(named);

function readGrain(scope: Scope, statement: GrainStatement): Grain {
  const { orAcross } = statement;
  switch (statement.way) {
    case 'up':
      return { given: true, angle: 0, orAcross };
    case 'across':
      return { given: true, angle: 90, orAcross };
    case 'bias':
      return { given: true, angle: 45, orAcross };
    case 'none':
      return { given: true, angle: undefined, orAcross };
    case 'angle':
      return { given: true, angle: grainAngle(scope, statement)?.amount.valueOf() ?? 0, orAcross };
  }
}

const grainWords = ['up', 'across', 'bias', 'none', 'an angle such as 30 deg'];

function grainAngle(scope: Scope, { angle }: GrainStatement): Value | undefined {
  const word = angle?.kind === 'reference' && angle.path.length === 1 ? angle.path[0] : undefined;
  if (word !== undefined && scope.context.get(declarationOf, word.text) === undefined && !scope.context.get(isDamaged, word.text)) {
    const near = meantWord(word.text, grainWords);
    report(scope, 'unknown-word', word, { word: word.text, known: grainWords, near }, {
      fixes: near === undefined ? [] : [replacement(`Change to “${near}”`, placeIn(scope, word), near, false)],
    });
    return undefined;
  }
  return angle && evaluateAs(scope, angle, 'angle');
}
