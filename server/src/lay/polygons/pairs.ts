import { itemAt, numberAt, sides } from '../../geometry/lists.ts';
import { addSum, facetSize, mostCorners, planeAt, type Facets } from './facets.ts';
import type { Task } from './shapes.ts';

/**
 * For every ordered pair of shapes (moving, still), where the moving one overlaps the still one.
 *
 * The no-fit polygon of two convex parts P (still) and Q (moving) is P ⊕ −Q, itself convex, so it is kept as half-planes
 * n·d ≤ c over the offset d of the moving box corner from the still one, where n runs over the outward edge normals of P
 * and of −Q and c = max over P of n·p − min over Q of n·q (support functions of a Minkowski sum add). The least of
 * c − n·d is then the exact depth of penetration of the two parts: the shortest push that parts them (no-fit polygons:
 * R. C. Art, 1966; half-planes and depth: from memory, our own derivation). Shapes of several convex parts overlap where
 * any two parts do; their depth is the distance to the rim of the union of the parts. A least gap between pieces moves every half-plane out by the gap, with
 * extra half-planes cutting the corners so that they do not reach far beyond a round corner.
 */
export interface Pairs {
  /** Per moving shape, per still shape: index of the pair, −1 while not built. */
  readonly rows: Int32Array[];
  /** First part pair of each pair; the part pairs of pair k are pairFrom[k] up to pairTo[k]. */
  pairFrom: Int32Array;
  pairTo: Int32Array;
  /** Four numbers per part pair: least and greatest dx, least and greatest dy of overlap. */
  partBox: Float64Array;
  partFrom: Int32Array;
  partTo: Int32Array;
  /** Three numbers per half-plane: unit normal x, y and reach c, millimetres. */
  planes: Float64Array;
  /** First rim segment of each pair, −1 while not built; the rim is the border of the union of the pair's parts. */
  rimFrom: Int32Array;
  rimTo: Int32Array;
  /** Five numbers per rim segment: start x, y, unit direction x, y, length. */
  rims: Float64Array;
  pairCount: number;
  partCount: number;
  planeCount: number;
  rimCount: number;
  /** How often the store was emptied. */
  emptied: number;
  readonly task: Task;
}

/** Half-planes and rim segments kept before the store is emptied and begun anew, to bound memory (40 bytes each at most). */
const mostPlanes = 3_000_000;

/**
 * An empty store for the shapes of `task`; pairs are built as they are asked for.
 *
 * @param before a store that is done with, whose room it takes over: many pieces take tens of megabytes, which grow anew else
 */
export function pairsOf(task: Task, before?: Pairs): Pairs {
  if (before !== undefined) return { ...before, rows: task.shapes.map(() => new Int32Array(0)), pairCount: 0, partCount: 0, planeCount: 0, rimCount: 0, emptied: 0, task };
  return {
    rows: task.shapes.map(() => new Int32Array(0)),
    // Room for the few pieces of most lays: more is made where it is needed.
    pairFrom: new Int32Array(32), pairTo: new Int32Array(32),
    partBox: new Float64Array(4 * 64), partFrom: new Int32Array(64), partTo: new Int32Array(64),
    planes: new Float64Array(3 * 512), rimFrom: new Int32Array(32), rimTo: new Int32Array(32), rims: new Float64Array(5 * 128),
    pairCount: 0, partCount: 0, planeCount: 0, rimCount: 0, emptied: 0, task,
  };
}

/** How full a store was, to go back to. */
export interface Mark extends Pick<Pairs, 'pairCount' | 'partCount' | 'planeCount' | 'rimCount' | 'emptied'> {
  readonly rows: readonly Int32Array[];
  readonly rimFrom: Int32Array;
}

export const markOf = ({ rows, pairCount, partCount, planeCount, rimCount, rimFrom, emptied }: Pairs): Mark =>
  ({ rows: rows.map((row) => row.slice()), pairCount, partCount, planeCount, rimCount, rimFrom: rimFrom.slice(0, pairCount), emptied });

/** Forgets what was put in a store since; whether that is still there which it held then. */
export function backTo(pairs: Pairs, { rows, pairCount, partCount, planeCount, rimCount, rimFrom, emptied }: Mark): boolean {
  if (pairs.emptied !== emptied) return false;
  rows.forEach((row, shape) => (pairs.rows[shape] = row.slice()));
  pairs.rimFrom.set(rimFrom);
  Object.assign(pairs, { pairCount, partCount, planeCount, rimCount });
  return true;
}

/** The row of a moving shape. */
export function rowOf(pairs: Pairs, moving: number): Int32Array {
  const row = itemAt(pairs.rows, moving);
  return row.length > 0 ? row : (pairs.rows[moving] = new Int32Array(pairs.task.shapes.length).fill(-1));
}

/** Builds the pair (moving, still) and gives its index. */
export function buildPair(pairs: Pairs, moving: number, still: number): number {
  if (pairs.planeCount + pairs.rimCount > mostPlanes) {
    for (const row of pairs.rows) row.fill(-1);
    pairs.pairCount = pairs.partCount = pairs.planeCount = pairs.rimCount = 0;
    pairs.emptied++;
  }
  const index = pairs.pairCount++;
  if (index >= pairs.pairFrom.length) {
    pairs.pairFrom = grownInts(pairs.pairFrom);
    pairs.pairTo = grownInts(pairs.pairTo);
    pairs.rimFrom = grownInts(pairs.rimFrom);
    pairs.rimTo = grownInts(pairs.rimTo);
  }
  pairs.pairFrom[index] = pairs.partCount;
  const { shapes, gap } = pairs.task;
  for (const p of itemAt(shapes, still).facets()) for (const q of itemAt(shapes, moving).mirrorFacets()) addPart(pairs, p, q, gap);
  pairs.pairTo[index] = pairs.partCount;
  pairs.rimFrom[index] = -1;
  rowOf(pairs, moving)[still] = index;
  return index;
}

function addPart(pairs: Pairs, still: Facets, moving: Facets, gap: number): void {
  const part = pairs.partCount++;
  if (part >= pairs.partFrom.length) {
    pairs.partFrom = grownInts(pairs.partFrom);
    pairs.partTo = grownInts(pairs.partTo);
    pairs.partBox = grownFloats(pairs.partBox);
  }
  const most = pairs.planeCount + (still.sides.length + moving.sides.length) / facetSize + mostCorners;
  while (3 * most > pairs.planes.length) pairs.planes = grownFloats(pairs.planes);
  pairs.partFrom[part] = pairs.planeCount;
  pairs.planeCount = addSum(pairs.planes, pairs.planeCount, still.sides, moving.sides, gap);
  pairs.partTo[part] = pairs.planeCount;
  const box = 4 * part;
  pairs.partBox[box] = still.left + moving.left - gap;
  pairs.partBox[box + 1] = still.right + moving.right + gap;
  pairs.partBox[box + 2] = still.low + moving.low - gap;
  pairs.partBox[box + 3] = still.high + moving.high + gap;
}

/** How far along the strip from the one that lies still a moving shape is, at height dy, once a part pair is clear: millimetres. */
export function wayOut({ planes, partFrom, partTo }: Pairs, part: number, dy: number): number {
  let out = Infinity;
  const last = 3 * itemAt(partTo, part);
  for (let at = 3 * itemAt(partFrom, part); at < last; at += 3) {
    const nx = numberAt(planes, at);
    if (nx > 1e-9) out = Math.min(out, (numberAt(planes, at + 2) - numberAt(planes, at + 1) * dy) / nx);
  }
  return out;
}

/**
 * Finds the rim of a pair of several parts: every edge of every part, less what lies inside another part. Where two
 * parts only touch, the seam stays: a piece may lie exactly there.
 */
export function buildRim(pairs: Pairs, pair: number, fuzz: number): void {
  const rings: [number, number][][] = [];
  const [first, end] = [itemAt(pairs.pairFrom, pair), itemAt(pairs.pairTo, pair)];
  for (let part = first; part < end; part++) rings.push(cornersOf(pairs.planes, itemAt(pairs.partFrom, part), itemAt(pairs.partTo, part)));
  pairs.rimFrom[pair] = pairs.rimCount;
  rings.forEach((ring, own) => {
    for (const [[ax, ay], [bx, by]] of sides(ring)) {
      const length = Math.sqrt((bx - ax) ** 2 + (by - ay) ** 2);
      if (length <= fuzz) continue;
      const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
      let free: [number, number][] = [[0, length]];
      for (let part = first; part < end && free.length > 0; part++) {
        if (part - first === own) continue;
        const covered = insideStretch(pairs, part, ax, ay, ux, uy, length, fuzz);
        if (covered) free = without(free, covered, fuzz);
      }
      for (const [from, to] of free) {
        while (5 * (pairs.rimCount + 1) > pairs.rims.length) pairs.rims = grownFloats(pairs.rims);
        pairs.rims.set([ax + ux * from, ay + uy * from, ux, uy, to - from], 5 * pairs.rimCount++);
      }
    }
  });
  pairs.rimTo[pair] = pairs.rimCount;
}

/** The corners where neighbouring half-planes of a convex part meet. */
function cornersOf(planes: Float64Array, from: number, to: number): [number, number][] {
  const part = Array.from({ length: to - from }, (_, i) => planeAt(planes, 3 * (from + i)));
  return sides(part).map(([[ax, ay, ac], [bx, by, bc]]) => {
    const det = ax * by - ay * bx;
    return [(ac * by - bc * ay) / det, (ax * bc - bx * ac) / det];
  });
}

/** The stretch of a line that lies deeper than `fuzz` inside a part. */
function insideStretch(pairs: Pairs, part: number, ax: number, ay: number, ux: number, uy: number, length: number, fuzz: number): [number, number] | undefined {
  let from = 0;
  let to = length;
  const end = itemAt(pairs.partTo, part);
  for (let at = itemAt(pairs.partFrom, part); at < end; at++) {
    const [nx, ny, c] = planeAt(pairs.planes, 3 * at);
    const room = c - fuzz - nx * ax - ny * ay;
    const rate = nx * ux + ny * uy;
    if (Math.abs(rate) < 1e-12) {
      if (room <= 0) return undefined;
    } else if (rate > 0) to = Math.min(to, room / rate);
    else from = Math.max(from, room / rate);
    if (from >= to) return undefined;
  }
  return [from, to];
}

function without(free: readonly [number, number][], [from, to]: [number, number], fuzz: number): [number, number][] {
  return free.flatMap(([start, end]): [number, number][] => {
    const left: [number, number] = [start, Math.min(end, from)];
    const right: [number, number] = [Math.max(start, to), end];
    return [left, right].filter(([a, b]) => b - a > fuzz);
  });
}

function grownInts(array: Int32Array): Int32Array {
  const grown = new Int32Array(array.length * 2);
  grown.set(array);
  return grown;
}

function grownFloats(array: Float64Array): Float64Array {
  const grown = new Float64Array(array.length * 2);
  grown.set(array);
  return grown;
}
