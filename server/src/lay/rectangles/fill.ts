import type { Laid, Option } from './kinds.ts';

/** The upper edge of what is laid: from `x[i]` to `x[i + 1]` the strip is taken up to `y[i]`; x has one more entry, the width. */
export interface Skyline {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

export interface Filled {
  readonly length: number;
  readonly laid: readonly Laid[];
}

/**
 * Lays everything left on top of a skyline, at once and without looking ahead: into the lowest niche
 * goes the widest rectangle that fits (the tallest of those), against the higher of its two walls; a
 * niche nothing fits is given up. The rule is the best fit of Burke, Kendall and Whitwell, Operations
 * Research 52(4), 2004.
 *
 * @param options every way of laying every kind, narrowest first; each kind left over must have one
 *   no wider than the strip
 * @param left how many of each kind are still to be laid
 */
export function fill(skyline: Skyline, options: readonly Option[], left: readonly number[]): Filled {
  const x = [...skyline.x];
  const y = [...skyline.y];
  const counts = [...left];
  let remaining = counts.reduce((sum, count) => sum + count, 0);
  let length = Math.max(...y);
  const laid: Laid[] = [];
  while (remaining > 0) {
    const at = lowest(x, y);
    const start = x[at] ?? 0;
    const end = x[at + 1] ?? 0;
    const floor = y[at] ?? 0;
    const leftWall = y[at - 1] ?? Infinity;
    const rightWall = y[at + 1] ?? Infinity;
    const option = widest(options, counts, end - start);
    if (option === undefined) {
      y[at] = Math.min(leftWall, rightWall);
      merge(x, y, at);
      continue;
    }
    const against = leftWall >= rightWall ? start : end - option.w;
    const top = floor + option.h;
    laid.push({ kind: option.kind, x: against, y: floor, w: option.w, h: option.h });
    counts[option.kind] = (counts[option.kind] ?? 0) - 1;
    remaining--;
    length = Math.max(length, top);
    if (option.w === end - start) {
      y[at] = top;
      merge(x, y, at);
    } else if (against === start) {
      x.splice(at + 1, 0, start + option.w);
      y.splice(at, 0, top);
      merge(x, y, at);
    } else {
      x.splice(at + 1, 0, against);
      y.splice(at + 1, 0, top);
      merge(x, y, at + 1);
    }
  }
  return { length, laid };
}

function lowest(x: readonly number[], y: readonly number[]): number {
  let best = 0;
  for (let i = 1; i < y.length; i++) {
    const [here, least] = [y[i] ?? 0, y[best] ?? 0];
    if (here < least) best = i;
    else if (here === least && (x[i + 1] ?? 0) - (x[i] ?? 0) < (x[best + 1] ?? 0) - (x[best] ?? 0)) best = i;
  }
  return best;
}

function widest(options: readonly Option[], counts: readonly number[], room: number): Option | undefined {
  let low = 0;
  let high = options.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((options[middle]?.w ?? 0) <= room) low = middle + 1;
    else high = middle;
  }
  for (let i = low - 1; i >= 0; i--) {
    const option = options[i];
    if (option !== undefined && (counts[option.kind] ?? 0) > 0) return option;
  }
  return undefined;
}

/** Joins the stretch at `at` with neighbours of the same height. */
function merge(x: number[], y: number[], at: number): void {
  if (y[at + 1] === y[at]) {
    x.splice(at + 1, 1);
    y.splice(at + 1, 1);
  }
  if (at > 0 && y[at - 1] === y[at]) {
    x.splice(at, 1);
    y.splice(at, 1);
  }
}
