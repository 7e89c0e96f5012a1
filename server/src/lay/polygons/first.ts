import type { Field } from './field.ts';

/** Heights tried for each shape of a piece in the first lay; more find tighter places and cost more. */
const mostHeights = 24;

/**
 * A first lay without overlap, quickly: pieces on the fold first, then from the largest box down, each in the shape
 * and at the height that lets it end furthest left. Heights tried are the borders and flush with the pieces that lie
 * near the open end of the lay.
 */
export function layFirst(field: Field): void {
  const { task } = field;
  const size = (item: number): number => {
    const shape = task.shapes[task.items[item]![0]!]!;
    return shape.width * shape.height;
  };
  const onFold = (item: number): boolean => task.shapes[task.items[item]![0]!]!.onFold;
  const order = task.items.map((_, item) => item).sort((a, b) => Number(onFold(b)) - Number(onFold(a)) || size(b) - size(a) || a - b);
  const widest = task.shapes.reduce((most, shape) => Math.max(most, shape.width), 0);
  const placed: number[] = [];
  let reach = 0;
  for (const item of order) {
    const from = Math.max(0, reach - 3 * widest);
    const near = placed.filter((other) => field.x[other]! + field.width[other]! > from);
    let best = { shape: -1, x: Infinity, y: 0, end: Infinity };
    for (const shape of task.items[item]!) {
      const kind = task.shapes[shape]!;
      for (const y of heightsFor(field, near, kind.height, kind.onFold)) {
        const x = field.firstFreeX(item, shape, from, y, best.end - kind.width);
        const end = x + kind.width;
        if (end < best.end - field.touching) best = { shape, x, y, end };
      }
    }
    if (best.shape < 0) best = { shape: task.items[item]![0]!, x: reach + task.gap, y: 0, end: 0 };
    field.put(item, best.shape, best.x, best.y);
    placed.push(item);
    reach = Math.max(reach, best.x + field.width[item]!);
  }
}

/** Heights to try: both borders and flush above or below the boxes of pieces near the open end, the latest first. */
function heightsFor(field: Field, near: readonly number[], height: number, onFold: boolean): number[] {
  const top = Math.max(0, field.task.width - height);
  if (onFold) return [0];
  const heights = new Set([0, top]);
  for (let i = near.length - 1; i >= 0 && heights.size < mostHeights; i--) {
    const other = near[i]!;
    const { gap } = field.task;
    for (const y of [field.y[other]! + field.height[other]! + gap, field.y[other]! - height - gap]) if (y > 0 && y < top) heights.add(y);
  }
  return [...heights];
}
