/**
 * What is different between two versions of plain data, so that only that has to be sent. Our own rather than a
 * library’s, since what has not changed must come out as the very same object: the page leaves alone what it has drawn
 * of such.
 */
export type Delta =
  /** Another value in its place. */
  | { readonly to: unknown }
  /** An object of which some values have changed, and some are gone. */
  | { readonly keys: Readonly<Record<string, Delta>>; readonly gone: readonly string[] }
  /** A list as long as before in which some items have changed. */
  | { readonly items: readonly (readonly [index: number, delta: Delta])[] }
  /** A list in which a run of items is replaced by others. */
  | { readonly at: number; readonly drop: number; readonly put: readonly unknown[] };

/** Undefined where both say the same. What is undefined inside an object counts as not there, as in JSON. */
export function difference(before: unknown, after: unknown): Delta | undefined {
  if (before === after) return undefined;
  if (Array.isArray(before) && Array.isArray(after)) return before.length === after.length ? itemsDelta(before, after) : spliceDelta(before, after);
  if (isRecord(before) && isRecord(after)) return recordDelta(before, after);
  return { to: after };
}

/** Whether two values of plain data say the same. */
export const isSame = (before: unknown, after: unknown): boolean => difference(before, after) === undefined;

/** The later data, out of the earlier and what is different; shares with the earlier whatever is the same in both. */
export function applied(before: unknown, delta: Delta): unknown {
  if ('to' in delta) return delta.to;
  if ('keys' in delta) {
    const from = before as Readonly<Record<string, unknown>>;
    const next = { ...from };
    for (const [key, one] of Object.entries(delta.keys)) put(next, key, applied(from[key], one));
    for (const key of delta.gone) Reflect.deleteProperty(next, key);
    return next;
  }
  const list = before as readonly unknown[];
  if ('at' in delta) return [...list.slice(0, delta.at), ...delta.put, ...list.slice(delta.at + delta.drop)];
  const next = [...list];
  for (const [index, one] of delta.items) next[index] = applied(list[index], one);
  return next;
}

type Plain = Readonly<Record<string, unknown>>;

const isRecord = (value: unknown): value is Plain => typeof value === 'object' && value !== null && !Array.isArray(value);

/** A key may be any text, `__proto__` too. */
const put = (target: object, key: string, value: unknown): void => void Object.defineProperty(target, key, { value, writable: true, enumerable: true, configurable: true });

function recordDelta(before: Plain, after: Plain): Delta | undefined {
  let keys: Record<string, Delta> | undefined;
  for (const key of Object.keys(after)) {
    if (after[key] === undefined) continue;
    const delta = Object.hasOwn(before, key) ? difference(before[key], after[key]) : { to: after[key] };
    if (delta !== undefined) put((keys ??= {}), key, delta);
  }
  const gone = Object.keys(before).filter((key) => before[key] !== undefined && (!Object.hasOwn(after, key) || after[key] === undefined));
  return keys === undefined && gone.length === 0 ? undefined : { keys: keys ?? {}, gone };
}

function itemsDelta(before: readonly unknown[], after: readonly unknown[]): Delta | undefined {
  const items: (readonly [number, Delta])[] = [];
  for (const [index, item] of after.entries()) {
    const delta = difference(before[index], item);
    if (delta !== undefined) items.push([index, delta]);
  }
  return items.length > 0 ? { items } : undefined;
}

function spliceDelta(before: readonly unknown[], after: readonly unknown[]): Delta {
  const shorter = Math.min(before.length, after.length);
  let at = 0;
  while (at < shorter && isSame(before[at], after[at])) at++;
  let tail = 0;
  while (tail < shorter - at && isSame(before.at(-1 - tail), after.at(-1 - tail))) tail++;
  return { at, drop: before.length - at - tail, put: after.slice(at, after.length - tail) };
}
