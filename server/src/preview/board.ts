/**
 * Where each piece lies on the board: all of them on one plane at one scale. Lengths are millimetres; x to the right, y
 * downwards, as on a screen. A spot is the upper left corner of the piece's box. This is for the eye alone: nothing is
 * cut by it, and a lay is another thing.
 */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A piece as far as its place on the board depends on it. */
export interface BoardPiece {
  readonly name: string;
  /** The piece that it is made from; null where it is drawn by itself. */
  readonly from: string | null;
  readonly width: number;
  readonly height: number;
  /** How far what is drawn under it reaches beyond its box on each side; it takes no place from others. */
  readonly beyond?: { readonly left: number; readonly right: number; readonly above: number; readonly below: number };
}

export type Spots = ReadonlyMap<string, Spot>;

/** Between two pieces when they are first put down, and the least to which one may grow before another makes way. */
const gap = 14;
const leastGap = 4;
/**
 * Pieces find new places one by one, each near where it was, while these times all pieces are no more than this; more are put
 * down together below the rest. Keeps an edit within about a quarter of a second (measured with 200 and 1,000 pieces).
 */
const fewEnough = 4000;
/** So many places are kept of pieces that are not there: of another choice, or with a fault just now. */
const keptPlaces = 500;

interface Rectangle extends Spot {
  readonly width: number;
  readonly height: number;
}

/**
 * Places for all pieces. Whoever had a place keeps it, unless one that stands there for longer or comes earlier in the
 * text has grown into it; then it goes to the nearest place that is free. New pieces lie near those that they are made
 * from. The same input gives the same places.
 *
 * @param before places of an earlier version; empty to arrange all anew
 * @param ratio width to height of what the board is seen in
 */
export function arrangeBoard(pieces: readonly BoardPiece[], before: Spots, ratio: number): Spots {
  if (!pieces.some(({ name }) => before.has(name))) return blockSpots(pieces, ratio);
  const spots = new Map<string, Spot>();
  const taken: Rectangle[] = [];
  const strips = new Strips(pieces);
  const put = (piece: BoardPiece, spot: Spot): void => {
    const one = rectangleOf(piece, spot);
    spots.set(piece.name, spot);
    taken.push(one);
    strips.add(one);
  };
  const homeless: BoardPiece[] = [];
  for (const piece of pieces) {
    const spot = before.get(piece.name);
    if (spot !== undefined && strips.isFree(rectangleOf(piece, spot), leastGap)) put(piece, spot);
    else homeless.push(piece);
  }
  const [few, rest] = homeless.length * pieces.length <= fewEnough ? [homeless, []] : [[], homeless];
  for (const piece of few) {
    const wish = before.get(piece.name) ?? (piece.from === null ? undefined : spots.get(piece.from)) ?? lowerLeft(taken);
    put(piece, nearestFree(piece, wish, { taken, strips }, ratio));
  }
  const below = lowerLeft(taken);
  for (const [name, { x, y }] of blockSpots(rest, ratio)) spots.set(name, { x: below.x + x, y: below.y + y });
  return new Map(pieces.flatMap(({ name }) => {
    const spot = spots.get(name);
    return spot === undefined ? [] : [[name, spot] as const];
  }));
}

/** Places now, and the latest of those before whose pieces may come back; a name that was only typed in passing is forgotten in time. */
export function rememberSpots(before: Spots, now: Spots): Spots {
  const away = [...before].filter(([name]) => !now.has(name)).slice(-keptPlaces);
  return new Map([...away, ...now]);
}

/** Whether all lie where others of the same names do. */
export const sameSpots = (one: Spots, other: Spots): boolean => one.size === other.size && [...one].every(([name, { x, y }]) => other.get(name)?.x === x && other.get(name)?.y === y);

/** The box round all pieces in their places; empty at the origin where there are none. */
export function boardBox(pieces: readonly BoardPiece[], spots: Spots): Rectangle {
  const all = pieces.flatMap((piece) => {
    const spot = spots.get(piece.name);
    return spot === undefined ? [] : [reachOf(piece, spot)];
  });
  return all.length === 0 ? { x: 0, y: 0, width: 0, height: 0 } : around(all);
}

// ------------------------------------------------------------------------------------------------ one by one

const rectangleOf = ({ width, height }: BoardPiece, { x, y }: Spot): Rectangle => ({ x, y, width, height });

/** What a piece takes up with what is drawn under it. */
const reachOf = ({ width, height, beyond: { left, right, above, below } = { left: 0, right: 0, above: 0, below: 0 } }: BoardPiece, { x, y }: Spot): Rectangle =>
  ({ x: x - left, y: y - above, width: left + width + right, height: above + height + below });

const isApart = (one: Rectangle, taken: readonly Rectangle[], room: number): boolean =>
  taken.every((other) => one.x >= other.x + other.width + room || other.x >= one.x + one.width + room || one.y >= other.y + other.height + room || other.y >= one.y + one.height + room);

/** What lies in each strip across the board: of a thousand pieces, most are nowhere near one another. */
class Strips {
  readonly #high: number;
  readonly #strips = new Map<number, Rectangle[]>();

  /** A strip is as high as pieces are on average, so that however long some are, each lies in few. */
  constructor(pieces: readonly BoardPiece[]) {
    this.#high = leastGap + pieces.reduce((sum, { height }) => sum + height, 0) / Math.max(1, pieces.length);
  }

  add(one: Rectangle): void {
    for (const at of this.#through(one.y, one.y + one.height)) {
      const strip = this.#strips.get(at);
      if (strip === undefined) this.#strips.set(at, [one]);
      else strip.push(one);
    }
  }

  /** Whether nothing lies on a rectangle, nor less than this away from it. */
  isFree(one: Rectangle, room: number): boolean {
    return this.#through(one.y - room, one.y + one.height + room).every((at) => isApart(one, this.#strips.get(at) ?? [], room));
  }

  #through(from: number, to: number): readonly number[] {
    const [first, last] = [Math.floor(from / this.#high), Math.floor(to / this.#high)];
    return Array.from({ length: last - first + 1 }, (_, at) => first + at);
  }
}

function around(all: readonly Rectangle[]): Rectangle {
  const [x, y] = [Math.min(...all.map((one) => one.x)), Math.min(...all.map((one) => one.y))];
  return { x, y, width: Math.max(...all.map((one) => one.x + one.width)) - x, height: Math.max(...all.map((one) => one.y + one.height)) - y };
}

function lowerLeft(taken: readonly Rectangle[]): Spot {
  if (taken.length === 0) return { x: 0, y: 0 };
  const { x, y, height } = around(taken);
  return { x, y: y + height + gap };
}

/** The free place nearest to a wish, beside one or two pieces; one that makes the board longer than the panel counts as farther away. */
function nearestFree(piece: BoardPiece, wish: Spot, { taken, strips }: { readonly taken: readonly Rectangle[]; readonly strips: Strips }, ratio: number): Spot {
  const whole = taken.length === 0 ? rectangleOf(piece, wish) : around(taken);
  const xs = unique([wish.x, ...taken.flatMap((one) => [one.x, one.x + one.width + gap, one.x - gap - piece.width])]);
  const ys = unique([wish.y, ...taken.flatMap((one) => [one.y, one.y + one.height + gap, one.y - gap - piece.height])]);
  const costOf = ({ x, y }: Spot): number => {
    const grown = around([whole, rectangleOf(piece, { x, y })]);
    const stretch = Math.max(grown.width, grown.height * ratio) - Math.max(whole.width, whole.height * ratio);
    return Math.hypot(x - wish.x, y - wish.y) + stretch;
  };
  const rows = outwards(ys, wish.y);
  let best = lowerLeft(taken);
  let least = costOf(best);
  // Places are tried from the wish outwards, so that most of those farther away than the best one are never looked at.
  for (const x of outwards(xs, wish.x)) {
    if (Math.abs(x - wish.x) >= least) break;
    for (const y of rows) {
      if (Math.hypot(x - wish.x, y - wish.y) >= least) break;
      const cost = costOf({ x, y });
      if (cost < least && strips.isFree(rectangleOf(piece, { x, y }), gap)) [best, least] = [{ x, y }, cost];
    }
  }
  return best;
}

const unique = (numbers: readonly number[]): readonly number[] => [...new Set(numbers)];

const outwards = (numbers: readonly number[], from: number): readonly number[] => [...numbers].sort((a, b) => Math.abs(a - from) - Math.abs(b - from) || a - b);

// ------------------------------------------------------------------------------------------------ all together

interface Block {
  readonly width: number;
  readonly height: number;
  readonly spots: Spots;
}

/** Families first become blocks of their own, and blocks are then put together in the width that shows them largest. */
function blockSpots(pieces: readonly BoardPiece[], ratio: number): Spots {
  const blocks = families(pieces).map((family) => packed(family.map((piece) => ({ width: piece.width, height: piece.height, spots: new Map([[piece.name, { x: 0, y: 0 }]]) })), 1.4));
  return packed(blocks, ratio).spots;
}

/** Pieces made from one another, directly or not, in the order of the text. */
function families(pieces: readonly BoardPiece[]): readonly (readonly BoardPiece[])[] {
  const known = new Map(pieces.map((piece) => [piece.name, piece]));
  const eldestOf = (piece: BoardPiece): string => {
    const passed = new Set<string>();
    let one = piece;
    for (let parent = known.get(one.from ?? ''); parent !== undefined && !passed.has(parent.name); parent = known.get(one.from ?? '')) {
      passed.add(parent.name);
      one = parent;
    }
    return one.name;
  };
  const found = new Map<string, BoardPiece[]>();
  for (const piece of pieces) {
    const eldest = eldestOf(piece);
    const family = found.get(eldest);
    if (family === undefined) found.set(eldest, [piece]);
    else family.push(piece);
  }
  return [...found.values()];
}

/** Of some widths the one in which the blocks, seen in a frame of this ratio, are largest. */
function packed(blocks: readonly Block[], ratio: number): Block {
  if (blocks.length === 1 && blocks[0] !== undefined) return blocks[0];
  const ordered = [...blocks.entries()].sort(([i, a], [k, b]) => b.height - a.height || b.width - a.width || i - k).map(([, block]) => block);
  const area = blocks.reduce((sum, { width, height }) => sum + (width + gap) * (height + gap), 0);
  const widest = blocks.reduce((most, { width }) => Math.max(most, width), 0);
  const even = Math.sqrt(area * ratio);
  let best: Block | undefined;
  const sizeOf = ({ width, height }: Block): number => Math.max(width, height * ratio);
  for (const share of [0.8, 0.9, 1, 1.1, 1.2, 1.35, 1.5, 1.75, 2]) {
    const tried = inWidth(ordered, Math.max(widest, even * share));
    if (best === undefined || sizeOf(tried) < sizeOf(best)) best = tried;
  }
  return best ?? { width: 0, height: 0, spots: new Map() };
}

/** A stretch of the upper border of what is still free. */
interface Ledge {
  readonly x: number;
  readonly width: number;
  readonly y: number;
}

/** Each block goes as high up as it can, and there as far left: the skyline rule of packing rectangles. */
function inWidth(blocks: readonly Block[], width: number): Block {
  let ledges: readonly Ledge[] = [{ x: 0, width: width + gap, y: 0 }];
  const spots = new Map<string, Spot>();
  const size = { width: 0, height: 0 };
  for (const block of blocks) {
    const { x, y } = highest(ledges, block.width + gap);
    for (const [name, spot] of block.spots) spots.set(name, { x: x + spot.x, y: y + spot.y });
    size.width = Math.max(size.width, x + block.width);
    size.height = Math.max(size.height, y + block.height);
    ledges = covered(ledges, { x, width: block.width + gap, y: y + block.height + gap });
  }
  return { ...size, spots };
}

function highest(ledges: readonly Ledge[], width: number): Spot {
  const end = ledges.reduce((most, ledge) => Math.max(most, ledge.x + ledge.width), 0);
  let best: Spot = { x: 0, y: Infinity };
  for (const [index, { x }] of ledges.entries()) {
    if (x + width > end + 1e-6) break;
    let y = 0;
    for (let at = index; at < ledges.length; at++) {
      const ledge = ledges[at];
      if (ledge === undefined || ledge.x >= x + width - 1e-6) break;
      y = Math.max(y, ledge.y);
    }
    if (y < best.y) best = { x, y };
  }
  return best;
}

function covered(ledges: readonly Ledge[], added: Ledge): readonly Ledge[] {
  const end = added.x + added.width;
  const left = ledges.flatMap((one) => (one.x >= added.x - 1e-6 ? [] : [{ ...one, width: Math.min(one.width, added.x - one.x) }]));
  const right = ledges.flatMap((one) => (one.x + one.width <= end + 1e-6 ? [] : [{ x: Math.max(one.x, end), width: one.x + one.width - Math.max(one.x, end), y: one.y }]));
  return [...left, added, ...right];
}
