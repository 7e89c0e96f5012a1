import type { LinePiece } from './line-pieces.ts';
import { isCrossed } from './outside-names.ts';

/** A name in a drawing, and the point that it belongs to: millimetres, y downwards. */
export interface Label {
  readonly text: string;
  readonly x: number;
  readonly y: number;
  /** Beside its point, as of a mark, or else below or above it, as of a line. */
  readonly beside: boolean;
}

/** What a drawing takes up: millimetres, y downwards. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** Where a name is written: its anchor and its baseline from its point, in its own font's size. */
export interface Spot {
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

interface Place extends Spot {
  /** Pixels from the point to the upper edge. */
  readonly top: number;
}

/** The first that there is room for is taken, of those that no line runs through if there are any. */
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

/** Finds a spot for each name where it neither hides another or a sign nor sticks out, and lies over no line where it can; undefined where there is none. */
export function arranged(labels: readonly Label[], box: Box, scale: number, signs: readonly { readonly x: number; readonly y: number }[] = [], lines: readonly LinePiece[] = []): readonly (Spot | undefined)[] {
  const taken: Box[] = signs.map(({ x, y }) => ({ x: x * scale - signHalf, y: y * scale - signHalf, width: 2 * signHalf, height: 2 * signHalf }));
  return labels.map(({ text, x, y, beside }) => {
    const width = text.length * letter;
    const free = places[beside ? 'beside' : 'line'].flatMap((place) => {
      const room = { x: x * scale + (place.anchor === 'start' ? (beside ? 8 : 4) : (beside ? -8 : -4) - width), y: y * scale + place.top, width, height: high };
      return isWithin(room, box, scale) && !taken.some((other) => overlap(room, other)) ? [{ place, room }] : [];
    });
    const found = free.find(({ room }) => !lines.some((line) => isUnder(line, room, scale))) ?? free[0];
    if (found === undefined) return undefined;
    taken.push(found.room);
    const { anchor, dx, dy } = found.place;
    return { anchor, dx, dy };
  });
}

const isUnder = ({ from, to }: LinePiece, room: Box, scale: number): boolean => isCrossed(room, { x: from.x * scale, y: from.y * scale }, { x: to.x * scale, y: to.y * scale });

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
      text?.setAttribute('text-anchor', spot.anchor);
      text?.setAttribute('dx', spot.dx);
      text?.setAttribute('dy', spot.dy);
    }
  }
}
