import { cyclic, nextOf } from './cyclic.ts';
import { itemAt } from './lists.ts';
import { distanceToLine } from './distance.ts';
import { polylineEdge } from './edge.ts';
import { FLATNESS } from './flatten.ts';
import { nearbyIn } from './nearby.ts';
import type { Edge, Point, Polygon } from './shape.ts';
import { ahead, between, cross, distance, dot, minus, unit } from './vector.ts';

/** A line of the offset boundary before it was untangled, and the index of the edge it came from. */
export interface RawLine {
  readonly edge: number;
  readonly from: Point;
  readonly to: Point;
}

interface Run {
  readonly edge: number;
  readonly points: [Point, ...Point[]];
}

/** Two micrometres: as far, in mm, as rounding to the grid can bend a straight line. */
const BENT = 0.002;

/** A run no longer than this, in mm, is an artefact of flattening. */
const SPECK = 3 * FLATNESS;

/**
 * The ring cut into edges again: each side goes to the edge whose raw line is
 * nearest, direction deciding between lines that cross there. The first edge
 * still there comes first; one there in several runs is `<name>`, `<name>_2`…
 */
export function namedRuns(untangled: Polygon, lines: readonly RawLine[], edges: readonly Edge[]): Edge[] {
  const ring = splitAtEnds(untangled, lines);
  const nearest = nearestIn(lines);
  const owners = ring.map((from, i) => nearest(from, nextOf(ring, i)));
  const lowest = Math.min(...owners);
  const first = owners.findIndex((owner, i) => owner === lowest && owners.at(i - 1) !== lowest);
  const runs: Run[] = [];
  for (let k = 0; k < ring.length; k++) {
    const i = (Math.max(first, 0) + k) % ring.length;
    const edge = itemAt(owners, i);
    const run = runs.at(-1);
    if (run?.edge === edge) run.points.push(nextOf(ring, i));
    else runs.push({ edge, points: [itemAt(ring, i), nextOf(ring, i)] });
  }
  const seen = new Map<number, number>();
  return withoutSpecks(runs).map(({ edge, points }) => {
    const { name, measuredFrom } = itemAt(edges, edge);
    const count = (seen.get(edge) ?? 0) + 1;
    seen.set(edge, count);
    return polylineEdge(count === 1 ? name : `${name}_${count}`, straightened(points), measuredFrom);
  });
}

/** The ring with a corner wherever an edge ended in the middle of one of its sides, so that edges in line stay apart. */
function splitAtEnds(ring: Polygon, lines: readonly RawLine[]): Polygon {
  const ends = lines.flatMap((line, i) => {
    const before = cyclic(lines, i - 1);
    return before.edge === line.edge ? [] : [before.to, line.from];
  });
  const near = nearbyIn(ends.map((end) => ({ from: end, to: end })));
  return ring.flatMap((from, i) => {
    const to = nextOf(ring, i);
    const inside = near(from, to, BENT)
      .map((index) => itemAt(ends, index))
      .filter((p) => distanceToLine(p, from, to) <= BENT && distance(p, to) > BENT)
      .sort((a, b) => distance(from, a) - distance(from, b));
    return [from, ...inside].filter((p, k, all) => k === 0 || distance(p, all[k - 1] ?? from) > BENT);
  });
}

/** Finds the edge whose line lies nearest to the middle of a side. */
function nearestIn(lines: readonly RawLine[]): (from: Point, to: Point) => number {
  const directions = lines.map((line) => unit(minus(line.to, line.from)));
  const near = nearbyIn(lines);
  let last = 0;
  return (from, to) => {
    const middle = between(from, to, 0.5);
    const direction = unit(minus(to, from));
    const costOf = (i: number): number => {
      const line = itemAt(lines, i);
      return distanceToLine(middle, line.from, line.to) + 0.005 * (1 - dot(direction, itemAt(directions, i)));
    };
    // Neighbouring sides come from neighbouring lines: none further away than the one found last can be better.
    const begin = last;
    const ahead = (i: number): number => (i - begin + lines.length) % lines.length;
    let best = costOf(last);
    for (const i of near(middle, middle, best).sort((a, b) => ahead(a) - ahead(b))) {
      const cost = costOf(i);
      if (cost < best) {
        best = cost;
        last = i;
      }
    }
    return itemAt(lines, last).edge;
  };
}

/**
 * The runs without those too short to mean anything, which chords standing for
 * a curve leave where the curve itself shrinks to a point; their neighbours are
 * lengthened to meet.
 */
function withoutSpecks(runs: readonly Run[]): readonly Run[] {
  const kept = runs.filter(({ points }) => points.some((p) => distance(p, points[0]) > SPECK));
  if (kept.length < 2 || kept.length === runs.length) return runs;
  return kept.map((run, i) => ({
    edge: run.edge,
    points: [
      meetingOf(cyclic(kept, i - 1), run),
      ...run.points.slice(1, -1),
      meetingOf(run, nextOf(kept, i)),
    ],
  }));
}

function meetingOf(a: Run, b: Run): Point {
  const end = cyclic(a.points, -1);
  const start = b.points[0];
  const leaving = unit(minus(end, cyclic(a.points, -2)));
  const arriving = unit(minus(itemAt(b.points, 1), start));
  const sin = cross(leaving, arriving);
  const meeting = ahead(end, leaving, sin === 0 ? Infinity : cross(minus(start, end), arriving) / sin);
  return distance(meeting, end) <= 2 * SPECK ? meeting : start;
}

/** A run whose every point is within rounding of the line between its ends is that line. */
function straightened(points: [Point, ...Point[]]): [Point, ...Point[]] {
  const first = points[0];
  const last = cyclic(points, -1);
  return points.every((p) => distanceToLine(p, first, last) <= BENT) ? [first, last] : points;
}
