import { nextOf } from '../../geometry/cyclic.ts';
import { itemAt, pairs, sides } from '../../geometry/lists.ts';
import { boundsOfPoints, type Bounds } from '../../geometry/measure.ts';
import type { LayPiece, LayPoint } from '../problem.ts';
import type { Bar } from './dual.ts';

/** The outline mirrored (y -> -y) or not, then turned by degrees counter-clockwise. Quarter turns are exact. */
export function turned(outline: readonly LayPoint[], mirrored: boolean, degrees: number): readonly LayPoint[] {
  const [cos, sin] = cosAndSin(degrees);
  return outline.map((point) => {
    const y = mirrored ? -point.y : point.y;
    return { x: point.x * cos - y * sin, y: point.x * sin + y * cos };
  });
}

function cosAndSin(degrees: number): readonly [number, number] {
  const quarter = (((degrees % 360) + 360) % 360) / 90;
  if (quarter === 0) return [1, 0];
  if (quarter === 1) return [0, 1];
  if (quarter === 2) return [-1, 0];
  if (quarter === 3) return [0, -1];
  return [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
}

/** An outline is asked about on open and on folded cloth, in each sharing, and by each search. */
const knownBoxes = new WeakMap<readonly LayPoint[], { readonly asDrawn: Map<number, Bounds>; readonly mirrored: Map<number, Bounds> }>();

/** The box of an outline as it lies {@link turned}. */
export function boxAsLaid(outline: readonly LayPoint[], mirrored: boolean, degrees: number): Bounds {
  let known = knownBoxes.get(outline);
  if (known === undefined) knownBoxes.set(outline, (known = { asDrawn: new Map(), mirrored: new Map() }));
  const ofHand = mirrored ? known.mirrored : known.asDrawn;
  const box = ofHand.get(degrees) ?? boundsOfPoints(turned(outline, mirrored, degrees));
  ofHand.set(degrees, box);
  return box;
}

/** Square millimetres, whichever way round the outline runs. */
export function areaOf(outline: readonly LayPoint[]): number {
  let twice = 0;
  for (let index = 0; index < outline.length; index++) {
    const [a, b] = [itemAt(outline, index), nextOf(outline, index)];
    twice += a.x * b.y - b.x * a.y;
  }
  return Math.abs(twice) / 2;
}

/** How many pieces of each permitted way of mirroring there are, with the boxes that each may be laid in, of the turns tried. */
export function laidBoxes({ outline, turns, count: { asDrawn, mirrored, either } }: LayPiece): readonly { readonly count: number; readonly boxes: readonly Bounds[] }[] {
  const plain = turns.map((turn) => boxAsLaid(outline, false, turn));
  const flipped = turns.map((turn) => boxAsLaid(outline, true, turn));
  return [
    { count: asDrawn, boxes: plain },
    { count: mirrored, boxes: flipped },
    { count: either, boxes: [...plain, ...flipped] },
  ].filter(({ count }) => count > 0);
}

/** Whether an outline is its own bounding box, to a thousandth of a square millimetre. */
export function isRectangle(outline: readonly LayPoint[]): boolean {
  const box = boundsOfPoints(outline);
  return Math.abs(areaOf(outline) - (box.maxX - box.minX) * (box.maxY - box.minY)) <= 1e-3;
}

/**
 * What a piece takes of every line across the cloth, as bars: between two neighbouring corners the
 * taken width changes evenly, so each slab is cut into `parts` and each part counts with its lesser end.
 * An understatement, never more than the piece.
 */
export function barsOf(outline: readonly LayPoint[], parts: number): readonly Bar[] {
  const xs = [...new Set(outline.map((point) => point.x))].sort((a, b) => a - b);
  const edges = sides(outline).flatMap(([a, b]): Slope[] => (a.x === b.x ? [] : [a.x < b.x ? { left: a, right: b } : { left: b, right: a }]));
  const bars: Bar[] = [];
  for (const [start, end] of pairs(xs)) {
    const [first, last] = takenAtEnds(edges, start, end);
    const cuts = first === last ? 1 : parts;
    for (let part = 0; part < cuts; part++) {
      const a = first + ((last - first) * part) / cuts;
      const b = first + ((last - first) * (part + 1)) / cuts;
      bars.push({ across: Math.min(a, b), along: (end - start) / cuts });
    }
  }
  return bars;
}

/** A side of an outline that doesn’t run straight across. */
interface Slope {
  readonly left: LayPoint;
  readonly right: LayPoint;
}

/** The width an outline takes just inside the two ends of a slab without corners between them. */
function takenAtEnds(slopes: readonly Slope[], start: number, end: number): readonly [number, number] {
  const edges: { first: number; last: number }[] = [];
  for (const { left, right } of slopes) {
    if (left.x > start || right.x < end) continue;
    const at = (x: number): number => left.y + ((right.y - left.y) * (x - left.x)) / (right.x - left.x);
    edges.push({ first: at(start), last: at(end) });
  }
  edges.sort((p, q) => p.first + p.last - (q.first + q.last));
  let first = 0;
  let last = 0;
  for (const [index, [enter, leave]] of pairs(edges).entries()) {
    if (index % 2 === 1) continue; // between two stretches of the piece
    first += leave.first - enter.first;
    last += leave.last - enter.last;
  }
  return [first, last];
}
