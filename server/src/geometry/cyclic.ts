/**
 * The item at a place in a list that goes round: one place before the first is
 * the last, one after the last the first. Throws a RangeError of an empty list.
 */
export function cyclic<T>(items: readonly T[], index: number): T {
  const count = items.length;
  const item = items[index >= 0 && index < count ? index : ((index % count) + count) % count];
  if (item === undefined) throw new RangeError(`no item ${index} among ${count}`);
  return item;
}

/** The item after one, the first after the last. */
export const nextOf = <T>(items: readonly T[], index: number): T => cyclic(items, index + 1);
