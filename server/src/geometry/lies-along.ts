import { isCongruent } from './congruence.ts';
import { distancePointToBoundary, distancePointToPolyline } from './distance.ts';
import { itemAt } from './lists.ts';
import { polylineLength } from './measure.ts';
import type { Point, Polygon, Polyline } from './shape.ts';
import { mirroring, movePolyline } from './transform.ts';
import { between, cross, distance, dot, length, minus, plus } from './vector.ts';

/** At how many places along a ring a run is tried. */
const [leastTries, mostTries] = [100, 20_000];

/** Nearer than this to one another, in mm, the ends of a run are one. */
const closed = 0.05;

/**
 * Whether a run, moved, turned or turned over as it is, can lie on part of a ring, or all round it, within about
 * `tolerance` mm everywhere. A run that is longer than the ring can't.
 */
export function liesAlong(run: Polyline, ring: Polygon, tolerance: number): boolean {
  const flipped = movePolyline(mirroring(0), run);
  // Whichever way it is given, one of the two runs as the ring does.
  const ways = [run, run.toReversed(), flipped, flipped.toReversed()];
  const [first, last] = [itemAt(run, 0), itemAt(run, run.length - 1)];
  const places = new Places(ring);
  const [long, chord] = [polylineLength(run), distance(first, last)];
  if (long > places.length + tolerance) return false;
  // All round there is no telling where it begins.
  if (chord < closed && places.length - long <= 2 * tolerance) return ways.some((one) => isCongruent(one.slice(0, -1), ring, 'any', tolerance));
  const tries = Math.max(leastTries, Math.min(mostTries, Math.ceil((2 * places.length) / tolerance)));
  const step = places.length / tries;
  const allowed = tolerance + step / 2;
  // What is a little too long or short ends a little before or behind.
  const ends = [0, -1, 1, -2, 2].map((times) => long + times * tolerance);
  return Array.from({ length: tries }, (_, index) => index * step).some((from) => {
    const start = places.at(from);
    if (Math.abs(distance(start, places.at(from + long)) - chord) > 2 * allowed + 2 * tolerance) return false;
    return ends.some((behind) => {
      const end = places.at(from + behind);
      if (Math.abs(distance(start, end) - chord) > 2 * allowed) return false;
      const between = places.between(from, from + behind);
      return ways.some((way) => {
        const move = carrying(way, [start, end]);
        // Its middle tells most of the places apart.
        if (distancePointToBoundary(move(itemAt(way, Math.floor(way.length / 2))), ring) > allowed) return false;
        const moved = way.map(move);
        return moved.every((point, index) => isNear(point, moved[index - 1] ?? point, ring, allowed)) && between.every((point) => distancePointToPolyline(point, moved) <= allowed);
      });
    });
  });
}

/** Whether a corner and the middle of the side that leads to it lie on a ring. */
const isNear = (point: Point, before: Point, ring: Polygon, allowed: number): boolean =>
  distancePointToBoundary(point, ring) <= allowed && distancePointToBoundary(between(before, point, 0.5), ring) <= allowed;

/** Moves and turns a run so that its ends lie between two points in the same direction. */
function carrying(run: Polyline, [start, end]: readonly [Point, Point]): (point: Point) => Point {
  const [first, last] = [itemAt(run, 0), itemAt(run, run.length - 1)];
  const [was, now] = [minus(last, first), minus(end, start)];
  const size = length(was) * length(now);
  const [cos, sin] = size === 0 ? [1, 0] : [dot(was, now) / size, cross(was, now) / size];
  const [from, to] = [between(first, last, 0.5), between(start, end, 0.5)];
  return (point) => {
    const off = minus(point, from);
    return plus(to, { x: cos * off.x - sin * off.y, y: sin * off.x + cos * off.y });
  };
}

/** Places along a ring by how far they lie from its first corner; round and round. */
class Places {
  readonly length: number;
  readonly #ring: Polygon;
  readonly #ends: readonly number[];

  constructor(ring: Polygon) {
    let along = 0;
    this.#ring = ring;
    this.#ends = ring.map((point, index) => (along += distance(point, itemAt(ring, (index + 1) % ring.length))));
    this.length = along;
  }

  at(along: number): Point {
    const there = ((along % this.length) + this.length) % this.length;
    const index = this.#sideAt(there);
    const [a, b] = [itemAt(this.#ring, index), itemAt(this.#ring, (index + 1) % this.#ring.length)];
    const [begin, end] = [this.#ends[index - 1] ?? 0, itemAt(this.#ends, index)];
    return between(a, b, end === begin ? 0 : (there - begin) / (end - begin));
  }

  /** The first side that ends there or beyond. */
  #sideAt(along: number): number {
    let [low, high] = [0, this.#ends.length - 1];
    while (low < high) {
      const middle = Math.floor((low + high) / 2);
      if (itemAt(this.#ends, middle) < along) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** The corners from one place to another further on. */
  between(from: number, to: number): readonly Point[] {
    return this.#ring.filter((_, index) => {
      const place = this.#ends[index - 1] ?? 0;
      return (((place - from) % this.length) + this.length) % this.length < to - from;
    });
  }
}
