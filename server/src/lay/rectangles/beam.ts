import type { Random } from '../random.ts';
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
  | { readonly kind: 'found'; readonly laid: readonly Laid[] }
  | { readonly kind: 'not found'; readonly best: Unfinished | undefined };

/** Score classes when the best candidates are picked: fine enough that ties are close calls. */
const CLASSES = 8192;
/** What copying one kept strip costs, in looks at an option (measured, roughly). */
const KEEP_COST = 8;
/** What setting a search up costs, and how many numbers made ready cost as much as one look. */
const SETUP_COST = 500;
const NUMBERS_PER_STEP = 16;

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
  yield SETUP_COST;
  const { height, options } = task;
  const kinds = task.counts.length;
  const pieces = task.counts.reduce((sum, count) => sum + count, 0);
  const strip = task.floor.x[task.floor.x.length - 1] ?? 0;

  const optionW = Int32Array.from(options, (option) => option.w);
  const optionH = Int32Array.from(options, (option) => option.h);
  const optionKind = Int32Array.from(options, (option) => option.kind);
  const { byHeight, allTurn } = sides(options);

  let area = 0;
  const kindArea = new Float64Array(kinds);
  for (const option of options) kindArea[option.kind] = option.w * option.h;
  for (let k = 0; k < kinds; k++) area += kindArea[k]! * task.counts[k]!;
  const under = task.floor.y.reduce((sum, y, i) => sum + y * (task.floor.x[i + 1]! - task.floor.x[i]!), 0);
  const budget = strip * height - under - area;
  if (budget < 0 || Math.max(...task.floor.y) > height) return { kind: 'not found', best: undefined };

  const mean = area / pieces;
  const kindSize = kindArea.map((a) => toPower(a / mean, style.power));
  const kindHash = Int32Array.from({ length: kinds }, () => (random() * 4294967296) | 0);
  const wasteWeight = style.waste / mean;

  // Two generations of strips share each array, one read while the other is written; one more strip is for scratch.
  const keep = style.width;
  const scratch = 2 * keep;
  const stride = Math.min(pieces + task.floor.y.length, strip) + 2;
  const x = new Int32Array((2 * keep + 1) * stride);
  const y = new Int32Array((2 * keep + 1) * stride);
  const corners = new Int32Array(2 * keep + 1);
  const left = new Int32Array(2 * keep * kinds);
  const waste = new Float64Array(2 * keep + 1);
  const size = new Float64Array(2 * keep);
  const hash = new Int32Array(2 * keep);
  const node = new Int32Array(2 * keep);
  /** The niche weighed in each strip. */
  const niche = new Int32Array(2 * keep);
  const history = newHistory();
  yield Math.floor((2 * keep * (2 * stride + kinds)) / NUMBERS_PER_STEP);

  task.floor.x.forEach((at, i) => (x[i] = at));
  task.floor.y.forEach((at, i) => (y[i] = at));
  corners[0] = task.floor.y.length;
  left.set(task.counts);
  node[0] = -1;
  let generation = 0;
  let kept = 1;
  let steps = 0;

  const found = newCandidates();
  const seen = newSeen(keep);

  /** The niche to fill next in strip `s`, as a stretch of its skyline, or -1 when all is at full height. */
  const chooseNiche = (s: number): number => {
    const o = s * stride;
    const last = corners[s]! - 1;
    let best = -1;
    let bestY = height;
    let bestW = Infinity;
    for (let i = 0; i <= last; i++) {
      const here = y[o + i]!;
      if (here >= height) continue;
      const w = x[o + i + 1]! - x[o + i]!;
      if (style.niche === 'lowest') {
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
  };

  /** Gives a niche up: the strip counts as taken up to its lower wall. */
  const giveUp = (s: number, at: number): void => {
    const o = s * stride;
    const count = corners[s]!;
    const wall = Math.min(at > 0 ? y[o + at - 1]! : height, at < count - 1 ? y[o + at + 1]! : height, height);
    waste[s]! += (x[o + at + 1]! - x[o + at]!) * (wall - y[o + at]!);
    y[o + at] = wall;
    let to = at > 0 && y[o + at - 1] === wall ? at : at + 1;
    for (let from = at + 1; from < count; from++) {
      if (y[o + from] === y[o + to - 1]) continue;
      x[o + to] = x[o + from]!;
      y[o + to] = y[o + from]!;
      to++;
    }
    x[o + to] = strip;
    corners[s] = to;
  };

  // What is left over in the strip under expansion: the index of its narrowest option, its least width and height.
  let first = 0;
  let leastW = 0;
  let leastH = 0;
  const look = (s: number): void => {
    first = 0;
    while (left[s * kinds + optionKind[first]!] === 0) first++;
    leastW = optionW[first]!;
    leastH = leastW;
    if (allTurn) return;
    const lowest = byHeight.find((i) => left[s * kinds + optionKind[i]!]! > 0);
    leastH = optionH[lowest!]!;
  };

  /**
   * Weighs every piece left in strip `s` for the next niche of `shape`, which is `s` itself or `s` with a
   * niche given up; niches no piece fits are given up on the way. The answer is the niche, or -1.
   */
  const weigh = (s: number, shape: number): number => {
    const o = shape * stride;
    for (let givenUp = 0; ; givenUp++) {
      const at = chooseNiche(shape);
      if (at < 0 || waste[shape]! > budget) return -1;
      const count = corners[shape]!;
      const floor = y[o + at]!;
      const room = height - floor;
      const gap = x[o + at + 1]! - x[o + at]!;
      const leftWall = at > 0 ? y[o + at - 1]! : height;
      const rightWall = at < count - 1 ? y[o + at + 1]! : height;
      const near = Math.max(leftWall, rightWall);
      const far = Math.min(leftWall, rightWall);
      let fits = false;
      for (let i = first; leastH <= room && i < options.length && optionW[i]! <= gap; i++) {
        const k = optionKind[i]!;
        if (left[s * kinds + k] === 0) continue;
        steps++;
        const h = optionH[i]!;
        if (h > room) continue;
        fits = true;
        const rest = gap - optionW[i]!;
        const top = floor + h;
        let lost = waste[shape]!;
        if (rest > 0 && rest < leastW) lost += rest * (Math.min(top, far) - floor);
        if (top < height && height - top < leastH) lost += optionW[i]! * (height - top);
        if (lost > budget) continue;
        const change = (top === near ? -1 : 0) + (rest > 0 ? 1 : top === far ? -1 : 0);
        const score =
          count + change - style.size * (size[s]! + kindSize[k]!) + wasteWeight * lost + style.noise * random();
        found.add(score, s, i, shape === s ? at : ~givenUp);
      }
      if (fits) return at;
      giveUp(shape, at);
    }
  };

  /** Makes the scratch strip strip `s` with niche `at` given up, unless that wastes more than may be. */
  const giveUpInScratch = (s: number, at: number): boolean => {
    const o = s * stride;
    const count = corners[s]!;
    const wall = Math.min(at > 0 ? y[o + at - 1]! : height, at < count - 1 ? y[o + at + 1]! : height);
    if (waste[s]! + (x[o + at + 1]! - x[o + at]!) * (wall - y[o + at]!) > budget) return false;
    x.copyWithin(scratch * stride, o, o + count + 1);
    y.copyWithin(scratch * stride, o, o + count);
    corners[scratch] = count;
    waste[scratch] = waste[s]!;
    giveUp(scratch, at);
    return true;
  };

  for (let level = 0; level < pieces; level++) {
    const read = generation * keep;
    const write = (1 - generation) * keep;
    steps = 0;
    found.count = 0;
    for (let s = read; s < read + kept; s++) {
      look(s);
      niche[s] = weigh(s, s);
      if (niche[s]! >= 0 && giveUpInScratch(s, niche[s]!)) weigh(s, scratch);
    }

    if (found.count === 0) return { kind: 'not found', best: unfinished(read) };

    kept = 0;
    for (const candidate of found.inOrder()) {
      if (kept === keep) break;
      const s = found.strip[candidate]!;
      const i = found.option[candidate]!;
      const to = write + kept;
      const given = found.niche[candidate]!;
      const shape = given >= 0 ? s : scratch;
      if (given < 0) {
        giveUpInScratch(s, niche[s]!);
        for (let times = ~given; times > 0; times--) giveUp(scratch, chooseNiche(scratch));
      }
      const at = given >= 0 ? given : chooseNiche(scratch);
      const piece = lay(shape, i, at, to);
      const k = optionKind[i]!;
      hash[to] = (hash[s]! + kindHash[k]!) | 0;
      if (seen.has(level + 1, skylineHash(to))) continue;
      for (let j = 0; j < kinds; j++) left[to * kinds + j] = left[s * kinds + j]!;
      left[to * kinds + k]!--;
      waste[to] = waste[shape]!;
      size[to] = size[s]! + kindSize[k]!;
      node[to] = history.add(node[s]!, i, piece, y[shape * stride + at]!);
      kept++;
    }
    generation = 1 - generation;
    yield steps + KEEP_COST * kept;
  }
  return { kind: 'found', laid: laidBy(node[generation * keep]!) };

  /** Writes the skyline of strip `s` with option `i` in niche `at` as strip `to`; the answer is the piece's x. */
  function lay(s: number, i: number, at: number, to: number): number {
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
    x[t + n] = strip;
    corners[to] = n;
    return pieceX;
  }

  function skylineHash(s: number): number {
    let mixed = hash[s]!;
    for (let j = s * stride; j < s * stride + corners[s]!; j++) {
      mixed = Math.imul(mixed ^ (x[j]! * 31 + y[j]!), 0x9e3779b1);
      mixed ^= mixed >>> 15;
    }
    return mixed;
  }

  function laidBy(last: number): readonly Laid[] {
    return history.back(last).map(({ option, x: px, y: py }) => {
      const { kind, w, h } = options[option]!;
      return { kind, x: px, y: py, w, h };
    });
  }

  function unfinished(s: number): Unfinished {
    const o = s * stride;
    const count = corners[s]!;
    return {
      skyline: { x: Array.from(x.subarray(o, o + count + 1)), y: Array.from(y.subarray(o, o + count)) },
      left: Array.from(left.subarray(s * kinds, (s + 1) * kinds)),
      laid: laidBy(node[s]!),
    };
  }
}

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

/** The most candidates one level may weigh, against running out of memory. */
const MOST_CANDIDATES = 1 << 22;

/** A growing list of possible layings with scores. */
function newCandidates() {
  let room = 4096;
  let score = new Float64Array(room);
  const list = {
    count: 0,
    strip: new Int32Array(room),
    option: new Int32Array(room),
    niche: new Int32Array(room),
    add(value: number, strip: number, option: number, niche: number): void {
      if (list.count === MOST_CANDIDATES) return;
      if (list.count === room) {
        room *= 2;
        const wider = new Float64Array(room);
        wider.set(score);
        score = wider;
        list.strip = grown(list.strip, room);
        list.option = grown(list.option, room);
        list.niche = grown(list.niche, room);
      }
      score[list.count] = value;
      list.strip[list.count] = strip;
      list.option[list.count] = option;
      list.niche[list.count] = niche;
      list.count++;
    },
    /** Indices from the best score up, sorted by score class; within a class as added. */
    inOrder(): Int32Array {
      let least = Infinity;
      let most = -Infinity;
      for (let i = 0; i < list.count; i++) {
        least = Math.min(least, score[i]!);
        most = Math.max(most, score[i]!);
      }
      const scale = most > least ? (CLASSES - 1) / (most - least) : 0;
      const starts = new Int32Array(CLASSES + 1);
      for (let i = 0; i < list.count; i++) starts[Math.floor((score[i]! - least) * scale) + 1]!++;
      for (let c = 0; c < CLASSES; c++) starts[c + 1]! += starts[c]!;
      const order = new Int32Array(list.count);
      for (let i = 0; i < list.count; i++) order[starts[Math.floor((score[i]! - least) * scale)]!++] = i;
      return order;
    },
  };
  return list;
}

/** Hashes met at each level; a clash of two different strips only costs one of them its place. */
function newSeen(keep: number) {
  let size = 4;
  while (size < 4 * keep) size *= 2;
  const hashes = new Int32Array(size);
  const levels = new Int32Array(size);
  return {
    /** Whether this hash was met at this level before; it has been from now on. */
    has(level: number, hash: number): boolean {
      let at = (hash ^ (hash >>> 16)) & (size - 1);
      while (levels[at] === level) {
        if (hashes[at] === hash) return true;
        at = (at + 1) & (size - 1);
      }
      levels[at] = level;
      hashes[at] = hash;
      return false;
    },
  };
}

/** The layings of every kept strip, each pointing at the one before it. */
function newHistory() {
  let room = 4096;
  let count = 0;
  let before = new Int32Array(room);
  let option = new Int32Array(room);
  let x = new Int32Array(room);
  let y = new Int32Array(room);
  return {
    add(previous: number, laid: number, atX: number, atY: number): number {
      if (count === room) {
        room *= 2;
        before = grown(before, room);
        option = grown(option, room);
        x = grown(x, room);
        y = grown(y, room);
      }
      before[count] = previous;
      option[count] = laid;
      x[count] = atX;
      y[count] = atY;
      return count++;
    },
    back(last: number): { option: number; x: number; y: number }[] {
      const list = [];
      for (let at = last; at >= 0; at = before[at]!) list.push({ option: option[at]!, x: x[at]!, y: y[at]! });
      return list.reverse();
    },
  };
}

function grown(array: Int32Array<ArrayBuffer>, room: number): Int32Array<ArrayBuffer> {
  const wider = new Int32Array(room);
  wider.set(array);
  return wider;
}
