import type { Random } from '../random.ts';
import type { Filled, Skyline } from './fill.ts';
import type { Kind, Laid } from './kinds.ts';

/** How many of the last lengths a new order is held against (late acceptance, Burke and Bykov, European Journal of Operational Research 258, 2017). */
const MEMORY = 400;
/** How much the unevenness of the upper edge counts beside the length. */
const UNEVEN = 0.02;

/**
 * Looks for better orders of laying without end: each piece in turn goes where its top comes lowest.
 * An order is changed a little at a time, and kept when it is no worse than the one `MEMORY` changes
 * ago. Good where cloth must be wasted, which a beam search plans for badly.
 *
 * Yields after each order tried the steps it took (looks at a place) and the packing when it is the
 * shortest so far.
 */
export function* improveOrder(
  kinds: readonly Kind[],
  floor: Skyline,
  random: Random,
): Generator<{ readonly steps: number; readonly better: Filled | undefined }, never> {
  const pieces = kinds.flatMap((kind, k) => new Array<number>(kind.count).fill(k));
  const n = pieces.length;
  const strip = floor.x[floor.x.length - 1] ?? 0;
  const widths = Float64Array.from(pieces, (k) => kinds[k]!.w);
  const heights = Float64Array.from(pieces, (k) => kinds[k]!.h);
  const mayTurn = pieces.map((k) => kinds[k]!.turnable && kinds[k]!.h <= strip);
  const mustTurn = pieces.map((k) => kinds[k]!.w > strip);
  let order = pieces.map((_, i) => i).sort((a, b) => Math.max(widths[b]!, heights[b]!) - Math.max(widths[a]!, heights[a]!) || a - b);
  let turned = pieces.map((_, i) => mustTurn[i]! || mayTurn[i]!);
  const x = new Float64Array(n + floor.x.length + 2);
  const y = new Float64Array(n + floor.x.length + 2);
  const laidX = new Float64Array(n);
  const laidY = new Float64Array(n);
  let steps = 0;
  let length = 0;

  /** Lays everything in the present order; the answer is the cost. */
  const lay = (): number => {
    let count = floor.y.length;
    for (let i = 0; i < count; i++) {
      x[i] = floor.x[i]!;
      y[i] = floor.y[i]!;
    }
    x[count] = strip;
    length = Math.max(...floor.y);
    for (const piece of order) {
      const w = turned[piece]! ? heights[piece]! : widths[piece]!;
      const h = turned[piece]! ? widths[piece]! : heights[piece]!;
      let bestX = 0;
      let bestY = Infinity;
      let bestLost = Infinity;
      for (let i = 0; i < count; i++) {
        for (let side = 0; side < 2; side++) {
          const left = side === 0 ? x[i]! : x[i + 1]! - w;
          if (left < 0 || left + w > strip) continue;
          let from = i;
          if (side === 1) while (x[from]! > left) from--;
          let top = 0;
          let j = from;
          for (; j < count && x[j]! < left + w; j++) top = Math.max(top, y[j]!);
          steps += j - from;
          if (top > bestY) continue;
          let lost = 0;
          for (j = from; j < count && x[j]! < left + w; j++) {
            lost += (Math.min(x[j + 1]!, left + w) - Math.max(x[j]!, left)) * (top - y[j]!);
          }
          if (top < bestY || lost < bestLost) {
            bestX = left;
            bestY = top;
            bestLost = lost;
          }
        }
      }
      laidX[piece] = bestX;
      laidY[piece] = bestY;
      count = raise(x, y, count, bestX, bestX + w, bestY + h);
      length = Math.max(length, bestY + h);
    }
    let under = 0;
    for (let i = 0; i < count; i++) under += (x[i + 1]! - x[i]!) * y[i]!;
    return length + UNEVEN * (under / strip);
  };

  let cost = lay();
  let best = length;
  const memory = new Float64Array(MEMORY).fill(cost);
  yield { steps, better: filled() };
  for (let trial = 0; ; trial++) {
    steps = 0;
    const before = order;
    const turnedBefore = turned;
    const a = Math.floor(random() * n);
    const b = Math.floor(random() * n);
    const kind = random();
    const piece = order[a]!;
    if (kind < 0.3 && mayTurn[piece]! && !mustTurn[piece]!) {
      turned = [...turned];
      turned[piece] = !turned[piece]!;
    } else if (kind < 0.65) {
      order = [...order];
      order[a] = order[b]!;
      order[b] = piece;
    } else {
      order = [...order];
      order.splice(a, 1);
      order.splice(b, 0, piece);
    }
    const now = lay();
    const better = length < best;
    const at = trial % MEMORY;
    if (now <= cost || now <= memory[at]!) cost = now;
    else {
      order = before;
      turned = turnedBefore;
    }
    memory[at] = cost;
    if (better) best = length;
    yield { steps: steps + n, better: better ? filled() : undefined };
  }

  function filled(): Filled {
    const laid: Laid[] = order.map((piece) => ({
      kind: pieces[piece]!,
      x: laidX[piece]!,
      y: laidY[piece]!,
      w: turned[piece]! ? heights[piece]! : widths[piece]!,
      h: turned[piece]! ? widths[piece]! : heights[piece]!,
    }));
    return { length, laid };
  }
}

/** Raises the upper edge to `top` between `left` and `right`; the answer is how many stretches it has then. */
function raise(x: Float64Array, y: Float64Array, count: number, left: number, right: number, top: number): number {
  let first = 0;
  while (x[first + 1]! <= left) first++;
  let last = first;
  while (x[last + 1]! < right) last++;
  const before = x[first]! < left ? 1 : 0;
  const after = x[last + 1]! > right ? 1 : 0;
  const shift = before + 1 + after - (last - first + 1);
  const lastY = y[last]!;
  if (shift !== 0) {
    x.copyWithin(last + 1 + shift, last + 1, count + 1);
    y.copyWithin(last + 1 + shift, last + 1, count);
  }
  let at = first + before;
  x[at] = left;
  y[at] = top;
  at++;
  if (after > 0) {
    x[at] = right;
    y[at] = lastY;
  }
  return count + shift;
}
