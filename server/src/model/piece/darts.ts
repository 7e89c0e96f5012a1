import { truedOver, dartOn, type Dart } from '../../geometry/dart.ts';
import { pointInside } from '../../geometry/inside.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import { edgeLength, pointAlong } from '../../geometry/measure.ts';
import { nearestAlong } from '../../geometry/nearest.ts';
import type { Edge, Outline, Point, Polygon, Polyline } from '../../geometry/shape.ts';
import { truedOverPleat } from '../../geometry/pleat.ts';
import { between, distance, minus, unit } from '../../geometry/vector.ts';
import type { DartStatement, PleatStatement } from '../../syntax/tree.ts';
import { evaluate, evaluateAs, positiveLength } from '../formulas/evaluate.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';
import { titleText } from '../titles.ts';
import { hasEdge } from './allowances.ts';
import { reportOffEdge } from './off-edge.ts';
import type { InnerLine, PieceShape } from './piece.ts';
import { polygonOf } from './polygons.ts';

/** Whether a line is a dart or a pleat: both take part of the edge that they are on. */
export const takesFromEdge = ({ isDart, pleat }: InnerLine): boolean => isDart === true || pleat !== undefined;

/** What a dart or a pleat takes of an edge's stitching line, in millimetres from where the outline reaches the edge. */
export interface DartOnEdge {
  readonly line: InnerLine;
  readonly from: number;
  readonly to: number;
}

/** The darts and pleats on an edge of a piece, opened out, in the order of the outline. */
export function dartsOn(piece: Pick<PieceShape, 'lines' | 'stitching'>, name: string): readonly DartOnEdge[] {
  const darts = piece.lines.filter(takesFromEdge);
  const drawn = name.replace(/_twin$/, '');
  const edge = darts.length === 0 ? undefined : piece.stitching.edges.find((one) => one.name === drawn);
  if (edge === undefined) return [];
  const length = edgeLength(edge);
  return darts.flatMap((line) => {
    const ends = [line.points[0], line.points.at(-1)].flatMap((point) => placeOn(edge, point) ?? []);
    if (ends.length < 2) return [];
    const [from, to] = [Math.min(...ends), Math.max(...ends)];
    // The half that isn't drawn is the mirror image of the one that is.
    return [drawn === name ? { line, from, to } : { line, from: length - to, to: length - from }];
  }).sort((a, b) => a.from - b.from);
}

/** Whether a dart or a pleat of an edge couldn't be read or drawn, of which that is told: nobody knows how long the edge is to be. */
export function missesDart({ declaration: { tree }, lines }: Pick<PieceShape, 'declaration' | 'lines'>, edge: string): boolean {
  const drawn = edge.replace(/_twin$/, '');
  return tree.kind === 'piece' && tree.body.statements.some((one) =>
    ((one.kind === 'dart' || one.kind === 'pleat') && one.edge.text === drawn && !lines.some(({ name }) => name === one.name.text)) || (one.kind === 'broken' && /^(?:dart|pleat)\s/.test(one.text)));
}

/** Nearer than this to an edge, in millimetres, is on it. */
const onEdge = 0.05;

function placeOn(edge: Edge, point: Point | undefined): number | undefined {
  const along = point && nearestAlong(edge, point);
  const there = along === undefined ? undefined : pointAlong({ ...edge, measuredFrom: 'start' }, along)?.point;
  return point !== undefined && there !== undefined && distance(there, point) <= onEdge ? along : undefined;
}

/** What darts and pleats take of the length of an edge. */
export const takenByDarts = (piece: Pick<PieceShape, 'lines' | 'stitching'>, name: string): number => dartsOn(piece, name).reduce((sum, { from, to }) => sum + to - from, 0);

/** A dart as written: its legs, which are as long by their making. */
export function drawDart(scope: Scope, statement: DartStatement, stitching: Outline, fold: string | undefined, earlier: readonly InnerLine[]): InnerLine | undefined {
  const edges = stitching.edges.filter(({ name }) => name !== fold);
  if (!hasEdge(scope, statement.edge, edges.map(({ name }) => name))) return undefined;
  const edge = edges.find(({ name }) => name === statement.edge.text);
  const width = positiveLength(scope, statement.width, 'A dart');
  const depth = positiveLength(scope, statement.depth, 'A dart');
  const at = edge && placeAlong(scope, statement, edge);
  if (edge === undefined || width === undefined || depth === undefined || at === undefined) return undefined;
  const dart = dartOn(edge, at, width.amount.valueOf(), depth.amount.valueOf());
  if (dart === undefined) {
    reportOffEdge(scope, statement.at, edge, { what: 'dart', name: statement.name.text, reach: width.amount.valueOf() / 2 });
    return undefined;
  }
  const polygon = polygonOf(stitching);
  if (!pointInside(dart[1], polygon)) {
    report(scope, 'outside-piece', statement.name, { what: `dart “${statement.name.text}”`, by: lengthText(scope, distancePointToBoundary(dart[1], polygon)) });
    return undefined;
  }
  const line: InnerLine = { name: statement.name.text, title: titleText(statement.title, statement.name), use: 'line', place: placeIn(scope, statement.name), points: dart, closed: false, rectangle: undefined, isDart: true, edge: edge.name };
  return alone(scope, statement, line, stitching, earlier);
}

/** The same dart on another stitching line of its edge; undefined where it has no room there. */
export function dartMoved({ points }: InnerLine, edge: Edge, stitching: Polygon): Polyline | undefined {
  const [first, tip, last] = points;
  if (first === undefined || tip === undefined || last === undefined) return undefined;
  const middle = between(first, last, 0.5);
  const dart = dartOn(edge, nearestAlong(edge, middle), distance(first, last), distance(middle, tip));
  return dart !== undefined && pointInside(dart[1], stitching) ? dart : undefined;
}

/** What is drawn on an edge, unless it overlaps what is there already, which is reported. */
export function alone(scope: Scope, { name, edge }: DartStatement | PleatStatement, line: InnerLine, stitching: Outline, earlier: readonly InnerLine[]): InnerLine | undefined {
  const other = overlapping(line, { stitching, lines: [...earlier, line] }, edge.text);
  if (other === undefined) return line;
  report(scope, 'darts-overlap', name, { dart: line.name, other: other.name, edge: edge.text }, { related: [{ place: other.place, message: 'The other.' }] });
  return undefined;
}

function overlapping(line: InnerLine, piece: Pick<PieceShape, 'lines' | 'stitching'>, edge: string): InnerLine | undefined {
  const darts = dartsOn(piece, edge);
  const own = darts.find((one) => one.line === line);
  return darts.find((one) => own !== undefined && one !== own && Math.min(one.to, own.to) - Math.max(one.from, own.from) > onEdge)?.line;
}

/** Where its middle lies, from where the outline reaches the edge. */
export function placeAlong(scope: Scope, { at }: DartStatement | PleatStatement, edge: Edge): number | undefined {
  const length = edgeLength(edge);
  const value = evaluate(scope, at);
  const along = value?.dimension === 'number' ? value.amount.valueOf() * length : value && evaluateAs(scope, at, 'length')?.amount.valueOf();
  return along === undefined || edge.measuredFrom === 'start' ? along : length - along;
}

/** A cutting line, trued over all darts and pleats of a piece that is drawn to its stitching line. */
export function truedOutline(cutting: Outline, piece: Pick<PieceShape, 'lines' | 'stitching'>): Outline {
  if (!piece.lines.some(takesFromEdge)) return cutting;
  const edges = cutting.edges.map((edge) => dartsOn(piece, edge.name).reduce((trued, { line }) => overLine(trued, line, edge) ?? trued, edge));
  return edges.every((edge, index) => edge === cutting.edges[index]) ? cutting : { edges };
}

function overLine(trued: Edge, { points, pleat }: InnerLine, edge: Edge): Edge | undefined {
  if (pleat === undefined) return truedOver(trued, inOrder(edge, points));
  const [fold, inFold, inLaid, last] = [points[0], points[1], points[2], points.at(-1)];
  if (fold === undefined || inFold === undefined || inLaid === undefined || last === undefined) return undefined;
  const isAhead = nearestAlong(edge, fold) <= nearestAlong(edge, last);
  return truedOverPleat(trued, { at: fold, inwards: unit(minus(inFold, fold)) }, { at: last, inwards: unit(minus(inLaid, last)) }, isAhead);
}

/** A mirrored copy has its legs the other way round. */
function inOrder(edge: Edge, [a, tip, b]: readonly Point[]): Dart {
  const [first, top, last] = [a, tip, b].map((point) => point ?? { x: 0, y: 0 }) as [Point, Point, Point];
  return nearestAlong(edge, first) <= nearestAlong(edge, last) ? [first, top, last] : [last, top, first];
}
