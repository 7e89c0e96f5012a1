/** Chance that a seed decides: the same seed gives the same inputs on every machine (mulberry32, public domain). */
export class Random {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to and without 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = this.#state;
    mixed = Math.imul(mixed ^ (mixed >>> 15), mixed | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from `least` to `most`. */
  whole(least: number, most: number): number {
    return least + Math.floor(this.next() * (most - least + 1));
  }

  /** A whole number from `least` to `most`, small ones as likely as large ones: each power of two is. */
  size(least: number, most: number): number {
    return Math.round(least * (most / least) ** this.next());
  }

  of<T>(items: readonly T[]): T {
    const item = items[this.whole(0, items.length - 1)];
    if (item === undefined) throw new Error('Nothing to choose from');
    return item;
  }
}
