import { lineMeeting } from './crossing.ts';
import { flattenEdge } from './flatten.ts';
import { edgeLength, pointAlong } from './measure.ts';
import type { Edge, Point } from './shape.ts';
import { between, distance, minus, plus, times, unit } from './vector.ts';

/** A dart: where its first leg leaves the stitching line as the outline runs, its tip, and where the other leg comes back. Both legs are as long. */
export type Dart = readonly [first: Point, tip: Point, last: Point];

/**
 * A dart with its middle so far along an edge from where the outline reaches it; its tip lies square to what joins the ends of
 * its legs. Undefined where it doesn't lie on the edge.
 */
export function dartOn(edge: Edge, middle: number, width: number, depth: number): Dart | undefined {
  const fromStart: Edge = { ...edge, measuredFrom: 'start' };
  const [first, last] = [middle - width / 2, middle + width / 2].map((along) => (along < 0 || along > edgeLength(edge) ? undefined : pointAlong(fromStart, along)?.point));
  if (first === undefined || last === undefined || distance(first, last) === 0) return undefined;
  const across = unit(minus(last, first));
  return [first, plus(between(first, last, 0.5), times({ x: -across.y, y: across.x }, depth)), last];
}

/**
 * A cutting edge trued over a dart on its stitching line: once the dart is closed and its cloth laid to one side, that is cut
 * as what it lies on. So over each half it is the mirror image, in the leg, of the edge beside it; both meet in a peak.
 * Undefined where the legs carried on don't meet the edge, or the halves one another.
 */
export function truedOver(edge: Edge, [first, tip, last]: Dart): Edge | undefined {
  const points = flattenEdge(edge);
  const out = crossing(points, tip, first);
  const back = crossing(points, tip, last);
  if (out === undefined || back === undefined || out.index > back.index) return undefined;
  // Each half runs from the dart's leg towards the middle.
  const right = [out.point, ...points.slice(0, out.index + 1).reverse().map((point) => mirrored(point, tip, first))];
  const left = [back.point, ...points.slice(back.index + 1).map((point) => mirrored(point, tip, last))];
  const peak = firstMeeting(right, left);
  if (peak === undefined) return undefined;
  const [start, ...rest] = [...points.slice(0, out.index + 1), ...right.slice(0, peak.first + 1), peak.point, ...left.slice(0, peak.second + 1).reverse(), ...points.slice(back.index + 1)];
  return start === undefined ? undefined : { ...edge, start, segments: rest.filter((point, index) => distance(point, rest[index - 1] ?? start) > 1e-9).map((to) => ({ kind: 'line', to })) };
}

/** Where two runs of points first meet, as the first of them goes. */
function firstMeeting(one: readonly Point[], other: readonly Point[]): { readonly first: number; readonly second: number; readonly point: Point } | undefined {
  for (let first = 0; first + 1 < one.length; first++) {
    for (let second = 0; second + 1 < other.length; second++) {
      const [a, b, c, d] = [one[first], one[first + 1], other[second], other[second + 1]];
      const point = a && b && c && d && lineMeeting(a, b, c, d);
      if (point !== undefined) return { first, second, point };
    }
  }
  return undefined;
}

/** Where a line from a dart's tip through the end of a leg meets a run of points. */
export function crossing(points: readonly Point[], tip: Point, end: Point): { readonly index: number; readonly point: Point } | undefined {
  // No allowance is as wide as a hundred times the leg.
  const beyond = plus(tip, times(minus(end, tip), 100));
  for (let index = 0; index + 1 < points.length; index++) {
    const [a, b] = [points[index], points[index + 1]];
    const point = a && b && lineMeeting(end, beyond, a, b);
    if (point !== undefined) return { index, point };
  }
  return undefined;
}

/** A point's mirror image in a line. */
export function mirrored(point: Point, a: Point, b: Point): Point {
  const along = unit(minus(b, a));
  const off = minus(point, a);
  const foot = plus(a, times(along, off.x * along.x + off.y * along.y));
  return minus(times(foot, 2), point);
}
