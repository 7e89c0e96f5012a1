import type { Drawn, Placed } from './arrange.ts';
import type { Box } from './sheet.ts';

/**
 * Puts many boxes on sheets quickly: the largest first, each on the first sheet with room, where the least of a free
 * rectangle is wasted (maximal rectangles, best area fit: J. Jylänki, A Thousand Ways to Pack the Bin, 2010).
 */
export function firstFit<D extends Drawn>(all: readonly D[], { width, height }: { readonly width: number; readonly height: number }, gap: number): readonly (readonly Placed<D>[])[] {
  const sheets: { readonly placed: Placed<D>[]; free: readonly Box[] }[] = [];
  const bySize = all.map((drawn, index) => ({ drawn, index })).sort((a, b) => b.drawn.width * b.drawn.height - a.drawn.width * a.drawn.height || a.index - b.index);
  for (const { drawn } of bySize) {
    let sheet = sheets.find(({ free }) => bestIn(free, drawn, gap) !== undefined);
    // A gap beyond the border costs nothing.
    if (sheet === undefined) sheets.push((sheet = { placed: [], free: [{ x: 0, y: 0, width: width + gap, height: height + gap }] }));
    const best = bestIn(sheet.free, drawn, gap) ?? { x: 0, y: 0, turned: false };
    sheet.placed.push({ drawn, ...best });
    const [wide, high] = best.turned ? [drawn.height, drawn.width] : [drawn.width, drawn.height];
    sheet.free = without(sheet.free, { x: best.x, y: best.y, width: wide + gap, height: high + gap });
  }
  return sheets.map(({ placed }) => placed);
}

const slack = 1e-6;

function bestIn(free: readonly Box[], drawn: Drawn, gap: number): { readonly x: number; readonly y: number; readonly turned: boolean } | undefined {
  let best: { readonly x: number; readonly y: number; readonly turned: boolean } | undefined;
  let least = Infinity;
  for (const box of free) {
    for (const turned of drawn.isUpright === true ? [false] : [false, true]) {
      const [wide, high] = turned ? [drawn.height + gap, drawn.width + gap] : [drawn.width + gap, drawn.height + gap];
      const wasted = box.width * box.height - wide * high;
      if (wide <= box.width + slack && high <= box.height + slack && wasted < least) [best, least] = [{ x: box.x, y: box.y, turned }, wasted];
    }
  }
  return best;
}

/** The largest free rectangles that are left once a box is taken. */
function without(free: readonly Box[], taken: Box): readonly Box[] {
  const parts = free.flatMap((box): readonly Box[] => {
    const [right, below] = [box.x + box.width, box.y + box.height];
    const [takenRight, takenBelow] = [taken.x + taken.width, taken.y + taken.height];
    if (taken.x >= right || takenRight <= box.x || taken.y >= below || takenBelow <= box.y) return [box];
    return [
      { ...box, width: taken.x - box.x }, { ...box, x: takenRight, width: right - takenRight },
      { ...box, height: taken.y - box.y }, { ...box, y: takenBelow, height: below - takenBelow },
    ].filter((one) => one.width > slack && one.height > slack);
  });
  return parts.filter((one, index) => !parts.some((other, at) => at !== index && holds(other, one) && !(holds(one, other) && at > index)));
}

const holds = (outer: Box, inner: Box): boolean =>
  outer.x <= inner.x && outer.y <= inner.y && outer.x + outer.width >= inner.x + inner.width && outer.y + outer.height >= inner.y + inner.height;
