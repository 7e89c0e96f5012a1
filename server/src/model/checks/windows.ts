import { difference } from '../../geometry/boolean.ts';
import { distancePointToBoundary } from '../../geometry/distance.ts';
import { polygonArea } from '../../geometry/measure.ts';
import type { Point, Polygon } from '../../geometry/shape.ts';
import { between, cross, distance, minus } from '../../geometry/vector.ts';
import { asWritten, millimetresIn, roundedFrom, showLength } from '../../units/length.ts';
import type { CutLine } from '../piece/cut-line.ts';
import { report, type Scope } from '../query/scope.ts';

/** A strip narrower than this beside a window tears, or is cut through by a slip of the blade: 1/4 in (invented). */
const leastStrip = millimetresIn.in.div(4).valueOf();

/** Rounding to the micrometre leaves this much, in millimetres. */
const slack = 0.02;

/** Windows that leave too narrow a strip between themselves and the edge of their layer, or another window. */
export function checkWindows(scope: Scope, lines: readonly CutLine[]): void {
  const { display } = scope.settings;
  for (const line of lines) {
    const clause = line.statement.clauses.find((one) => one.kind === 'without');
    if (clause === undefined || line.holes.length === 0) continue;
    const narrowest = narrowestStrip(line.outline, line.holes);
    if (narrowest >= leastStrip - slack) continue;
    const length = asWritten(narrowest, display.unit);
    report(scope, 'thin-strip', clause, { material: line.material.name, strip: roundedFrom(length, display) ?? showLength(length, display) });
  }
}

/**
 * The least way, in millimetres, across what is left beside a window: from places along the window's border square to it
 * to the next border. Infinite where nothing is left.
 */
export function narrowestStrip(outline: Polygon, windows: readonly Polygon[]): number {
  const holes = windows.map((window) => (polygonArea(window) < 0 ? [...window].reverse() : window));
  const left = difference([outline], holes);
  let least = Infinity;
  for (const [from, to] of left.flatMap(sidesOf)) {
    const middle = between(from, to, 0.5);
    if (!holes.some((hole) => distancePointToBoundary(middle, hole) < slack)) continue;
    for (const share of [0.25, 0.5, 0.75]) least = Math.min(least, wayAcross(between(from, to, share), from, to, left));
  }
  return least;
}

const sidesOf = (ring: Polygon): readonly (readonly [Point, Point])[] => ring.map((point, index) => [point, ring[(index + 1) % ring.length] ?? point] as const);

/** From a place on a side, with what is left on that side's left, straight on to the next border. */
function wayAcross(place: Point, from: Point, to: Point, rings: readonly Polygon[]): number {
  const length = distance(from, to);
  if (length < slack) return Infinity;
  const way = { x: -(to.y - from.y) / length, y: (to.x - from.x) / length };
  let least = Infinity;
  for (const [a, b] of rings.flatMap(sidesOf)) {
    const side = minus(b, a);
    const denominator = cross(way, side);
    if (Math.abs(denominator) < 1e-9) continue;
    const start = minus(a, place);
    const along = cross(start, side) / denominator;
    const at = cross(start, way) / denominator;
    if (along > 1e-3 && at >= 0 && at <= 1) least = Math.min(least, along);
  }
  return least;
}
