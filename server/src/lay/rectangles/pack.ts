import { cyclic } from '../../geometry/cyclic.ts';
import { seededRandom } from '../random.ts';
import type { Random } from '../random.ts';
import { quickRectangleBound, rectangleBound } from '../bounds/rectangles.ts';
import { beamSearch } from './beam.ts';
import type { BeamStyle, BeamTask } from './beam.ts';
import { fill } from './fill.ts';
import type { Filled, Skyline } from './fill.ts';
import { kindsOf, optionsOf, placementsOf } from './kinds.ts';
import type { Kind, Laid } from './kinds.ts';
import type { RectangleEffort, RectangleInput, RectangleOutcome, RectanglePacking, RectangleProgress } from './types.ts';

/** Steps that take about one second on a desktop processor (measured; see test/bench/lay.ts). */
export const STEPS_PER_SECOND = 20_000_000;
/** Steps between two reports of progress, at least: about a hundredth of a second. */
const REPORT_EVERY = 200_000;

type Taste = Omit<BeamStyle, 'width' | 'waste'>;
/** Different tastes fail on different problems, so they take turns. */
const TASTES: readonly Taste[] = [
  { niche: 'narrowest', power: 1, size: 2, noise: 0 },
  { niche: 'narrowest', power: 0.5, size: 1, noise: 0 },
  { niche: 'lowest', power: 1, size: 1, noise: 0 },
  { niche: 'narrowest', power: 0.5, size: 2, noise: 0 },
  { niche: 'narrowest', power: 1, size: 1, noise: 0.5 },
];

/** Weights of waste, taking turns likewise; found by trial on invented problems with waste. */
const WASTES: readonly number[] = [32, 16, 48];

/** The first beam is this wide, and each later one this much wider. */
const FIRST_WIDTH = 12;
const WIDENING = 1.15;
/** Numbers the strips of one beam may take up, against running out of memory. */
const MOST_NUMBERS = 1 << 24;

/**
 * Packs rectangles into a strip as short as it can within the effort. The first packing is yielded at
 * once; later yields report progress, with a better packing when there is one. It returns when the
 * steps are spent or the packing is as short as the proved bound; a caller that has seen enough just
 * stops asking.
 */
export function* packRectangles(
  input: RectangleInput,
  effort: RectangleEffort,
): Generator<RectangleProgress, RectangleOutcome> {
  const kinds = kindsOf(input);
  const options = optionsOf(kinds, input.width);
  const tooWide = kinds.flatMap((kind, k) => (options.some((option) => option.kind === k) ? [] : kind.from.map((from) => from.item)));
  if (tooWide.length > 0) return { kind: 'too wide', items: [...tooWide].sort((a, b) => a - b) };

  const counts = kinds.map((kind) => kind.count);
  const floor: Skyline = {
    x: [...(input.floor?.map((step) => step.x) ?? [0]), input.width],
    y: input.floor?.map((step) => step.y) ?? [0],
  };
  let bound = quickRectangleBound(input).length;
  const toPacking = ({ length, laid }: Filled): RectanglePacking => ({
    length,
    placements: placementsOf(input, kinds, laid),
  });

  let best = fill(floor, options, counts);
  let packing = toPacking(best);
  let step = 0;
  const progress = (): RectangleProgress => ({ packing, bound, step: Math.min(step, effort.steps), steps: effort.steps });
  yield progress();
  // It takes longer than a first packing, and says only how far a search may go.
  if (best.length > bound && effort.steps > 0) bound = rectangleBound(input).length;

  const random = seededRandom(effort.seed ?? 1);
  const flat = floor.y.length === 1 && floor.y[0] === 0;
  const pieces = counts.reduce((sum, count) => sum + count, 0);
  const widest = Math.max(1, Math.floor(MOST_NUMBERS / (4 * pieces + 2 * kinds.length + 16)));
  let width = FIRST_WIDTH;
  let share = 1;
  let reported = 0;
  for (let run = 0; best.length > bound && step < effort.steps; run++) {
    const height = best.length - Math.max(1, Math.floor((best.length - bound) * share));
    const lying = flat && run % 2 === 1;
    const search = lookFor(kinds, counts, floor, input.width, height, lying, styleOf(run, width, widest), random);
    let turn = search.next();
    for (; !turn.done; turn = search.next()) {
      step += turn.value;
      if (step >= effort.steps) break;
      if (step - reported < REPORT_EVERY) continue;
      reported = step;
      yield progress();
    }
    if (!turn.done) break;
    const { value: filled } = turn;
    share = nextShare(share, filled !== undefined && filled.length <= height);
    width *= WIDENING;
    if (filled === undefined || filled.length >= best.length) continue;
    best = filled;
    packing = toPacking(best);
    yield progress();
  }
  return { kind: 'packed', packing, bound, step: Math.min(step, effort.steps) };
}

/** How a run goes about it. One that is wider than memory allows leaves more to chance. */
function styleOf(run: number, width: number, widest: number): BeamStyle {
  const taste = cyclic(TASTES, run);
  return { ...taste, width: Math.min(widest, Math.floor(width)), waste: cyclic(WASTES, run), noise: width > widest ? 0.5 : taste.noise };
}

/** How much of the room between the bound and the best packing the next run tries to save. */
function nextShare(share: number, success: boolean): number {
  if (success) return Math.min(1, share * 1.5);
  return share < 0.02 ? 0.5 : share * 0.7;
}

/**
 * One beam search for a packing no longer than `height`, filling the strip from its start or, `lying`,
 * from its side. What a search from the start could not finish is finished past the height.
 */
function* lookFor(
  kinds: readonly Kind[],
  counts: readonly number[],
  floor: Skyline,
  width: number,
  height: number,
  lying: boolean,
  style: BeamStyle,
  random: Random,
): Generator<number, Filled | undefined> {
  const within = lying ? kinds.map((kind) => (kind.turnable ? kind : { ...kind, w: kind.h, h: kind.w })) : kinds;
  const options = optionsOf(within, lying ? height : width);
  const task: BeamTask = lying
    ? { floor: { x: [0, height], y: [0] }, height: width, options, counts }
    : { floor, height, options, counts };
  const result = yield* beamSearch(task, style, random);
  if (result.kind === 'filled') {
    const laid = lying ? result.laid.map(({ kind, x, y, w, h }) => ({ kind, x: y, y: x, w: h, h: w })) : result.laid;
    return { laid, length: lengthOf(laid, floor) };
  }
  if (lying || result.best === undefined) return undefined;
  const { laid: under, skyline, left } = result.best;
  const laid = [...under, ...fill(skyline, options, left).laid];
  return { laid, length: lengthOf(laid, floor) };
}

function lengthOf(laid: readonly Laid[], floor: Skyline): number {
  return laid.reduce((length, { y, h }) => Math.max(length, y + h), Math.max(...floor.y));
}
