import type { Fault } from '../../../server/src/lay/verify/verify.ts';
import type { Lay, LayPiece, LayPoint, LayProblem, Placement } from '../../../server/src/lay/problem.ts';

/**
 * Lays that are right by construction, and ways to spoil them that make them wrong by construction, so that the verifier
 * is judged without asking any other program what is right. All shapes and sizes are invented.
 */

/**
 * A piece seen from its centre: points at growing angles, so it is star-shaped, simple and counter-clockwise. It holds
 * the disc of radius `inner` about the centre: every corner lies at least `least` away from the centre and neighbouring
 * corners lie at most 72° apart, so every edge stays at least least·cos 36° away.
 */
export interface Star {
  readonly outline: readonly LayPoint[];
  readonly centre: LayPoint;
  readonly inner: number;
  /** The disc about the centre that holds the whole piece. */
  readonly outer: number;
}

export function starOf(random: () => number, size: number): Star {
  const corners = 5 + Math.floor(random() * 20);
  const least = size * (0.15 + 0.2 * random());
  const radii = Array.from({ length: corners }, () => least + random() * (size / 2 - least));
  // Rough cosines are enough for a drawing; corner k sits at angle 360°·k / corners, neighbours at most 72° apart.
  const outline = radii.map((radius, k) => {
    const angle = (2 * Math.PI * k) / corners;
    return { x: micro(radius * Math.cos(angle)), y: micro(radius * Math.sin(angle)) };
  });
  return { outline, centre: { x: 0, y: 0 }, inner: 0.8 * least, outer: size / 2 }; // cos 36° = 0.809
}

function micro(value: number): number {
  return Math.round(value * 1000) / 1000;
}

export interface Case {
  readonly problem: LayProblem;
  readonly lay: Lay;
  readonly stars: readonly Star[];
}

/**
 * Stars in the cells of a square grid, each inside its own cell whatever way it is turned, so nothing can overlap. The
 * lay is moved so that its least x and y are 0, and length and width are what the corners reach.
 */
export function rightLay(random: () => number): Case {
  const size = 20 + Math.floor(random() * 180);
  const gap = random() < 0.5 ? 0 : 1 + Math.floor(random() * 5);
  const pitch = size + gap;
  const kinds = 2 + Math.floor(random() * 4);
  const rows = 1 + Math.floor(random() * 3);
  const stars = Array.from({ length: kinds }, () => starOf(random, size));
  const permitted = [[0], [0, 180], [0, 90, 180, 270], [0, 37, 200.5]][Math.floor(random() * 4)]!;
  const counts = stars.map(() => ({ asDrawn: 0, mirrored: 0, either: 0 }));
  const placements: Placement[] = [];
  const total = 2 * kinds;
  for (let at = 0; at < total; at++) {
    const piece = at % kinds;
    const mirrored = random() < 0.3;
    counts[piece]![mirrored ? 'mirrored' : 'asDrawn']++;
    const turn = permitted[Math.floor(random() * permitted.length)]!;
    placements.push({ piece, mirrored, turn, x: pitch * (0.5 + Math.floor(at / rows)), y: pitch * (0.5 + (at % rows)) });
  }
  const pieces = stars.map((star, i): LayPiece => ({ id: `star ${i}`, outline: star.outline, count: counts[i]!, turns: permitted, onFold: false }));
  const corners = placements.flatMap((placement) => cornersOf(pieces[placement.piece]!, placement));
  const left = Math.min(...corners.map((corner) => corner.x));
  const low = Math.min(...corners.map((corner) => corner.y));
  const moved = placements.map((placement) => ({ ...placement, x: placement.x - left, y: placement.y - low }));
  const length = Math.max(...corners.map((corner) => corner.x)) - left;
  const width = Math.max(...corners.map((corner) => corner.y)) - low;
  return { problem: { width, gap, pieces }, lay: { length, placements: moved }, stars };
}

/** Where the corners of a placed piece lie: mirrored, turned, moved, as `Placement` says. */
export function cornersOf(piece: LayPiece, placement: Placement): LayPoint[] {
  const angle = (placement.turn * Math.PI) / 180;
  return piece.outline.map(({ x, y }) => {
    const v = placement.mirrored ? -y : y;
    return { x: placement.x + x * Math.cos(angle) - v * Math.sin(angle), y: placement.y + x * Math.sin(angle) + v * Math.cos(angle) };
  });
}

export interface Spoilt {
  readonly how: string;
  /** The fault there must be among those found. */
  readonly fault: Fault['kind'];
  readonly problem: LayProblem;
  readonly lay: Lay;
}

type Spoil = (good: Case, random: () => number) => Spoilt;

function pick(random: () => number, count: number): number {
  return Math.floor(random() * count);
}

function changed(good: Case, how: string, fault: Fault['kind'], at: number, change: Partial<Placement>): Spoilt {
  const placements = good.lay.placements.map((placement, i) => (i === at ? { ...placement, ...change } : placement));
  return { how, fault, problem: good.problem, lay: { ...good.lay, placements } };
}

function two(good: Case, random: () => number): [number, number] {
  const a = pick(random, good.lay.placements.length);
  return [a, (a + 1 + pick(random, good.lay.placements.length - 1)) % good.lay.placements.length];
}

/** Each way to spoil a lay, with the reason why the result cannot be right. */
export const spoils: readonly Spoil[] = [
  // Both hold a disc about their centre; centres closer than the sum of the radii: the discs, and so the pieces, overlap.
  (good, random) => {
    const [a, b] = two(good, random);
    const [one, other] = [good.lay.placements[a]!, good.lay.placements[b]!];
    const reach = (good.stars[one.piece]!.inner + good.stars[other.piece]!.inner) * 0.95 * random();
    const angle = 2 * Math.PI * random();
    return changed(good, 'centres too close', 'overlap', a, { x: other.x + reach * Math.cos(angle), y: other.y + reach * Math.sin(angle) });
  },
  // A corner of one lands in the disc the other holds: near that corner there is inside of both.
  (good, random) => {
    const [a, b] = two(good, random);
    const [one, other] = [good.lay.placements[a]!, good.lay.placements[b]!];
    const corners = cornersOf(good.problem.pieces[one.piece]!, one);
    const tip = corners[pick(random, corners.length)]!;
    const reach = good.stars[other.piece]!.inner * 0.95 * random();
    const angle = 2 * Math.PI * random();
    return changed(good, 'a corner inside another piece', 'overlap', a, {
      x: one.x + other.x + reach * Math.cos(angle) - tip.x,
      y: one.y + other.y + reach * Math.sin(angle) - tip.y,
    });
  },
  // The corner furthest out in one direction is moved past the border it faces.
  (good, random) => {
    const at = pick(random, good.lay.placements.length);
    const placement = good.lay.placements[at]!;
    const corners = cornersOf(good.problem.pieces[placement.piece]!, placement);
    const by = 0.01 + 10 * random();
    const [xs, ys] = [corners.map((corner) => corner.x), corners.map((corner) => corner.y)];
    const moves: Partial<Placement>[] = [
      { x: placement.x - Math.min(...xs) - by },
      { x: placement.x + good.lay.length - Math.max(...xs) + by },
      { y: placement.y - Math.min(...ys) - by },
      { y: placement.y + good.problem.width - Math.max(...ys) + by },
    ];
    return changed(good, 'past a border', 'outside', at, moves[pick(random, 4)]!);
  },
  // 11° is in none of the permitted sets.
  (good, random) => changed(good, 'a turn not permitted', 'wrong turn', pick(random, good.lay.placements.length), { turn: 11 }),
  // Every count is exact, so one hand has one too many and the other one too few.
  (good, random) => {
    const at = pick(random, good.lay.placements.length);
    return changed(good, 'the other hand', 'wrong count', at, { mirrored: !good.lay.placements[at]!.mirrored });
  },
  (good, random) => {
    const at = pick(random, good.lay.placements.length);
    return { how: 'one left out', fault: 'wrong count', problem: good.problem, lay: { ...good.lay, placements: good.lay.placements.filter((_, i) => i !== at) } };
  },
  // Where either hand will do, each hand alone is never too few.
  (good, random) => {
    const pieces = good.problem.pieces.map((piece) => ({ ...piece, count: { asDrawn: 0, mirrored: 0, either: piece.count.asDrawn + piece.count.mirrored } }));
    const at = pick(random, good.lay.placements.length);
    return { how: 'too few where either hand will do', fault: 'wrong count', problem: { ...good.problem, pieces }, lay: { ...good.lay, placements: good.lay.placements.filter((_, i) => i !== at) } };
  },
  (good, random) => {
    const extra = good.lay.placements[pick(random, good.lay.placements.length)]!;
    return { how: 'one too many', fault: 'wrong count', problem: good.problem, lay: { ...good.lay, placements: [...good.lay.placements, extra] } };
  },
  // There are at least two pieces, with exact counts, so one more of one kind and one less of another is wrong.
  (good, random) => {
    const at = pick(random, good.lay.placements.length);
    return changed(good, 'another piece instead', 'wrong count', at, { piece: (good.lay.placements[at]!.piece + 1) % good.problem.pieces.length });
  },
  // The true length is what the corners reach.
  (good, random) => ({ how: 'a length not true', fault: 'wrong length', problem: good.problem, lay: { ...good.lay, length: good.lay.length + (random() < 0.5 ? -1 : 1) * (0.01 + random()) } }),
  // The same lay with a least gap greater than the whole lay is long and wide: some pair must be closer than that.
  (good, random) => ({ how: 'too close for the gap', fault: 'gap too small', problem: { ...good.problem, gap: (good.lay.length + good.problem.width) * (1 + random()) }, lay: good.lay }),
  // A tip a fraction of a millimetre deep: two fresh wedges, the right one pushed `by` past where its tip touches the left one's straight side.
  (good, random) => {
    const by = 0.01 + random() * 0.5;
    const height = 10 + random() * 50;
    const slant = 1 + random() * 20;
    const block: LayPiece = { id: 'block', outline: [{ x: 0, y: 0 }, { x: 30, y: 0 }, { x: 30, y: height }, { x: 0, y: height }], count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [0], onFold: false };
    const wedge: LayPiece = { ...block, id: 'wedge', outline: [{ x: 0, y: height / 2 }, { x: slant, y: 0 }, { x: slant, y: height }] };
    const right = 30 + slant;
    return {
      how: 'a tip just inside', fault: 'overlap',
      problem: { width: good.problem.width + height, gap: 0, pieces: [block, wedge] },
      lay: { length: right - by, placements: [{ piece: 0, mirrored: false, turn: 0, x: 0, y: 0 }, { piece: 1, mirrored: false, turn: 0, x: 30 - by, y: 0 }] },
    };
  },
  // Cloth that runs one way permits no half turn. The disc that holds a star is the same when turned, so nothing else need be wrong.
  (good, random) => {
    const at = pick(random, good.lay.placements.length);
    const upright = { ...good, problem: { ...good.problem, pieces: good.problem.pieces.map((piece) => ({ ...piece, turns: [0] })) } };
    const lay = { ...good.lay, placements: good.lay.placements.map((placement) => ({ ...placement, turn: 0 })) };
    return changed({ ...upright, lay }, 'half a turn on one-way cloth', 'wrong turn', at, { turn: random() < 0.5 ? 180 : -180 });
  },
  // Teeth thinner than the tolerance, a bar across all of them: no common part is thick, and all of them together are cloth cut twice.
  (good, random) => {
    const teeth = 8 + pick(random, 20);
    const [thin, long] = [0.0004 + 0.0005 * random(), 40 + 20 * random()];
    const comb = Array.from({ length: teeth }, (_, k) => [{ x: 1, y: 2 * k * thin }, { x: 1 + long, y: 2 * k * thin }, { x: 1 + long, y: (2 * k + 1) * thin }, { x: 1, y: (2 * k + 1) * thin }]).flat();
    const back = { x: 0, y: (2 * teeth - 1) * thin };
    const pieces: LayPiece[] = [
      { id: 'comb', outline: [{ x: 0, y: 0 }, ...comb.slice(1, -1), back], count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [0], onFold: false },
      { id: 'bar', outline: [{ x: 0, y: 0 }, { x: long - 2, y: 0 }, { x: long - 2, y: back.y }, { x: 0, y: back.y }], count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [0], onFold: false },
    ];
    return {
      how: 'an overlap by area alone', fault: 'overlap', problem: { width: good.problem.width, gap: 0, pieces },
      lay: { length: 1 + long, placements: [{ piece: 0, mirrored: false, turn: 0, x: 0, y: 0 }, { piece: 1, mirrored: false, turn: 0, x: 2, y: 0 }] },
    };
  },
  // Two bars side by side, a little less than the gap apart, along the cloth or across it.
  (good, random) => {
    const gap = 1 + 5 * random();
    const apart = gap - 0.01 - 0.9 * random();
    const bar: LayPiece = { id: 'bar', outline: [{ x: 0, y: 0 }, { x: 40, y: 0 }, { x: 40, y: 20 }, { x: 0, y: 20 }], count: { asDrawn: 2, mirrored: 0, either: 0 }, turns: [0], onFold: false };
    const along = random() < 0.5;
    return {
      how: 'a gap a little too small', fault: 'gap too small', problem: { width: 50, gap, pieces: [bar] },
      lay: { length: along ? 80 + apart : 40, placements: [{ piece: 0, mirrored: false, turn: 0, x: 0, y: 0 }, { piece: 0, mirrored: false, turn: 0, x: along ? 40 + apart : 0, y: along ? 0 : 20 + apart }] },
    };
  },
  // Usable cloth ends at either selvedge.
  (good, random) => {
    const at = pick(random, good.lay.placements.length);
    const placement = good.lay.placements[at]!;
    const ys = cornersOf(good.problem.pieces[placement.piece]!, placement).map((corner) => corner.y);
    const by = 0.0015 + 0.1 * random();
    const y = random() < 0.5 ? placement.y - Math.min(...ys) - by : placement.y + good.problem.width - Math.max(...ys) + by;
    return changed(good, 'on the selvedge', 'outside', at, { y });
  },
  // A half whose fold edge is lifted off the fold.
  (good, random) => {
    const by = 0.01 + random() * 5;
    const half: LayPiece = { id: 'half', outline: [{ x: 0, y: 0 }, { x: 40, y: 0 }, { x: 30, y: 25 }, { x: 10, y: 25 }], count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [0], onFold: true };
    return {
      how: 'off the fold', fault: 'not on the fold',
      problem: { width: 40 + good.problem.width, gap: 0, pieces: [half] },
      lay: { length: 40, placements: [{ piece: 0, mirrored: false, turn: 0, x: 0, y: by }] },
    };
  },
  // On cloth folded in part, what is for two layers on the single one, or over the line between them, or the other way round.
  (good, random) => {
    const [double, high] = [20 + 20 * random(), 10];
    const isSingle = random() < 0.5;
    const by = 0.01 + 9 * random();
    const bar: LayPiece = { id: 'bar', outline: [{ x: 0, y: 0 }, { x: 40, y: 0 }, { x: 40, y: high }, { x: 0, y: high }], count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [0], onFold: false, single: isSingle };
    return {
      how: 'in the wrong layers', fault: 'in the wrong layers', problem: { width: double + good.problem.width + 2 * high, doubleTo: double, gap: 0, pieces: [bar] },
      lay: { length: 40, placements: [{ piece: 0, mirrored: false, turn: 0, x: 0, y: isSingle ? double - by : double - high + by }] },
    };
  },
  // A half moved away from a fold that runs across the cloth.
  (good, random) => {
    const by = 0.01 + random() * 5;
    const half: LayPiece = { id: 'half', outline: [{ x: 0, y: 0 }, { x: 40, y: 0 }, { x: 30, y: 25 }, { x: 10, y: 25 }], count: { asDrawn: 1, mirrored: 0, either: 0 }, turns: [270], onFold: true };
    return {
      how: 'off a fold across the cloth', fault: 'not on the fold', problem: { width: 40 + good.problem.width, gap: 0, fold: 'across', pieces: [half] },
      lay: { length: 25 + by, placements: [{ piece: 0, mirrored: false, turn: 270, x: by, y: 40 }] },
    };
  },
];
