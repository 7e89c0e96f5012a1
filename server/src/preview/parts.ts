import { flattenEdge, flattenOutline } from '../geometry/flatten.ts';
import { pointInside } from '../geometry/inside.ts';
import { bounds, boundsOfPoints, type Bounds } from '../geometry/measure.ts';
import type { Edge, Outline, Point, Polygon, Polyline } from '../geometry/shape.ts';
import { moveEdge, movePoint, movePolyline, type Transform } from '../geometry/transform.ts';
import { ahead } from '../geometry/vector.ts';
import { lengthOfLine, sizeOfLine } from '../model/piece/size.ts';
import { foldMirroring } from '../model/piece/whole.ts';
import type { Grain, InnerLine, Mark, Notch, PieceShape, StitchRow } from '../model/piece/piece.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import { sidesText } from '../units/sides.ts';
import type { DrawnPart, DrawnSign, PartKind, PieceDrawing } from './drawing-data.ts';
import { circlePath, edgePath, polylinePath } from '../formats/svg-path.ts';
import { lineStyles } from './style.ts';
import { edgeText } from '../table/names.ts';
import { stitchText } from '../table/stitches.ts';
import { keptFor } from '../table/per-display.ts';
import { edgeWords, stitchingWords } from './edge-words.ts';
import { groundOf, roomIn, without, type Ground, type LabelRoom, type LabelWords } from './label-room.ts';
import { outlinePlace, statementPlace } from './places.ts';
import { openWords, sizeWords } from './size-words.ts';

/** A drawing with the places that its parts refer to. */
export interface SourcedDrawing {
  readonly drawing: PieceDrawing;
  readonly sources: readonly Place[];
}

/** Draws a piece; the same shape gives the very same drawing again, so that an edit draws only what it changes. */
export const drawPiece: (shape: PieceShape, display: Display) => SourcedDrawing = keptFor(draw);

/** The point that a sign is drawn round. */
const here: Point = { x: 0, y: 0 };

// Sizes of what only points something out, in CSS pixels (invented, by eye).
const notchDepth = 7;
const notchHalf = 4.5;
const markArm = 5.5;
const drillRadius = 3.5;
const arrowHead = 7;

interface NewPart extends Omit<DrawnPart, 'place' | 'title' | 'twin' | 'label'> {
  readonly title?: string;
  readonly twin?: string;
  readonly label?: DrawnPart['label'];
}

function draw(shape: PieceShape, display: Display): SourcedDrawing {
  const parts: DrawnPart[] = [];
  const sources: Place[] = [];
  const add = (part: NewPart, place: Place): void => {
    let index = sources.findIndex((one) => one.chunk === place.chunk && one.start === place.start && one.end === place.end);
    if (index < 0) index = sources.push(place) - 1;
    parts.push({ ...part, title: part.title ?? edgeText(shape, part.name), twin: part.twin ?? '', label: part.label ?? null, place: index });
  };
  const show = (length: number | Rational): string => showLength(typeof length === 'number' ? measured(length) : length, display);
  const mirror = foldMirroring(shape);
  const outline = outlinePlace(shape);
  const placeOfEdge = (name: string): Place => statementPlace(shape.edgePlaces.get(name) ?? outline);
  const twinEdge = (edge: Edge): string => (mirror === undefined ? '' : edgePath(moveEdge(mirror, edge)));

  for (const line of shape.lines) add(linePart(shape, line, mirror, show), statementPlace(line.place));
  for (const row of shape.stitchRows) add(stitchPart(shape, row, mirror, display), statementPlace(row.place));
  for (const edge of shape.stitching.edges) {
    const allowance = shape.allowances.get(edge.name)?.size;
    // Where nothing is allowed for, both lines are one, and the cutting line says it.
    if (edge.name === shape.fold || allowance === undefined || allowance.n === 0n) continue;
    add({ kind: 'stitching', name: edge.name, detail: stitchingWords(shape, edge, show), path: edgePath(edge), twin: twinEdge(edge) }, placeOfEdge(edge.name));
  }
  for (const edge of shape.cutting.edges) {
    if (edge.name === shape.fold) continue;
    const allowance = shape.allowances.get(edge.name)?.size;
    const detail = [edgeWords(shape, edge, show), allowance === undefined || allowance.n === 0n ? 'no allowance' : `allowance ${show(allowance)}`].join(', ');
    add({ kind: 'cutting', name: edge.name, detail, path: edgePath(edge), twin: twinEdge(edge) }, placeOfEdge(edge.name));
  }
  const fold = shape.cutting.edges.find((edge) => edge.name === shape.fold);
  if (fold !== undefined) add({ kind: 'fold', name: fold.name, detail: `${edgeWords(shape, fold, show)}, on the fold`, path: edgePath(fold) }, foldPlace(shape) ?? placeOfEdge(fold.name));
  const polygon = flattenOutline(shape.cutting).polygon;
  const piece = groundOf(flattenOutline(shape.whole.cutting, roomFlatness).polygon);
  const words = labelWords(shape, display);
  const folds = foldsOf(shape, mirror);
  const ground = clearOfLines(piece, shape, mirror, folds, words);
  const arrows = grainArrows(shape, polygon, ground, words);
  const grain = grainPart(shape, arrows);
  if (grain !== undefined) add(grain, grainPlace(shape) ?? shape.place);
  for (const notch of shape.notches) add(notchPart(notch, edgeText(shape, notch.edge), mirror), notch.place);
  for (const mark of shape.marks) add(markPart(mark, mirror, show), statementPlace(mark.place));

  const box = unionOf([bounds(shape.whole.cutting), bounds(shape.whole.stitching), ...shape.lines.map((line) => boundsOfPoints(line.points))]);
  return {
    sources,
    drawing: {
      box: { x: box.minX, y: box.minY, width: box.maxX - box.minX, height: box.maxY - box.minY },
      area: { cutting: areaPath(shape.whole.cutting), stitching: areaPath(shape.whole.stitching) },
      room: rounded(roomIn(without(ground, arrows.map(({ ends }) => ends)), words)),
      wide: rounded(roomIn(without(piece, [...folds, ...marksOf(shape, mirror), ...arrows.map(({ ends }) => ends)]), words)),
      whole: rounded(roomIn(piece, words)),
      parts,
      description: describe(shape, parts),
      note: fold === undefined ? '' : `Half, on the fold along “${edgeText(shape, fold.name)}”`,
    },
  };
}

/** An outline as one closed path: each edge goes on where the last one ended. */
const areaPath = ({ edges }: Outline): string => `${edges.map((edge, index) => (index === 0 ? edgePath(edge) : edgePath(edge).replace(/^M[^A-Za-z]*/, ''))).join('')}Z`;

/** What is written on the board: the finished size, or else how large it is once it is folded, takes up about as much. */
function labelWords(shape: PieceShape, display: Display): LabelWords {
  const { circle, width, height } = sizeWords(shape, display).stitching;
  return { title: shape.title, size: `${openWords(shape) || 'finished'} ${sidesText(circle, width.text, height.text)}` };
}

/** Where a name is written need not be known finely. */
const roomFlatness = 0.5;
const rounded = ({ x, y, across, high }: LabelRoom): PieceDrawing['room'] => {
  const tenth = (length: number): number => Math.round(length * 10) / 10;
  return { x: tenth(x), y: tenth(y), across: tenth(across), high: tenth(high) };
};

function unionOf(boxes: readonly Bounds[]): Bounds {
  return boxes.reduce((all, box) => ({ minX: Math.min(all.minX, box.minX), minY: Math.min(all.minY, box.minY), maxX: Math.max(all.maxX, box.maxX), maxY: Math.max(all.maxY, box.maxY) }));
}

// ------------------------------------------------------------------------------------------------ parts

function linePart(shape: PieceShape, line: InnerLine, mirror: Transform | undefined, show: (length: Rational) => string): NewPart {
  const { width, height, circle } = sizeOfLine(shape, line);
  return {
    kind: line.use,
    name: line.name,
    title: line.title,
    detail: line.closed ? sidesText(circle, show(width), show(height)) : lengthWords(shape, line, show),
    path: polylinePath(line.points, line.closed),
    twin: mirror === undefined ? '' : polylinePath(movePolyline(mirror, line.points), line.closed),
    label: labelOf(line),
  };
}

/** A dart's legs are as long as each other, and one of them is what is sewn. */
const lengthWords = (shape: PieceShape, line: InnerLine, show: (length: Rational) => string): string =>
  line.isDart === true ? `each leg ${show(lengthOfLine(shape, line).div(2))} long` : `${show(lengthOfLine(shape, line))} long`;

function stitchPart(shape: PieceShape, row: StitchRow, mirror: Transform | undefined, display: Display): NewPart {
  const [first = { points: [], closed: false }] = row.runs;
  const path = (move: (points: Polyline) => Polyline): string => row.runs.map(({ points, closed }) => polylinePath(move(points), closed)).join('');
  return {
    kind: 'topstitch',
    name: row.name,
    title: row.title,
    detail: `${stitchText(shape, row, display)}, ${showLength(measured(row.length), display)} long`,
    path: path((points) => points),
    twin: mirror === undefined ? '' : path((points) => movePolyline(mirror, points)),
    label: labelOf(first),
  };
}

/** A closed line has its name where it comes nearest to its upper left, an open one where it begins at the left or the top. */
function labelOf(line: Pick<InnerLine, 'points' | 'closed'>): NonNullable<DrawnPart['label']> {
  const [first = { x: 0, y: 0 }] = line.points;
  if (line.closed) return line.points.reduce((best, one) => (one.y - one.x > best.y - best.x ? one : best), first);
  const last = line.points.at(-1) ?? first;
  const upright = Math.abs(last.x - first.x) < Math.abs(last.y - first.y);
  const at = upright ? (first.y > last.y ? first : last) : first.x < last.x ? first : last;
  return at;
}

function notchPart(notch: Notch, edge: string, mirror: Transform | undefined): NewPart {
  const along = { x: -notch.inward.y, y: notch.inward.x };
  const corners = [ahead(here, along, notchHalf), ahead(here, along, -notchHalf), ahead(here, notch.inward, notchDepth)];
  const own = { ...notch.point, shape: polylinePath(corners, true) };
  if (mirror === undefined) return { kind: 'notch', name: `notch on ${notch.edge}`, title: `notch on ${edge}`, detail: '', path: '', signs: [own] };
  const [origin, ...moved] = [here, ...corners].map((corner) => movePoint(mirror, corner));
  const turned = moved.map(({ x, y }) => ({ x: x - (origin?.x ?? 0), y: y - (origin?.y ?? 0) }));
  return { kind: 'notch', name: `notch on ${notch.edge}`, title: `notch on ${edge}`, detail: '', path: '', signs: [own, { ...movePoint(mirror, notch.point), shape: polylinePath(turned, true), twin: true }] };
}

function markPart(mark: Mark, mirror: Transform | undefined, show: (length: Rational) => string): NewPart {
  const snapText = mark.snap === undefined ? '' : mark.snap.d === 1n ? `${mark.snap.toFraction()} mm` : show(mark.snap);
  return {
    kind: mark.use,
    name: mark.name,
    title: mark.title,
    detail: snapText === '' ? '' : `for a snap ${snapText} across`,
    path: snapPath(mark, mark.point),
    twin: mirror === undefined ? '' : snapPath(mark, movePoint(mirror, mark.point)),
    signs: [{ ...mark.point, shape: markShapes[mark.use] }, ...(mirror === undefined ? [] : [{ ...movePoint(mirror, mark.point), shape: markShapes[mark.use], twin: true as const }])],
    label: { x: mark.point.x + (mark.snap?.valueOf() ?? 0) / 2, y: mark.point.y },
  };
}

/** A snap is as large as it is. */
const snapPath = ({ snap }: Mark, at: Point): string => (snap === undefined ? '' : circlePath(at, snap.valueOf() / 2));

const cross = (arm: number): string => `M${-arm} 0L${arm} 0M0 ${-arm}L0 ${arm}`;
const markShapes: Readonly<Record<Mark['use'], string>> = { mark: cross(markArm), drill: cross(drillRadius / 2) + circlePath({ x: 0, y: 0 }, drillRadius) };

// ------------------------------------------------------------------------------------------------ grain

function grainPart(shape: PieceShape, arrows: readonly Arrow[]): NewPart | undefined {
  if (arrows.length === 0) return undefined;
  return {
    kind: 'grain',
    name: 'grain',
    detail: `${grainWords(shape.grain)}${shape.grain.given ? '' : ', as is usual where the spec doesn’t say'}${shape.thisWayUp ? ', this way up' : ''}`,
    path: arrows.map(({ ends }) => polylinePath(ends, false)).join(''),
    signs: arrows.flatMap(({ heads }) => heads),
  };
}

export function grainWords({ angle, orAcross }: Grain): string {
  if (angle === undefined) return 'grain any way';
  const way = angle === 0 ? 'up' : angle === 90 ? 'across' : angle === 45 ? 'on the bias' : `at ${angle}°`;
  return `grain ${way}${orAcross ? ' or across' : ''}`;
}

interface Arrow {
  readonly ends: readonly [tail: Point, tip: Point];
  readonly heads: readonly DrawnSign[];
}

/** Which way the cloth runs, and where the piece may also lie across, that way too; each put where it leaves the name its room. */
function grainArrows({ grain: { angle, orAcross }, thisWayUp }: PieceShape, polygon: Polygon, ground: Ground, words: LabelWords): readonly Arrow[] {
  if (angle === undefined) return [];
  const along = grainArrow(polygon, angle, thisWayUp, { ground, words });
  return orAcross ? [along, grainArrow(polygon, angle + 90, false, { ground: without(ground, [along.ends]), words })] : [along];
}

/** A label may have room so much later with the arrow than without it, as a factor, before the arrow is put elsewhere (invented, by eye). */
const makesWay = 1.6;

/** Where an arrow may lie, as shares of the box, and how long it may be to either side of its middle; the first are preferred (invented, by eye). */
const arrowSpots = [[0.75, 0.4], [0.25, 0.4], [0.5, 0.5], [0.85, 0.5], [0.15, 0.5]] as const;
const asideSpots = [[0.5, 0.25], [0.5, 0.75], [0.25, 0.5], [0.75, 0.5], [0.1, 0.5], [0.9, 0.5], [0.5, 0.12], [0.5, 0.88], [0.2, 0.25], [0.8, 0.25]] as const;
const arrowShares = [0.3, 0.2, 0.1] as const;

/** An arrow along the grain, put where it fits inside the piece; pointing one way only where that matters. */
function grainArrow(polygon: Polygon, angle: number, oneWay: boolean, { ground, words }: { readonly ground: Ground; readonly words: LabelWords }): Arrow {
  const box = boundsOfPoints(polygon);
  const radians = (angle * Math.PI) / 180;
  const way = { x: -Math.sin(radians), y: Math.cos(radians) };
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const room = Math.min(width / Math.max(1e-6, Math.abs(way.x)), height / Math.max(1e-6, Math.abs(way.y)));
  const endsAt = ([x, y]: readonly [number, number], share: number): readonly [Point, Point] => {
    const middle = { x: box.minX + width * x, y: box.minY + height * y };
    return [ahead(middle, way, -room * share), ahead(middle, way, room * share)];
  };
  const labelFrom = (ends: readonly [Point, Point]): number => roomIn(without(ground, [ends]), words).from;
  const enough = roomIn(ground, words).from * makesWay;
  let best = endsAt([0.5, 0.5], arrowShares[2]);
  let least = Infinity;
  for (const spots of [arrowSpots, asideSpots]) {
    for (const share of arrowShares) {
      for (const spot of spots) {
        const ends = endsAt(spot, share);
        if (!ends.every((end) => pointInside(end, polygon))) continue;
        const from = labelFrom(ends);
        if (from <= enough) return arrowOf(...ends, way, oneWay);
        if (from < least) [best, least] = [ends, from];
      }
    }
  }
  return arrowOf(...best, way, oneWay);
}

function arrowOf(tail: Point, tip: Point, way: Point, oneWay: boolean): Arrow {
  const side = { x: -way.y, y: way.x };
  const head = (at: Point, sign: 1 | -1): DrawnSign => {
    const back = ahead(here, way, -sign * arrowHead);
    return { ...at, shape: polylinePath([ahead(back, side, arrowHead / 2), here, ahead(back, side, -arrowHead / 2)], false) };
  };
  return { ends: [tail, tip], heads: [head(tip, 1), ...(oneWay ? [] : [head(tail, -1)])] };
}

/** A label may have room so much later beside all lines than beside fold lines alone, as a factor, before lines are left to run through it (invented, by eye). */
const besideAll = 1.6;

/** Where a piece's name may stand: within its stitching lines and beside all other lines where that leaves it room, or else beside those others, or at least beside those that it is folded along. */
function clearOfLines(piece: Ground, shape: PieceShape, mirror: Transform | undefined, folds: readonly Polyline[], words: LabelWords): Ground {
  const others = [...shape.lines.filter(({ use }) => use !== 'foldline').flatMap((line) => onBoth(runOf(line), mirror)), ...marksOf(shape, mirror)];
  const folded = without(piece, folds);
  const enough = roomIn(folded, words).from * besideAll;
  const inner = groundOf(flattenOutline(shape.whole.stitching, roomFlatness).polygon);
  return [inner, piece].map((one) => without(one, [...folds, ...others])).find((one) => roomIn(one, words).from <= enough) ?? folded;
}

/** What a piece is folded along, opened out. */
function foldsOf(shape: PieceShape, mirror: Transform | undefined): readonly Polyline[] {
  const fold = shape.cutting.edges.find((edge) => edge.name === shape.fold);
  return [...shape.lines.filter(({ use }) => use === 'foldline').flatMap((line) => onBoth(runOf(line), mirror)), ...(fold === undefined ? [] : [flattenEdge(fold, roomFlatness)])];
}

const marksOf = (shape: PieceShape, mirror: Transform | undefined): readonly Polyline[] => shape.marks.flatMap(({ point }) => onBoth([point, point], mirror));
const onBoth = (line: Polyline, mirror: Transform | undefined): readonly Polyline[] => (mirror === undefined ? [line] : [line, movePolyline(mirror, line)]);
const runOf = ({ points, closed }: InnerLine): Polyline => (closed ? [...points, ...points.slice(0, 1)] : points);

// ------------------------------------------------------------------------------------------------ places and words

function ownStatement(shape: PieceShape, kind: 'on fold' | 'grain'): Place | undefined {
  const { tree } = shape.declaration;
  const statement = tree.kind === 'piece' ? tree.body.statements.find((one) => one.kind === kind) : undefined;
  return statement && { chunk: shape.declaration, start: statement.start, end: statement.end };
}
const foldPlace = (shape: PieceShape): Place | undefined => ownStatement(shape, 'on fold');
const grainPlace = (shape: PieceShape): Place | undefined => ownStatement(shape, 'grain');

function describe(shape: PieceShape, parts: readonly DrawnPart[]): string {
  const names = (kind: PartKind): string => parts.filter((part) => part.kind === kind).map((part) => part.title).join(', ');
  const count = parts.filter((part) => part.kind === 'notch').length;
  const inner = (['line', 'placement', 'foldline', 'window', 'mark', 'drill'] as const)
    .filter((kind) => names(kind) !== '')
    .map((kind) => `${lineStyles[kind].words.toLowerCase()} ${names(kind)}`);
  return [
    `Drawing of ${shape.title}`,
    shape.fold === undefined ? '' : `half on the fold along ${edgeText(shape, shape.fold)}`,
    `edges ${shape.drawn.edges.map((edge) => edgeText(shape, edge.name)).join(', ')}`,
    ...inner,
    count === 0 ? '' : count === 1 ? '1 notch' : `${count} notches`,
    grainWords(shape.grain),
  ].filter((words) => words !== '').join('; ');
}
