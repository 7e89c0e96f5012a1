import { itemAt } from '../../geometry/lists.ts';

/**
 * Dual feasible functions: f from whole numbers 0…C to whole numbers such that widths adding up to at
 * most C have values adding up to at most f(C). Whatever crosses one line over the strip adds up to at
 * most its width, so summing f(width) · length over all pieces never exceeds f(C) · the length of any lay.
 */
export interface DualFunction {
  readonly at: (width: number) => number;
  /** f(C). */
  readonly total: number;
  /** What no width up to the given one is worth more than, as a multiple of its worth in f(x) = x: of x / C. */
  readonly gain: (widest: number) => number;
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
export function identity(capacity: number): DualFunction {
  return { at: (width) => width, total: capacity, gain: () => 1 };
}

/**
 * Widths under `least` are forgotten, and those beside which only such widths fit count as full: U of
 * S. Fekete, J. Schepers, Mathematical Programming 91, 2001. Needs 0 < least ≤ capacity / 2.
 */
export function forgetSmall(capacity: number, least: number): DualFunction {
  return {
    at: (width) => (width > capacity - least ? capacity : width < least ? 0 : width),
    total: capacity,
    gain: (widest) => (widest > capacity - least ? capacity / (capacity - least) : 1),
  };
}

/**
 * Widths counted in whole units of `unit`, rounded against the half: f2 of J. Carlier, F. Clautiaux,
 * A. Moukrim, Computers & Operations Research 34, 2007. Needs 0 < unit ≤ capacity / 2.
 */
export function roundToUnit(capacity: number, unit: number): DualFunction {
  const full = Math.floor(capacity / unit);
  return {
    at: (width) => {
      if (2 * width > capacity) return 2 * (full - Math.floor((capacity - width) / unit));
      return 2 * width === capacity ? full : 2 * Math.floor(width / unit);
    },
    total: 2 * full,
    // Beyond the half, no more than one unit is rounded up.
    gain: (widest) => (capacity / unit + (2 * widest > capacity ? 2 * (full + 1 - capacity / unit) : 0)) / full,
  };
}

/**
 * Widths rounded down to shares of 1/k, one k + 1 th counting as 1/k: u of Fekete and Schepers (as
 * above), scaled by k · capacity to stay whole. Needs whole k ≥ 1.
 */
export function shares(capacity: number, k: number): DualFunction {
  return {
    at: (width) => {
      const times = (k + 1) * width;
      return times % capacity === 0 ? k * width : Math.floor(times / capacity) * capacity;
    },
    total: k * capacity,
    gain: () => (k + 1) / k,
  };
}

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
    if (Math.ceil(plain * f.gain(widest) * (1 + noise)) > best) best = Math.max(best, Math.ceil(dualValue(f, pieces)));
  }
  return best;
}

/** The least length the function proves; each piece counts in its cheapest way. */
function dualValue({ at, total }: DualFunction, pieces: readonly BarPiece[]): number {
  let sum = 0;
  for (const { count, ways } of pieces) {
    let least = Infinity;
    for (const { across, along } of ways) {
      let value = 0;
      // Values only grow, so a way that has come to the cheapest one is not it.
      for (let index = 0; index < across.length && value < least; index++) value += at(across[index] ?? 0) * (along[index] ?? 0);
      least = Math.min(least, value);
    }
    if (least < Infinity) sum += count * least;
    if (sum > LARGEST_SUM) return 0;
  }
  return sum / total;
}
