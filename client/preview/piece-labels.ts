import { setAttributes } from './dom.ts';
import type { LinePiece } from './line-pieces.ts';
import { isCrossed } from './outside-names.ts';

type Point = LinePiece['from'];

/** A name in a drawing, and the point that it belongs to: millimetres, y downwards. */
export interface Label {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  /** Beside its point, as of a mark, or else below or above it, as of a line. */
  readonly beside: boolean;
  /** The line that it is the name of, as it is among all lines; none of a mark. */
  readonly own?: readonly LinePiece[];
}

/** What a drawing takes up: millimetres, y downwards. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where a name is written: a point of its line in millimetres, and its anchor and its baseline from there, in its own font's size. */
export interface Spot extends Point {
  readonly anchor: 'start' | 'end';
  readonly dx: string;
  readonly dy: string;
}

/** Letters as wide as these are on average, and a name as high, pixels; no font is measured. */
const letter = 6;
const high = 12;
/** Pixels by which a name may stick out of its drawing. */
const over = 4;
/** Half of what a sign takes up, such as a notch or an arrowhead, pixels. */
const signHalf = 7;

interface Place extends Omit<Spot, 'x' | 'y'> {
  /** Pixels from the point to the upper edge. */
  readonly top: number;
}

/** In the order in which they are tried. */
const places: Readonly<Record<'beside' | 'line', readonly Place[]>> = {
  beside: [
    { anchor: 'start', dx: '.7em', dy: '.35em', top: -high / 2 },
    { anchor: 'end', dx: '-.7em', dy: '.35em', top: -high / 2 },
  ],
  line: [
    { anchor: 'start', dx: '.35em', dy: '1.1em', top: 2 },
    { anchor: 'end', dx: '-.35em', dy: '1.1em', top: 2 },
    { anchor: 'start', dx: '.35em', dy: '-.4em', top: -high - 4 },
    { anchor: 'end', dx: '-.35em', dy: '-.4em', top: -high - 4 },
  ],
};

/** So many other points of its line a name may stand at (invented). */
const mostPoints = 8;

/**
 * Finds a spot for each name where it neither hides another or a sign nor sticks out, undefined where there is none: the first
 * that no line runs through and that is nearer to its own line than to any other, at its point before other points of that line.
 * Where there is no such spot, at its point its own line may run through it, then another may be nearer, and then another run through it.
 */
export function arranged(labels: readonly Label[], box: Box, scale: number, signs: readonly Point[] = [], lines: readonly LinePiece[] = []): readonly (Spot | undefined)[] {
  const taken: Box[] = signs.map(({ x, y }) => ({ x: x * scale - signHalf, y: y * scale - signHalf, width: 2 * signHalf, height: 2 * signHalf }));
  const onScreen = lines.map((line) => scaled(line, scale));
  return labels.map((label) => {
    const named = new Set<LinePiece | undefined>(label.own);
    const own = onScreen.filter((_, at) => named.has(lines[at]));
    const others = onScreen.filter((_, at) => !named.has(lines[at]));
    let best: { readonly spot: Spot; readonly room: Box; readonly cost: number } | undefined;
    for (const { spot, room } of spotsOf(label, scale)) {
      if (!isWithin(room, box, scale) || taken.some((other) => overlap(room, other))) continue;
      const cost = costOf(room, { x: spot.x * scale, y: spot.y * scale }, own, others);
      if (cost > 0 && (spot.x !== label.x || spot.y !== label.y)) continue;
      if (best === undefined || cost < best.cost) best = { spot, room, cost };
      if (cost === 0) break;
    }
    if (best !== undefined) taken.push(best.room);
    return best?.spot;
  });
}

/** Where a name may stand, the best first, with what it takes up there, pixels. */
function* spotsOf({ text, x, y, beside, own = [] }: Label, scale: number): Generator<{ readonly spot: Spot; readonly room: Box }> {
  const width = text.length * letter;
  const corners = own.map(({ to }) => to).filter((point) => point.x !== x || point.y !== y);
  const every = Math.max(1, Math.ceil(corners.length / mostPoints));
  for (const point of [{ x, y }, ...corners.filter((_, at) => at % every === 0)]) {
    for (const { top, ...place } of places[beside ? 'beside' : 'line']) {
      const left = place.anchor === 'start' ? (beside ? 8 : 4) : (beside ? -8 : -4) - width;
      yield { spot: { ...place, x: point.x, y: point.y }, room: { x: point.x * scale + left, y: point.y * scale + top, width, height: high } };
    }
  }
}

/** 0 of a name that is clear of all lines and nearest to its own; 3 where another runs through it. */
function costOf(room: Box, point: Point, own: readonly LinePiece[], others: readonly LinePiece[]): number {
  if (others.some((line) => isBoxWithin(line, room, 1) && isCrossed(room, line.from, line.to))) return 3;
  const near = Math.min(...own.map((line) => apart(line, room)));
  // Of a mark, or where another line meets its own at this very point.
  if (own.length > 0 && others.some((line) => isBoxWithin(line, room, near) && apart(line, room) < near && fromPoint(point, line) > 1)) return 2;
  return near === 0 ? 1 : 0;
}

/** Whether a line may be nearer to a rectangle than so many pixels: quickly, as most are not. */
const isBoxWithin = ({ from, to }: LinePiece, { x, y, width, height }: Box, near: number): boolean =>
  Math.max(from.x, to.x) > x - near && Math.min(from.x, to.x) < x + width + near && Math.max(from.y, to.y) > y - near && Math.min(from.y, to.y) < y + height + near;

/** How far a line is from a rectangle, pixels. */
function apart(line: LinePiece, { x, y, width, height }: Box): number {
  const { from, to } = line;
  if (isCrossed({ x, y, width, height }, from, to)) return 0;
  const outside = (point: Point): number => Math.hypot(Math.max(x - point.x, 0, point.x - x - width), Math.max(y - point.y, 0, point.y - y - height));
  const corners = [{ x, y }, { x: x + width, y }, { x, y: y + height }, { x: x + width, y: y + height }];
  return Math.min(outside(from), outside(to), ...corners.map((corner) => fromPoint(corner, line)));
}

/** How far a point is from a line. */
function fromPoint({ x, y }: Point, { from, to }: LinePiece): number {
  const [right, down] = [to.x - from.x, to.y - from.y];
  const share = Math.min(1, Math.max(0, ((x - from.x) * right + (y - from.y) * down) / Math.max(1e-9, right ** 2 + down ** 2)));
  return Math.hypot(x - from.x - share * right, y - from.y - share * down);
}

/** A line in pixels. */
const scaled = ({ from, to }: LinePiece, scale: number): LinePiece => ({ from: { x: from.x * scale, y: from.y * scale }, to: { x: to.x * scale, y: to.y * scale } });

const isWithin = (room: Box, box: Box, scale: number): boolean =>
  room.x >= box.x * scale - over && room.y >= box.y * scale - over
  && room.x + room.width <= (box.x + box.width) * scale + over && room.y + room.height <= (box.y + box.height) * scale + over;

/** Letters have their ground round them, which a name above or below must not cut into: so much, pixels. */
const ground = 2;

const overlap = (a: Box, b: Box): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height + ground && b.y < a.y + a.height + ground;

// ------------------------------------------------------------------------------------------------ on the page

interface Written {
  readonly box: Box;
  readonly labels: readonly Label[];
  /** Points where signs stand that no name may hide. */
  readonly signs: readonly { readonly x: number; readonly y: number }[];
  readonly words: readonly SVGTextElement[];
  /** Lines that names keep off. */
  readonly lines: readonly LinePiece[];
}
const written = new WeakMap<Element, Written>();
/** The scale that each drawing's names were last arranged for. */
const arrangedFor = new WeakMap<Written, number>();

/** Keeps which names a drawing has, and puts each where there is room at this scale. */
export function writeLabels(drawing: SVGSVGElement, one: Written, scale: number): void {
  written.set(drawing, one);
  arrange(one, scale);
}

/** Puts the names of all drawings where there is room at another scale. */
export function arrangeLabels(field: Element, scale: number): void {
  for (const drawing of field.querySelectorAll('svg.drawing')) {
    const one = written.get(drawing);
    if (one !== undefined) arrange(one, scale);
  }
}

function arrange(one: Written, scale: number): void {
  if (arrangedFor.get(one) === scale) return;
  arrangedFor.set(one, scale);
  const { box, labels, signs, words, lines } = one;
  for (const [index, spot] of arranged(labels, box, scale, signs, lines).entries()) {
    const text = words[index];
    if (spot === undefined) text?.setAttribute('visibility', 'hidden');
    else {
      text?.removeAttribute('visibility');
      if (text !== undefined) setAttributes(text, { x: String(spot.x), y: String(spot.y), 'text-anchor': spot.anchor, dx: spot.dx, dy: spot.dy });
    }
  }
}
