import { itemAt } from '../geometry/lists.ts';

/** A source of evenly spread numbers in [0, 1), the same on every machine for the same seed. */
export type Random = () => number;

/** One of some items, by chance. Throws a RangeError where there are none. */
export const oneOf = <T>(items: ArrayLike<T>, random: Random): T => itemAt(items, Math.floor(random() * items.length));

/**
 * The mulberry32 generator (T. Ettinger, public domain; from memory): 32 bits of state, integer
 * arithmetic only, so the same seed gives the same bytes everywhere.
 */
export function seededRandom(seed: number): Random {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}
