import { flattenOutline } from '../geometry/flatten.ts';
import { pointInside } from '../geometry/inside.ts';
import { bounds, boundsOfPoints, edgeLength, type Bounds } from '../geometry/measure.ts';
import type { Edge, Point, Polygon } from '../geometry/shape.ts';
import { moveEdge, movePoint, movePolyline, type Transform } from '../geometry/transform.ts';
import { ahead } from '../geometry/vector.ts';
import { lengthOfLine, sizeOfLine } from '../model/piece/size.ts';
import { foldMirroring } from '../model/piece/whole.ts';
import type { Grain, InnerLine, Mark, Notch, PieceShape } from '../model/piece/piece.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import type { DrawnPart, PartKind, PieceDrawing } from './drawing-data.ts';
import { circlePath, edgePath, pointData, polylinePath } from '../formats/svg-path.ts';
import { lineStyles } from './style.ts';
import { keptFor } from '../table/per-display.ts';
import { outlinePlace, statementPlace } from './places.ts';

/** A drawing with the places that its parts refer to. */
export interface SourcedDrawing {
  readonly drawing: PieceDrawing;
  readonly sources: readonly Place[];
}

/** Draws a piece; the same shape gives the very same drawing again, so that an edit draws only what it changes. */
export const drawPiece: (shape: PieceShape, display: Display) => SourcedDrawing = keptFor(draw);

// Sizes of what only points something out, in millimetres (invented, to be seen at a third of true size).
const notchDepth = 4;
const notchHalf = 2.5;
const markArm = 3.5;
const drillRadius = 1.5;
const arrowHead = 4;

interface NewPart extends Omit<DrawnPart, 'place' | 'twin' | 'label'> {
  readonly twin?: string;
  readonly label?: DrawnPart['label'];
}

function draw(shape: PieceShape, display: Display): SourcedDrawing {
  const parts: DrawnPart[] = [];
  const sources: Place[] = [];
  const add = (part: NewPart, place: Place): void => {
    let index = sources.findIndex((one) => one.chunk === place.chunk && one.start === place.start && one.end === place.end);
    if (index < 0) index = sources.push(place) - 1;
    parts.push({ ...part, twin: part.twin ?? '', label: part.label ?? null, place: index });
  };
  const show = (length: number | Rational): string => showLength(typeof length === 'number' ? measured(length) : length, display);
  const mirror = foldMirroring(shape);
  const outline = outlinePlace(shape);
  const placeOfEdge = (name: string): Place => statementPlace(shape.edgePlaces.get(name) ?? outline);
  const twinEdge = (edge: Edge): string => (mirror === undefined ? '' : edgePath(moveEdge(mirror, edge)));

  for (const line of shape.lines) add(linePart(shape, line, mirror, show), statementPlace(line.place));
  for (const edge of shape.stitching.edges) {
    const allowance = shape.allowances.get(edge.name)?.size;
    // Where nothing is allowed for, both lines are one, and the cutting line says it.
    if (edge.name === shape.fold || allowance === undefined || allowance.n === 0n) continue;
    add({ kind: 'stitching', name: edge.name, detail: `${show(edgeLength(edge))} long`, path: edgePath(edge), twin: twinEdge(edge) }, placeOfEdge(edge.name));
  }
  for (const edge of shape.cutting.edges) {
    if (edge.name === shape.fold) continue;
    const allowance = shape.allowances.get(edge.name)?.size;
    const detail = [`${show(edgeLength(edge))} long`, allowance === undefined || allowance.n === 0n ? 'no allowance' : `allowance ${show(allowance)}`].join(', ');
    add({ kind: 'cutting', name: edge.name, detail, path: edgePath(edge), twin: twinEdge(edge) }, placeOfEdge(edge.name));
  }
  const fold = shape.cutting.edges.find((edge) => edge.name === shape.fold);
  if (fold !== undefined) add({ kind: 'fold', name: fold.name, detail: `${show(edgeLength(fold))} long, on the fold`, path: edgePath(fold) }, foldPlace(shape) ?? placeOfEdge(fold.name));
  const polygon = flattenOutline(shape.cutting).polygon;
  const grain = grainPart(shape, polygon);
  if (grain !== undefined) add(grain, grainPlace(shape) ?? shape.place);
  for (const notch of shape.notches) add(notchPart(notch, mirror), notch.place);
  for (const mark of shape.marks) add(markPart(mark, mirror, show), statementPlace(mark.place));

  const box = unionOf([bounds(shape.whole.cutting), bounds(shape.whole.stitching), ...shape.lines.map((line) => boundsOfPoints(line.points))]);
  return {
    sources,
    drawing: {
      box: { x: box.minX, y: box.minY, width: box.maxX - box.minX, height: box.maxY - box.minY },
      parts,
      description: describe(shape, parts),
      note: fold === undefined ? '' : `Half, on the fold along “${fold.name}”`,
    },
  };
}

function unionOf(boxes: readonly Bounds[]): Bounds {
  return boxes.reduce((all, box) => ({ minX: Math.min(all.minX, box.minX), minY: Math.min(all.minY, box.minY), maxX: Math.max(all.maxX, box.maxX), maxY: Math.max(all.maxY, box.maxY) }));
}

// ------------------------------------------------------------------------------------------------ parts

function linePart(shape: PieceShape, line: InnerLine, mirror: Transform | undefined, show: (length: Rational) => string): NewPart {
  const { width, height } = sizeOfLine(shape, line);
  return {
    kind: line.use,
    name: line.name,
    detail: line.closed ? `${show(width)} × ${show(height)}` : `${show(lengthOfLine(shape, line))} long`,
    path: polylinePath(line.points, line.closed),
    twin: mirror === undefined ? '' : polylinePath(movePolyline(mirror, line.points), line.closed),
    label: labelOf(line),
  };
}

/** A closed line has its name where it comes nearest to its upper left, an open one where it begins at the left or the top. */
function labelOf(line: InnerLine): NonNullable<DrawnPart['label']> {
  const [first = { x: 0, y: 0 }] = line.points;
  if (line.closed) return line.points.reduce((best, one) => (one.y - one.x > best.y - best.x ? one : best), first);
  const last = line.points.at(-1) ?? first;
  const upright = Math.abs(last.x - first.x) < Math.abs(last.y - first.y);
  const at = upright ? (first.y > last.y ? first : last) : first.x < last.x ? first : last;
  return at;
}

function notchPart(notch: Notch, mirror: Transform | undefined): NewPart {
  const along = { x: -notch.inward.y, y: notch.inward.x };
  const corners = [ahead(notch.point, along, notchHalf), ahead(notch.point, along, -notchHalf), ahead(notch.point, notch.inward, notchDepth)];
  return {
    kind: 'notch', name: `notch on ${notch.edge}`, detail: '',
    path: polylinePath(corners, true),
    twin: mirror === undefined ? '' : polylinePath(movePolyline(mirror, corners), true),
  };
}

function markPart(mark: Mark, mirror: Transform | undefined, show: (length: Rational) => string): NewPart {
  const snapText = mark.snap === undefined ? '' : mark.snap.d === 1n ? `${mark.snap.toFraction()} mm` : show(mark.snap);
  return {
    kind: mark.use,
    name: mark.name,
    detail: snapText === '' ? '' : `for a snap ${snapText} across`,
    path: markPath(mark, mark.point),
    twin: mirror === undefined ? '' : markPath(mark, movePoint(mirror, mark.point)),
    label: { x: mark.point.x + Math.max(markArm, (mark.snap?.valueOf() ?? 0) / 2), y: mark.point.y },
  };
}

function markPath(mark: Mark, at: Point): string {
  const arm = mark.use === 'drill' ? drillRadius / 2 : markArm;
  const cross = `M${pointData({ x: at.x - arm, y: at.y })}L${pointData({ x: at.x + arm, y: at.y })}M${pointData({ x: at.x, y: at.y - arm })}L${pointData({ x: at.x, y: at.y + arm })}`;
  const radius = mark.use === 'drill' ? drillRadius : mark.snap === undefined ? undefined : mark.snap.valueOf() / 2;
  return radius === undefined ? cross : cross + circlePath(at, radius);
}

// ------------------------------------------------------------------------------------------------ grain

function grainPart(shape: PieceShape, polygon: Polygon): NewPart | undefined {
  const { angle, given, orAcross } = shape.grain;
  if (angle === undefined) return undefined;
  const arrows = [grainArrow(polygon, angle, shape.thisWayUp), ...(orAcross ? [grainArrow(polygon, angle + 90, false)] : [])];
  return {
    kind: 'grain',
    name: 'grain',
    detail: `${grainWords(shape.grain)}${given ? '' : ', as is usual where the spec doesn’t say'}${shape.thisWayUp ? ', this way up' : ''}`,
    path: arrows.join(''),
  };
}

export function grainWords({ angle, orAcross }: Grain): string {
  if (angle === undefined) return 'grain any way';
  const way = angle === 0 ? 'up' : angle === 90 ? 'across' : angle === 45 ? 'on the bias' : `at ${angle}°`;
  return `grain ${way}${orAcross ? ' or across' : ''}`;
}

/** An arrow along the grain, put where it fits inside the piece; pointing one way only where that matters. */
function grainArrow(polygon: Polygon, angle: number, oneWay: boolean): string {
  const box = boundsOfPoints(polygon);
  const radians = (angle * Math.PI) / 180;
  const way = { x: -Math.sin(radians), y: Math.cos(radians) };
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  const room = Math.min(width / Math.max(1e-6, Math.abs(way.x)), height / Math.max(1e-6, Math.abs(way.y)));
  for (const share of [0.3, 0.2, 0.1]) {
    for (const [x, y] of [[0.75, 0.4], [0.25, 0.4], [0.5, 0.5], [0.85, 0.5], [0.15, 0.5]] as const) {
      const middle = { x: box.minX + width * x, y: box.minY + height * y };
      const ends = [ahead(middle, way, -room * share), ahead(middle, way, room * share)] as const;
      if (ends.every((end) => pointInside(end, polygon))) return arrowPath(ends[0], ends[1], way, oneWay);
    }
  }
  const middle = { x: box.minX + width / 2, y: box.minY + height / 2 };
  return arrowPath(ahead(middle, way, -room * 0.1), ahead(middle, way, room * 0.1), way, oneWay);
}

function arrowPath(tail: Point, tip: Point, way: Point, oneWay: boolean): string {
  const side = { x: -way.y, y: way.x };
  const head = (at: Point, sign: 1 | -1): string => {
    const back = ahead(at, way, -sign * arrowHead);
    return `M${pointData(ahead(back, side, arrowHead / 2))}L${pointData(at)}L${pointData(ahead(back, side, -arrowHead / 2))}`;
  };
  return `M${pointData(tail)}L${pointData(tip)}${head(tip, 1)}${oneWay ? '' : head(tail, -1)}`;
}

// ------------------------------------------------------------------------------------------------ places and words

function ownStatement(shape: PieceShape, kind: 'on fold' | 'grain'): Place | undefined {
  const { tree } = shape.declaration;
  const statement = tree.kind === 'piece' ? tree.body.statements.find((one) => one.kind === kind) : undefined;
  return statement && { chunk: shape.declaration, start: statement.start, end: statement.end };
}
const foldPlace = (shape: PieceShape): Place | undefined => ownStatement(shape, 'on fold');
const grainPlace = (shape: PieceShape): Place | undefined => ownStatement(shape, 'grain');

function describe(shape: PieceShape, parts: readonly DrawnPart[]): string {
  const names = (kind: PartKind): string => parts.filter((part) => part.kind === kind).map((part) => part.name).join(', ');
  const count = parts.filter((part) => part.kind === 'notch').length;
  const inner = (['line', 'placement', 'foldline', 'window', 'mark', 'drill'] as const)
    .filter((kind) => names(kind) !== '')
    .map((kind) => `${lineStyles[kind].words.toLowerCase()} ${names(kind)}`);
  return [
    `Drawing of ${shape.title}`,
    shape.fold === undefined ? '' : `half on the fold along ${shape.fold}`,
    `edges ${shape.drawn.edges.map((edge) => edge.name).join(', ')}`,
    ...inner,
    count === 0 ? '' : count === 1 ? '1 notch' : `${count} notches`,
    grainWords(shape.grain),
  ].filter((words) => words !== '').join('; ');
}
