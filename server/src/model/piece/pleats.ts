import { pointInside } from '../../geometry/inside.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import { edgeLength, pointAlong } from '../../geometry/measure.ts';
import { nearestAlong } from '../../geometry/nearest.ts';
import type { Edge, Outline, Point, Polygon, Polyline } from '../../geometry/shape.ts';
import { ahead, between, minus, turned, unit } from '../../geometry/vector.ts';
import type { PleatStatement } from '../../syntax/tree.ts';
import { positiveLength } from '../formulas/evaluate.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';
import { titleText } from '../titles.ts';
import { hasEdge } from './allowances.ts';
import { alone, placeAlong } from './darts.ts';
import { reportOffEdge } from './off-edge.ts';
import type { InnerLine, PleatFact } from './piece.ts';
import { polygonOf } from './polygons.ts';

/** How far into the piece the lines of a pleat that isn't sewn down are drawn, in millimetres: the longest of them that there is room for (invented). */
const drawnLengths = [38.1, 12.7, 4] as const;
const [, , shortest] = drawnLengths;

/** A pleat as written: its fold on the one side, where that is laid on the other, and an arrow between. */
export function drawPleat(scope: Scope, statement: PleatStatement, stitching: Outline, fold: string | undefined, earlier: readonly InnerLine[]): InnerLine | undefined {
  const edges = stitching.edges.filter(({ name }) => name !== fold);
  if (!hasEdge(scope, statement.edge, edges.map(({ name }) => name))) return undefined;
  const edge = edges.find(({ name }) => name === statement.edge.text);
  const depth = positiveLength(scope, statement.depth, 'A pleat')?.amount.valueOf();
  const stitched = statement.stitched && positiveLength(scope, statement.stitched, 'A tuck')?.amount.valueOf();
  const at = edge && placeAlong(scope, statement, edge);
  if (edge === undefined || depth === undefined || at === undefined || (statement.stitched !== undefined && stitched === undefined)) return undefined;
  if (at - depth < -slack || at + depth > edgeLength(edge) + slack) {
    reportOffEdge(scope, statement.at, edge, { what: 'pleat', name: statement.name.text, reach: depth });
    return undefined;
  }
  // Outlines run the other way along edges that are measured from their end.
  const isAhead = (statement.towards === 'end') === (edge.measuredFrom === 'start');
  const polygon = polygonOf(stitching);
  const drawing = pleatInside(edge, at, { depth, stitched }, isAhead, polygon);
  if (drawing === undefined) {
    const reaching = pleatOn(edge, at, depth, isAhead, stitched ?? shortest)?.find((point, index) => index > 0 && !pointInside(point, polygon));
    report(scope, 'outside-piece', statement.name, { what: `pleat “${statement.name.text}”`, by: lengthText(scope, reaching === undefined ? 0 : distancePointToBoundary(reaching, polygon)) });
    return undefined;
  }
  const line: InnerLine = { name: statement.name.text, title: titleText(statement.title, statement.name), use: 'line', place: placeIn(scope, statement.name), points: drawing, closed: false, rectangle: undefined, edge: edge.name, pleat: { depth, stitched } };
  return alone(scope, statement, line, stitching, earlier);
}

/** Rounding errors, in millimetres. */
const slack = 1e-6;

/** The lines of a pleat as long as there is room for, or as it is sewn down; undefined where they reach out of the piece. */
function pleatInside(edge: Edge, at: number, { depth, stitched }: PleatFact, isAhead: boolean, polygon: Polygon): readonly Point[] | undefined {
  const drawings = (stitched === undefined ? drawnLengths : [stitched]).map((long) => pleatOn(edge, at, depth, isAhead, long));
  return drawings.find((points) => points?.every((point, index) => index === 0 || index === points.length - 1 || pointInside(point, polygon)));
}

/** The same pleat on another stitching line of its edge; undefined where it has no room there. */
export function pleatMoved({ points, pleat }: InnerLine, edge: Edge, stitching: Polygon): Polyline | undefined {
  const [fold, laid] = [points[0], points.at(-1)];
  if (fold === undefined || laid === undefined || pleat === undefined) return undefined;
  const at = nearestAlong(edge, between(fold, laid, 0.5));
  const isOnEdge = at - pleat.depth >= -slack && at + pleat.depth <= edgeLength(edge) + slack;
  return isOnEdge ? pleatInside(edge, at, pleat, nearestAlong(edge, fold) < nearestAlong(edge, laid), stitching) : undefined;
}

/**
 * From the edge along the fold, across to where it is laid, with the head of an arrow there, and back to the edge.
 *
 * @param isAhead whether the fold is laid the way that the outline runs
 */
function pleatOn(edge: Edge, middle: number, depth: number, isAhead: boolean, long: number): readonly Point[] | undefined {
  const fromStart: Edge = { ...edge, measuredFrom: 'start' };
  const length = edgeLength(edge);
  const [first, last] = [middle - depth, middle + depth].map((along) => pointAlong(fromStart, Math.min(length, Math.max(0, along))));
  if (first === undefined || last === undefined) return undefined;
  const inwards = ({ point, tangent }: typeof first): Point => ahead(point, { x: -tangent.y, y: tangent.x }, long);
  const [fold, laid] = isAhead ? [first, last] : [last, first];
  const [from, to] = [inwards(fold), inwards(laid)];
  const back = unit(minus(from, to));
  const head = Math.min(3, depth / 2);
  const barb = (degrees: number): Point => ahead(to, turned(back, (degrees * Math.PI) / 180), head);
  return [fold.point, from, to, barb(30), to, barb(-30), to, laid.point];
}
