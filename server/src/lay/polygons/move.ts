import { oneOf, type Random } from '../random.ts';
import type { Field, Overlap } from './field.ts';
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
  const ways = field.waysOf(item);
  const place = field.placeOf(item);
  const here: Spot = { shape: place.shape, x: place.x, y: place.y, cost: field.weigh(item, place.shape, place.x, place.y, Infinity) };
  if (here.cost === 0) return;
  const spots: Spot[] = [];
  const offer = (shape: number, x: number, y: number): void => {
    if (field.kind(shape).width > length + field.touching) return;
    const bound = spots.length < search.refined ? Infinity : (spots.at(-1)?.cost ?? Infinity);
    const cost = field.weigh(item, shape, x, y, bound);
    if (cost === Infinity) return;
    if (spots.length >= search.refined) spots.pop();
    spots.splice(spots.findLastIndex((spot) => spot.cost <= cost) + 1, 0, { shape, x, y, cost });
  };
  for (let i = 0; i < search.anywhere; i++) {
    const shape = oneOf(ways, random);
    offer(shape, random() * roomX(field, shape, length), random() * roomY(field, shape));
  }
  for (let i = 0; i < search.nearby; i++) {
    const shape = ways.length === 1 || random() < 0.5 ? here.shape : oneOf(ways, random);
    const kind = field.kind(shape);
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
  const { shape } = from;
  const mostX = roomX(field, shape, length);
  const mostY = roomY(field, shape);
  let best: Spot = { ...from };
  for (let round = 0; round < rounds && best.cost > 0; round++) {
    field.probe(item, shape, best.x, best.y);
    const order = heaviest(field.contacts, 3);
    const start = best;
    const attempt = (dx: number, dy: number): void => {
      const x = within(start.x + dx, mostX);
      const y = within(start.y + dy, mostY);
      const cost = field.weigh(item, shape, x, y, best.cost);
      if (cost < best.cost) best = { shape, x, y, cost };
    };
    order.forEach(({ outX: nx, outY: ny, depth }, rank) => {
      attempt(nx * depth, ny * depth);
      if (Math.abs(nx) > 0.05 && Math.abs(ny) > 0.05) {
        attempt(depth / nx, 0);
        attempt(0, depth / ny);
      }
      for (const { outX: mx, outY: my, depth: also } of order.slice(rank + 1)) {
        const det = nx * my - ny * mx;
        if (Math.abs(det) < 0.05) continue;
        attempt((depth * my - also * ny) / det, (nx * also - mx * depth) / det);
      }
    });
    if (best === start || best.cost > start.cost * 0.999) break;
  }
  return best;
}

/** The overlaps with the greatest weighted depth, greatest first. */
function heaviest(overlaps: readonly Overlap[], most: number): readonly Overlap[] {
  const weighted = ({ depth, weight }: Overlap): number => depth * weight;
  return [...overlaps].sort((a, b) => weighted(b) - weighted(a)).slice(0, most);
}
