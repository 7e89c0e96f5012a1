import type { Random } from '../random.ts';
import type { Field } from './field.ts';
import { roomX, roomY, within } from './strip.ts';

/** How an item's better place is searched; counts of positions tried. */
export interface Search {
  /** Positions drawn from the whole strip. */
  readonly anywhere: number;
  /** Positions drawn near where the item lies. */
  readonly nearby: number;
  /** Best positions that are then refined. */
  readonly refined: number;
  /** Rounds of refinement of each. */
  readonly rounds: number;
}

interface Spot {
  shape: number;
  x: number;
  y: number;
  cost: number;
}

/** Moves an item to the least weighted overlap found for it within a strip of `length`; keeps it where nothing better is found. */
export function moveItem(field: Field, item: number, length: number, search: Search, random: Random): void {
  const ways = field.task.items[item]!;
  const here: Spot = { shape: field.shape[item]!, x: field.x[item]!, y: field.y[item]!, cost: 0 };
  here.cost = field.weigh(item, here.shape, here.x, here.y, Infinity);
  if (here.cost === 0) return;
  const spots: Spot[] = [];
  const offer = (shape: number, x: number, y: number): void => {
    if (field.task.shapes[shape]!.width > length + field.touching) return;
    const bound = spots.length < search.refined ? Infinity : spots[spots.length - 1]!.cost;
    const cost = field.weigh(item, shape, x, y, bound);
    if (cost === Infinity) return;
    if (spots.length >= search.refined) spots.pop();
    let at = spots.length;
    while (at > 0 && spots[at - 1]!.cost > cost) at--;
    spots.splice(at, 0, { shape, x, y, cost });
  };
  for (let i = 0; i < search.anywhere; i++) {
    const shape = ways[Math.floor(random() * ways.length)]!;
    offer(shape, random() * roomX(field, shape, length), random() * roomY(field, shape));
  }
  for (let i = 0; i < search.nearby; i++) {
    const shape = ways.length === 1 || random() < 0.5 ? here.shape : ways[Math.floor(random() * ways.length)]!;
    const kind = field.task.shapes[shape]!;
    const x = here.x + (random() - 0.5) * kind.width;
    const y = here.y + (random() - 0.5) * kind.height;
    offer(shape, within(x, roomX(field, shape, length)), within(y, roomY(field, shape)));
  }
  let best = here;
  for (const spot of [here, ...spots]) {
    const refined = refine(field, item, spot, length, search.rounds);
    if (refined.cost < best.cost) best = refined;
  }
  if (best !== here) field.put(item, best.shape, best.x, best.y);
}

/**
 * Walks downhill from a spot. For convex parts the weighted overlap is concave between the borders of the no-fit
 * polygons, so its least values lie where such borders cross: the walk tries the places where one contact, or two
 * contacts at once, are just parted, and where one is parted by sliding along a border of the strip.
 */
function refine(field: Field, item: number, from: Spot, length: number, rounds: number): Spot {
  const { contacts } = field;
  const { shape } = from;
  const mostX = roomX(field, shape, length);
  const mostY = roomY(field, shape);
  let best: Spot = { ...from };
  for (let round = 0; round < rounds && best.cost > 0; round++) {
    field.probe(item, shape, best.x, best.y);
    const outs = contacts.slice(0, 4 * field.contactCount);
    const order = heaviest(outs, 3);
    const start = best;
    const attempt = (dx: number, dy: number): void => {
      const x = within(start.x + dx, mostX);
      const y = within(start.y + dy, mostY);
      const cost = field.weigh(item, shape, x, y, best.cost);
      if (cost < best.cost) best = { shape, x, y, cost };
    };
    order.forEach((k, rank) => {
      const [nx, ny, depth] = [outs[k]!, outs[k + 1]!, outs[k + 2]!];
      attempt(nx * depth, ny * depth);
      if (Math.abs(nx) > 0.05 && Math.abs(ny) > 0.05) {
        attempt(depth / nx, 0);
        attempt(0, depth / ny);
      }
      for (const l of order.slice(rank + 1)) {
        const [mx, my, also] = [outs[l]!, outs[l + 1]!, outs[l + 2]!];
        const det = nx * my - ny * mx;
        if (Math.abs(det) < 0.05) continue;
        attempt((depth * my - also * ny) / det, (nx * also - mx * depth) / det);
      }
    });
    if (best === start || best.cost > start.cost * 0.999) break;
  }
  return best;
}

/** Offsets of the contacts with the greatest weighted depth, greatest first. */
function heaviest(outs: Float64Array, most: number): number[] {
  const order: number[] = [];
  for (let k = 0; k < outs.length; k += 4) {
    const cost = outs[k + 2]! * outs[k + 3]!;
    let at = order.length;
    while (at > 0 && outs[order[at - 1]! + 2]! * outs[order[at - 1]! + 3]! < cost) at--;
    if (at < most) order.splice(at, 0, k);
    if (order.length > most) order.pop();
  }
  return order;
}
