import { nextOf } from './cyclic.ts';

/** The item at a place in a list. Throws a RangeError where there is none. */
export function itemAt<T>(items: ArrayLike<T>, index: number): T {
  const item = items[index];
  return item === undefined ? missing(items, index) : item;
}

/** Apart, so that what asks for an item is short enough to be put where it is asked for. */
function missing(items: ArrayLike<unknown>, index: number): never {
  throw new RangeError(`no item ${index} among ${items.length}`);
}

/** As `itemAt`, for the loops that go over numbers all the time: asked about nothing else, it makes no garbage. */
export function numberAt(numbers: Float64Array, index: number): number {
  const value = numbers[index];
  return value === undefined ? missing(numbers, index) : value;
}

/** Every item with the one after it: one pair fewer than there are items. */
export const pairs = <T>(items: readonly T[]): readonly (readonly [T, T])[] =>
  items.slice(1).map((item, index) => [itemAt(items, index), item]);

/** Every item with the one after it, the last with the first: the sides of a polygon, given its corners. */
export const sides = <T>(items: readonly T[]): readonly (readonly [T, T])[] =>
  items.map((item, index) => [item, nextOf(items, index)]);
