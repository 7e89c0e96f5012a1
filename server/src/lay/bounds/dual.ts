import { itemAt } from '../../geometry/lists.ts';

/**
 * Dual feasible functions: f from whole numbers 0…C to whole numbers such that widths adding up to at
 * most C have values adding up to at most f(C). Whatever crosses one line over the strip adds up to at
 * most its width, so summing f(width) · length over all pieces never exceeds f(C) · the length of any lay.
 * Plain data and no closures: what widths are worth is asked millions of times.
 */
export interface DualFunction {
  readonly kind: 'identity' | 'forget small' | 'round to unit' | 'shares';
  /** C. */
  readonly capacity: number;
  /** What the kind asks for: the least width that counts, the unit, or how many shares. */
  readonly by: number;
  /** f(C). */
  readonly total: number;
}

/** What a width is worth. */
export function valueAt({ kind, capacity, by, total }: DualFunction, width: number): number {
  switch (kind) {
    case 'identity':
      return width;
    case 'forget small':
      return width > capacity - by ? capacity : width < by ? 0 : width;
    case 'round to unit':
      if (2 * width > capacity) return total - 2 * Math.floor((capacity - width) / by);
      return 2 * width === capacity ? total / 2 : 2 * Math.floor(width / by);
    case 'shares': {
      const times = (by + 1) * width;
      return times % capacity === 0 ? by * width : Math.floor(times / capacity) * capacity;
    }
  }
}

/** What no width up to the given one is worth more than, as a multiple of its worth in f(x) = x: of x / C. */
function gainOf({ kind, capacity, by, total }: DualFunction, widest: number): number {
  switch (kind) {
    case 'identity':
      return 1;
    case 'forget small':
      return widest > capacity - by ? capacity / (capacity - by) : 1;
    case 'round to unit': {
      const full = total / 2;
      // Beyond the half, no more than one unit is rounded up.
      return (capacity / by + (2 * widest > capacity ? 2 * (full + 1 - capacity / by) : 0)) / full;
    }
    case 'shares':
      return (by + 1) / by;
  }
}

/** A slice of a piece: so much across the strip, over so much of its length. */
export interface Bar {
  readonly across: number;
  readonly along: number;
}

/** The bars of a piece in one way of laying it, side by side for speed: they are valued by some hundred functions. */
export interface Bars {
  readonly across: Float64Array;
  readonly along: Float64Array;
  /** The widest of them across. */
  readonly widest: number;
}

export function barsFrom(bars: readonly Bar[]): Bars {
  const across = new Float64Array(bars.length);
  const along = new Float64Array(bars.length);
  let widest = 0;
  for (let index = 0; index < bars.length; index++) {
    const bar = itemAt(bars, index);
    across[index] = bar.across;
    along[index] = bar.along;
    widest = Math.max(widest, bar.across);
  }
  return { across, along, widest };
}

export const isSameBars = (one: Bars, other: Bars): boolean => isSame(one.across, other.across) && isSame(one.along, other.along);

const isSame = (some: Float64Array, others: Float64Array): boolean => some.length === others.length && some.every((value, index) => value === others[index]);

/** A piece as bars, once for each way it may be laid that makes a difference. */
export interface BarPiece {
  readonly count: number;
  readonly ways: readonly Bars[];
}

/** Sums beyond this are not exact in double precision. */
const LARGEST_SUM = Number.MAX_SAFE_INTEGER;

/** f(x) = x: the function behind the area bound. */
const identity = (capacity: number): DualFunction => ({ kind: 'identity', capacity, by: 1, total: capacity });

/**
 * Widths under `least` are forgotten, and those beside which only such widths fit count as full: U of
 * S. Fekete, J. Schepers, Mathematical Programming 91, 2001. Needs 0 < least ≤ capacity / 2.
 */
const forgetSmall = (capacity: number, least: number): DualFunction => ({ kind: 'forget small', capacity, by: least, total: capacity });

/**
 * Widths counted in whole units of `unit`, rounded against the half: f2 of J. Carlier, F. Clautiaux,
 * A. Moukrim, Computers & Operations Research 34, 2007. Needs 0 < unit ≤ capacity / 2.
 */
const roundToUnit = (capacity: number, unit: number): DualFunction => ({ kind: 'round to unit', capacity, by: unit, total: 2 * Math.floor(capacity / unit) });

/**
 * Widths rounded down to shares of 1/k, one k + 1 th counting as 1/k: u of Fekete and Schepers (as
 * above), scaled by k · capacity to stay whole. Needs whole k ≥ 1.
 */
const shares = (capacity: number, k: number): DualFunction => ({ kind: 'shares', capacity, by: k, total: k * capacity });

/** How many shares are tried; finer ones come ever closer to the identity. */
const MOST_SHARES = 6;

/** Functions worth trying when pieces have these widths; at most about `most` of them, the identity first. */
export function dualFunctions(capacity: number, widths: Iterable<number>, most: number): readonly DualFunction[] {
  const turns = new Set<number>();
  for (const width of widths) {
    for (const turn of [width, capacity - width + 1, capacity - width]) {
      if (turn > 0 && 2 * turn <= capacity) turns.add(turn);
    }
  }
  const values = thinned([...turns].sort((a, b) => a - b), Math.max(1, Math.floor((most - MOST_SHARES) / 2)));
  return [
    identity(capacity),
    ...Array.from({ length: MOST_SHARES }, (_, i) => shares(capacity, i + 1)),
    ...values.map((value) => forgetSmall(capacity, value)),
    ...values.map((value) => roundToUnit(capacity, value)),
  ];
}

function thinned(values: readonly number[], most: number): readonly number[] {
  if (values.length <= most) return values;
  return Array.from({ length: most }, (_, i) => itemAt(values, Math.floor((i * values.length) / most)));
}

/** What no function makes of a width, as a multiple of its worth in f(x) = x. */
export const mostGain = 2;

/** More than all that doubles are out by in a sum, as a share. */
const noise = 1e-9;

/**
 * The best of the lengths that the functions prove, as a whole number, and no less than what is known already: what cannot
 * prove more is not reckoned. The first of them must be the identity.
 */
export function bestDualBound(functions: readonly DualFunction[], pieces: readonly BarPiece[], known = 0): number {
  const [first, ...others] = functions;
  if (first === undefined) return known;
  const widest = pieces.reduce((most, { ways }) => ways.reduce((sofar, bars) => Math.max(sofar, bars.widest), most), 0);
  const plain = dualValue(first, pieces);
  let best = Math.max(known, Math.ceil(plain));
  for (const f of others) {
    if (Math.ceil(plain * gainOf(f, widest) * (1 + noise)) > best) best = Math.max(best, Math.ceil(dualValue(f, pieces)));
  }
  return best;
}

/** The least length the function proves; each piece counts in its cheapest way. */
function dualValue(f: DualFunction, pieces: readonly BarPiece[]): number {
  let sum = 0;
  for (const { count, ways } of pieces) {
    let least = Infinity;
    for (const { across, along } of ways) {
      let value = 0;
      // Values only grow, so a way that has come to the cheapest one is not it.
      for (let index = 0; index < across.length && value < least; index++) value += valueAt(f, across[index] ?? 0) * (along[index] ?? 0);
      least = Math.min(least, value);
    }
    if (least < Infinity) sum += count * least;
    if (sum > LARGEST_SUM) return 0;
  }
  return sum / f.total;
}
