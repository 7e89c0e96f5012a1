import { oneOf, type Random } from '../random.ts';
import type { Field } from './field.ts';
import type { Search } from './move.ts';
import { relax } from './relax.ts';
import { separate } from './separate.ts';
import { cutTo, leastLength, restore, snapshotOf, stretchTo, swapPlaces, type Snapshot } from './strip.ts';

/** A search for shorter lays: what it may use, and whom it tells. */
export interface Shortening {
  readonly field: Field;
  readonly random: Random;
  /** Work at which to stop. */
  readonly budget: number;
  /** Whether to stop: out of budget or cancelled. */
  readonly spent: () => boolean;
  /** Told of every shorter lay, with the field in that state. */
  readonly accept: () => void;
}

const search: Search = { anywhere: 10, nearby: 5, refined: 1, rounds: 4 };

/** How much shorter each strip tried is than the best lay, as a share: at first, at most and at least. */
const shrinkAtFirst = 0.01;
const shrinkAtMost = 0.02;
const shrinkAtLeast = 0.002;

/** Share of the budget spent with shake-ups; after it only the best lay is worked on. */
const roaming = 0.8;
/** Chance that a shake-up starts from the best lay rather than from one that could not be cleared. */
const fromBest = 0.3;

/** Tries ever shorter strips from the lay in the field, until spent. Leaves the field in any state. */
export function shorten(run: Shortening): void {
  const { field, random, spent } = run;
  let best = snapshotOf(field);
  let length = field.reach();
  let shrink = shrinkAtFirst;
  let stuck: Snapshot[] = [];
  const least = leastLength(field);
  while (!spent() && length > least + field.touching) {
    const target = Math.max(least, length * (1 - shrink));
    const roam = field.work < roaming * run.budget;
    cutTo(field, target);
    field.resetWeights();
    const patience = roam ? { sweeps: 100, strikes: 3 } : { sweeps: 50, strikes: 2 };
    const outcome = separate(field, target, search, patience, random, spent);
    if (outcome.free || lengthened(run, outcome.overlap, target, length)) {
      best = snapshotOf(field);
      length = field.reach();
      stuck = [];
      shrink = outcome.free ? Math.min(shrinkAtMost, shrink * 1.4) : Math.max(shrinkAtLeast, shrink * 0.7);
      run.accept();
      continue;
    }
    shrink = Math.max(shrinkAtLeast, shrink * 0.5);
    stuck.push(outcome.best);
    restore(field, !roam || random() < fromBest ? best : oneOf(stuck, random));
    if (roam) shakeUp(field, target, random);
  }
}

/**
 * A strip that could not quite be cleared may be clear when a little longer and still shorter than the best: tries that,
 * first with twice the overlap that was left, then ever more. True with the field in the clear state.
 */
function lengthened(run: Shortening, overlap: number, target: number, length: number): boolean {
  const { field, random, spent } = run;
  const left = snapshotOf(field);
  const most = 0.95 * (length - target);
  for (let extra = Math.max(2 * overlap, 0.05 * (length - target)); extra < most && !spent(); extra *= 2) {
    restore(field, left);
    stretchTo(field, target, target + extra);
    if (separate(field, target + extra, search, { sweeps: 15, strikes: 1 }, random, spent).free) return true;
  }
  return false;
}

/** Lets two of the larger items of different kinds change places. */
function shakeUp(field: Field, length: number, random: Random): void {
  const bySize = Array.from(field.size, (size, item) => ({ size, item })).sort((a, b) => b.size - a.size || a.item - b.item);
  const large = bySize.slice(0, Math.max(2, Math.ceil(field.count / 2))).map(({ item }) => item);
  const one = oneOf(large, random);
  const others = large.filter((item) => field.task.items[item] !== field.task.items[one]);
  if (others.length > 0) swapPlaces(field, one, oneOf(others, random), length);
}

/** Shares by which compaction shortens, one after the other. */
const squeezes = [0.004, 0.001, 0.0002, 0.00004];
const squeezeRounds = 120;

/**
 * Pushes a lay together without moving any piece past another: the strip is shortened bit by bit and all pieces pushed
 * apart again, as long as that clears the overlap. Leaves the field in the shortest clear state found.
 */
export function compact(field: Field, spent: () => boolean): void {
  let best = snapshotOf(field);
  let length = field.reach();
  const least = leastLength(field);
  for (const share of squeezes) {
    while (!spent()) {
      const target = Math.max(least, length * (1 - share));
      if (target >= length - field.touching) break;
      cutTo(field, target);
      if (!(relax(field, target, squeezeRounds, spent) && field.reach() < length)) break;
      best = snapshotOf(field);
      length = field.reach();
    }
    restore(field, best);
  }
}
