import type { Extent } from './board-names.ts';

/** A rectangle on the board, CSS pixels, y downwards. */
export interface Patch {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** A way in which a name may be written outside of its piece, with what it takes up. */
export interface OutsideForm extends Extent {
  /** How many are cut and its finished size; empty of the name alone. */
  readonly details: string;
  /** Whether these are below the name. */
  readonly isStacked: boolean;
}

/** A piece that has no room for its name, or none for its finished size. */
export interface Nameless {
  readonly name: string;
  readonly piece: Patch;
  /** As it may stand right beside, the best first. */
  readonly beside: readonly OutsideForm[];
  /** As it may stand with a line that leads to it; none of a piece that has its name inside. */
  readonly led: readonly OutsideForm[];
}

/** Where a name stands, and the line that leads to it, from the middle of its piece; none where it stands right beside. */
export interface OutsideName {
  readonly at: Patch;
  readonly form: OutsideForm;
  readonly leader: { readonly length: number; readonly degrees: number } | undefined;
}

/** So far from its piece a name may stand, the nearest first, pixels (invented, by eye). */
const near = 3;
const distances = [12, 26, 44, 66, 92, 124, 160] as const;
const directions = 12;

/** Where a name may stand, the best first. */
function* candidates({ piece, beside, led }: Nameless): Generator<Pick<OutsideName, 'at' | 'form'>> {
  for (const form of beside) for (const at of placesBeside(piece, form)) yield { at, form };
  for (const form of led) for (const at of placesAround(piece, form)) yield { at, form };
}

/**
 * Finds room on the board for the names of pieces that have none inside: off every piece and every other name, and with a
 * line to it that crosses no other piece. Who finds none is left out.
 *
 * @param pieces all of them, those without a name among them
 * @param within what is in sight
 */
export function namesOutside(nameless: readonly Nameless[], pieces: readonly Patch[], within: Patch): ReadonlyMap<string, OutsideName> {
  const found = new Map<string, OutsideName>();
  const taken: Patch[] = [...pieces];
  for (const one of nameless) {
    const { name, piece } = one;
    const others = pieces.filter((other) => other !== piece);
    for (const candidate of candidates(one)) {
      const { at } = candidate;
      if (!holds(within, at) || taken.some((other) => meet(other, at))) continue;
      const leader = leaderTo(piece, at);
      if (leader !== undefined && others.some((other) => isCrossed(other, middleOf(piece), middleOf(at)))) continue;
      taken.push(at);
      found.set(name, { ...candidate, leader });
      break;
    }
  }
  return found;
}

/** To the right of a piece, below it, to its left and above it. */
function placesBeside({ x, y, width, height }: Patch, words: Extent): readonly Patch[] {
  const [left, top] = [x + (width - words.width) / 2, y + (height - words.height) / 2];
  return [[x + width + near, top], [left, y + height + near], [x - near - words.width, top], [left, y - near - words.height]].map(([across = 0, down = 0]) => ({ x: across, y: down, width: words.width, height: words.height }));
}

/** Farther and farther away, all round. */
function placesAround({ x, y, width, height }: Patch, words: Extent): readonly Patch[] {
  const [left, top] = [x + (width - words.width) / 2, y + (height - words.height) / 2];
  return distances.flatMap((distance) => Array.from({ length: directions }, (_, turn) => {
    const angle = (turn / directions) * 2 * Math.PI;
    return { x: left + Math.cos(angle) * ((width + words.width) / 2 + distance), y: top + Math.sin(angle) * ((height + words.height) / 2 + distance), width: words.width, height: words.height };
  }));
}

/** From the middle of a piece to where it meets a name; undefined where that stands right beside it. */
function leaderTo(piece: Patch, at: Patch): OutsideName['leader'] {
  const gap = Math.hypot(Math.max(piece.x - at.x - at.width, at.x - piece.x - piece.width, 0), Math.max(piece.y - at.y - at.height, at.y - piece.y - piece.height, 0));
  if (gap <= near + 1) return undefined;
  const [from, to] = [middleOf(piece), middleOf(at)];
  const [right, down] = [to.x - from.x, to.y - from.y];
  // It ends where it comes to the words.
  const share = 1 - Math.min(at.width / 2 / Math.max(1e-9, Math.abs(right)), at.height / 2 / Math.max(1e-9, Math.abs(down)), 1);
  return { length: Math.hypot(right, down) * share, degrees: (Math.atan2(down, right) * 180) / Math.PI };
}

const middleOf = ({ x, y, width, height }: Patch): { readonly x: number; readonly y: number } => ({ x: x + width / 2, y: y + height / 2 });

const holds = (within: Patch, one: Patch): boolean => one.x >= within.x && one.y >= within.y && one.x + one.width <= within.x + within.width && one.y + one.height <= within.y + within.height;

const meet = (a: Patch, b: Patch): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;

/** Whether a line runs through a rectangle: how much of it lies between each pair of sides. */
export function isCrossed({ x, y, width, height }: Patch, from: { readonly x: number; readonly y: number }, to: { readonly x: number; readonly y: number }): boolean {
  let [start, end] = [0, 1];
  for (const [at, goes, low, high] of [[from.x, to.x - from.x, x, x + width], [from.y, to.y - from.y, y, y + height]] as const) {
    if (goes === 0) {
      if (at < low || at > high) return false;
      continue;
    }
    const [one, other] = [(low - at) / goes, (high - at) / goes];
    [start, end] = [Math.max(start, Math.min(one, other)), Math.min(end, Math.max(one, other))];
  }
  return start < end;
}
