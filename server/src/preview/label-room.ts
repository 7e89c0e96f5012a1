import { boundsOfPoints, type Bounds } from '../geometry/measure.ts';
import type { Point, Polygon, Polyline } from '../geometry/shape.ts';

/** A rectangle that words have to themselves, y upwards: its middle, and how wide and high it is, in millimetres. */
export interface LabelRoom {
  readonly x: number;
  readonly y: number;
  readonly across: number;
  readonly high: number;
  /** CSS pixels to a millimetre from which a usual label has room there; infinite where there is none at all. */
  readonly from: number;
}

/** A piece as cells, as far as words may stand in them. */
export interface Ground {
  readonly box: Bounds;
  /** Row by row from below; 1 of a cell that is taken. */
  readonly taken: Uint8Array;
}

/** Cells along each side of the box: fine enough for words, and cheap (invented). */
const cells = 28;
/** Bold letters are about as wide as this, others as that, and a line of them as high, pixels; no font is measured. */
const [bold, light, line] = [7.6, 6.8, 16.5] as const;
/** Room round words, and the least that a label takes up along its lines, pixels (invented, by eye). */
const [margin, least] = [10, 56] as const;

/** What is written in a piece: what it is called, and its finished size, as `finished 9 in × 7 in`. */
export interface LabelWords {
  readonly title: string;
  readonly size: string;
}

interface Extent {
  readonly width: number;
  readonly height: number;
}

/** What a name with its count and its size takes up: level, with its words on more lines, and upright. */
function extentsOf({ title, size }: LabelWords): readonly Extent[] {
  const long = (words: readonly string[], letter: number): number => Math.max(0, ...words.map((one) => one.length)) * letter;
  const along = Math.max(least, long([title], bold) + margin, long([size], light) + margin);
  const sizes = size.split(/(?<=[×,d]) /);
  const words = title.split(' ');
  const narrow = Math.max(least, long(words, bold) + margin, long(sizes, light) + margin);
  return [
    { width: along, height: 3 * line },
    { width: narrow, height: (words.length + 1 + sizes.length) * line },
    { width: 3 * line, height: along },
  ];
}
/** How much sooner a label may have room for a place farther from the middle to be taken. */
const towardsMiddle = 0.3;

const edgeOfCell = 0.02;

/** What lies inside a ring. */
export function groundOf(ring: Polygon): Ground {
  const box = boundsOfPoints(ring);
  const taken = new Uint8Array(cells * cells).fill(1);
  const [wide, high] = [(box.maxX - box.minX) / cells, (box.maxY - box.minY) / cells];
  for (let row = 0; row < cells; row++) {
    const [below, above] = [crossings(ring, box.minY + (row + edgeOfCell) * high), crossings(ring, box.minY + (row + 1 - edgeOfCell) * high)];
    for (let column = 0; column < cells; column++) {
      const [left, right] = [box.minX + (column + edgeOfCell) * wide, box.minX + (column + 1 - edgeOfCell) * wide];
      if (isBetween(below, left, right) && isBetween(above, left, right)) taken[row * cells + column] = 0;
    }
  }
  return { box, taken };
}

/** Where a level line crosses a ring, from left to right: what is inside lies between the first two, and so on. */
function crossings(ring: Polygon, y: number): readonly number[] {
  const found: number[] = [];
  let a = ring.at(-1);
  for (const b of ring) {
    if (a !== undefined && a.y > y !== b.y > y) found.push(a.x + ((b.x - a.x) * (y - a.y)) / (b.y - a.y));
    a = b;
  }
  return found.sort((one, other) => one - other);
}

function isBetween(found: readonly number[], left: number, right: number): boolean {
  for (let at = 0; at + 1 < found.length; at += 2) if ((found[at] ?? 0) <= left && right <= (found[at + 1] ?? 0)) return true;
  return false;
}

/** The same without the cells that some lines run through. */
export function without({ box, taken: before }: Ground, lines: readonly Polyline[]): Ground {
  const taken = before.slice();
  const [wide, high] = [(box.maxX - box.minX) / cells, (box.maxY - box.minY) / cells];
  const take = ({ x, y }: Point): void => {
    const [column, row] = [Math.floor((x - box.minX) / wide), Math.floor((y - box.minY) / high)];
    if (column >= 0 && column < cells && row >= 0 && row < cells) taken[row * cells + column] = 1;
  };
  for (const line of lines) {
    let a = line[0];
    for (const b of line) {
      if (a === undefined) continue;
      const steps = Math.max(1, Math.ceil(2 * Math.max(Math.abs(b.x - a.x) / wide, Math.abs(b.y - a.y) / high)));
      for (let step = 0; step <= steps; step++) take({ x: a.x + ((b.x - a.x) * step) / steps, y: a.y + ((b.y - a.y) * step) / steps });
      a = b;
    }
  }
  return { box, taken };
}

/** Of all free rectangles the one in which a label with its words has room at the smallest scale; of those that are nearly as good, the one nearest to the middle. */
export function roomIn({ box, taken }: Ground, words: LabelWords = { title: '', size: '' }): LabelRoom {
  const extents = extentsOf(words);
  const [wide, high] = [(box.maxX - box.minX) / cells, (box.maxY - box.minY) / cells];
  let best: LabelRoom = { x: (box.minX + box.maxX) / 2, y: (box.minY + box.maxY) / 2, across: 0, high: 0, from: Infinity };
  let lowest = Infinity;
  const consider = (bottom: number, top: number, left: number, right: number): void => {
    const [across, up] = [(right - left) * wide, (top - bottom) * high];
    let from = Infinity;
    for (const { width, height } of extents) from = Math.min(from, Math.max(width / across, height / up));
    const off = Math.hypot((left + right) / cells - 1, (bottom + top) / cells - 1);
    const cost = from * (1 + towardsMiddle * off);
    if (cost >= lowest) return;
    lowest = cost;
    best = { x: box.minX + ((left + right) / 2) * wide, y: box.minY + ((bottom + top) / 2) * high, across, high: up, from };
  };
  const column = new Uint8Array(cells);
  for (let bottom = 0; bottom < cells; bottom++) {
    column.fill(0);
    for (let top = bottom; top < cells; top++) {
      let start = -1;
      for (let at = 0; at <= cells; at++) {
        if (at < cells) column[at] = (column[at] ?? 0) | (taken[top * cells + at] ?? 1);
        const isFree = at < cells && column[at] === 0;
        if (isFree && start < 0) start = at;
        else if (!isFree && start >= 0) {
          consider(bottom, top + 1, start, at);
          start = -1;
        }
      }
    }
  }
  return best;
}
