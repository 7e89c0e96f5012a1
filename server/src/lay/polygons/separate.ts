import type { Random } from '../random.ts';
import type { Field } from './field.ts';
import { moveItem, type Search } from './move.ts';

/** Positions and shapes of all items, to go back to. */
export interface Snapshot {
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export function snapshotOf(field: Field): Snapshot {
  return { shape: field.shape.slice(), x: field.x.slice(), y: field.y.slice() };
}

export function restore(field: Field, snapshot: Snapshot): void {
  for (let i = 0; i < field.count; i++) field.put(i, snapshot.shape[i]!, snapshot.x[i]!, snapshot.y[i]!);
}

/** How long a separation may go on. */
export interface Patience {
  /** Sweeps without less overlap before a strike. */
  readonly sweeps: number;
  /** Strikes before giving up. */
  readonly strikes: number;
}

export interface Separation {
  readonly free: boolean;
  /** The state with the least overlap seen, and that overlap: the sum of depths over pairs, millimetres. */
  readonly best: Snapshot;
  readonly overlap: number;
}

/**
 * Guided local search: items that overlap are moved, in random order, to where their weighted overlap is least; after
 * each sweep the weights of pairs still overlapping grow, those of parted pairs fade, so that stubborn pairs come to be
 * worth more than the places they hold on to (guided local search: C. Voudouris and E. Tsang, 1999; for strip packing:
 * S. Umetani and others, 2009, DOI 10.1111/j.1475-3995.2009.00707.x from memory).
 */
export function separate(field: Field, length: number, search: Search, patience: Patience, random: Random, spent: () => boolean): Separation {
  let overlap = overlapOf(field, undefined);
  let best = snapshotOf(field);
  let leastOverlap = overlap;
  let quiet = 0;
  let strikes = 0;
  while (leastOverlap > 0 && strikes < patience.strikes && !spent()) {
    const before = leastOverlap;
    for (quiet = 0; quiet < patience.sweeps && leastOverlap > 0 && !spent(); quiet++) {
      for (const item of shuffled(overlapping, field, random)) moveItem(field, item, length, search, random);
      overlap = overlapOf(field, adjustWeights);
      if (overlap < leastOverlap) {
        if (overlap < 0.98 * leastOverlap) quiet = -1;
        leastOverlap = overlap;
        best = snapshotOf(field);
      }
    }
    if (leastOverlap === 0) break;
    strikes = leastOverlap < 0.98 * before ? 0 : strikes + 1;
    restore(field, best);
  }
  return { free: leastOverlap === 0, best, overlap: leastOverlap };
}

/** Items that overlapped at the last call of `overlapOf`. */
let overlapping: number[] = [];

function shuffled(items: readonly number[], _field: Field, random: Random): number[] {
  const order = [...items];
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [order[i], order[j]] = [order[j]!, order[i]!];
  }
  return order;
}

interface Contact {
  readonly a: number;
  readonly b: number;
  readonly depth: number;
}

/** The sum of depths over all overlapping pairs, millimetres; hands the pairs to `afterwards`. */
function overlapOf(field: Field, afterwards: ((field: Field, found: readonly Contact[]) => void) | undefined): number {
  const found: Contact[] = [];
  const touched = new Set<number>();
  for (let a = 0; a < field.count; a++) {
    field.eachNear(field.x[a]!, field.y[a]!, field.width[a]!, field.height[a]!, (b) => {
      if (b <= a) return;
      const depth = field.depth(a, b);
      if (depth === 0) return;
      found.push({ a, b, depth });
      touched.add(a).add(b);
    });
  }
  overlapping = [...touched];
  afterwards?.(field, found);
  return found.reduce((sum, contact) => sum + contact.depth, 0);
}

/** Share of its weight above 1 that a parted pair keeps per sweep. */
const fading = 0.95;
const leastRaise = 1.2;
const mostRaise = 2;

/** Raises the weights of overlapping pairs, the deepest most, and lets all others fade back towards 1. */
function adjustWeights(field: Field, found: readonly Contact[]): void {
  const { weight, count } = field;
  for (let at = 0; at < weight.length; at++) if (weight[at]! > 1) weight[at] = Math.max(1, weight[at]! * fading);
  const deepest = found.reduce((most, contact) => Math.max(most, contact.depth), 0);
  for (const { a, b, depth } of found) {
    const raised = ((weight[a * count + b]!) / fading) * (leastRaise + ((mostRaise - leastRaise) * depth) / deepest);
    weight[a * count + b] = weight[b * count + a] = Math.min(1e12, raised);
  }
}
