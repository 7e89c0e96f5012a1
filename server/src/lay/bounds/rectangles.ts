import { numberAt } from '../../geometry/lists.ts';
import type { LowerBound } from '../problem.ts';
import type { RectangleInput, RectangleItem } from '../rectangles/types.ts';
import { barsFrom, bestDualBound, dualFunctions, valueAt } from './dual.ts';
import type { BarPiece, DualFunction } from './dual.ts';

/** Functions tried for slices across the strip. */
const MOST_ACROSS = 200;
/** Looks at a rectangle that one trial length of the two-way bound may cost. */
const LOOKS_PER_TRIAL = 200_000;
/** Halvings of the range in which the two-way bound is sought, at most. */
const TRIALS = 40;

interface Way {
  readonly w: number;
  readonly h: number;
}
interface Ways {
  readonly count: number;
  /** As given, and turned where that makes a difference. */
  readonly ways: readonly [Way, ...Way[]];
}

/**
 * A length no packing of these rectangles can be under, at once: by area, by the longest piece and by
 * what is taken at the start. Own whole units; an item too wide for the strip in every turn is left out.
 */
export function quickRectangleBound(input: RectangleInput): LowerBound {
  const possible = possibleItems(input);
  let best: LowerBound = { length: Math.max(0, ...(input.floor ?? []).map((step) => step.y)), reason: 'bars' };
  const area = possible.reduce((sum, { count, ways }) => sum + count * ways[0].w * ways[0].h, takenArea(input));
  best = better(best, Math.ceil(area / input.width), 'area');
  for (const { ways } of possible) best = better(best, Math.min(...ways.map((way) => way.h)), 'widest piece');
  return best;
}

/**
 * The best length these bounds prove that no packing can be under; takes some hundredths of a second.
 * Exact whole-number arithmetic throughout.
 */
export function rectangleBound(input: RectangleInput): LowerBound {
  const possible = possibleItems(input);
  let best = quickRectangleBound(input);
  if (possible.length === 0) return best;

  const bars: BarPiece[] = possible.map(({ count, ways }) => ({
    count,
    ways: ways.map(({ w, h }) => barsFrom([{ across: w, along: h }])),
  }));
  const floor = floorBars(input);
  const widths = possible.flatMap(({ ways }) => ways.map((way) => way.w));
  const across = dualFunctions(input.width, widths, MOST_ACROSS);
  const all = floor.length > 0 ? [...bars, { count: 1, ways: [barsFrom(floor)] }] : bars;
  best = better(best, bestDualBound(across, all, best.length), 'dual feasible');
  return better(best, twoWayBound(input.width, possible, best.length), 'dual feasible');
}

function better(best: LowerBound, length: number, reason: LowerBound['reason']): LowerBound {
  return length > best.length ? { length, reason } : best;
}

function possibleItems(input: RectangleInput): readonly Ways[] {
  return input.items
    .filter((item) => item.count > 0)
    .flatMap((item) => waysOf(item, input.width));
}

/** Nothing for an item too wide for the strip. */
function waysOf({ w, h, count, turnable }: RectangleItem, width: number): readonly Ways[] {
  const ways = turnable && w !== h ? [{ w, h }, { w: h, h: w }] : [{ w, h }];
  return limited({ count, ways }, (way) => way.w <= width);
}

/** An item with those of its ways that are possible; nothing where none is. */
function limited({ count, ways }: { readonly count: number; readonly ways: readonly Way[] }, isPossible: (way: Way) => boolean): readonly Ways[] {
  const [first, ...others] = ways.filter(isPossible);
  return first === undefined ? [] : [{ count, ways: [first, ...others] }];
}

function takenArea(input: RectangleInput): number {
  return floorSteps(input).reduce((sum, { w, y }) => sum + w * y, 0);
}

/** What is taken at the start, as bars: with the steps falling from one side, a slice at height y is everything taken higher. */
function floorBars(input: RectangleInput): readonly { across: number; along: number }[] {
  const steps = floorSteps(input);
  const heights = [...new Set(steps.map((step) => step.y))].sort((a, b) => a - b);
  return heights
    .map((y, i) => ({
      across: steps.reduce((sum, step) => (step.y >= y ? sum + step.w : sum), 0),
      along: y - (heights[i - 1] ?? 0),
    }))
    .filter((bar) => bar.along > 0);
}

function floorSteps(input: RectangleInput): readonly { w: number; y: number }[] {
  const floor = input.floor ?? [];
  return floor.map((step, i) => ({ w: (floor[i + 1]?.x ?? input.width) - step.x, y: step.y }));
}

/**
 * Slices both ways at once: were a packing of some length possible, values across times values along
 * would add up to at most the whole (Fekete and Schepers, Mathematical Methods of Operations Research
 * 60, 2004). Every length so refuted raises the bound; the range is halved, since a longer strip is
 * harder to refute.
 */
function twoWayBound(width: number, items: readonly Ways[], known: number): number {
  const most = Math.max(12, Math.min(80, Math.floor(Math.sqrt(LOOKS_PER_TRIAL / (2 * items.length)))));
  const across = dualFunctions(width, items.flatMap(({ ways }) => ways.map((way) => way.w)), most);
  const all = slicesAcross(across, items);
  let low = known;
  let high = 2 * known;
  for (let trial = 0; trial < TRIALS && low < high; trial++) {
    const length = Math.floor((low + high) / 2);
    const possible = items.flatMap((item) => limited(item, (way) => way.h <= length));
    const isAnyLess = possible.some((item, index) => item.ways.length < (items[index]?.ways.length ?? 0));
    if (possible.length < items.length || refuted(isAnyLess ? slicesAcross(across, possible) : all, possible, length, most)) low = length + 1;
    else high = length;
  }
  return low;
}

/** A number for both ways of every item, the same twice where there is one. */
interface BothWays {
  readonly given: Float64Array;
  readonly turned: Float64Array;
}

/** What slices across the strip are worth by each function. */
type Slices = readonly { readonly total: number; readonly values: BothWays }[];

const slicesAcross = (functions: readonly DualFunction[], items: readonly Ways[]): Slices => slicesOf(functions, sidesOf(items, (way) => way.w));

function slicesOf(functions: readonly DualFunction[], { given, turned }: BothWays): Slices {
  return functions.map((f) => ({ total: f.total, values: { given: valuesOf(f, given), turned: valuesOf(f, turned) } }));
}

const sidesOf = (items: readonly Ways[], sideOf: (way: Way) => number): BothWays => ({
  given: new Float64Array(items.map(({ ways: [given] }) => sideOf(given))),
  turned: new Float64Array(items.map(({ ways: [given, turned = given] }) => sideOf(turned))),
});

function valuesOf(f: DualFunction, sides: Float64Array): Float64Array {
  const values = new Float64Array(sides.length);
  for (let item = 0; item < sides.length; item++) values[item] = valueAt(f, numberAt(sides, item));
  return values;
}

function refuted(across: Slices, items: readonly Ways[], length: number, most: number): boolean {
  const functions = dualFunctions(length, items.flatMap(({ ways }) => ways.map((way) => way.h)), most);
  const along = slicesOf(functions, sidesOf(items, (way) => way.h));
  const counts = new Float64Array(items.map(({ count }) => count));
  return across.some((wide) => along.some((tall) => {
    const sum = together(counts, wide.values, tall.values);
    return sum > wide.total * tall.total && sum <= Number.MAX_SAFE_INTEGER;
  }));
}

/** What all items are worth by values across times values along, each in its cheaper way. */
function together(counts: Float64Array, wide: BothWays, tall: BothWays): number {
  let sum = 0;
  for (let item = 0; item < counts.length; item++) {
    const given = numberAt(wide.given, item) * numberAt(tall.given, item);
    const turned = numberAt(wide.turned, item) * numberAt(tall.turned, item);
    sum += numberAt(counts, item) * (turned < given ? turned : given);
  }
  return sum;
}
