import { itemAt } from '../../geometry/lists.ts';
import type { Field, Place } from './field.ts';

/** Heights tried for each shape of a piece in the first lay; more find tighter places and cost more. */
const mostHeights = 24;

/** An item laid, and where. */
export interface Put {
  readonly item: number;
  readonly shape: number;
  readonly x: number;
  readonly y: number;
}

/**
 * A first lay without overlap, quickly: pieces on the fold first, then from the largest box down, each in the shape
 * and at the height that lets it end furthest left. Heights tried are the borders and flush with the pieces that lie
 * near the open end of the lay. Gives what it laid, in that order.
 */
export function layFirst(field: Field): readonly Put[] {
  const puts: Put[] = [];
  const { task } = field;
  const order = task.items
    .map((ways, item) => {
      const first = itemAt(ways, 0);
      const { width, height, onFold } = field.kind(first);
      return { item, ways, first, size: width * height, onFold };
    })
    .sort((a, b) => Number(b.onFold) - Number(a.onFold) || b.size - a.size || a.item - b.item);
  const widest = task.shapes.reduce((most, shape) => Math.max(most, shape.width), 0);
  const placed: Place[] = [];
  let reach = 0;
  for (const { item, ways, first } of order) {
    const from = Math.max(0, reach - 3 * widest);
    const near = placed.filter((other) => other.x + other.width > from);
    let best = { shape: -1, x: Infinity, y: 0, end: Infinity };
    for (const shape of ways) {
      const kind = field.kind(shape);
      for (const y of heightsFor(field, near, kind.height, kind.onFold)) {
        const x = field.firstFreeX(item, shape, from, y, best.end - kind.width);
        const end = x + kind.width;
        if (end < best.end - field.touching) best = { shape, x, y, end };
      }
    }
    if (best.shape < 0) best = { shape: first, x: reach + task.gap, y: 0, end: 0 };
    field.put(item, best.shape, best.x, best.y);
    puts.push({ item, shape: best.shape, x: best.x, y: best.y });
    const place = field.placeOf(item);
    placed.push(place);
    reach = Math.max(reach, place.x + place.width);
  }
  return puts;
}

/** Heights to try: both borders and flush above or below the boxes of pieces near the open end, the latest first. */
function heightsFor(field: Field, near: readonly Place[], height: number, onFold: boolean): number[] {
  const top = Math.max(0, field.task.width - height);
  if (onFold) return [0];
  const heights = new Set([0, top]);
  const { gap } = field.task;
  for (const other of [...near].reverse()) {
    if (heights.size >= mostHeights) break;
    for (const y of [other.y + other.height + gap, other.y - height - gap]) if (y > 0 && y < top) heights.add(y);
  }
  return [...heights];
}
