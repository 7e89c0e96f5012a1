import { itemAt } from '../../geometry/lists.ts';
import type { Random } from '../random.ts';
import type { Field } from './field.ts';
import { moveItem, type Search } from './move.ts';
import { relax } from './relax.ts';
import { restore, snapshotOf, type Snapshot } from './strip.ts';

/** How long a separation may go on. */
export interface Patience {
  /** Sweeps without less overlap before a strike. */
  readonly sweeps: number;
  /** Strikes before giving up. */
  readonly strikes: number;
}

export interface Separation {
  /** Whether all overlap is gone. */
  readonly free: boolean;
  /** The state with the least overlap seen, and that overlap: the sum of depths over pairs, millimetres. */
  readonly best: Snapshot;
  readonly overlap: number;
}

/** Work that a sweep costs besides looking at pairs: keeping books. */
const workPerSweep = 50;

/** Less overlap than this share of the least so far counts as progress. */
const progress = 0.98;

/** Relaxing is tried below this overlap, as a share of a middling item's side … */
const relaxBelow = 0.05;
/** … and again when the overlap has fallen to this share of the last trial's. */
const relaxAgain = 0.7;
const relaxRounds = 200;

/**
 * Guided local search: items that overlap are moved, in random order, to where their weighted overlap is least; after
 * each sweep the weights of pairs still overlapping grow and those of parted pairs fade, so that stubborn pairs come to
 * be worth more than the places they hold on to (guided local search: C. Voudouris and E. Tsang, 1999; for irregular
 * strip packing: J. Egeblad and others, 2007, and S. Umetani and others, 2009; from memory). Once little overlap is
 * left, all items are relaxed together. Leaves the field in the best state.
 */
export function separate(field: Field, length: number, search: Search, patience: Patience, random: Random, spent: () => boolean): Separation {
  let contacts = contactsOf(field);
  let least = overlapOf(contacts);
  let best = snapshotOf(field);
  let relaxedAt = relaxBelow * Math.sqrt((field.task.width * length) / field.count);
  for (let strikes = 0; least > 0 && strikes < patience.strikes && !spent(); ) {
    const before = least;
    for (let quiet = 0; quiet < patience.sweeps && least > 0 && !spent(); quiet++) {
      for (const item of shuffled(itemsIn(contacts), random)) moveItem(field, item, length, search, random);
      contacts = contactsOf(field);
      field.work += field.count + workPerSweep;
      adjustWeights(field, contacts);
      const overlap = overlapOf(contacts);
      if (overlap >= least) continue;
      if (overlap < progress * least) quiet = -1;
      least = overlap;
      best = snapshotOf(field);
      if (least > 0 && least < relaxAgain * relaxedAt) {
        relaxedAt = least;
        if (relax(field, length, relaxRounds, spent)) {
          least = 0;
          best = snapshotOf(field);
        } else restore(field, best);
      }
    }
    strikes = least < progress * before ? 0 : strikes + 1;
    restore(field, best);
    contacts = contactsOf(field);
  }
  restore(field, best);
  return { free: least === 0, best, overlap: least };
}

/** Two items that overlap, and how deep, millimetres. */
interface Contact {
  readonly a: number;
  readonly b: number;
  readonly depth: number;
}

function contactsOf(field: Field): Contact[] {
  const contacts: Contact[] = [];
  for (let a = 0; a < field.count; a++) {
    field.eachNearItem(a, (b) => {
      if (b <= a) return;
      const depth = field.depth(a, b);
      if (depth > 0) contacts.push({ a, b, depth });
    });
  }
  return contacts;
}

function overlapOf(contacts: readonly Contact[]): number {
  return contacts.reduce((sum, contact) => sum + contact.depth, 0);
}

function itemsIn(contacts: readonly Contact[]): number[] {
  return [...new Set(contacts.flatMap(({ a, b }) => [a, b]))];
}

function shuffled(items: number[], random: Random): number[] {
  for (let i = items.length - 1; i > 0; i--) {
    const j = Math.floor(random() * (i + 1));
    [items[i], items[j]] = [itemAt(items, j), itemAt(items, i)];
  }
  return items;
}

/** Share of its weight that a pair no longer overlapping keeps per sweep, down to the weight it started from. */
const fading = 0.95;
/** Growth per sweep of a pair that hardly overlaps, and of the pair that overlaps deepest. */
const leastRaise = 1.2;
const mostRaise = 2;
const mostWeight = 1e12;

/** Raises the weights of overlapping pairs, the deepest most, and lets all others fade back. */
function adjustWeights(field: Field, contacts: readonly Contact[]): void {
  field.fadeWeights(fading);
  const deepest = contacts.reduce((most, contact) => Math.max(most, contact.depth), 0);
  for (const { a, b, depth } of contacts) field.raiseWeight(a, b, (leastRaise + ((mostRaise - leastRaise) * depth) / deepest) / fading, mostWeight);
}
