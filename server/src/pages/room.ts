import { pointInside } from '../geometry/inside.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import type { Point, Polygon, Polyline } from '../geometry/shape.ts';
import { clippedLine } from './clip.ts';
import type { Box } from './sheet.ts';

/** A straight line that nothing may be written over. */
type Bar = readonly [Point, Point];

/** Where on a template something may be written: inside an outline, clear of its lines and of what is written already. */
export class Room {
  readonly #outline: Polygon;
  readonly #bars: Bar[] = [];
  readonly #taken: Box[] = [];
  /** Where writing would be parted, as over the join of two sheets. */
  #joins: readonly Box[] = [];
  /** What is printed on one sheet, each. */
  #sheets: readonly Box[] = [];

  constructor(outline: Polygon) {
    this.#outline = outline;
    this.block(outline, true);
  }

  /** Keeps writing off a line. */
  block(points: Polyline, closed: boolean): void {
    for (let index = closed ? 0 : 1; index < points.length; index++) {
      const from = points.at(index - 1);
      const to = points[index];
      if (from !== undefined && to !== undefined) this.#bars.push([from, to]);
    }
  }

  take(box: Box): void {
    this.#taken.push(box);
  }

  /** Where sheets are joined: what lies there is written on neither of them whole. */
  joinedAt(boxes: readonly Box[]): void {
    this.#joins = boxes;
  }

  /** What sheets show: what reaches out of one is not whole on it. */
  shownOn(boxes: readonly Box[]): void {
    this.#sheets = boxes;
  }

  /** Whether a box is whole on one sheet. */
  isOnSheet({ x, y, width, height }: Box): boolean {
    return this.#sheets.length === 0 || this.#sheets.some((one) => x >= one.x && y >= one.y && x + width <= one.x + one.width && y + height <= one.y + one.height);
  }

  /** Whether a box lies off every join. */
  isOffJoins(box: Box): boolean {
    return !this.#joins.some((one) => overlap(one, box));
  }

  /** The same room, to be filled another way. */
  copy(): Room {
    const copy = new Room(this.#outline);
    copy.#bars.push(...this.#bars.slice(copy.#bars.length));
    copy.#taken.push(...this.#taken);
    copy.#joins = this.#joins;
    copy.#sheets = this.#sheets;
    return copy;
  }

  /** Whether the outline is at least so wide and so high. */
  isAtLeast(side: number): boolean {
    const box = boundsOfPoints(this.#outline);
    return box.maxX - box.minX >= side && box.maxY - box.minY >= side;
  }

  /** Whether a box lies inside the outline, at least `clear` from every line and everything that is written. */
  isFree(box: Box, clear: number): boolean {
    const grown = { x: box.x - clear, y: box.y - clear, width: box.width + 2 * clear, height: box.height + 2 * clear };
    return this.isBlank(grown) && pointInside({ x: box.x + box.width / 2, y: box.y + box.height / 2 }, this.#outline);
  }

  /** Whether no line and no writing reaches into a box. */
  isBlank(box: Box): boolean {
    return !this.#taken.some((one) => overlap(one, box)) && !this.#bars.some((bar) => crosses(bar, box));
  }

  /** The free place for a box that is nearest to the middle of the outline; undefined where there is none. */
  placeFor(width: number, height: number, clear: number): Box | undefined {
    const all = boundsOfPoints(this.#outline);
    const [wide, high] = [all.maxX - all.minX - width, all.maxY - all.minY - height];
    if (wide < 0 || high < 0) return undefined;
    const middle = { x: all.minX + wide / 2, y: all.minY + high / 2 };
    const steps = 18;
    const places: { readonly box: Box; readonly away: number }[] = [];
    for (let column = 0; column <= steps; column++) {
      for (let row = 0; row <= steps; row++) {
        const box = { x: all.minX + (wide * column) / steps, y: all.minY + (high * row) / steps, width, height };
        places.push({ box, away: Math.hypot(box.x - middle.x, box.y - middle.y) });
      }
    }
    places.sort((one, other) => one.away - other.away);
    return places.find(({ box }) => this.isFree(box, clear))?.box;
  }
}

/** A box that reaches so much farther on all sides. */
export const grown = ({ x, y, width, height }: Box, by: number): Box => ({ x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by });

export const overlap = (one: Box, other: Box): boolean =>
  one.x < other.x + other.width && other.x < one.x + one.width && one.y < other.y + other.height && other.y < one.y + one.height;

/** Whether a straight line reaches into a box. */
function crosses([from, to]: Bar, box: Box): boolean {
  const { x, y, width, height } = box;
  if (Math.max(from.x, to.x) < x || Math.min(from.x, to.x) > x + width || Math.max(from.y, to.y) < y || Math.min(from.y, to.y) > y + height) return false;
  return clippedLine(from, to, box) !== undefined;
}
