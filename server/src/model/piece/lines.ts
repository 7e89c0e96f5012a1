import { flattenEdge } from '../../geometry/flatten.ts';
import { contains, containsPolyline } from '../../geometry/inside.ts';
import { bounds, boundsOfPoints, edgeLength, pointAlong, type Bounds } from '../../geometry/measure.ts';
import { offsetOutline } from '../../geometry/offset.ts';
import { pointInside } from '../../geometry/inside.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import type { Outline, Point, Polygon, Polyline } from '../../geometry/shape.ts';
import type { Inset, LineStatement, MarkStatement, NotchStatement, Shape } from '../../syntax/tree.ts';
import { saysMiddle } from '../formulas/slips.ts';
import { allDefined, evaluate, evaluateAs, isTooFar, positiveLength } from '../formulas/evaluate.ts';
import { lengthText, placeIn, report, type Scope } from '../query/scope.ts';
import { exactValue } from '../formulas/value.ts';
import { titleText } from '../titles.ts';
import { hasEdge } from './allowances.ts';
import { reportOffEdge } from './off-edge.ts';
import { drawOpenPath, drawShape, pointOf } from './outline.ts';
import type { ExactSize, InnerLine, LineUse, Mark, Notch } from './piece.ts';
import { polygonOf } from './polygons.ts';

/** What a line is drawn in. */
export interface Ground {
  /** The outline as it is written, whose lower left is where positions count from. */
  readonly drawn: Outline;
  readonly cutting: Outline;
  readonly stitching: Outline;
  readonly fold: string | undefined;
  readonly rectangle: { readonly cutting: ExactSize; readonly stitching: ExactSize } | undefined;
}

interface DrawnLine {
  readonly points: Polyline;
  readonly closed: boolean;
  readonly rectangle: ExactSize | undefined;
  readonly across?: NonNullable<InnerLine['across']>;
}

export function drawLine(scope: Scope, statement: LineStatement, ground: Ground, cuttingPolygon: Polygon): InnerLine | undefined {
  const drawn = drawPoints(scope, statement.shape, ground);
  if (drawn === undefined) return undefined;
  if (statement.use === 'window' && !drawn.closed) {
    report(scope, 'window-open', statement.shape, {});
    return undefined;
  }
  reportOutside(scope, statement, drawn, cuttingPolygon);
  return { name: statement.name.text, title: titleText(statement.title, statement.name), use: statement.use, place: placeIn(scope, statement.name), ...drawn };
}

function reportOutside(scope: Scope, statement: LineStatement, drawn: DrawnLine, cutting: Polygon): void {
  if (fitsIn(cutting, drawn)) return;
  const by = Math.max(0, ...drawn.points.map((point) => (pointInside(point, cutting) ? 0 : distancePointToBoundary(point, cutting))));
  report(scope, 'outside-piece', statement.name, { what: `${useWords[statement.use]} “${statement.name.text}”`, by: by < 0.02 ? 'partly' : lengthText(scope, by) });
}

/** What a line is called by its use. */
export const useWords: Readonly<Record<LineUse, string>> = { line: 'line', placement: 'placement line', foldline: 'fold line', window: 'window' };

/** Whether a line lies inside a cutting line, or on it. */
export const fitsIn = (cutting: Polygon, { points, closed }: Pick<InnerLine, 'points' | 'closed'>): boolean => (closed ? contains(cutting, points, 0.02) : containsPolyline(cutting, points, 0.02));

function drawPoints(scope: Scope, shape: Shape, ground: Ground): DrawnLine | undefined {
  switch (shape.kind) {
    case 'inset':
      return drawInset(scope, shape, ground);
    case 'across': {
      const at = evaluateAs(scope, shape.at, 'length');
      if (at === undefined) return undefined;
      const points = acrossAt(polygonOf(ground.cutting), shape.way, at.amount.valueOf());
      if (points === undefined) {
        const box = bounds(ground.cutting);
        const value = at.amount.valueOf();
        const by = shape.way === 'level' ? Math.max(box.minY - value, value - box.maxY) : Math.max(box.minX - value, value - box.maxX);
        report(scope, 'outside-piece', shape.at, { what: 'line', by: lengthText(scope, Math.abs(by)) });
        return undefined;
      }
      return { points, closed: false, rectangle: undefined, across: { way: shape.way, at: at.amount.valueOf() } };
    }
    case 'open': {
      const points = allDefined(shape.points.map((position) => pointOf(scope, position)));
      return points && { points, closed: false, rectangle: undefined };
    }
    case 'path':
      if (!shape.steps.statements.some((step) => step.kind === 'close step')) {
        const edge = drawOpenPath(scope, shape);
        return edge && { points: flattenEdge(edge), closed: false, rectangle: undefined };
      }
      break;
    default:
  }
  const box = bounds(ground.drawn);
  const drawn = drawShape(scope, shape, [], { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2 });
  return drawn && { points: polygonOf(drawn.outline), closed: true, rectangle: drawn.rectangle };
}

function drawInset(scope: Scope, shape: Inset, ground: Ground): DrawnLine | undefined {
  const distance = evaluateAs(scope, shape.distance, 'length');
  const edges = ground.cutting.edges.map((edge) => edge.name);
  const exceptions = new Map<string, number>();
  for (const exception of shape.except) {
    const own = evaluateAs(scope, exception.distance, 'length');
    if (hasEdge(scope, exception.edge, edges) && own !== undefined && !isTooFar(scope, own, exception.distance, 'an inset')) exceptions.set(exception.edge.text, own.amount.valueOf());
  }
  if (distance === undefined || isTooFar(scope, distance, shape.distance, 'an inset')) return undefined;
  if (distance.amount.compare(0) < 0 || (distance.amount.compare(0) === 0 && exceptions.size === 0)) {
    report(scope, 'inset-not-positive', shape.distance, { value: exactValue(distance, scope.settings.display) });
    return undefined;
  }
  const from = shape.of ?? 'cutting';
  const by = distance.amount.valueOf();
  const moved = offsetOutline(ground[from], (edge) => (edge === ground.fold ? 0 : -(exceptions.get(edge) ?? by)), () => ({ kind: 'mitre', limit: 4 }));
  if (moved.kind !== 'ok') {
    report(scope, 'inset-vanishes', shape, { value: lengthText(scope, distance.amount) });
    return undefined;
  }
  if (moved.others.length > 0) report(scope, 'inset-parts', shape, partsText(scope, moved.outline, moved.others));
  const exact = exceptions.size === 0 ? ground.rectangle?.[from] : undefined;
  return {
    points: polygonOf(moved.outline),
    closed: true,
    rectangle: exact && { width: exact.width.sub(distance.amount.mul(2)), height: exact.height.sub(distance.amount.mul(2)), exact: exact.exact && distance.exact },
  };
}

/** What is told of an outline that has fallen into parts: how many they are, the size of the one that is used, and of those that are not. */
export function partsText(scope: Scope, used: Outline, others: readonly Polygon[]): { readonly count: number; readonly used: string; readonly lost: readonly string[] } {
  const size = ({ minX, minY, maxX, maxY }: Bounds): string => `${lengthText(scope, maxX - minX)} × ${lengthText(scope, maxY - minY)}`;
  const lost = others.map((part) => {
    const box = boundsOfPoints(part);
    return `${size(box)} at ${lengthText(scope, box.minX)}, ${lengthText(scope, box.minY)}`;
  });
  return { count: others.length + 1, used: size(bounds(used)), lost };
}

/** The stretch of a level or upright straight line from where it enters the polygon to where it leaves it last. */
export function acrossAt(polygon: Polygon, way: 'level' | 'upright', at: number): Polyline | undefined {
  const [along, over] = way === 'level' ? (['x', 'y'] as const) : (['y', 'x'] as const);
  const met: number[] = [];
  let a = polygon.at(-1);
  for (const b of polygon) {
    if (a !== undefined && a[over] <= at !== b[over] <= at) met.push(a[along] + ((at - a[over]) / (b[over] - a[over])) * (b[along] - a[along]));
    a = b;
  }
  if (met.length < 2) return undefined;
  const point = (value: number): Point => (way === 'level' ? { x: value, y: at } : { x: at, y: value });
  return [point(Math.min(...met)), point(Math.max(...met))];
}

/** A notch lies on the cutting line, square out from its place on the line that the piece is drawn to. */
export function drawNotch(scope: Scope, statement: NotchStatement, drawn: Outline, outwards: (edge: string) => number): Notch | undefined {
  if (!hasEdge(scope, statement.edge, drawn.edges.map((edge) => edge.name))) return undefined;
  const edge = drawn.edges.find((one) => one.name === statement.edge.text);
  if (saysMiddle(scope, statement.at)) return undefined;
  const value = edge && evaluate(scope, statement.at);
  if (edge === undefined || value === undefined) return undefined;
  const length = edgeLength(edge);
  // A percentage or a ratio is a share of the edge; anything else a length along it.
  const along = value.dimension === 'number' ? value.amount.valueOf() * length : evaluateAs(scope, statement.at, 'length')?.amount.valueOf();
  if (along === undefined) return undefined;
  const found = pointAlong(edge, statement.from === 'end' ? length - along : along);
  if (found === undefined) {
    reportOffEdge(scope, statement.at, edge, { what: 'notch' });
    return undefined;
  }
  const inward = { x: -found.tangent.y, y: found.tangent.x };
  const out = outwards(edge.name);
  return { edge: edge.name, place: placeIn(scope, statement), inward, point: { x: found.point.x - inward.x * out, y: found.point.y - inward.y * out } };
}

export function drawMark(scope: Scope, statement: MarkStatement, cutting: Polygon): Mark | undefined {
  const point = pointOf(scope, statement.at);
  const snap = statement.snap === undefined ? undefined : positiveLength(scope, statement.snap, 'A snap');
  if (point === undefined) return undefined;
  if (!pointInside(point, cutting)) {
    report(scope, 'outside-piece', statement.name, { what: `${statement.use === 'drill' ? 'drill hole' : 'mark'} “${statement.name.text}”`, by: lengthText(scope, distancePointToBoundary(point, cutting)) });
  }
  return { name: statement.name.text, title: titleText(statement.title, statement.name), use: statement.use, place: placeIn(scope, statement.name), point, snap: snap?.amount };
}
