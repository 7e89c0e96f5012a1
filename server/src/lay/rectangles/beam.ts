import type { Random } from '../random.ts';
import { newCandidates, newHistory, newSeen } from './beam-lists.ts';
import type { Skyline } from './fill.ts';
import type { Laid, Option } from './kinds.ts';

/** The question a beam search answers: can everything be laid on `floor` without rising above `height`? */
export interface BeamTask {
  readonly floor: Skyline;
  readonly height: number;
  /** Every way of laying every kind, narrowest first, none wider than the strip. */
  readonly options: readonly Option[];
  /** How many of each kind. */
  readonly counts: readonly number[];
}

/** How the search goes about it. */
export interface BeamStyle {
  /** How many part-filled strips are kept at each level. */
  readonly width: number;
  /** Which niche is filled next. */
  readonly niche: 'lowest' | 'narrowest';
  /** How much more laying a large piece early counts: its area to this power. */
  readonly power: 0.5 | 1 | 1.5;
  /** Weight of size laid, against one corner of the skyline. */
  readonly size: number;
  /** Weight of cloth given up, in mean pieces, against one corner of the skyline. */
  readonly waste: number;
  /** Size of the chance added to each score. */
  readonly noise: number;
}

/** A part-filled strip the search could not finish. */
export interface Unfinished {
  readonly skyline: Skyline;
  readonly left: readonly number[];
  readonly laid: readonly Laid[];
}

export type BeamResult =
  | { readonly kind: 'filled'; readonly laid: readonly Laid[] }
  | { readonly kind: 'unfilled'; readonly best: Unfinished | undefined };

/** What copying one kept strip costs, in looks at an option (measured, roughly). */
const keepCost = 8;
/** What setting a search up costs, and how many numbers made ready cost as much as one look. */
const setupCost = 500;
const numbersPerStep = 16;

/**
 * Beam search over part-filled strips, one piece per level. From each kept strip every piece that fits
 * the chosen niche is tried in the corner against the niche's higher wall; strips that must waste more
 * than the height allows are dropped; the best `width` of the rest are kept. With no waste allowed a
 * corner must hold some piece, so only the kept number makes the search incomplete (perfect packing as
 * in Lesh, Marks, McMahon, Mitzenmacher, Information Processing Letters 90, 2004). A strip scores well
 * with few corners in its skyline, large pieces already laid and little waste.
 *
 * Yields after every level the number of steps (looks at an option, or as much other work) since the last yield.
 */
export function* beamSearch(task: BeamTask, style: BeamStyle, random: Random): Generator<number, BeamResult> {
  yield setupCost;
  if (Beam.wasteOf(task) < 0 || Math.max(...task.floor.y) > task.height) return { kind: 'unfilled', best: undefined };
  const beam = new Beam(task, style, random);
  yield beam.preparing;
  for (let level = 0; level < beam.pieces; level++) {
    if (!beam.weighAll()) return { kind: 'unfilled', best: beam.unfinished() };
    yield beam.keepBest(level + 1);
  }
  return { kind: 'filled', laid: beam.laid() };
}

/**
 * The part-filled strips of a search. Two generations of them share each array, one read while the other is written; one
 * more strip is for scratch. Mutable on purpose: this is the planner's hot loop.
 */
class Beam {
  readonly pieces: number;
  /** Steps that making it ready has cost. */
  readonly preparing: number;

  private readonly height: number;
  private readonly strip: number;
  /** Area that may be given up. */
  private readonly budget: number;
  private readonly options: readonly Option[];
  private readonly optionW: Int32Array;
  private readonly optionH: Int32Array;
  private readonly optionKind: Int32Array;
  private readonly byHeight: readonly number[];
  private readonly allTurn: boolean;
  private readonly kinds: number;
  private readonly kindSize: Float64Array;
  private readonly kindHash: Int32Array;
  private readonly wasteWeight: number;
  private readonly style: BeamStyle;
  private readonly random: Random;

  /** Most strips in a generation, and the number of the strip for scratch. */
  private readonly most: number;
  private readonly scratch: number;
  /** Skylines, strip by strip, each with room for so many corners. */
  private readonly stride: number;
  private readonly x: Int32Array;
  private readonly y: Int32Array;
  private readonly corners: Int32Array;
  private readonly left: Int32Array;
  private readonly waste: Float64Array;
  private readonly size: Float64Array;
  private readonly hash: Int32Array;
  private readonly node: Int32Array;
  /** The niche weighed in each strip. */
  private readonly niche: Int32Array;
  private readonly history = newHistory();
  private readonly candidates = newCandidates();
  private readonly seen: ReturnType<typeof newSeen>;

  private generation = 0;
  private strips = 1;
  private steps = 0;
  // What is left over in the strip under expansion: the index of its narrowest option, its least width and height.
  private first = 0;
  private leastW = 0;
  private leastH = 0;

  constructor(task: BeamTask, style: BeamStyle, random: Random) {
    const { options, counts, floor } = task;
    this.height = task.height;
    this.options = options;
    this.style = style;
    this.random = random;
    this.kinds = counts.length;
    this.pieces = counts.reduce((sum, count) => sum + count, 0);
    this.strip = stripOf(task);
    this.optionW = Int32Array.from(options, (option) => option.w);
    this.optionH = Int32Array.from(options, (option) => option.h);
    this.optionKind = Int32Array.from(options, (option) => option.kind);
    const { byHeight, allTurn } = sides(options);
    this.byHeight = byHeight;
    this.allTurn = allTurn;
    this.budget = Beam.wasteOf(task);
    const kindArea = areasOf(task);
    const mean = areaOf(task) / this.pieces;
    this.kindSize = kindArea.map((area) => toPower(area / mean, style.power));
    this.kindHash = Int32Array.from({ length: this.kinds }, () => (random() * 4294967296) | 0);
    this.wasteWeight = style.waste / mean;

    const most = (this.most = style.width);
    this.scratch = 2 * most;
    const stride = (this.stride = Math.min(this.pieces + floor.y.length, this.strip) + 2);
    this.x = new Int32Array((2 * most + 1) * stride);
    this.y = new Int32Array((2 * most + 1) * stride);
    this.corners = new Int32Array(2 * most + 1);
    this.left = new Int32Array(2 * most * this.kinds);
    this.waste = new Float64Array(2 * most + 1);
    this.size = new Float64Array(2 * most);
    this.hash = new Int32Array(2 * most);
    this.node = new Int32Array(2 * most);
    this.niche = new Int32Array(2 * most);
    this.seen = newSeen(most);
    this.preparing = Math.floor((2 * most * (2 * stride + this.kinds)) / numbersPerStep);

    floor.x.forEach((at, i) => (this.x[i] = at));
    floor.y.forEach((at, i) => (this.y[i] = at));
    this.corners[0] = floor.y.length;
    this.left.set(counts);
    this.node[0] = -1;
  }

  /** Area left over when everything is laid within the height; below nothing when it can't be. */
  static wasteOf(task: BeamTask): number {
    const { floor, height } = task;
    const under = floor.y.reduce((sum, y, i) => sum + y * (floor.x[i + 1]! - floor.x[i]!), 0);
    return stripOf(task) * height - under - areaOf(task);
  }

  /** Weighs every way to go on from every strip; false when there is none. */
  weighAll(): boolean {
    const read = this.generation * this.most;
    this.steps = 0;
    this.candidates.count = 0;
    for (let s = read; s < read + this.strips; s++) {
      this.look(s);
      this.niche[s] = this.weigh(s, s);
      if (this.niche[s]! >= 0 && this.giveUpInScratch(s, this.niche[s]!)) this.weigh(s, this.scratch);
    }
    return this.candidates.count > 0;
  }

  /** Makes the best candidates the next generation; the answer is the steps taken since the last one. */
  keepBest(level: number): number {
    const { candidates, optionKind, kinds, kindHash, kindSize, left, waste, size, hash, node, stride, y } = this;
    const write = (1 - this.generation) * this.most;
    let strips = 0;
    for (const candidate of candidates.inOrder()) {
      if (strips === this.most) break;
      const s = candidates.strip[candidate]!;
      const i = candidates.option[candidate]!;
      const to = write + strips;
      const given = candidates.niche[candidate]!;
      const shape = given >= 0 ? s : this.scratch;
      if (given < 0) {
        this.giveUpInScratch(s, this.niche[s]!);
        for (let times = ~given; times > 0; times--) this.giveUp(this.scratch, this.chooseNiche(this.scratch));
      }
      const at = given >= 0 ? given : this.chooseNiche(this.scratch);
      const piece = this.lay(shape, i, at, to);
      const k = optionKind[i]!;
      hash[to] = (hash[s]! + kindHash[k]!) | 0;
      if (this.seen.has(level, this.skylineHash(to))) continue;
      for (let j = 0; j < kinds; j++) left[to * kinds + j] = left[s * kinds + j]!;
      left[to * kinds + k]!--;
      waste[to] = waste[shape]!;
      size[to] = size[s]! + kindSize[k]!;
      node[to] = this.history.add(node[s]!, i, piece, y[shape * stride + at]!);
      strips++;
    }
    this.generation = 1 - this.generation;
    this.strips = strips;
    return this.steps + keepCost * strips;
  }

  /** Everything laid, of the best strip of the last generation. */
  laid(): readonly Laid[] {
    return this.laidBy(this.node[this.generation * this.most]!);
  }

  /** The best strip that could not be finished. */
  unfinished(): Unfinished {
    const s = this.generation * this.most;
    const o = s * this.stride;
    const count = this.corners[s]!;
    return {
      skyline: { x: Array.from(this.x.subarray(o, o + count + 1)), y: Array.from(this.y.subarray(o, o + count)) },
      left: Array.from(this.left.subarray(s * this.kinds, (s + 1) * this.kinds)),
      laid: this.laidBy(this.node[s]!),
    };
  }

  private laidBy(last: number): readonly Laid[] {
    return this.history.back(last).map(({ option, x, y }) => {
      const { kind, w, h } = this.options[option]!;
      return { kind, x, y, w, h };
    });
  }

  /** The niche to fill next in strip `s`, as a stretch of its skyline, or -1 when all is at full height. */
  private chooseNiche(s: number): number {
    const { x, y } = this;
    const o = s * this.stride;
    const last = this.corners[s]! - 1;
    const lowest = this.style.niche === 'lowest';
    let best = -1;
    let bestY = this.height;
    let bestW = Infinity;
    for (let i = 0; i <= last; i++) {
      const here = y[o + i]!;
      if (here >= this.height) continue;
      const w = x[o + i + 1]! - x[o + i]!;
      if (lowest) {
        if (here > bestY || (here === bestY && w >= bestW)) continue;
      } else {
        if ((i > 0 && y[o + i - 1]! < here) || (i < last && y[o + i + 1]! < here)) continue;
        if (w > bestW || (w === bestW && here >= bestY)) continue;
      }
      best = i;
      bestY = here;
      bestW = w;
    }
    return best;
  }

  /** Gives a niche up: the strip counts as taken up to its lower wall. */
  private giveUp(s: number, at: number): void {
    const { x, y, height } = this;
    const o = s * this.stride;
    const count = this.corners[s]!;
    const wall = Math.min(at > 0 ? y[o + at - 1]! : height, at < count - 1 ? y[o + at + 1]! : height, height);
    this.waste[s]! += (x[o + at + 1]! - x[o + at]!) * (wall - y[o + at]!);
    y[o + at] = wall;
    let to = at > 0 && y[o + at - 1] === wall ? at : at + 1;
    for (let from = at + 1; from < count; from++) {
      if (y[o + from] === y[o + to - 1]) continue;
      x[o + to] = x[o + from]!;
      y[o + to] = y[o + from]!;
      to++;
    }
    x[o + to] = this.strip;
    this.corners[s] = to;
  }

  /** Looks at what is left over in strip `s`. */
  private look(s: number): void {
    const { left, kinds, optionKind, optionW, optionH } = this;
    this.first = 0;
    while (left[s * kinds + optionKind[this.first]!] === 0) this.first++;
    this.leastW = optionW[this.first]!;
    this.leastH = this.leastW;
    if (this.allTurn) return;
    const lowest = this.byHeight.find((i) => left[s * kinds + optionKind[i]!]! > 0);
    this.leastH = optionH[lowest!]!;
  }

  /**
   * Weighs every piece left in strip `s` for the next niche of `shape`, which is `s` itself or `s` with a
   * niche given up; niches no piece fits are given up on the way. The answer is the niche, or -1.
   */
  private weigh(s: number, shape: number): number {
    for (let givenUp = 0; ; givenUp++) {
      const at = this.chooseNiche(shape);
      if (at < 0 || this.waste[shape]! > this.budget) return -1;
      if (this.weighNiche(s, shape, at, shape === s ? at : ~givenUp)) return at;
      this.giveUp(shape, at);
    }
  }

  /** Weighs every piece left in strip `s` for one niche of `shape`, told as `niche`; whether any fits it. */
  private weighNiche(s: number, shape: number, at: number, niche: number): boolean {
    const { x, y, height, optionW, optionH, optionKind, left, kinds, leastW, leastH, budget, style, random, candidates } = this;
    const o = shape * this.stride;
    const count = this.corners[shape]!;
    const floor = y[o + at]!;
    const room = height - floor;
    const gap = x[o + at + 1]! - x[o + at]!;
    const leftWall = at > 0 ? y[o + at - 1]! : height;
    const rightWall = at < count - 1 ? y[o + at + 1]! : height;
    const near = Math.max(leftWall, rightWall);
    const far = Math.min(leftWall, rightWall);
    if (leastH > room) return false;
    let fits = false;
    for (let i = this.first; i < optionW.length && optionW[i]! <= gap; i++) {
      const k = optionKind[i]!;
      if (left[s * kinds + k] === 0) continue;
      this.steps++;
      const h = optionH[i]!;
      if (h > room) continue;
      fits = true;
      const rest = gap - optionW[i]!;
      const top = floor + h;
      let lost = this.waste[shape]!;
      if (rest > 0 && rest < leastW) lost += rest * (Math.min(top, far) - floor);
      if (top < height && height - top < leastH) lost += optionW[i]! * (height - top);
      if (lost > budget) continue;
      const change = (top === near ? -1 : 0) + (rest > 0 ? 1 : top === far ? -1 : 0);
      const score = count + change - style.size * (this.size[s]! + this.kindSize[k]!) + this.wasteWeight * lost + style.noise * random();
      candidates.add(score, s, i, niche);
    }
    return fits;
  }

  /** Makes the scratch strip strip `s` with niche `at` given up, unless that wastes more than may be. */
  private giveUpInScratch(s: number, at: number): boolean {
    const { x, y, height, waste, corners, scratch, stride } = this;
    const o = s * stride;
    const count = corners[s]!;
    const wall = Math.min(at > 0 ? y[o + at - 1]! : height, at < count - 1 ? y[o + at + 1]! : height);
    if (waste[s]! + (x[o + at + 1]! - x[o + at]!) * (wall - y[o + at]!) > this.budget) return false;
    x.copyWithin(scratch * stride, o, o + count + 1);
    y.copyWithin(scratch * stride, o, o + count);
    corners[scratch] = count;
    waste[scratch] = waste[s]!;
    this.giveUp(scratch, at);
    return true;
  }

  /** Writes the skyline of strip `s` with option `i` in niche `at` as strip `to`; the answer is the piece's x. */
  private lay(s: number, i: number, at: number, to: number): number {
    const { x, y, corners, stride, height, optionW, optionH } = this;
    const o = s * stride;
    const t = to * stride;
    const count = corners[s]!;
    const start = x[o + at]!;
    const end = x[o + at + 1]!;
    const leftWall = at > 0 ? y[o + at - 1]! : height;
    const rightWall = at < count - 1 ? y[o + at + 1]! : height;
    const pieceX = leftWall >= rightWall ? start : end - optionW[i]!;
    const pieceEnd = pieceX + optionW[i]!;
    const floor = y[o + at]!;
    const top = floor + optionH[i]!;
    let n = at;
    for (let j = 0; j < at; j++) {
      x[t + j] = x[o + j]!;
      y[t + j] = y[o + j]!;
    }
    if (pieceX > start) {
      x[t + n] = start;
      y[t + n++] = floor;
    }
    if (n === 0 || y[t + n - 1] !== top) {
      x[t + n] = pieceX;
      y[t + n++] = top;
    }
    if (pieceEnd < end) {
      x[t + n] = pieceEnd;
      y[t + n++] = floor;
    }
    let j = at + 1;
    if (j < count && y[o + j] === y[t + n - 1]) j++;
    for (; j < count; j++) {
      x[t + n] = x[o + j]!;
      y[t + n++] = y[o + j]!;
    }
    x[t + n] = this.strip;
    corners[to] = n;
    return pieceX;
  }

  private skylineHash(s: number): number {
    const { x, y, corners, stride } = this;
    let mixed = this.hash[s]!;
    for (let j = s * stride; j < s * stride + corners[s]!; j++) {
      mixed = Math.imul(mixed ^ (x[j]! * 31 + y[j]!), 0x9e3779b1);
      mixed ^= mixed >>> 15;
    }
    return mixed;
  }
}

/** Width of the strip. */
const stripOf = ({ floor }: BeamTask): number => floor.x[floor.x.length - 1] ?? 0;

/** The area of one piece of each kind. */
function areasOf({ options, counts }: BeamTask): Float64Array {
  const areas = new Float64Array(counts.length);
  for (const option of options) areas[option.kind] = option.w * option.h;
  return areas;
}

/** The area of all pieces. */
const areaOf = (task: BeamTask): number => areasOf(task).reduce((sum, area, kind) => sum + area * task.counts[kind]!, 0);

/** Powers by exact operations alone, so that scores are the same on every machine. */
function toPower(value: number, power: BeamStyle['power']): number {
  if (power === 1) return value;
  return power === 0.5 ? Math.sqrt(value) : value * Math.sqrt(value);
}

/** Options from the lowest up, and whether every option can be given a quarter turn. */
function sides(options: readonly Option[]): { readonly byHeight: readonly number[]; readonly allTurn: boolean } {
  const known = new Set(options.map(({ kind, w, h }) => `${kind} ${w} ${h}`));
  return {
    byHeight: options.map((_, i) => i).sort((a, b) => options[a]!.h - options[b]!.h || a - b),
    allTurn: options.every(({ kind, w, h }) => known.has(`${kind} ${h} ${w}`)),
  };
}
