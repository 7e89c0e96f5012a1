import type { Field, Place } from './field.ts';

/** Places of all items, to go back to. */
export type Snapshot = readonly Place[];

export function snapshotOf(field: Field): Snapshot {
  return Array.from({ length: field.count }, (_, item) => field.placeOf(item));
}

export function restore(field: Field, snapshot: Snapshot): void {
  for (const [item, { shape, x, y }] of snapshot.entries()) field.put(item, shape, x, y);
}

/** Room along a strip of `length` for a shape's box corner, millimetres; never negative. */
export function roomX(field: Field, shape: number, length: number): number {
  return Math.max(0, length - field.kind(shape).width);
}

/** Room across the strip for a shape's box corner, millimetres: none on the fold. */
export function roomY(field: Field, shape: number): number {
  const kind = field.kind(shape);
  return kind.onFold ? 0 : Math.max(0, field.task.width - kind.height);
}

/** A value brought into 0 … most. */
export function within(value: number, most: number): number {
  return value < 0 ? 0 : value > most ? most : value;
}

/** Moves an item by (dx, dy), but not over the borders of a strip of `length`. */
export function shiftWithin(field: Field, item: number, dx: number, dy: number, length: number): void {
  const { shape, x, y } = field.placeOf(item);
  field.put(item, shape, within(x + dx, roomX(field, shape, length)), within(y + dy, roomY(field, shape)));
}

/** Brings items that reach beyond `length` back to it; one too long to lie there at all takes its shortest shape. */
export function cutTo(field: Field, length: number): void {
  for (let i = 0; i < field.count; i++) {
    const { x, y, width } = field.placeOf(i);
    if (width > length) field.put(i, shortestShape(field, i), x, y);
    shiftWithin(field, i, 0, 0, length);
  }
}

function shortestShape(field: Field, item: number): number {
  return field.waysOf(item).reduce((best, shape) => (field.kind(shape).width < field.kind(best).width ? shape : best));
}

/** A length no lay of the items can be below: the longest of their shortest shapes, millimetres. */
export function leastLength(field: Field): number {
  return field.task.items.reduce((most, _, item) => Math.max(most, field.kind(shortestShape(field, item)).width), 0);
}

/** Spreads the items of a strip of length `from` evenly over one of length `to`. */
export function stretchTo(field: Field, from: number, to: number): void {
  for (let i = 0; i < field.count; i++) {
    const { shape, x, y } = field.placeOf(i);
    const room = roomX(field, shape, from);
    const stretched = room > 0 ? (x * roomX(field, shape, to)) / room : x;
    field.put(i, shape, within(stretched, roomX(field, shape, to)), y);
  }
}

/** Lets two items change places, as far as the borders of a strip of `length` allow. */
export function swapPlaces(field: Field, a: number, b: number, length: number): void {
  const [one, two] = [field.placeOf(a), field.placeOf(b)];
  shiftWithin(field, a, two.x - one.x, two.y - one.y, length);
  shiftWithin(field, b, one.x - two.x, one.y - two.y, length);
}
