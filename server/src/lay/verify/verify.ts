import type { Lay, LayPiece, LayProblem, Placement } from '../problem.ts';
import { borderDistance, commonPart, crossesItself, ringArea, ringBox, thickness, trianglesOf, type Ring } from './plane.ts';

/** Something that makes a lay wrong. Placement numbers are indexes into `Lay.placements`; lengths in millimetres. */
export type Fault =
  /** Two placements cover the same cloth, a common part this thick at its thickest triangle, with this much area (mm²). */
  | { readonly kind: 'overlap'; readonly placements: readonly [number, number]; readonly by: number; readonly area: number }
  /** Two placements stand closer than the least gap, by this much. */
  | { readonly kind: 'gap too small'; readonly placements: readonly [number, number]; readonly by: number }
  /** A placement leaves the cloth, by this much. */
  | { readonly kind: 'outside'; readonly placement: number; readonly border: 'start' | 'end' | 'lower edge' | 'upper edge'; readonly by: number }
  | { readonly kind: 'wrong turn'; readonly placement: number; readonly turn: number }
  /** More or fewer placements of a piece in one hand than can be right. */
  | { readonly kind: 'wrong count'; readonly piece: number; readonly hand: 'as drawn' | 'mirrored' | 'in all'; readonly requested: number; readonly placed: number }
  /** A half that must lie on the fold does not. */
  | { readonly kind: 'not on the fold'; readonly placement: number; readonly by: number }
  /** The lay says one length and its pieces reach another. */
  | { readonly kind: 'wrong length'; readonly stated: number; readonly reached: number }
  /** A placement that names no piece, or holds a number that is none. */
  | { readonly kind: 'unreadable placement'; readonly placement: number }
  /** An outline that crosses itself or has no area cannot be checked, so the lay is not accepted. */
  | { readonly kind: 'unreadable outline'; readonly piece: number };

/** A micrometre: thread is hundreds of times thicker (invented; far above rounding, far below anything cut by hand). */
const defaultTolerance = 0.001;

/**
 * Every fault of a lay, none when it is right. Shares no code with the planners. Pieces are cut into triangles and
 * every triangle of one is clipped by every triangle of the other: they overlap when a common part is thicker than
 * `toleranceMm`, or when the common area is more than a strip that thick along the shorter border could hold.
 * Touching is right. All lengths are held to `toleranceMm`.
 */
export function verifyLay(problem: LayProblem, lay: Lay, toleranceMm: number = defaultTolerance): readonly Fault[] {
  const readable = lay.placements.map((placement) => isReadable(problem, placement));
  const bad = readable.flatMap((good, placement): Fault[] => (good ? [] : [{ kind: 'unreadable placement', placement }]));
  if (bad.length > 0) return bad;
  const outlines = problem.pieces.map(outlineRing);
  const rings = lay.placements.map((placement) => onCloth(outlines[placement.piece]!, placement));
  return [
    ...countFaults(problem, lay),
    ...lay.placements.flatMap((placement, index) => turnFaults(problem.pieces[placement.piece]!, placement, index)),
    ...lay.placements.flatMap((placement, index) => foldFaults(problem.pieces[placement.piece]!, placement, index, toleranceMm)),
    ...rings.flatMap((ring, index) => borderFaults(problem, lay, ring, index, toleranceMm)),
    ...lengthFaults(lay, rings, toleranceMm),
    ...pairFaults(problem, lay, outlines, rings, toleranceMm),
  ];
}

function isReadable(problem: LayProblem, placement: Placement): boolean {
  return problem.pieces[placement.piece] !== undefined && [placement.x, placement.y, placement.turn].every(Number.isFinite);
}

/** A ring of a piece's own frame as it lies on the cloth, counter-clockwise. */
function onCloth(ring: Ring, placement: Placement): Ring {
  const [cos, sin] = quarterExact(placement.turn);
  const placed: number[] = [];
  for (let k = 0; k < ring.length; k += 2) {
    const at = placement.mirrored ? ring.length - 2 - k : k; // a mirror image is walked backwards to stay counter-clockwise
    const x = ring[at]!;
    const y = placement.mirrored ? -ring[at + 1]! : ring[at + 1]!;
    placed.push(placement.x + x * cos - y * sin, placement.y + x * sin + y * cos);
  }
  return placed;
}

/** A piece's outline in its own frame, counter-clockwise. */
function outlineRing(piece: LayPiece): Ring {
  const ring = piece.outline.flatMap((point) => [point.x, point.y]);
  return ringArea(ring) >= 0 ? ring : [...piece.outline].reverse().flatMap((point) => [point.x, point.y]);
}

/** Cosine and sine, with quarter turns exact: sin(π) in floating point is not 0. */
function quarterExact(turn: number): [number, number] {
  const quarters = turn / 90;
  if (Number.isInteger(quarters)) {
    const table: [number, number][] = [[1, 0], [0, 1], [-1, 0], [0, -1]];
    return table[((quarters % 4) + 4) % 4]!;
  }
  const angle = (turn / 180) * Math.PI;
  return [Math.cos(angle), Math.sin(angle)];
}

function countFaults(problem: LayProblem, lay: Lay): Fault[] {
  return problem.pieces.flatMap((piece, index): Fault[] => {
    const { asDrawn, mirrored, either } = piece.count;
    const mine = lay.placements.filter((placement) => placement.piece === index);
    const flipped = mine.filter((placement) => placement.mirrored).length;
    const straight = mine.length - flipped;
    const faults: Fault[] = [];
    if (mine.length !== asDrawn + mirrored + either) faults.push({ kind: 'wrong count', piece: index, hand: 'in all', requested: asDrawn + mirrored + either, placed: mine.length });
    if (straight < asDrawn || straight > asDrawn + either) faults.push({ kind: 'wrong count', piece: index, hand: 'as drawn', requested: asDrawn, placed: straight });
    if (flipped < mirrored || flipped > mirrored + either) faults.push({ kind: 'wrong count', piece: index, hand: 'mirrored', requested: mirrored, placed: flipped });
    return faults;
  });
}

function turnFaults(piece: LayPiece, placement: Placement, index: number): Fault[] {
  const permitted = piece.turns.some((turn) => (turn - placement.turn) % 360 === 0);
  return permitted ? [] : [{ kind: 'wrong turn', placement: index, turn: placement.turn }];
}

/** A half on the fold must have the points of its own fold edge (y = 0 in its own frame) on the cloth's y = 0. */
function foldFaults(piece: LayPiece, placement: Placement, index: number, tolerance: number): Fault[] {
  if (!piece.onFold) return [];
  const edge = piece.outline.filter((point) => Math.abs(point.y) <= tolerance);
  if (edge.length < 2) return [{ kind: 'not on the fold', placement: index, by: Infinity }];
  const [cos, sin] = quarterExact(placement.turn);
  const by = Math.max(...edge.map((point) => Math.abs(placement.y + point.x * sin + (placement.mirrored ? -point.y : point.y) * cos)));
  return by <= tolerance ? [] : [{ kind: 'not on the fold', placement: index, by }];
}

function borderFaults(problem: LayProblem, lay: Lay, ring: Ring, placement: number, tolerance: number): Fault[] {
  const [left, low, right, high] = ringBox(ring);
  const beyond = [
    ['start', -left],
    ['lower edge', -low],
    ['end', right - lay.length],
    ['upper edge', high - problem.width],
  ] as const;
  return beyond.flatMap(([border, by]): Fault[] => (by > tolerance ? [{ kind: 'outside', placement, border, by }] : []));
}

function lengthFaults(lay: Lay, rings: readonly Ring[], tolerance: number): Fault[] {
  const reached = rings.reduce((most, ring) => Math.max(most, ringBox(ring)[2]), 0);
  return Math.abs(lay.length - reached) <= tolerance ? [] : [{ kind: 'wrong length', stated: lay.length, reached }];
}

/** Overlaps and gaps, pair by pair; pairs far apart are passed over by sweeping along the strip. */
function pairFaults(problem: LayProblem, lay: Lay, outlines: readonly Ring[], rings: readonly Ring[], tolerance: number): Fault[] {
  const gap = Math.max(0, problem.gap);
  const boxes = rings.map(ringBox);
  const fuzz = Math.min(1e-6, tolerance / 1000);
  const used = new Set(lay.placements.map((placement) => placement.piece));
  const cuts = outlines.map((ring, piece) => (used.has(piece) && ringArea(ring) > 0 && !crossesItself(ring) ? trianglesOf(ring, fuzz) : undefined));
  const unreadable = [...used].filter((piece) => !cuts[piece]);
  if (unreadable.length > 0) return unreadable.map((piece): Fault => ({ kind: 'unreadable outline', piece }));
  const cut = lay.placements.map((placement) => cuts[placement.piece]!.map((triangle): Boxed => {
    const ring = onCloth(triangle, placement);
    return { ring, box: ringBox(ring) };
  }));
  const rims = rings.map(rimOf);
  const order = rings.map((_, index) => index).sort((a, b) => boxes[a]![0] - boxes[b]![0] || a - b);
  const faults: Fault[] = [];
  order.forEach((one, at) => {
    for (let k = at + 1; k < order.length; k++) {
      const two = order[k]!;
      const [a, b] = [boxes[one]!, boxes[two]!];
      if (b[0] >= a[2] + gap) break;
      if (b[1] >= a[3] + gap || a[1] >= b[3] + gap) continue;
      const placements: readonly [number, number] = one < two ? [one, two] : [two, one];
      const overlap = overlapOf(cut[one]!, cut[two]!);
      const shorter = Math.min(rims[one]!, rims[two]!);
      if (overlap.thickest > tolerance || overlap.area > tolerance * shorter) {
        faults.push({ kind: 'overlap', placements, by: overlap.thickest, area: overlap.area });
      } else if (gap > 0) {
        const by = gap - borderDistance(rings[one]!, rings[two]!, gap);
        if (by > tolerance) faults.push({ kind: 'gap too small', placements, by });
      }
    }
  });
  return faults;
}

/** The length of a ring's border, millimetres. */
function rimOf(ring: Ring): number {
  let sum = 0;
  for (let i = 0; i < ring.length; i += 2) sum += Math.sqrt((ring[(i + 2) % ring.length]! - ring[i]!) ** 2 + (ring[(i + 3) % ring.length]! - ring[i + 1]!) ** 2);
  return sum;
}

interface Boxed {
  readonly ring: Ring;
  readonly box: readonly [number, number, number, number];
}

/** What two pieces, cut into triangles, have in common: its greatest thickness (millimetres) and its area (mm²). */
function overlapOf(one: readonly Boxed[], two: readonly Boxed[]): { thickest: number; area: number } {
  let thickest = 0;
  let area = 0;
  for (const { ring: a, box } of one) {
    for (const { ring: b, box: other } of two) {
      if (other[0] >= box[2] || other[2] <= box[0] || other[1] >= box[3] || other[3] <= box[1]) continue;
      const common = commonPart(a, b);
      if (common.length < 6) continue;
      area += ringArea(common);
      thickest = Math.max(thickest, thickness(common));
    }
  }
  return { thickest, area };
}
