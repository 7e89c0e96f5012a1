import { cyclic } from './cyclic.ts';
import { itemAt, pairs } from './lists.ts';
import { edgeEnd, polylineEdge, stretches, withoutEmptySegments } from './edge.ts';
import { distancePointToBoundary } from './distance.ts';
import { FLATNESS, flattenOutline } from './flatten.ts';
import { pointInside } from './inside.ts';
import { boundsOfPoints } from './measure.ts';
import { meetings, pointOn, sliceSegment } from './segment.ts';
import type { Edge, Outline, Point, Polygon, Polyline } from './shape.ts';
import { ahead, between, distance, dot, minus, unit } from './vector.ts';

/** The part on one side of a cut, or why there is none: the cut does not go through, or leaves several parts. */
export type SplitResult =
  | { readonly kind: 'ok'; readonly outline: Outline }
  | { readonly kind: 'misses' }
  | { readonly kind: 'several_parts' };

/** A place on the outline. */
interface Place {
  readonly edge: number;
  readonly segment: number;
  readonly t: number;
}

/** Where the cut meets the outline; `along` is in mm from the cut's own start, negative before it. */
interface Crossing {
  readonly along: number;
  readonly point: Point;
  readonly place: Place;
}

/** Closer than this, in mm, is the same place. */
const SLACK = 1e-6;

/**
 * The part of the outline to one side of a cut, seen in the cut's direction. A
 * cut that ends inside runs straight on to the boundary. Edges keep their names
 * and curves; one left in two runs keeps its name on the run nearer the end it
 * is measured from, the other being `<name>_2`. The cut itself becomes the edge
 * `newEdge`, last, measured in the cut's direction.
 */
export function splitOutline(outline: Outline, cut: Polyline, side: 'left' | 'right', newEdge: string): SplitResult {
  const { polygon } = flattenOutline(outline);
  const line = cut.filter((p, i) => i === 0 || distance(p, itemAt(cut, i - 1)) > SLACK);
  const passages = passagesThrough(outline, polygon, line);
  const passage = passages[0];
  if (!passage) return { kind: 'misses' };
  if (passages.length > 1) return { kind: 'several_parts' };

  const [entry, exit] = passage;
  const middle = pointsBetween(line, entry.along, exit.along);
  const across: [Point, ...Point[]] =
    side === 'left' ? [entry.point, ...middle, exit.point] : [exit.point, ...middle.reverse(), entry.point];
  const runs =
    side === 'left' ? runBetween(outline, exit.place, entry.place) : runBetween(outline, entry.place, exit.place);
  return { kind: 'ok', outline: { edges: [...runs, polylineEdge(newEdge, across, side === 'left' ? 'start' : 'end')] } };
}

/** The stretches of the cut that run through the inside, each as the crossings it enters and leaves by. */
function passagesThrough(outline: Outline, polygon: Polygon, line: Polyline): readonly (readonly [Crossing, Crossing])[] {
  if (line.length < 2 || polygon.length < 2) return [];
  const all = crossings(outline, extended(line, polygon));
  const total = lengthOf(line);
  const startsInside = isWithin(itemAt(line, 0), polygon);
  const endsInside = isWithin(cyclic(line, -1), polygon);
  // A cut that ends on the boundary as flattened meets the curve itself a little further on.
  const nearestTo = (along: number, end: Point): number =>
    distancePointToBoundary(end, polygon) > 2 * FLATNESS ? along : all.reduce((best, one) => (Math.abs(one.along - along) < Math.abs(best - along) ? one.along : best), Infinity);
  // Past its own ends the cut matters only up to where it first comes out.
  const earliest = startsInside ? (all.findLast(({ along }) => along < 0)?.along ?? 0) : Math.min(0, nearestTo(0, itemAt(line, 0))) - SLACK;
  const latest = endsInside ? (all.find(({ along }) => along > total)?.along ?? total) : Math.max(total, nearestTo(total, cyclic(line, -1))) + SLACK;
  const met = all.filter(({ along }) => along >= earliest && along <= latest);
  return pairs(met).filter(([a, b]) => isWithin(pointAt(line, (a.along + b.along) / 2), polygon));
}

const isWithin = (p: Point, polygon: Polygon): boolean =>
  pointInside(p, polygon) && distancePointToBoundary(p, polygon) > SLACK;

/** The cut with both ends carried straight on beyond everything, and how far its start was moved. */
function extended(line: Polyline, polygon: Polygon): { readonly points: Polyline; readonly before: number } {
  const { minX, minY, maxX, maxY } = boundsOfPoints([...polygon, ...line]);
  const before = maxX - minX + (maxY - minY);
  const first = itemAt(line, 0);
  const last = cyclic(line, -1);
  const start = ahead(first, unit(minus(first, itemAt(line, 1))), before);
  const end = ahead(last, unit(minus(last, cyclic(line, -2))), before);
  return { points: [start, ...line.slice(1, -1), end], before };
}

function crossings(outline: Outline, cut: { readonly points: Polyline; readonly before: number }): Crossing[] {
  const found: Crossing[] = [];
  let along = -cut.before;
  for (let i = 1; i < cut.points.length; i++) {
    const from = itemAt(cut.points, i - 1);
    const to = itemAt(cut.points, i);
    const here = distance(from, to);
    const direction = unit(minus(to, from));
    outline.edges.forEach((edge, edgeIndex) =>
      stretches(edge).forEach(({ start, segment }, segmentIndex) => {
        for (const t of meetings(start, segment, from, direction)) {
          const point = pointOn(start, segment, t);
          const reached = dot(minus(point, from), direction);
          if (reached < -SLACK || reached > here + SLACK) continue;
          found.push({ along: along + reached, point, place: { edge: edgeIndex, segment: segmentIndex, t } });
        }
      }),
    );
    along += here;
  }
  found.sort((a, b) => a.along - b.along);
  return found.filter(({ along: at }, i) => i === 0 || at - itemAt(found, i - 1).along > SLACK);
}

const lengthOf = (line: Polyline): number =>
  line.reduce((sum, p, i) => sum + (i === 0 ? 0 : distance(itemAt(line, i - 1), p)), 0);

/** The point so far along the line, which runs straight on past both ends. */
function pointAt(line: Polyline, along: number): Point {
  let left = along;
  for (let i = 1; ; i++) {
    const from = itemAt(line, i - 1);
    const to = itemAt(line, i);
    const here = distance(from, to);
    if (left <= here || i === line.length - 1) return between(from, to, left / here);
    left -= here;
  }
}

/** The line's own bends strictly between two distances along it. */
function pointsBetween(line: Polyline, from: number, until: number): Point[] {
  let along = 0;
  return line.filter((p, i) => {
    if (i > 0) along += distance(itemAt(line, i - 1), p);
    return i > 0 && i < line.length - 1 && along > from + SLACK && along < until - SLACK;
  });
}

/** The outline's edges from one place on to another, counter-clockwise, the first and last cut short. */
function runBetween(outline: Outline, from: Place, until: Place): readonly Edge[] {
  const count = outline.edges.length;
  const edge = (i: number) => cyclic(outline.edges, i);
  const within = from.edge === until.edge && isBefore(from, until);
  if (within) return kept([cutEdge(edge(from.edge), from, until)]);

  const tail = cutEdge(edge(from.edge), from, undefined);
  const head = cutEdge(edge(until.edge), undefined, until);
  const between: Edge[] = [];
  for (let i = from.edge + 1; i % count !== until.edge; i++) between.push(edge(i));
  // An edge cut out of the middle keeps its name on the run its designer measures first.
  if (from.edge === until.edge && tail.segments.length > 0 && head.segments.length > 0) {
    const second = `${tail.name}_2`;
    const measuredFirst = tail.measuredFrom === 'start' ? head : tail;
    const renamed = (run: Edge) => (run === measuredFirst ? run : { ...run, name: second });
    return kept([renamed(tail), ...between, renamed(head)]);
  }
  return kept([tail, ...between, head]);
}

const kept = (edges: readonly Edge[]): Edge[] => edges.map(withoutSpecks).filter((edge) => edge !== undefined);

const isBefore = (a: Place, b: Place): boolean => a.segment < b.segment || (a.segment === b.segment && a.t < b.t);

/** The part of an edge after `from` and before `until`. */
function cutEdge(edge: Edge, from: Place | undefined, until: Place | undefined): Edge {
  const pieces = stretches(edge).flatMap(({ start, segment }, i) => {
    if ((from && i < from.segment) || (until && i > until.segment)) return [];
    const a = from?.segment === i ? from.t : 0;
    const b = until?.segment === i ? until.t : 1;
    return a < b ? [sliceSegment(start, segment, a, b)] : [];
  });
  return { ...edge, start: pieces[0]?.start ?? edgeEnd(edge), segments: pieces.map(({ segment }) => segment) };
}

/** The edge unless cutting at its very end left next to nothing of it. */
function withoutSpecks(edge: Edge): Edge | undefined {
  const whole = withoutEmptySegments(edge);
  const straightSpeck = whole?.segments.length === 1 && distance(whole.start, edgeEnd(whole)) <= SLACK;
  return straightSpeck ? undefined : whole;
}
