import type { Field } from './field.ts';

/** Positions and shapes of all items, to go back to. */
export interface Snapshot {
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
}

export function snapshotOf(field: Field): Snapshot {
  return { shape: field.shape.slice(), x: field.x.slice(), y: field.y.slice() };
}

export function restore(field: Field, snapshot: Snapshot): void {
  for (let i = 0; i < field.count; i++) field.put(i, snapshot.shape[i]!, snapshot.x[i]!, snapshot.y[i]!);
}

/** Room along a strip of `length` for a shape's box corner, millimetres; never negative. */
export function roomX(field: Field, shape: number, length: number): number {
  return Math.max(0, length - field.task.shapes[shape]!.width);
}

/** Room across the strip for a shape's box corner, millimetres: none on the fold. */
export function roomY(field: Field, shape: number): number {
  const kind = field.task.shapes[shape]!;
  return kind.onFold ? 0 : Math.max(0, field.task.width - kind.height);
}

/** A value brought into 0 … most. */
export function within(value: number, most: number): number {
  return value < 0 ? 0 : value > most ? most : value;
}

/** Moves an item by (dx, dy), but not over the borders of a strip of `length`. */
export function shiftWithin(field: Field, item: number, dx: number, dy: number, length: number): void {
  const shape = field.shape[item]!;
  field.put(item, shape, within(field.x[item]! + dx, roomX(field, shape, length)), within(field.y[item]! + dy, roomY(field, shape)));
}

/** Brings items that reach beyond `length` back to it; one too long to lie there at all takes its shortest shape. */
export function cutTo(field: Field, length: number): void {
  for (let i = 0; i < field.count; i++) {
    if (field.width[i]! > length) field.put(i, shortestShape(field, i), field.x[i]!, field.y[i]!);
    shiftWithin(field, i, 0, 0, length);
  }
}

function shortestShape(field: Field, item: number): number {
  const { shapes, items } = field.task;
  return items[item]!.reduce((best, shape) => (shapes[shape]!.width < shapes[best]!.width ? shape : best));
}

/** A length no lay of the items can be below: the longest of their shortest shapes, millimetres. */
export function leastLength(field: Field): number {
  return field.task.items.reduce((most, _, item) => Math.max(most, field.task.shapes[shortestShape(field, item)]!.width), 0);
}

/** Spreads the items of a strip of length `from` evenly over one of length `to`. */
export function stretchTo(field: Field, from: number, to: number): void {
  for (let i = 0; i < field.count; i++) {
    const shape = field.shape[i]!;
    const room = roomX(field, shape, from);
    const x = room > 0 ? (field.x[i]! * roomX(field, shape, to)) / room : field.x[i]!;
    field.put(i, shape, within(x, roomX(field, shape, to)), field.y[i]!);
  }
}

/** Lets two items change places, as far as the borders of a strip of `length` allow. */
export function swapPlaces(field: Field, a: number, b: number, length: number): void {
  const [ax, ay, bx, by] = [field.x[a]!, field.y[a]!, field.x[b]!, field.y[b]!];
  shiftWithin(field, a, bx - ax, by - ay, length);
  shiftWithin(field, b, ax - bx, ay - by, length);
}
