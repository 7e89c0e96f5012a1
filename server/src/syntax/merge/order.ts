/**
 * The order of all keys that a base and two sides have: that of the side that has moved what the base had, ours where both or
 * neither have; what only the other side has comes after what stands before it there.
 */
export function mergedOrder(base: readonly string[], ours: readonly string[], theirs: readonly string[]): readonly string[] {
  const [first, second] = isMoved(base, theirs) && !isMoved(base, ours) ? [theirs, ours] : [ours, theirs];
  const [known, shared] = [new Set(first), new Set([...base, ...second])];
  // What the first side alone has stays with what it was written after.
  const after = new Map<string, string[]>([['', []]]);
  const heads: string[] = [];
  let head = '';
  for (const key of first) {
    if (shared.has(key)) {
      head = key;
      heads.push(key);
      after.set(key, []);
    } else after.get(head)?.push(key);
  }
  head = '';
  for (const key of second) {
    if (known.has(key)) head = key;
    else after.get(head)?.push(key);
  }
  return [...(after.get('') ?? []), ...heads.flatMap((key) => [key, ...(after.get(key) ?? [])])];
}

/** Whether what both have stands in another order. */
function isMoved(base: readonly string[], side: readonly string[]): boolean {
  const [inBase, inSide] = [new Set(base), new Set(side)];
  const kept = base.filter((key) => inSide.has(key));
  return side.filter((key) => inBase.has(key)).some((key, index) => key !== kept[index]);
}
