import type { Lay, LayPiece, LayProblem, Placement } from '../problem.ts';
import { borderDistance, commonPart, crossesItself, ringArea, ringBox, sidesOf, thickness, trianglesOf, type Ring } from './plane.ts';

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
  /** On cloth folded in part, a piece for two layers reaches on to the single one, or the other way round. */
  | { readonly kind: 'in the wrong layers'; readonly placement: number; readonly by: number }
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
  const read = lay.placements.map((placement, index) => laidOf(problem, placement, index));
  const bad = read.flatMap((laid, placement): Fault[] => (laid === undefined ? [{ kind: 'unreadable placement', placement }] : []));
  if (bad.length > 0) return bad;
  const laid = read.filter((one) => one !== undefined);
  return [
    ...countFaults(problem, lay),
    ...laid.flatMap(turnFaults),
    ...laid.flatMap((one) => foldFaults(problem, one, toleranceMm)),
    ...laid.flatMap((one) => layerFaults(problem, one, toleranceMm)),
    ...laid.flatMap((one) => borderFaults(problem, lay, one, toleranceMm)),
    ...lengthFaults(lay, laid, toleranceMm),
    ...pairFaults(problem, laid, toleranceMm),
  ];
}

/** A placement with its piece, and the ring it takes on the cloth. */
interface Laid {
  readonly index: number;
  readonly placement: Placement;
  readonly piece: LayPiece;
  readonly ring: Ring;
}

/** Undefined for a placement that names no piece, or holds a number that is none. */
function laidOf(problem: LayProblem, placement: Placement, index: number): Laid | undefined {
  const piece = problem.pieces[placement.piece];
  if (piece === undefined || ![placement.x, placement.y, placement.turn].every(Number.isFinite)) return undefined;
  return { index, placement, piece, ring: onCloth(outlineRing(piece), placement) };
}

/** A ring of a piece's own frame as it lies on the cloth, counter-clockwise. */
function onCloth(ring: Ring, placement: Placement): Ring {
  const [cos, sin] = quarterExact(placement.turn);
  const walk = placement.mirrored ? [...ring].reverse() : ring; // a mirror image is walked backwards to stay counter-clockwise
  return walk.map((point) => {
    const y = placement.mirrored ? -point.y : point.y;
    return { x: placement.x + point.x * cos - y * sin, y: placement.y + point.x * sin + y * cos };
  });
}

/** A piece's outline in its own frame, counter-clockwise. */
function outlineRing({ outline }: LayPiece): Ring {
  return ringArea(outline) >= 0 ? outline : [...outline].reverse();
}

const quarterTurns = [[1, 0], [0, 1], [-1, 0], [0, -1]] as const;

/** Cosine and sine, with quarter turns exact: sin(π) in floating point is not 0. */
function quarterExact(turn: number): readonly [number, number] {
  const quarters = turn / 90;
  const exact = Number.isInteger(quarters) ? quarterTurns.at(quarters % 4) : undefined;
  if (exact !== undefined) return exact;
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

function turnFaults({ piece, placement, index }: Laid): Fault[] {
  const permitted = piece.turns.some((turn) => (turn - placement.turn) % 360 === 0);
  return permitted ? [] : [{ kind: 'wrong turn', placement: index, turn: placement.turn }];
}

/** A half on the fold must have the points of its own fold edge (y = 0 in its own frame) on the cloth's fold, at y = 0 or x = 0. */
function foldFaults({ fold }: LayProblem, { piece, placement, index }: Laid, tolerance: number): Fault[] {
  if (!piece.onFold) return [];
  const edge = piece.outline.filter((point) => Math.abs(point.y) <= tolerance);
  if (edge.length < 2) return [{ kind: 'not on the fold', placement: index, by: Infinity }];
  const [cos, sin] = quarterExact(placement.turn);
  const off = edge.map(({ x, y }) => ({ x, y: placement.mirrored ? -y : y })).map(({ x, y }) => (fold === 'across' ? placement.x + x * cos - y * sin : placement.y + x * sin + y * cos));
  const by = Math.max(...off.map(Math.abs));
  return by <= tolerance ? [] : [{ kind: 'not on the fold', placement: index, by }];
}

/** No piece may lie on both the double and the single part of cloth that is folded in part, nor on the wrong one. */
function layerFaults({ doubleTo }: LayProblem, { piece, ring, index }: Laid, tolerance: number): Fault[] {
  const [, low, , high] = ringBox(ring);
  const by = doubleTo === undefined ? 0 : piece.single === true ? doubleTo - low : high - doubleTo;
  return by > tolerance ? [{ kind: 'in the wrong layers', placement: index, by }] : [];
}

function borderFaults(problem: LayProblem, lay: Lay, { ring, index }: Laid, tolerance: number): Fault[] {
  const [left, low, right, high] = ringBox(ring);
  const beyond = [
    ['start', -left],
    ['lower edge', -low],
    ['end', right - lay.length],
    ['upper edge', high - problem.width],
  ] as const;
  return beyond.flatMap(([border, by]): Fault[] => (by > tolerance ? [{ kind: 'outside', placement: index, border, by }] : []));
}

function lengthFaults(lay: Lay, laid: readonly Laid[], tolerance: number): Fault[] {
  const reached = laid.reduce((most, { ring }) => Math.max(most, ringBox(ring)[2]), 0);
  return Math.abs(lay.length - reached) <= tolerance ? [] : [{ kind: 'wrong length', stated: lay.length, reached }];
}

/** Overlaps and gaps, pair by pair; pairs far apart are passed over by sweeping along the strip. */
function pairFaults(problem: LayProblem, laid: readonly Laid[], tolerance: number): Fault[] {
  const gap = Math.max(0, problem.gap);
  const fuzz = Math.min(1e-6, tolerance / 1000);
  const cuts = new Map<number, readonly Ring[] | undefined>();
  for (const { placement, piece } of laid) if (!cuts.has(placement.piece)) cuts.set(placement.piece, cutUp(outlineRing(piece), fuzz));
  const unreadable = [...cuts].flatMap(([piece, triangles]): Fault[] => (triangles === undefined ? [{ kind: 'unreadable outline', piece }] : []));
  if (unreadable.length > 0) return unreadable;
  const order = laid
    .map(({ index, placement, ring }) => ({
      index, ring, box: ringBox(ring), rim: rimOf(ring),
      triangles: (cuts.get(placement.piece) ?? []).map((triangle) => boxed(onCloth(triangle, placement))),
    }))
    .sort((a, b) => a.box[0] - b.box[0] || a.index - b.index);
  const faults: Fault[] = [];
  order.forEach((one, at) => {
    for (const two of order.slice(at + 1)) {
      const [a, b] = [one.box, two.box];
      if (b[0] >= a[2] + gap) break;
      if (b[1] >= a[3] + gap || a[1] >= b[3] + gap) continue;
      const placements: readonly [number, number] = one.index < two.index ? [one.index, two.index] : [two.index, one.index];
      const overlap = overlapOf(one.triangles, two.triangles);
      const shorter = Math.min(one.rim, two.rim);
      if (overlap.thickest > tolerance || overlap.area > tolerance * shorter) {
        faults.push({ kind: 'overlap', placements, by: overlap.thickest, area: overlap.area });
      } else if (gap > 0) {
        const by = gap - borderDistance(one.ring, two.ring, gap);
        if (by > tolerance) faults.push({ kind: 'gap too small', placements, by });
      }
    }
  });
  return faults;
}

/** A ring as triangles; undefined where it crosses itself or has no area. */
function cutUp(ring: Ring, fuzz: number): readonly Ring[] | undefined {
  return ringArea(ring) > 0 && !crossesItself(ring) ? trianglesOf(ring, fuzz) : undefined;
}

/** The length of a ring's border, millimetres. */
function rimOf(ring: Ring): number {
  return sidesOf(ring).reduce((sum, [a, b]) => sum + Math.sqrt((b.x - a.x) ** 2 + (b.y - a.y) ** 2), 0);
}

interface Boxed {
  readonly ring: Ring;
  readonly box: readonly [number, number, number, number];
}

const boxed = (ring: Ring): Boxed => ({ ring, box: ringBox(ring) });

/** What two pieces, cut into triangles, have in common: its greatest thickness (millimetres) and its area (mm²). */
function overlapOf(one: readonly Boxed[], two: readonly Boxed[]): { thickest: number; area: number } {
  let thickest = 0;
  let area = 0;
  for (const { ring: a, box } of one) {
    for (const { ring: b, box: other } of two) {
      if (other[0] >= box[2] || other[2] <= box[0] || other[1] >= box[3] || other[3] <= box[1]) continue;
      const common = commonPart(a, b);
      if (common.length < 3) continue;
      area += ringArea(common);
      thickest = Math.max(thickest, thickness(common));
    }
  }
  return { thickest, area };
}
