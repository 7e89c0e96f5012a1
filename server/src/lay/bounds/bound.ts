import type { LayPiece, LayProblem, LowerBound } from '../problem.ts';
import { bandsOf } from '../bands.ts';
import { barsFrom, bestDualBound, dualFunctions, isSameBars, mostGain } from './dual.ts';
import type { BarPiece, Bars } from './dual.ts';
import { discIn, leastBreadth } from './any-turn.ts';
import { sides } from '../../geometry/lists.ts';
import { boundsOfPoints } from '../../geometry/measure.ts';
import { areaOf, barsOf, isRectangle, laidBoxes, turned } from './outline.ts';
import { rectangleBound } from './rectangles.ts';

/** Bounds are reckoned in whole micrometres. */
const PER_MM = 1000;
/** What counts as a whole micrometre, against the noise of turning and scaling. */
const NOISE = 1e-6;
/** Parts a slab between two corners is cut into; more parts understate a slanting edge less. */
const PARTS = 8;
/** Functions tried on the bars. */
const MOST_FUNCTIONS = 100;
/** What all rounding in millimetres together may come to, as a share of the bound: bounds are lowered by it. */
const SAFETY = 1e-9;

/**
 * A length, in millimetres, that no lay of the problem can be under: the best of
 * - the area of all pieces, each with the gap around it, over the width;
 * - the longest piece in its shortest permitted turn;
 * - the edges on a fold along the cloth, end to end;
 * - bars: what pieces take of lines across the cloth, valued by dual feasible functions; and
 * - for rectangles laid square without a gap, slices both ways at once.
 * A piece that may lie in any turn counts with what it takes in all of them: its area, its least breadth and a disc in it.
 * Cloth that is folded in part is as long as the longer of its two bands.
 * Pieces too wide for the cloth in every turn still count, so the bound then says nothing useful.
 */
export function lowerBound(problem: LayProblem): LowerBound {
  const known = knownBounds.get(problem) ?? reckoned(problem);
  knownBounds.set(problem, known);
  return known;
}

/** A question is asked for its bound where it is chosen, where it is laid, and by the search itself. */
const knownBounds = new WeakMap<LayProblem, LowerBound>();

function reckoned(problem: LayProblem): LowerBound {
  if (problem.doubleTo !== undefined) return bandsOf(problem).map((band) => lowerBound(band.problem)).reduce((a, b) => (b.length > a.length ? b : a));
  const pieces = problem.pieces.filter(({ count }) => count.asDrawn + count.mirrored + count.either > 0);
  if (pieces.length === 0) return { length: 0, reason: 'area' };
  const longer = (a: LowerBound, b: LowerBound): LowerBound => (b.length > a.length ? b : a);
  const quick = [areaBound(problem, pieces), longestPiece(pieces), foldBound(problem, pieces)].reduce(longer);
  const best = fitsInOneRow(problem, pieces, quick.length) ? quick : [barBound(problem, pieces, quick.length), squareBound(problem, pieces)].reduce(longer, quick);
  return { length: Math.max(0, best.length) * (1 - SAFETY), reason: best.reason };
}

/**
 * Grown by half the gap all round, pieces still do not overlap, on a strip grown by as much on every
 * side. A grown piece has area + perimeter · r + π r² when convex (Steiner), and in any case at least
 * (√area + √π · r)² (Brunn and Minkowski).
 */
function areaBound(problem: LayProblem, pieces: readonly LayPiece[]): LowerBound {
  const r = problem.gap / 2;
  const sum = pieces.reduce((total, piece) => {
    const area = areaOf(piece.outline);
    const grown = isRectangle(piece.outline)
      ? area + perimeter(piece) * r + Math.PI * r * r
      : (Math.sqrt(area) + Math.sqrt(Math.PI) * r) ** 2;
    return total + howMany(piece) * grown;
  }, 0);
  return { length: sum / (problem.width + problem.gap) - problem.gap, reason: 'area' };
}

function perimeter(piece: LayPiece): number {
  const box = boundsOfPoints(piece.outline);
  return 2 * (box.maxX - box.minX + box.maxY - box.minY);
}

function howMany({ count }: LayPiece): number {
  return count.asDrawn + count.mirrored + count.either;
}

function longestPiece(pieces: readonly LayPiece[]): LowerBound {
  const lengths = pieces.flatMap((piece) =>
    piece.anyTurn ? [leastBreadth(piece.outline)] : laidBoxes(piece).map(({ boxes }) =>
      Math.min(
        ...boxes.map((box) => box.maxX - box.minX),
      ),
    ),
  );
  return { length: Math.max(...lengths), reason: 'widest piece' };
}

/** Whether all pieces lie side by side, none longer than a length: then bars and slices, which know of no fold, prove no more. */
function fitsInOneRow({ width, gap }: LayProblem, pieces: readonly LayPiece[], length: number): boolean {
  let room = width + gap;
  for (const piece of pieces) {
    for (const { count, boxes } of laidBoxes(piece)) {
      room -= count * (gap + Math.min(...boxes.map((box) => (box.maxX - box.minX <= length ? box.maxY - box.minY : Infinity))));
    }
  }
  return room >= 0;
}

/** Edges on the fold lie on one line, a gap apart. */
function foldBound(problem: LayProblem, pieces: readonly LayPiece[]): LowerBound {
  const folded = problem.fold === 'across' ? [] : pieces.filter((piece) => piece.onFold);
  const count = folded.reduce((sum, piece) => sum + howMany(piece), 0);
  const edges = folded.reduce((sum, piece) => sum + howMany(piece) * foldEdge(piece), 0);
  return { length: edges + Math.max(0, count - 1) * problem.gap, reason: 'bars' };
}

function foldEdge({ outline }: LayPiece): number {
  return sides(outline).reduce((sum, [a, b]) => (a.y === 0 && b.y === 0 ? sum + Math.abs(a.x - b.x) : sum), 0);
}

/**
 * A line across the cloth meets pieces a gap apart, so their widths on it, each with one gap, add up to
 * at most the cloth's width and one gap. Widths are rounded down to whole micrometres and the cloth up,
 * which keeps the bound valid because the functions never fall.
 *
 * @param known what is known already, millimetres: where no function can prove more, it is given back
 */
function barBound(problem: LayProblem, pieces: readonly LayPiece[], known: number): LowerBound {
  if (mostGain * barArea(problem, pieces) * (1 + NOISE) <= known * problem.width) return { length: known, reason: 'bars' };
  const gap = Math.floor(problem.gap * PER_MM + NOISE);
  const capacity = Math.ceil(problem.width * PER_MM - NOISE) + gap;
  const barred: BarPiece[] = pieces.flatMap((piece) =>
    (piece.anyTurn ? [{ count: howMany(piece), ways: [discBars(piece.outline)] }] : barredWays(piece))
      .map(({ count, ways }) => ({ count, ways: ways.map((bars) => withGap(bars, gap, capacity)) })));
  const widths = new Set<number>();
  for (const { ways } of barred) for (const bars of ways) for (const across of bars.across) widths.add(across);
  const length = bestDualBound(dualFunctions(capacity, widths, MOST_FUNCTIONS), barred, Math.floor(known * PER_MM) + 1) - 1;
  return { length: length / PER_MM, reason: pieces.every((piece) => isRectangle(piece.outline)) ? 'dual feasible' : 'bars' };
}

/** No less than the area of all bars, a gap added to each: square millimetres. */
function barArea({ gap }: LayProblem, pieces: readonly LayPiece[]): number {
  return pieces.reduce((sum, piece) => sum + howMany(piece) * (areaOf(piece.outline) + gap * perimeter(piece)), 0);
}

/** What bars take with a gap each, and no more than there is. */
function withGap(bars: Bars, gap: number, capacity: number): Bars {
  if (gap === 0 && bars.widest <= capacity) return bars;
  const taken = (across: number): number => Math.max(0, Math.min(capacity, across + gap));
  return { across: bars.across.map(taken), along: bars.along, widest: bars.across.length === 0 ? 0 : taken(bars.widest) };
}

/** The same pieces are asked about on open and on folded cloth, and however many of them lie on the fold. */
const knownBars = new WeakMap<LayPiece['outline'], Map<string, Bars>>();

/** Bars in whole micrometres across; the very same where turning or mirroring makes no difference to them. */
function keptBars(outline: LayPiece['outline'], way: string, outlineOf: () => LayPiece['outline']): Bars {
  const known = knownBars.get(outline) ?? new Map<string, Bars>();
  knownBars.set(outline, known);
  const kept = known.get(way);
  if (kept !== undefined) return kept;
  // What takes as much of several lines is one bar: most pieces widen and narrow alike.
  const alongBy = new Map<number, number>();
  for (const { across, along } of barsOf(outlineOf(), PARTS)) {
    const whole = Math.max(0, Math.floor(across * PER_MM + NOISE));
    alongBy.set(whole, (alongBy.get(whole) ?? 0) + along * PER_MM);
  }
  const bars = barsFrom([...alongBy].map(([across, along]) => ({ across, along })));
  const found = [...known.values()].find((other) => isSameBars(other, bars)) ?? bars;
  known.set(way, found);
  return found;
}

const discBars = (outline: LayPiece['outline']): Bars => keptBars(outline, 'disc', () => discIn(outline));

/** How many pieces of each permitted way of mirroring there are, with the bars that each may be laid as, of the turns tried. */
function barredWays({ outline, turns, count: { asDrawn, mirrored, either } }: LayPiece): readonly { readonly count: number; readonly ways: readonly Bars[] }[] {
  const barsIn = (isMirrored: boolean): readonly Bars[] => turns.map((turn) => keptBars(outline, `${isMirrored} ${turn}`, () => turned(outline, isMirrored, turn)));
  return [
    ...(asDrawn > 0 ? [{ count: asDrawn, ways: distinct(barsIn(false)) }] : []),
    ...(mirrored > 0 ? [{ count: mirrored, ways: distinct(barsIn(true)) }] : []),
    ...(either > 0 ? [{ count: either, ways: distinct([...barsIn(false), ...barsIn(true)]) }] : []),
  ];
}

const distinct = <One>(all: readonly One[]): readonly One[] => [...new Set(all)];

/** Rectangles in quarter turns without a gap are a packing of whole rectangles. */
function squareBound(problem: LayProblem, pieces: readonly LayPiece[]): LowerBound {
  const square = pieces.every(
    (piece) => !piece.anyTurn && isRectangle(piece.outline) && piece.turns.every((turn) => turn % 90 === 0),
  );
  if (!square || problem.gap > 0) return { length: 0, reason: 'dual feasible' };
  const bound = rectangleBound({
    width: Math.ceil(problem.width * PER_MM - NOISE),
    items: pieces.map((piece) => {
      const box = boundsOfPoints(piece.outline);
      const w = Math.floor((box.maxY - box.minY) * PER_MM + NOISE);
      const h = Math.floor((box.maxX - box.minX) * PER_MM + NOISE);
      const upright = piece.turns.some((turn) => turn % 180 === 0);
      const quarter = piece.turns.some((turn) => turn % 180 !== 0);
      return { w: upright ? w : h, h: upright ? h : w, count: howMany(piece), turnable: upright && quarter };
    }),
  });
  return { length: bound.length / PER_MM, reason: bound.reason };
}
