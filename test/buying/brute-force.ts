/**
 * The shortest lays of small cases, by trying everything on a grid of squares. It shares no code with the program.
 *
 * Pieces are made of whole squares. Two of them lie apart when their squares do, so a lay is a set of differences of
 * whole numbers to be kept; rounding every position of a lay down keeps them all and makes nothing longer. Hence no lay
 * off the grid is shorter than the shortest on it.
 */

/** Squares as [along, across], the least of each 0. */
export type Squares = readonly (readonly [number, number])[];

/** Ways in which one piece may lie; on the fold it begins at 0 across, or at 0 along where the fold runs across the cloth. */
export interface Lying {
  readonly shapes: readonly Squares[];
  readonly onFold: boolean | 'across';
  /** The rows that it must lie within, from one up to another, across the cloth; all of them where it doesn't say. */
  readonly rows?: readonly [number, number];
}

/** Something to be cut: each of `choices` is one way to get all of it, as how many of which. */
export interface Wish {
  readonly choices: readonly (readonly { readonly lying: Lying; readonly count: number }[])[];
}

/** The least length, in squares, of a lay of everything on cloth so many squares wide; Infinity beyond `most`. */
export function shortest(wishes: readonly Wish[], width: number, most: number): number {
  const mixes = wishes.reduce<{ lying: Lying; count: number }[][]>((all, wish) => all.flatMap((mix) => wish.choices.map((choice) => [...mix, ...choice])), [[]]);
  const possible = mixes.filter((mix) => mix.every(({ lying, count }) => count === 0 || lying.shapes.some((shape) => extent(shape, 1) <= high(lying, width) - low(lying))));
  for (let length = 1; length <= most && possible.length > 0; length++) if (possible.some((mix) => fits(mix, width, length))) return length;
  return Infinity;
}

const low = ({ rows }: Lying): number => rows?.[0] ?? 0;
const high = ({ rows }: Lying, width: number): number => rows?.[1] ?? width;

const extent = (shape: Squares, way: 0 | 1): number => shape.reduce((reach, square) => Math.max(reach, square[way] + 1), 0);

function fits(mix: readonly { lying: Lying; count: number }[], width: number, length: number): boolean {
  const area = mix.reduce((sum, { lying, count }) => sum + count * (lying.shapes[0]?.length ?? 0), 0);
  // Those on the fold lie one after another.
  const inRow = mix.filter(({ lying }) => lying.onFold === true).reduce((sum, { lying, count }) => sum + count * Math.min(...lying.shapes.map((shape) => extent(shape, 0))), 0);
  if (inRow > length) return false;
  const left = mix.map(({ count }) => count);
  const failed = new Set<string>();
  const taken = new Uint8Array(width * length);
  // Square by square: either some piece has its first square here, or the square stays empty.
  const from = (at: number, waste: number): boolean => {
    if (waste < 0) return false;
    while (at < taken.length && taken[at] === 1) at++;
    if (at === taken.length) return left.every((count) => count === 0);
    // What comes after depends on nothing but what is taken from here on and what is left.
    const state = `${left.join()} ${at} ${taken.subarray(at).join('')}`;
    if (failed.has(state)) return false;
    const [x, y] = [Math.floor(at / width), at % width];
    for (const [kind, { lying }] of mix.entries()) {
      if (left[kind] === 0) continue;
      for (const shape of lying.shapes) {
        const first = shape.filter(([along]) => along === 0).reduce((least, [, across]) => Math.min(least, across), Infinity);
        const from0 = y - first;
        if (from0 < low(lying) || (lying.onFold === true && from0 !== 0) || (lying.onFold === 'across' && x !== 0)) continue;
        const cells = shape.map(([along, across]) => (from0 + across >= high(lying, width) || x + along >= length ? -1 : (x + along) * width + from0 + across));
        if (cells.some((cell) => cell < 0 || taken[cell] === 1)) continue;
        for (const cell of cells) taken[cell] = 1;
        left[kind]!--;
        if (from(at + 1, waste)) return true;
        left[kind]!++;
        for (const cell of cells) taken[cell] = 0;
      }
    }
    taken[at] = 1;
    const without = from(at + 1, waste - 1);
    taken[at] = 0;
    if (!without) failed.add(state);
    return without;
  };
  return from(0, width * length - area);
}

/** A shape with its quarter turns, half turn, and reflections as asked for, each once. */
export function lyings(shape: Squares, turns: readonly number[], mirrored: readonly boolean[]): readonly Squares[] {
  const all = mirrored.flatMap((flip) => turns.map((turn) => {
    let now = shape.map(([x, y]) => [x, flip ? -y : y] as const);
    for (let quarter = 0; quarter < turn / 90; quarter++) now = now.map(([x, y]) => [-y, x] as const);
    const [left, low] = [Math.min(...now.map(([x]) => x)), Math.min(...now.map(([, y]) => y))];
    return now.map(([x, y]) => [x - left, y - low] as const);
  }));
  const key = (squares: Squares): string => squares.map(([x, y]) => `${x} ${y}`).sort().join();
  return all.filter((one, index) => all.findIndex((other) => key(other) === key(one)) === index);
}

/** A rectangle of squares. */
export const block = (along: number, across: number): Squares => Array.from({ length: along * across }, (_, k) => [k % along, Math.floor(k / along)] as const);
