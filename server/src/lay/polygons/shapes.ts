import type { LayPiece, LayProblem } from '../problem.ts';
import { convexParts } from './convex.ts';
import { facetsOf, type Facets } from './facets.ts';
import { boxOf, cleanRing, doubleArea, pointsOf, ringOf, turnedRing, type Ring } from './ring.ts';
import { simplified } from './simplify.ts';

/** One way one kind of piece may lie, moved so that its box starts at the origin. Millimetres. */
export interface Shape {
  readonly piece: number;
  readonly mirrored: boolean;
  readonly turn: number;
  /** What to add to a placement of this shape's box corner to get the `Placement` translation. */
  readonly offsetX: number;
  readonly offsetY: number;
  readonly width: number;
  readonly height: number;
  /** How far the outline as given reaches along the strip from the box corner; less than `width` when simplified. */
  readonly reach: number;
  readonly area: number;
  /** The sides of each of the convex parts that cover it, and of each part reflected in the origin, ready for Minkowski sums; box corner at the origin. */
  readonly facets: () => readonly Facets[];
  readonly mirrorFacets: () => readonly Facets[];
  /** The same text for shapes with the same points in the same places. */
  readonly key: () => string;
  /** Whether the outline was simplified. */
  readonly simplified: boolean;
  /** Whether the shape must lie on the fold: its box corner stays on y = 0. */
  readonly onFold: boolean;
}

/** Everything to be placed: the distinct shapes, and for each placement the shapes it may take. */
export interface Task {
  /** Strip width, millimetres. */
  readonly width: number;
  /** Least gap between pieces, millimetres. */
  readonly gap: number;
  /** Coordinates are whole multiples of this, millimetres. */
  readonly grid: number;
  readonly shapes: readonly Shape[];
  /** Per placement, indexes into `shapes`; never empty. */
  readonly items: readonly Int32Array[];
  /** Indexes of pieces that fit the strip in no permitted way, or have no outline to place. */
  readonly unplaceable: readonly number[];
}

/** `exact` keeps outlines as they are; `coarse` covers outlines of many corners with simpler ones, for speed. */
export type Detail = 'exact' | 'coarse';

/** Outlines of more corners than this are simplified when coarse … */
const coarseCorners = 14;
/** … as long as they grow by no more than this share of the square root of their area. */
const coarseGrowth = 0.02;

/** Turns a problem into shapes and items. */
export function taskOf(problem: LayProblem, detail: Detail): Task {
  const grid = gridOf(problem.width);
  const shapes: Shape[] = [];
  const items: Int32Array[] = [];
  const unplaceable: number[] = [];
  problem.pieces.forEach((piece, index) => {
    const { asDrawn, mirrored, either } = piece.count;
    if (asDrawn + mirrored + either <= 0) return;
    const drawn = asDrawn + either > 0 ? shapesOf(problem, piece, index, false, grid, detail) : [];
    const flipped = mirrored + either > 0 ? shapesOf(problem, piece, index, true, grid, detail) : [];
    const first = shapes.length;
    const kept = distinctShapes([...drawn, ...flipped], either > 0 && asDrawn === 0 && mirrored === 0);
    shapes.push(...kept);
    const indexes = (hand: (shape: Shape) => boolean): Int32Array => Int32Array.from(kept.flatMap((shape, i) => (hand(shape) ? [first + i] : [])));
    const ways: [number, Int32Array][] = [
      [asDrawn, indexes((shape) => !shape.mirrored)],
      [mirrored, indexes((shape) => shape.mirrored)],
      [either, indexes(() => true)],
    ];
    if (ways.some(([count, way]) => count > 0 && way.length === 0)) unplaceable.push(index);
    for (const [count, way] of ways) if (way.length > 0) for (let i = 0; i < count; i++) items.push(way);
  });
  return { width: problem.width, gap: Math.max(0, problem.gap), grid, shapes, items, unplaceable };
}

/** A tenth of a micrometre; finer for strips narrower than 10 mm, so that tiny problems keep their detail. */
function gridOf(width: number): number {
  let grid = 1e-4;
  for (let reach = 10; reach > width && grid > 1e-9; reach /= 10) grid /= 10;
  return grid;
}

/** The permitted turns of one hand of a piece that fit the strip (and, on the fold, keep the fold edge on y = 0). */
function shapesOf(problem: LayProblem, piece: LayPiece, index: number, mirrored: boolean, grid: number, detail: Detail): Shape[] {
  if (piece.outline.length < 3 || !piece.outline.every((point) => Number.isFinite(point.x) && Number.isFinite(point.y))) return [];
  const { exact, coarse, coarseParts } = cutRing(piece, grid, detail);
  if (exact.length < 6) return [];
  return piece.turns.flatMap((turn) => {
    const shape = turnedShape(problem, piece, index, mirrored, turn, grid, exact, coarse, coarseParts);
    if (shape || coarse === exact) return shape ? [shape] : [];
    const tight = turnedShape(problem, piece, index, mirrored, turn, grid, exact, exact, convexParts(exact)); // just too wide when coarse
    return tight ? [tight] : [];
  });
}

/** An outline on the grid, and, where it is simplified, what covers it; with the convex parts of that. */
interface CutRing {
  readonly exact: Ring;
  readonly coarse: Ring;
  readonly coarseParts: readonly Ring[];
}

/** An outline is asked about in each hand, in each manner of laying, and in each sharing between the fold and both layers. */
const cutRings = new WeakMap<LayPiece['outline'], Map<string, CutRing>>();

function cutRing({ outline, onFold }: LayPiece, grid: number, detail: Detail): CutRing {
  const isCoarse = detail === 'coarse' && !onFold;
  const known = cutRings.get(outline) ?? new Map<string, CutRing>();
  cutRings.set(outline, known);
  const key = `${grid} ${isCoarse}`;
  const kept = known.get(key);
  if (kept !== undefined) return kept;
  const exact = cleanRing(ringOf(outline, grid));
  const coarse = isCoarse && exact.length >= 6 ? simplified(exact, coarseCorners, coarseGrowth * Math.sqrt(doubleArea(exact) / 2)) : exact;
  const cut = { exact, coarse, coarseParts: exact.length < 6 ? [] : convexParts(coarse) };
  known.set(key, cut);
  return cut;
}

/** A cut ring as it lies mirrored and turned, or undefined when it fits the strip in no such way. */
function turnedShape(
  problem: LayProblem, piece: LayPiece, index: number, mirrored: boolean, turn: number, grid: number,
  exact: Ring, ring: Ring, cut: readonly Ring[],
): Shape | undefined {
  const { box: [left, right, low, high], area, facets, mirrorFacets, key } = lyingRing(ring, cut, mirrored, turn, grid);
  if (high - low > problem.width + grid) return undefined;
  if (piece.onFold && (Math.abs(low) > grid || !keepsFold(piece, turn, mirrored))) return undefined;
  return {
    piece: index, mirrored, turn, offsetX: -left, offsetY: piece.onFold ? 0 : -low,
    width: right - left, height: high - low, reach: (ring === exact ? right : boxOf(turnedRing(exact, mirrored, turn, grid))[1]) - left,
    area, onFold: piece.onFold, simplified: ring !== exact, facets, mirrorFacets, key,
  };
}

/** What doesn't depend on the strip of a ring as it lies; its parts are moved to its box corner. */
interface LyingRing extends Pick<Shape, 'area' | 'facets' | 'mirrorFacets' | 'key'> {
  readonly box: readonly [number, number, number, number];
}

/** A ring is asked about in each manner of laying; most ways of it are tried in none, so that what takes time waits. */
const lyingRings = new WeakMap<Ring, Map<string, LyingRing>>();

function lyingRing(ring: Ring, cut: readonly Ring[], mirrored: boolean, turn: number, grid: number): LyingRing {
  const known = lyingRings.get(ring) ?? new Map<string, LyingRing>();
  lyingRings.set(ring, known);
  const way = `${mirrored} ${turn}`;
  const kept = known.get(way);
  if (kept !== undefined) return kept;
  const turned = turnedRing(ring, mirrored, turn, grid);
  const box = boxOf(turned);
  const parts = once(() => cut.map((part) => turnedRing(part, mirrored, turn, grid).map((value, at) => value - box[at % 2 === 0 ? 0 : 2])));
  const lying = {
    box, area: doubleArea(turned) / 2,
    facets: once(() => parts().map((part) => facetsOf(part, 1))),
    mirrorFacets: once(() => parts().map((part) => facetsOf(part, -1))),
    key: once(() => keyOf(parts())),
  };
  known.set(way, lying);
  return lying;
}

function once<Result>(compute: () => Result): () => Result {
  let kept: { readonly result: Result } | undefined;
  return () => (kept ??= { result: compute() }).result;
}

/** A half on the fold may lie only so that its fold edge, on its own y = 0, stays there: no turn, or half a turn of its mirror image. */
function keepsFold(piece: LayPiece, turn: number, mirrored: boolean): boolean {
  const turnedBy = ((turn % 360) + 360) % 360;
  const below = piece.outline.some((point) => point.y < 0);
  return (turnedBy === 0 && !(mirrored && !below)) || (turnedBy === 180 && !(!mirrored && !below));
}

/** Drops shapes that look the same as an earlier one; across hands only when either hand will do. */
function distinctShapes(shapes: readonly Shape[], acrossHands: boolean): Shape[] {
  const seen = new Set<string>();
  return shapes.filter((shape) => {
    const key = (acrossHands ? '' : String(shape.mirrored)) + shape.key();
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Finer than any grid, so that only the noise of doubles is left out. */
const perMillimetre = 1e9;

function keyOf(parts: readonly Ring[]): string {
  const points = parts.map((part) => pointsOf(part).map(([x, y]) => `${Math.round(x * perMillimetre)},${Math.round(y * perMillimetre)}`).sort().join(' '));
  return points.sort().join('|');
}
