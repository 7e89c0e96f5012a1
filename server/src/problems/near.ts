import { limits } from './limits.ts';

/** Of more names than this, only those that begin or end most like the mistyped one are looked at. */
const fewNames = 200;
/** So many of each of those, on either side in the order of the alphabet. */
const neighbours = 40;

/**
 * The one of `names` that a mistyped `name` most likely stands for; undefined when none is near. Of one or two letters any
 * other is near, so among them only large and small letters are taken for one another. Names longer than
 * {@link limits.nameLength} are like none.
 */
export function nearestName(name: string, names: Iterable<string> | NameIndex): string | undefined {
  if (name.length > limits.nameLength) return undefined;
  const low = name.toLowerCase();
  const limit = Math.max(1, Math.floor(name.length / 3));
  let best: string | undefined;
  let least = limit + 1;
  for (const candidate of names instanceof NameIndex ? names.candidates(low) : names) {
    if (candidate === '' || Math.abs(candidate.length - name.length) > Math.min(least, limit)) continue;
    const distance = editDistance(...unlike(low, candidate.toLowerCase()), Math.min(least, limit));
    if (distance > 0 && Math.max(name.length, candidate.length) < 3) continue;
    if (distance < least || (distance === least && best !== undefined && candidate < best)) {
      best = candidate;
      least = distance;
    }
  }
  return best;
}

/** Names to look for similar ones in, however many there are. What it gives hangs on the names alone, not on their order. */
export class NameIndex {
  readonly names: readonly string[];
  #forwards: Sorted | undefined;
  #backwards: Sorted | undefined;

  constructor(names: Iterable<string>) {
    this.names = [...names];
  }

  /** Those that may be near to a name in small letters. */
  candidates(low: string): Iterable<string> {
    if (this.names.length <= fewNames) return this.names;
    const forwards = (this.#forwards ??= sorted(this.names, (name) => name));
    const backwards = (this.#backwards ??= sorted(this.names, reversed));
    return new Set([...around(forwards, low), ...around(backwards, reversed(low))]);
  }
}

/** Names by keys in the order of code units. */
type Sorted = readonly (readonly [key: string, name: string])[];

const reversed = (text: string): string => Array.from(text).reverse().join('');

function sorted(names: readonly string[], keyOf: (low: string) => string): Sorted {
  return names
    .map((name): readonly [string, string] => [keyOf(name.toLowerCase()), name])
    .sort(([a, nameA], [b, nameB]) => (a < b ? -1 : a > b ? 1 : nameA < nameB ? -1 : 1));
}

function around(entries: Sorted, key: string): readonly string[] {
  let low = 0;
  let high = entries.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((entries[middle]?.[0] ?? '') < key) low = middle + 1;
    else high = middle;
  }
  return entries.slice(Math.max(0, low - neighbours), low + neighbours).map(([, name]) => name);
}

/** Two texts without what both begin and end with, which changes nothing of how far apart they are. */
function unlike(a: string, b: string): readonly [string, string] {
  const shorter = Math.min(a.length, b.length);
  let start = 0;
  while (start < shorter && a[start] === b[start]) start++;
  let end = 0;
  while (end < shorter - start && a[a.length - 1 - end] === b[b.length - 1 - end]) end++;
  return [a.slice(start, a.length - end), b.slice(start, b.length - end)];
}

/**
 * Least number of letters added, dropped, changed or swapped with their neighbour; anything above `most` where it is
 * more than that. Only the cells that can stay within it are filled (E. Ukkonen, Algorithms for approximate string
 * matching, 1985).
 */
function editDistance(a: string, b: string, most: number): number {
  const beyond = most + 1;
  let beforePrevious: number[] = [];
  let previous = Array.from({ length: b.length + 1 }, (_, index) => index);
  for (let i = 1; i <= a.length; i++) {
    const current: number[] = [];
    current[0] = i;
    const [from, to] = [Math.max(1, i - most), Math.min(b.length, i + most)];
    if (from > 1) current[from - 1] = beyond;
    for (let j = from; j <= to; j++) {
      const change = (previous[j - 1] ?? beyond) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let least = Math.min(change, (previous[j] ?? beyond) + 1, (current[j - 1] ?? beyond) + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) least = Math.min(least, (beforePrevious[j - 2] ?? beyond) + 1);
      current[j] = least;
    }
    beforePrevious = previous;
    previous = current;
  }
  return previous[b.length] ?? beyond;
}
