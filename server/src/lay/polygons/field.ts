import { buildPair, pairsOf, rowOf, type Pairs } from './pairs.ts';
import type { Wanted } from './shapes.ts';

/** How deep, in grid steps, two shapes may seem to overlap and still count as touching: rounding of doubles, not cloth. */
const touchingGridSteps = 2;

/**
 * The pieces on the strip while planning: position and shape of every item, the guided weight of every pair of items,
 * and fast answers to "how much would this item overlap there?". Mutable on purpose: this is the planner's hot loop.
 */
export class Field {
  readonly wanted: Wanted;
  readonly pairs: Pairs;
  readonly count: number;
  /** Shape index, box corner and box size of each item, millimetres. */
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly width: Float64Array;
  readonly height: Float64Array;
  /** 1 while the item lies on the strip. */
  readonly present: Uint8Array;
  /** Guided weight of each pair of items, row by row. */
  readonly weight: Float32Array;
  /** Overlaps up to this depth count as touching, millimetres. */
  readonly touching: number;
  /** Work done so far: pairs of items looked at. */
  work = 0;
  /** Contacts of the last `probe`: four numbers each: normal x, y (the way out), depth, weight. */
  readonly contacts: Float64Array;
  contactCount = 0;

  private readonly widest: number;
  private readonly bucketWidth: number;
  private buckets: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly bucketOf: Int32Array;

  constructor(wanted: Wanted, pairs: Pairs = pairsOf(wanted)) {
    this.wanted = wanted;
    this.pairs = pairs;
    const n = (this.count = wanted.items.length);
    this.shape = new Int32Array(n);
    this.x = new Float64Array(n);
    this.y = new Float64Array(n);
    this.width = new Float64Array(n);
    this.height = new Float64Array(n);
    this.present = new Uint8Array(n);
    this.weight = new Float32Array(n * n).fill(1);
    this.touching = touchingGridSteps * wanted.grid;
    this.contacts = new Float64Array(4 * 64);
    this.widest = wanted.shapes.reduce((most, shape) => Math.max(most, shape.width), 0) + wanted.gap;
    const mean = wanted.shapes.reduce((sum, shape) => sum + shape.width, 0) / Math.max(1, wanted.shapes.length);
    this.bucketWidth = Math.max(mean / 2, this.widest / 64, 1e-9);
    this.buckets = new Int32Array(64).fill(-1);
    this.next = new Int32Array(n).fill(-1);
    this.previous = new Int32Array(n).fill(-1);
    this.bucketOf = new Int32Array(n).fill(-1);
  }

  /** Puts an item on the strip, or moves it there. */
  put(item: number, shape: number, x: number, y: number): void {
    this.take(item);
    const kind = this.wanted.shapes[shape]!;
    this.shape[item] = shape;
    this.x[item] = x;
    this.y[item] = y;
    this.width[item] = kind.width;
    this.height[item] = kind.height;
    this.present[item] = 1;
    const bucket = Math.max(0, Math.floor(x / this.bucketWidth));
    if (bucket >= this.buckets.length) {
      const grown = new Int32Array(Math.max(bucket + 1, this.buckets.length * 2)).fill(-1);
      grown.set(this.buckets);
      this.buckets = grown;
    }
    const head = this.buckets[bucket]!;
    this.next[item] = head;
    this.previous[item] = -1;
    if (head >= 0) this.previous[head] = item;
    this.buckets[bucket] = item;
    this.bucketOf[item] = bucket;
  }

  /** Takes an item off the strip. */
  take(item: number): void {
    if (this.present[item] === 0) return;
    this.present[item] = 0;
    const [before, after] = [this.previous[item]!, this.next[item]!];
    if (before >= 0) this.next[before] = after;
    else this.buckets[this.bucketOf[item]!] = after;
    if (after >= 0) this.previous[after] = before;
  }

  /**
   * The weighted overlap of an item laid as `shape` at (x, y): over every other item, guided weight times depth of
   * penetration, millimetres. Gives up with Infinity as soon as the sum reaches `bound`.
   */
  weigh(item: number, shape: number, x: number, y: number, bound: number): number {
    const { pairs, x: xs, y: ys, width: widths, height: heights, shape: shapes, weight, next, buckets, touching } = this;
    const kind = this.wanted.shapes[shape]!;
    const { gap } = this.wanted;
    const right = x + kind.width + gap - touching;
    const left = x - gap + touching;
    const top = y + kind.height + gap - touching;
    const low = y - gap + touching;
    const row = rowOf(pairs, shape);
    const weightRow = item * this.count;
    let { planes, partBox, partFrom, partTo, pairFrom, pairTo } = pairs;
    let sum = 0;
    let work = 1;
    const last = Math.min(buckets.length - 1, Math.floor(right / this.bucketWidth));
    for (let bucket = Math.max(0, Math.floor((left - this.widest) / this.bucketWidth)); bucket <= last; bucket++) {
      for (let other = buckets[bucket]!; other >= 0; other = next[other]!) {
        const ox = xs[other]!;
        const oy = ys[other]!;
        if (ox >= right || oy >= top || ox + widths[other]! <= left || oy + heights[other]! <= low || other === item) continue;
        const still = shapes[other]!;
        let pair = row[still]!;
        if (pair < 0) {
          pair = buildPair(pairs, shape, still);
          ({ planes, partBox, partFrom, partTo, pairFrom, pairTo } = pairs);
          work += 20;
        }
        const dx = x - ox;
        const dy = y - oy;
        let deepest = touching;
        const lastPart = pairTo[pair]!;
        for (let part = pairFrom[pair]!; part < lastPart; part++) {
          const box = part * 4;
          if (dx <= partBox[box]! || dx >= partBox[box + 1]! || dy <= partBox[box + 2]! || dy >= partBox[box + 3]!) continue;
          work++;
          let depth = Infinity;
          const lastPlane = 3 * partTo[part]!;
          for (let at = 3 * partFrom[part]!; at < lastPlane; at += 3) {
            const inside = planes[at + 2]! - planes[at]! * dx - planes[at + 1]! * dy;
            if (inside < depth) {
              depth = inside;
              if (depth <= deepest) break;
            }
          }
          if (depth > deepest) deepest = depth;
        }
        work++;
        if (deepest > touching) {
          sum += weight[weightRow + other]! * deepest;
          if (sum >= bound) {
            this.work += work;
            return Infinity;
          }
        }
      }
    }
    this.work += work;
    return sum;
  }

  /** As `weigh`, without a bound, and leaves the shortest way out of every overlap in `contacts`. */
  probe(item: number, shape: number, x: number, y: number): number {
    const { pairs, contacts, touching } = this;
    const kind = this.wanted.shapes[shape]!;
    let sum = 0;
    this.contactCount = 0;
    this.eachNear(x, y, kind.width, kind.height, (other) => {
      if (other === item) return;
      const part = this.deepestPart(shape, this.shape[other]!, x - this.x[other]!, y - this.y[other]!);
      if (part < 0) return;
      const plane = 3 * this.deepestPlane;
      const weight = this.weight[item * this.count + other]!;
      sum += weight * this.deepestDepth;
      if (this.contactCount < 64) {
        const at = 4 * this.contactCount++;
        contacts[at] = pairs.planes[plane]!;
        contacts[at + 1] = pairs.planes[plane + 1]!;
        contacts[at + 2] = this.deepestDepth + touching / 4;
        contacts[at + 3] = weight;
      }
    });
    return sum;
  }

  /** Depth of penetration of two items as they lie, 0 when they touch or are apart, millimetres. */
  depth(item: number, other: number): number {
    const part = this.deepestPart(this.shape[item]!, this.shape[other]!, this.x[item]! - this.x[other]!, this.y[item]! - this.y[other]!);
    return part < 0 ? 0 : this.deepestDepth;
  }

  deepestDepth = 0;
  private deepestPlane = 0;

  /** The part pair with the deepest overlap at offset (dx, dy), −1 when none is deeper than touching. */
  deepestPart(moving: number, still: number, dx: number, dy: number): number {
    const { pairs } = this;
    let pair = rowOf(pairs, moving)[still]!;
    if (pair < 0) pair = buildPair(pairs, moving, still);
    const { planes, partBox, partFrom, partTo } = pairs;
    let deepest = this.touching;
    let found = -1;
    for (let part = pairs.pairFrom[pair]!; part < pairs.pairTo[pair]!; part++) {
      const box = part * 4;
      if (dx <= partBox[box]! || dx >= partBox[box + 1]! || dy <= partBox[box + 2]! || dy >= partBox[box + 3]!) continue;
      this.work++;
      let depth = Infinity;
      let plane = -1;
      for (let at = partFrom[part]!; at < partTo[part]!; at++) {
        const inside = planes[3 * at + 2]! - planes[3 * at]! * dx - planes[3 * at + 1]! * dy;
        if (inside < depth) {
          depth = inside;
          plane = at;
          if (depth <= deepest) break;
        }
      }
      if (depth > deepest) {
        deepest = depth;
        found = part;
        this.deepestPlane = plane;
      }
    }
    this.deepestDepth = deepest;
    return found;
  }

  /** Visits every item whose box, with the gap, reaches into the box at (x, y). */
  eachNear(x: number, y: number, width: number, height: number, visit: (item: number) => void): void {
    const { gap } = this.wanted;
    const right = x + width + gap - this.touching;
    const left = x - gap + this.touching;
    const top = y + height + gap - this.touching;
    const low = y - gap + this.touching;
    const last = Math.min(this.buckets.length - 1, Math.floor(right / this.bucketWidth));
    for (let bucket = Math.max(0, Math.floor((left - this.widest) / this.bucketWidth)); bucket <= last; bucket++) {
      for (let other = this.buckets[bucket]!; other >= 0; other = this.next[other]!) {
        const [ox, oy] = [this.x[other]!, this.y[other]!];
        this.work++;
        if (ox >= right || oy >= top || ox + this.width[other]! <= left || oy + this.height[other]! <= low) continue;
        visit(other);
      }
    }
  }

  /**
   * The least x, from `from` on, at which a shape laid at height y overlaps nothing on the strip. Exact: it jumps from
   * the end of one forbidden stretch to the next along the line, so it finds its way into hollows.
   */
  firstFreeX(item: number, shape: number, from: number, y: number, bound: number): number {
    const { pairs } = this;
    const kind = this.wanted.shapes[shape]!;
    let x = from;
    for (let moved = true; moved && x < bound; ) {
      moved = false;
      this.eachNear(x, y, kind.width, kind.height, (other) => {
        if (other === item) return;
        const [dx, dy] = [x - this.x[other]!, y - this.y[other]!];
        const part = this.deepestPart(shape, this.shape[other]!, dx, dy);
        if (part < 0) return;
        let out = Infinity;
        for (let at = pairs.partFrom[part]!; at < pairs.partTo[part]!; at++) {
          const nx = pairs.planes[3 * at]!;
          if (nx > 1e-9) out = Math.min(out, (pairs.planes[3 * at + 2]! - pairs.planes[3 * at + 1]! * dy) / nx);
        }
        x = this.x[other]! + Math.max(out, dx + this.touching);
        moved = true;
      });
    }
    return x;
  }

  /** How far the items reach along the strip, millimetres. */
  reach(): number {
    let most = 0;
    for (let i = 0; i < this.count; i++) if (this.present[i] === 1) most = Math.max(most, this.x[i]! + this.width[i]!);
    return most;
  }
}
