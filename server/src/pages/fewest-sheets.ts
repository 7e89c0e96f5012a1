import type { Drawn, Placed } from './arrange.ts';

/** No more boxes than this are tried in every way: the ways to share them out grow tenfold with each. */
const mostTried = 6;
/** No more of them on one sheet. */
const mostTogether = 5;
const slack = 1e-6;

interface Room {
  readonly width: number;
  readonly height: number;
}

/**
 * Few boxes on as few sheets as can be, every way tried; undefined where they are too many, or where `most` sheets are as few.
 *
 * @param most how many sheets are known to do
 * @param gap least distance between two
 */
export function onFewestSheets<D extends Drawn>(all: readonly D[], room: Room, gap: number, most: number): readonly (readonly Placed<D>[])[] | undefined {
  if (all.length > mostTried || most < 2) return undefined;
  const known = new Map<string, readonly Placed<D>[] | undefined>();
  const together = (some: readonly D[]): readonly Placed<D>[] | undefined => {
    const key = some.map((one) => all.indexOf(one)).join(' ');
    if (!known.has(key)) known.set(key, onOne(some, [], room, gap));
    return known.get(key);
  };
  // Each box goes to a sheet that has some already, or to the next empty one, as long as there are fewer than known to do.
  const share = (index: number, sheets: readonly (readonly D[])[], limit: number): readonly (readonly Placed<D>[])[] | undefined => {
    const next = all[index];
    if (next === undefined) return sheets.map((sheet) => together(sheet) ?? []);
    for (const [at, sheet] of sheets.entries()) {
      const more = [...sheet, next];
      if (more.length > mostTogether || together(more) === undefined) continue;
      const found = share(index + 1, sheets.map((one, other) => (other === at ? more : one)), limit);
      if (found !== undefined) return found;
    }
    return sheets.length < limit ? share(index + 1, [...sheets, [next]], limit) : undefined;
  };
  for (let limit = 1; limit < most; limit++) {
    const found = share(0, [], limit);
    if (found !== undefined) return found;
  }
  return undefined;
}

/** All of them on one sheet: each in turn, turned or not, in every corner that the others leave, where some packing of any that fit has them. */
function onOne<D extends Drawn>(rest: readonly D[], placed: readonly Placed<D>[], room: Room, gap: number): readonly Placed<D>[] | undefined {
  if (rest.length === 0) return placed;
  if (areaOf(rest, gap) + areaOf(placed.map(({ drawn }) => drawn), gap) > (room.width + gap) * (room.height + gap) + slack) return undefined;
  const taken = placed.map((one) => ({ ...one, right: one.x + (one.turned ? one.drawn.height : one.drawn.width) + gap, below: one.y + (one.turned ? one.drawn.width : one.drawn.height) + gap }));
  const [xs, ys] = [[0, ...taken.map(({ right }) => right)], [0, ...taken.map(({ below }) => below)]];
  for (const drawn of rest) {
    const others = rest.filter((one) => one !== drawn);
    for (const turned of drawn.isUpright === true ? [false] : [false, true]) {
      const [width, height] = turned ? [drawn.height, drawn.width] : [drawn.width, drawn.height];
      for (const x of xs) {
        for (const y of ys) {
          if (x + width > room.width + slack || y + height > room.height + slack) continue;
          if (taken.some((one) => x < one.right - slack && one.x < x + width + gap - slack && y < one.below - slack && one.y < y + height + gap - slack)) continue;
          const found = onOne(others, [...placed, { drawn, x, y, turned }], room, gap);
          if (found !== undefined) return found;
        }
      }
    }
  }
  return undefined;
}

const areaOf = (some: readonly Drawn[], gap: number): number => some.reduce((sum, { width, height }) => sum + (width + gap) * (height + gap), 0);
