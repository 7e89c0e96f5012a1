import { flattenEdge } from '../../geometry/flatten.ts';
import { edgeLength, pointAlong } from '../../geometry/measure.ts';
import type { Edge, Outline, Point, Polyline } from '../../geometry/shape.ts';
import { cross, distance, minus } from '../../geometry/vector.ts';
import { nearestName } from '../../problems/near.ts';
import type { NotchMeetingStatement } from '../../syntax/tree.ts';
import { placeIn, report, type Scope } from '../query/scope.ts';
import { hasEdge } from './allowances.ts';
import type { InnerLine, Notch } from './piece.ts';

/**
 * Notches where a line of the piece meets one of its edges, as often as it does. An open line that stops short is carried
 * straight on, as where a piece is parted along it.
 */
export function notchesMeeting(scope: Scope, statement: NotchMeetingStatement, lines: readonly InnerLine[], drawn: Outline, outwards: (edge: string) => number): readonly Notch[] {
  const isEdge = hasEdge(scope, statement.edge, drawn.edges.map((edge) => edge.name));
  const line = lines.find((one) => one.name === statement.line.text);
  if (line === undefined) {
    const known = lines.map((one) => one.name);
    const piece = scope.declaration.tree.kind === 'piece' ? scope.declaration.tree.name.text : '';
    report(scope, 'unknown-part', statement.line, { owner: piece, name: statement.line.text, near: nearestName(statement.line.text, known), known });
  }
  const edge = isEdge ? drawn.edges.find((one) => one.name === statement.edge.text) : undefined;
  if (line === undefined || edge === undefined) return [];
  const places = placesMet(edge, line.closed ? [...line.points, ...line.points.slice(0, 1)] : carriedOn(line.points));
  if (places.length === 0) report(scope, 'line-misses-edge', statement.line, { line: line.name, edge: edge.name });
  const out = outwards(edge.name);
  return places.flatMap((along) => {
    const found = pointAlong(edge, along);
    if (found === undefined) return [];
    const inward = { x: -found.tangent.y, y: found.tangent.x };
    return [{ edge: edge.name, place: placeIn(scope, statement), inward, point: { x: found.point.x - inward.x * out, y: found.point.y - inward.y * out } }];
  });
}

/** Longer than any piece, in millimetres. */
const far = 1e5;

function carriedOn(points: Polyline): Polyline {
  const [first, second] = points;
  const [before, last] = points.slice(-2);
  if (first === undefined || second === undefined || before === undefined || last === undefined) return points;
  const beyond = (from: Point, to: Point): Point => {
    const length = distance(from, to) || 1;
    return { x: to.x + ((to.x - from.x) / length) * far, y: to.y + ((to.y - from.y) / length) * far };
  };
  return [beyond(second, first), ...points, beyond(before, last)];
}

/** How far along an edge, from the end that it is measured from, a run of lines meets it. */
function placesMet(edge: Edge, line: Polyline): readonly number[] {
  const points = flattenEdge(edge);
  const whole = points.reduce((sum, point, index) => sum + (index === 0 ? 0 : distance(points[index - 1] ?? point, point)), 0);
  const length = edgeLength(edge);
  const found: number[] = [];
  let behind = 0;
  points.forEach((to, index) => {
    const from = points[index - 1];
    if (from === undefined) return;
    const side = distance(from, to);
    line.forEach((b, at) => {
      const a = line[at - 1];
      const share = a && crossing(from, to, a, b);
      if (share === undefined) return;
      // What flattening takes from a curve's length is spread evenly over it.
      const along = ((behind + share * side) / whole) * length;
      const measuredAlong = edge.measuredFrom === 'start' ? along : length - along;
      if (!found.some((other) => Math.abs(other - measuredAlong) < 0.05)) found.push(measuredAlong);
    });
    behind += side;
  });
  return found.sort((a, b) => a - b);
}

/** How far along `from`–`to`, from 0 to 1, `a`–`b` meets it. */
function crossing(from: Point, to: Point, a: Point, b: Point): number | undefined {
  const [u, v, w] = [minus(to, from), minus(b, a), minus(a, from)];
  const denominator = cross(u, v);
  if (Math.abs(denominator) < 1e-12) return undefined;
  const s = cross(w, v) / denominator;
  const t = cross(w, u) / denominator;
  const slack = 1e-9;
  return s >= -slack && s <= 1 + slack && t >= -slack && t <= 1 + slack ? Math.min(1, Math.max(0, s)) : undefined;
}
