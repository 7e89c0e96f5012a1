import { buildPair, buildRim, pairsOf, rowOf, wayOut, type Pairs } from './pairs.ts';
import type { Shape, Task } from './shapes.ts';

/** How deep, in grid steps, two shapes may seem to overlap and still count as touching: rounding of doubles, not cloth. */
const touchingGridSteps = 2;

/** Part pairs above which the depth of the deepest part pair stands in for the distance to the rim: rims grow costly. */
const mostRimParts = 36;

/** Contacts kept by `probe`; a piece touches far fewer at once. */
const mostContacts = 64;

/** Most items for which every pair is given a guided weight (64 MB of them). */
const mostGuided = 4000;

/** Where an item lies, and in which shape: box corner and box size, millimetres. */
export interface Place {
  readonly shape: number;
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** What an item overlaps: the unit direction of the way out, its length in millimetres, and the weight of the pair. */
export interface Overlap {
  readonly outX: number;
  readonly outY: number;
  readonly depth: number;
  readonly weight: number;
}

/**
 * The pieces on the strip while planning: position and shape of every item, the guided weight of every pair of items,
 * and fast answers to "how much would this item overlap there?". Mutable on purpose: this is the planner's hot loop.
 */
export class Field {
  readonly task: Task;
  readonly pairs: Pairs;
  readonly count: number;
  /** Whether the depth of shapes of several parts is the true one, or just that of the deepest two parts. */
  readonly withRims: boolean;
  /** Shape index, box corner and box size of each item, millimetres. */
  readonly shape: Int32Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly width: Float64Array;
  readonly height: Float64Array;
  /** 1 while the item lies on the strip. */
  readonly present: Uint8Array;
  /** Square root of each item's area over the mean of all, so that 1 is a middling item. */
  readonly size: Float64Array;
  /** Guided weight of each pair of items, row by row; empty when there are too many items for it. */
  readonly weight: Float32Array;
  /** Whether guided weights are kept. */
  readonly guided: boolean;
  /** Overlaps up to this depth count as touching, millimetres. */
  readonly touching: number;
  /** Work done so far: pairs of items looked at. */
  work = 0;
  /** What the last `probe` met. */
  contacts: readonly Overlap[] = [];
  /** Unit direction of the shortest way out found last by `depth`. */
  outX = 0;
  outY = 0;

  /** Pairs (a · count + b) whose weight is above where it started. */
  private readonly raised: number[] = [];
  private readonly widest: number;
  private readonly bucketWidth: number;
  private buckets: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly bucketOf: Int32Array;

  constructor(task: Task, withRims: boolean, pairs = pairsOf(task)) {
    this.task = task;
    this.withRims = withRims;
    this.pairs = pairs;
    const n = (this.count = task.items.length);
    this.shape = new Int32Array(n);
    this.x = new Float64Array(n);
    this.y = new Float64Array(n);
    this.width = new Float64Array(n);
    this.height = new Float64Array(n);
    this.present = new Uint8Array(n);
    this.guided = n <= mostGuided;
    this.weight = new Float32Array(this.guided ? n * n : 0);
    const sizes = task.items.map((ways) => Math.sqrt(task.shapes[ways[0]!]!.area));
    const mean = sizes.reduce((sum, size) => sum + size, 0) / Math.max(1, n);
    this.size = Float64Array.from(sizes, (size) => size / mean);
    if (this.guided) for (let a = 0; a < n; a++) for (let b = 0; b < n; b++) this.weight[a * n + b] = this.baseWeight(a, b);
    this.touching = touchingGridSteps * task.grid;
    this.widest = task.shapes.reduce((most, shape) => Math.max(most, shape.width), 0) + task.gap;
    const meanWidth = task.shapes.reduce((sum, shape) => sum + shape.width, 0) / Math.max(1, task.shapes.length);
    this.bucketWidth = Math.max(meanWidth / 2, this.widest / 64, 1e-9);
    this.buckets = new Int32Array(64).fill(-1);
    this.next = new Int32Array(n).fill(-1);
    this.previous = new Int32Array(n).fill(-1);
    this.bucketOf = new Int32Array(n).fill(-1);
  }

  /** The shape of an index. */
  kind(shape: number): Shape {
    return this.task.shapes[shape]!;
  }

  /** Indexes of the shapes that an item may take; never empty. */
  waysOf(item: number): Int32Array {
    return this.task.items[item]!;
  }

  placeOf(item: number): Place {
    return { shape: this.shape[item]!, x: this.x[item]!, y: this.y[item]!, width: this.width[item]!, height: this.height[item]! };
  }

  /** Visits the items near one, and itself. */
  eachNearItem(item: number, visit: (other: number) => void): void {
    this.eachNear(this.x[item]!, this.y[item]!, this.width[item]!, this.height[item]!, visit);
  }

  /**
   * The weight a pair starts from: the product of the two sizes. Overlap between large items then costs most, so that
   * the large ones settle first and small ones give way (measured: a lay 5.5 points of use short of the published
   * median took a sixth of the work it took with equal weights; powers 0, 0.5, 1.5 and 2 of the sizes were worse).
   */
  baseWeight(a: number, b: number): number {
    return Math.fround(this.size[a]! * this.size[b]!);
  }

  /** Gives every pair the weight it starts from. */
  resetWeights(): void {
    for (const ab of this.raised) {
      const a = Math.floor(ab / this.count);
      const b = ab - a * this.count;
      this.weight[ab] = this.weight[b * this.count + a] = this.baseWeight(a, b);
    }
    this.raised.length = 0;
  }

  /** Multiplies the weight of a pair. */
  raiseWeight(a: number, b: number, by: number, most: number): void {
    const [ab, ba] = [a * this.count + b, b * this.count + a];
    if (this.weight[ab] === this.baseWeight(a, b)) this.raised.push(Math.min(ab, ba));
    this.weight[ab] = this.weight[ba] = Math.min(most, this.weight[ab]! * by);
  }

  /** Lets every raised weight sink to `share` of itself, but not below where it started. */
  fadeWeights(share: number): void {
    let kept = 0;
    for (const ab of this.raised) {
      const a = Math.floor(ab / this.count);
      const b = ab - a * this.count;
      const base = this.baseWeight(a, b);
      const weight = Math.max(base, Math.fround(this.weight[ab]! * share));
      this.weight[ab] = this.weight[b * this.count + a] = weight;
      if (weight > base) this.raised[kept++] = ab;
    }
    this.raised.length = kept;
  }

  /** Puts an item on the strip, or moves it there. */
  put(item: number, shape: number, x: number, y: number): void {
    this.take(item);
    const kind = this.task.shapes[shape]!;
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
    const kind = this.task.shapes[shape]!;
    const { gap } = this.task;
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
          pair = this.build(shape, still);
          ({ planes, partBox, partFrom, partTo, pairFrom, pairTo } = pairs);
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
          if (depth > deepest) {
            deepest = depth;
            break;
          }
        }
        work++;
        if (deepest > touching) {
          if (this.usesRim(pair)) {
            deepest = this.rimDepth(pair, dx, dy);
            work += this.rimWork;
          }
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
    const contacts: Overlap[] = [];
    const kind = this.task.shapes[shape]!;
    let sum = 0;
    this.eachNear(x, y, kind.width, kind.height, (other) => {
      if (other === item) return;
      const depth = this.depthAt(shape, this.shape[other]!, x - this.x[other]!, y - this.y[other]!);
      if (depth === 0) return;
      const weight = this.weight[item * this.count + other]!;
      sum += weight * depth;
      if (contacts.length < mostContacts) contacts.push({ outX: this.outX, outY: this.outY, depth: depth + this.touching / 4, weight });
    });
    this.contacts = contacts;
    return sum;
  }

  /** Depth of penetration of two items as they lie, 0 when they touch or are apart, millimetres. */
  depth(item: number, other: number): number {
    return this.depthAt(this.shape[item]!, this.shape[other]!, this.x[item]! - this.x[other]!, this.y[item]! - this.y[other]!);
  }

  private deepestPlane = 0;

  /** Depth of penetration at offset (dx, dy), 0 when touching or apart, millimetres; leaves the way out in outX, outY. */
  private depthAt(moving: number, still: number, dx: number, dy: number): number {
    if (this.deepestPart(moving, still, dx, dy) < 0) return 0;
    if (this.usesRim(this.foundPair)) return this.rimDepth(this.foundPair, dx, dy);
    this.outX = this.pairs.planes[3 * this.deepestPlane]!;
    this.outY = this.pairs.planes[3 * this.deepestPlane + 1]!;
    return this.foundDepth;
  }

  /** Whether a pair's depth is the distance to its rim: several parts, not too many, and rims asked for. */
  private usesRim(pair: number): boolean {
    const parts = this.pairs.pairTo[pair]! - this.pairs.pairFrom[pair]!;
    return this.withRims && parts > 1 && parts <= mostRimParts;
  }

  /** Builds a pair; costs work by its parts. */
  private build(moving: number, still: number): number {
    const pair = buildPair(this.pairs, moving, still);
    this.work += 5 * (this.pairs.pairTo[pair]! - this.pairs.pairFrom[pair]!);
    return pair;
  }

  /** The part pair with the deepest overlap at offset (dx, dy), −1 when none is deeper than touching. */
  deepestPart(moving: number, still: number, dx: number, dy: number): number {
    const { pairs } = this;
    let pair = rowOf(pairs, moving)[still]!;
    if (pair < 0) pair = this.build(moving, still);
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
    this.foundDepth = deepest;
    this.foundPair = pair;
    return found;
  }

  private foundDepth = 0;
  private foundPair = 0;
  private rimWork = 0;

  /** Distance from an offset inside a pair of several parts to the pair's rim; leaves the way there in outX, outY. */
  private rimDepth(pair: number, dx: number, dy: number): number {
    const { pairs } = this;
    if (pairs.rimFrom[pair]! < 0) {
      buildRim(pairs, pair, this.touching);
      this.work += 5 * (pairs.pairTo[pair]! - pairs.pairFrom[pair]!) ** 2;
    }
    const rims = pairs.rims;
    const last = 5 * pairs.rimTo[pair]!;
    let least = Infinity;
    let wayX = 0;
    let wayY = 0;
    const first = 5 * pairs.rimFrom[pair]!;
    for (let at = first; at < last; at += 5) {
      const px = dx - rims[at]!;
      const py = dy - rims[at + 1]!;
      const ux = rims[at + 2]!;
      const uy = rims[at + 3]!;
      let along = px * ux + py * uy;
      if (along < 0) along = 0;
      else if (along > rims[at + 4]!) along = rims[at + 4]!;
      const ox = along * ux - px;
      const oy = along * uy - py;
      const square = ox * ox + oy * oy;
      if (square < least) {
        least = square;
        wayX = ox;
        wayY = oy;
      }
    }
    this.rimWork = (last - first) / 20;
    const depth = Math.sqrt(least);
    if (depth > 0) {
      this.outX = wayX / depth;
      this.outY = wayY / depth;
    }
    return depth;
  }

  /** Visits every item whose box, with the gap, reaches into the box at (x, y). */
  eachNear(x: number, y: number, width: number, height: number, visit: (item: number) => void): void {
    const { gap } = this.task;
    const right = x + width + gap - this.touching;
    const left = x - gap + this.touching;
    const top = y + height + gap - this.touching;
    const low = y - gap + this.touching;
    const last = Math.min(this.buckets.length - 1, Math.floor(right / this.bucketWidth));
    for (let bucket = Math.max(0, Math.floor((left - this.widest) / this.bucketWidth)); bucket <= last; bucket++) {
      for (let other = this.buckets[bucket]!; other >= 0; other = this.next[other]!) {
        const ox = this.x[other]!;
        const oy = this.y[other]!;
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
    const { x: xs, y: ys, width: widths, height: heights, next, buckets, touching } = this;
    const { gap, shapes } = this.task;
    const { width, height } = shapes[shape]!;
    const top = y + height + gap - touching;
    const low = y - gap + touching;
    let x = from;
    for (let moved = true; moved && x < bound; ) {
      moved = false;
      const right = x + width + gap - touching;
      const left = x - gap + touching;
      const last = Math.min(buckets.length - 1, Math.floor(right / this.bucketWidth));
      for (let bucket = Math.max(0, Math.floor((left - this.widest) / this.bucketWidth)); bucket <= last; bucket++) {
        for (let other = buckets[bucket]!; other >= 0; other = next[other]!) {
          this.work++;
          const ox = xs[other]!;
          const oy = ys[other]!;
          if (ox >= right || oy >= top || ox + widths[other]! <= left || oy + heights[other]! <= low || other === item) continue;
          const part = this.deepestPart(shape, this.shape[other]!, x - ox, y - oy);
          if (part < 0) continue;
          x = ox + Math.max(wayOut(this.pairs, part, y - oy), x - ox + touching);
          moved = true;
        }
      }
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
