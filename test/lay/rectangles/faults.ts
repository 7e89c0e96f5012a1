import type { RectangleInput, RectanglePacking } from '../../../server/src/lay/rectangles/types.ts';

/** What is wrong with a packing, in words; nothing when it is right. Shares no code with the search. */
export function faultsOf(input: RectangleInput, packing: RectanglePacking): readonly string[] {
  const faults: string[] = [];
  const counts = input.items.map(() => 0);
  const boxes = packing.placements.map(({ item, x, y, turned }) => {
    counts[item] = (counts[item] ?? 0) + 1;
    const { w, h, turnable } = input.items[item]!;
    if (turned && !turnable) faults.push(`item ${item} turned`);
    return { x0: x, y0: y, x1: x + (turned ? h : w), y1: y + (turned ? w : h) };
  });
  input.items.forEach(({ count }, item) => {
    if (counts[item] !== Math.max(0, count)) faults.push(`item ${item}: ${counts[item]} of ${count} laid`);
  });
  const taken = (input.floor ?? []).map(({ x, y }, i, steps) => ({
    x0: x,
    y0: 0,
    x1: steps[i + 1]?.x ?? input.width,
    y1: y,
  }));
  for (const { x0, y0, x1, y1 } of boxes) {
    if (x0 < 0 || y0 < 0 || x1 > input.width || y1 > packing.length) faults.push('outside the strip');
  }
  const sorted = [...boxes, ...taken].sort((a, b) => a.y0 - b.y0);
  sorted.forEach((a, i) => {
    for (let j = i + 1; j < sorted.length && sorted[j]!.y0 < a.y1; j++) {
      const b = sorted[j]!;
      if (a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1) faults.push('overlap');
    }
  });
  return faults;
}
