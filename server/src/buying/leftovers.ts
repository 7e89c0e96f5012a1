import { nextOf } from '../geometry/cyclic.ts';
import { itemAt, numberAt, sides } from '../geometry/lists.ts';
import { turned } from '../lay/bounds/outline.ts';
import type { LayPoint } from '../lay/problem.ts';
import { bandsOf, type Band } from '../lay/bands.ts';
import { trianglesOf } from '../lay/verify/plane.ts';
import type { LaidQuestion } from './lays.ts';

/** A rectangle of cloth that nothing is cut from, in the frame of the lay, millimetres. */
export interface Leftover {
  readonly x: number;
  readonly y: number;
  /** Along the cloth. */
  readonly length: number;
  /** Across it; a leftover that reaches a fold along the cloth opens out to twice this, and one at a fold across it to twice its length. */
  readonly width: number;
  readonly onFold: boolean;
  /** Whether there are two of it, one in either layer. */
  readonly twice: boolean;
}

/** What is worth keeping: 4 in each way (invented). */
export const leastLeftover = 101.6;

/** The most leftovers named on one lay. */
const mostNamed = 4;

/** Free cloth is looked for on a grid no finer than this, millimetres, and of no more cells than `mostCells`. */
const finest = 4;
const mostCells = 250_000;

/**
 * The largest free rectangles of the cloth bought for a lay, the largest first, none narrower than `least` either way.
 * They don't overlap. Whatever a grid cell holds of a piece takes the whole cell, so a leftover is never overstated.
 */
export function leftoversOf(laid: LaidQuestion, least: number = leastLeftover): readonly Leftover[] {
  if (laid.problem.doubleTo === undefined) return leftoversOn(laid, least);
  const all = bandsOf(laid.problem).flatMap((band) => leftoversOn(onBand(laid, band), least).map((one) => ({ ...one, y: one.y + band.from })));
  return all.sort((a, b) => b.length * b.width - a.length * a.width).slice(0, mostNamed);
}

/** What lies on one band of cloth that is folded in part, as on cloth of its own. */
function onBand(laid: LaidQuestion, { problem, pieces, from }: Band): LaidQuestion {
  const placements = laid.lay.placements.flatMap((placement) => (pieces.includes(placement.piece) ? [{ ...placement, piece: pieces.indexOf(placement.piece), y: placement.y - from }] : []));
  return { ...laid, manner: from === 0 ? 'folded' : 'open', problem, lay: { ...laid.lay, placements }, cloth: { ...laid.cloth, width: problem.width } };
}

function leftoversOn(laid: LaidQuestion, least: number): readonly Leftover[] {
  const { width, length } = laid.cloth;
  if (!(length >= least) || !(width >= least)) return [];
  const grid = merged(gridOf(laid));
  const isFolded = laid.manner !== 'open';
  const leftovers: Leftover[] = [];
  while (leftovers.length < mostNamed) {
    const best = largestFree(grid, least);
    if (best === undefined) break;
    take(grid, best);
    const [x, y] = [numberAt(grid.xs, best.left), numberAt(grid.ys, best.low)];
    const isAtFold = (laid.manner === 'crosswise' ? x : y) === 0;
    leftovers.push({ x, y, length: numberAt(grid.xs, best.right) - x, width: numberAt(grid.ys, best.high) - y, onFold: isFolded && isAtFold, twice: isFolded && !isAtFold });
  }
  return leftovers;
}

interface Grid {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** 1 where a cell, column by column, is taken. */
  readonly taken: Uint8Array;
}

interface Cells {
  readonly left: number;
  readonly right: number;
  readonly low: number;
  readonly high: number;
}

function gridOf({ lay, problem, cloth }: LaidQuestion): Grid {
  const rings = lay.placements.map(({ piece, mirrored, turn, x, y }) =>
    turned(itemAt(problem.pieces, piece).outline, mirrored, turn).map((point) => ({ x: point.x + x, y: point.y + y })));
  const step = Math.max(finest, Math.sqrt((cloth.width * cloth.length) / mostCells));
  const isFew = rings.length <= 60;
  // Between the ends of an upright rectangle nothing begins or ends.
  const uneven = rings.filter((ring) => !isUpright(ring));
  const along = (ring: readonly LayPoint[]): Span => ends(ring.map((point) => point.x));
  const across = (ring: readonly LayPoint[]): Span => ends(ring.map((point) => point.y));
  const xs = lines(cloth.length, step, isFew ? rings.flatMap(along) : [lay.length], isFew ? uneven.map(along) : undefined);
  const ys = lines(cloth.width, step, isFew ? rings.flatMap(across) : [], isFew ? uneven.map(across) : undefined);
  const rows = ys.length - 1;
  const taken = new Uint8Array((xs.length - 1) * rows);
  for (const ring of rings) {
    const upright = signedArea(ring) < 0 ? [...ring].reverse() : ring;
    for (const part of isConvex(upright) ? [upright] : (trianglesOf(upright, 1e-6) ?? [boxRing(ring)])) mark(part, xs, ys, taken);
  }
  return { xs, ys, taken };
}

/** The same cloth without lines that part nothing: a largest rectangle ends where something is taken, or at the border. */
function merged({ xs, ys, taken }: Grid): Grid {
  const rows = ys.length - 1;
  const columns: number[] = [];
  for (let column = 0; column < xs.length - 1; column++) if (column === 0 || !isLikeColumnBefore(taken, column * rows, rows)) columns.push(column);
  const bands: number[] = [];
  for (let row = 0; row < rows; row++) if (row === 0 || columns.some((column) => taken[column * rows + row] !== taken[column * rows + row - 1])) bands.push(row);
  const least = new Uint8Array(columns.length * bands.length);
  let cell = 0;
  for (const column of columns) for (const row of bands) least[cell++] = taken[column * rows + row] ?? 0;
  return {
    xs: new Float64Array([...columns.map((column) => numberAt(xs, column)), numberAt(xs, xs.length - 1)]),
    ys: new Float64Array([...bands.map((row) => numberAt(ys, row)), numberAt(ys, rows)]),
    taken: least,
  };
}

function isLikeColumnBefore(taken: Uint8Array, from: number, rows: number): boolean {
  for (let cell = from; cell < from + rows; cell++) if (taken[cell] !== taken[cell - rows]) return false;
  return true;
}

type Span = readonly [from: number, to: number];

const isUpright = (ring: readonly LayPoint[]): boolean => ring.length === 4 && sides(ring).every(([a, b]) => a.x === b.x || a.y === b.y);

const ends = (values: readonly number[]): Span => [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];

/** Grid lines from 0 to `end` through the values given, and evenly spread within the spans; everywhere where none are given. */
function lines(end: number, step: number, values: readonly number[], spans: readonly Span[] = [[0, end]]): Float64Array {
  const count = spans.length === 0 ? 1 : Math.max(1, Math.ceil(end / step));
  const given = values.filter((value) => value > 0 && value < end).sort((a, b) => a - b);
  const found = new Float64Array(count + 1 + given.length);
  let size = 0;
  let before = -Infinity;
  const add = (value: number): void => {
    if (value - before > 1e-6) found[size++] = value;
    before = value;
  };
  let next = 0;
  for (let index = 0; index <= count; index++) {
    const even = (end * index) / count;
    for (; next < given.length && itemAt(given, next) < even; next++) add(itemAt(given, next));
    if (index === 0 || index === count || spans.some(([from, to]) => even > from && even < to)) add(even);
  }
  for (; next < given.length; next++) add(itemAt(given, next));
  return found.subarray(0, size);
}

function signedArea(ring: readonly LayPoint[]): number {
  return sides(ring).reduce((twice, [a, b]) => twice + (a.x * b.y - b.x * a.y), 0) / 2;
}

function boxRing(ring: readonly LayPoint[]): readonly LayPoint[] {
  const [left, right] = ends(ring.map((point) => point.x));
  const [low, high] = ends(ring.map((point) => point.y));
  return [{ x: left, y: low }, { x: right, y: low }, { x: right, y: high }, { x: left, y: high }];
}

/** Takes every cell that a convex ring reaches into: column by column, the heights between which it lies there. */
function mark(ring: readonly LayPoint[], xs: Float64Array, ys: Float64Array, taken: Uint8Array): void {
  const rows = ys.length - 1;
  const [from, to] = ends(ring.map((point) => point.x));
  const edges = sides(ring);
  const heights: Heights = { low: 0, high: 0 };
  let [lowest, highest, first, end] = [NaN, NaN, 0, 0];
  for (let column = Math.max(0, below(xs, from + slack)); column < xs.length - 1 && numberAt(xs, column) < to - slack; column++) {
    setHeights(heights, edges, numberAt(xs, column), numberAt(xs, column + 1));
    // Most pieces have long sides along the cloth.
    if (heights.low !== lowest || heights.high !== highest) {
      lowest = heights.low;
      highest = heights.high;
      first = Math.max(0, below(ys, lowest + slack));
      for (end = first; end < rows && numberAt(ys, end) < highest - slack; ) end++;
    }
    taken.fill(1, column * rows + first, column * rows + end);
  }
}

/** Square millimetres by which a corner may turn right and still be flat. */
const flat = 1e-6;

/** Whether a ring that runs counter-clockwise turns right nowhere, and goes round once. */
function isConvex(ring: readonly LayPoint[]): boolean {
  let turnsBack = 0;
  for (const [index, a] of ring.entries()) {
    const [b, c] = [nextOf(ring, index), nextOf(ring, index + 1)];
    if ((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x) < -flat) return false;
    if (b.x >= a.x !== c.x >= b.x) turnsBack++;
  }
  return turnsBack <= 2;
}

/** What touching pieces may seem to reach into a cell by, millimetres. */
const slack = 0.03;

/** Index of the last line at or below a value. */
function below(sorted: Float64Array, value: number): number {
  let low = -1;
  let high = sorted.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (numberAt(sorted, middle) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Between which heights a ring lies in a column. */
interface Heights {
  low: number;
  high: number;
}

/** Written into one and the same object: this is asked of every column of every piece. */
function setHeights(heights: Heights, edges: readonly (readonly [LayPoint, LayPoint])[], left: number, right: number): void {
  heights.low = Infinity;
  heights.high = -Infinity;
  for (let index = 0; index < edges.length; index++) {
    const edge = itemAt(edges, index);
    const a = edge[0];
    const b = edge[1];
    // Of all edges few reach so far.
    if ((a.x < left && b.x < left) || (a.x > right && b.x > right)) continue;
    // Both ends of what lies between.
    const from = Math.min(right, Math.max(left, a.x));
    const to = Math.min(right, Math.max(left, b.x));
    const first = from === a.x ? a.y : heightAt(a, b, from);
    const last = to === b.x ? b.y : heightAt(a, b, to);
    heights.low = Math.min(heights.low, first, last);
    heights.high = Math.max(heights.high, first, last);
  }
}

/** How high a side that doesn’t run straight across is at a place of it. */
const heightAt = (a: LayPoint, b: LayPoint, x: number): number => a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x);

/** The largest rectangle of free cells, by runs of free columns under a skyline (the largest rectangle in a histogram). */
function largestFree({ xs, ys, taken }: Grid, least: number): Cells | undefined {
  const rows = ys.length - 1;
  // One run more than there are rows: none, which ends all those before it.
  const runs = new Int32Array(rows + 1);
  const [starts, heights] = [new Int32Array(rows + 1), new Int32Array(rows + 1)];
  let best: Cells | undefined;
  let most = 0;
  for (let column = 0; column < xs.length - 1; column++) {
    for (let row = 0; row < rows; row++) runs[row] = taken[column * rows + row] === 1 ? 0 : (runs[row] ?? 0) + 1;
    let top = -1;
    for (let row = 0; row <= rows; row++) {
      const here = runs[row] ?? 0;
      let start = row;
      for (; top >= 0 && (heights[top] ?? 0) > here; top--) {
        start = starts[top] ?? 0;
        const left = column + 1 - (heights[top] ?? 0);
        const length = numberAt(xs, column + 1) - numberAt(xs, left);
        const width = numberAt(ys, row) - numberAt(ys, start);
        if (length < least || width < least || length * width <= most + 1e-6) continue;
        most = length * width;
        best = { left, right: column + 1, low: start, high: row };
      }
      if (here <= (top < 0 ? 0 : (heights[top] ?? 0))) continue;
      top++;
      starts[top] = start;
      heights[top] = here;
    }
  }
  return best;
}

function take({ ys, taken }: Grid, { left, right, low, high }: Cells): void {
  const rows = ys.length - 1;
  for (let column = left; column < right; column++) taken.fill(1, column * rows + low, column * rows + high);
}
