import type { Lay, LayPiece, LayPoint, LayProblem, Placement, Progress } from '../problem.ts';
import { lowerBound } from '../bounds/bound.ts';
import { itemAt } from '../../geometry/lists.ts';
import { boxAsLaid } from '../bounds/outline.ts';
import { packRectangles } from './pack.ts';
import type { RectangleEffort, RectangleItem, RectanglePacking, RectangleProgress, Step } from './types.ts';

/** A lay of rectangles, with a length none can be under; or which pieces (indices) cannot be laid, and why. */
export type RectangleLay =
  | { readonly kind: 'laid'; readonly lay: Lay; readonly bound: number }
  | { readonly kind: 'cannot be laid'; readonly pieces: readonly number[]; readonly reason: 'too wide' | 'not on the fold' };

/** Packing is done in whole micrometres. */
const PER_MM = 1000;
/** What counts as a whole micrometre, against the noise of turning and scaling. */
const NOISE = 1e-6;

/** A piece in one state of mirroring, with the turns it may be laid in and the box it fills in each. */
interface Ware {
  readonly piece: number;
  readonly outline: readonly LayPoint[];
  readonly onFold: boolean;
  readonly mirrored: boolean;
  readonly count: number;
  /** Across the cloth and along it, micrometres, gap included, in the first turn. */
  readonly w: number;
  readonly h: number;
  readonly turn: number;
  /** The turn in which width and length change places, where one is permitted. */
  readonly quarter: number | undefined;
}

/**
 * Lays pieces by their bounding boxes: right for rectangles, safe for anything. Pieces keep the gap
 * between boxes. Pieces on the fold lie along it in a row from the start of the cloth, widest first, so
 * that they leave no holes, or side by side across the cloth; everything else is packed after and beside them.
 *
 * @param onBetter called with every better lay; `true` stops the search
 */
export function planRectangleLay(
  problem: LayProblem,
  effort: RectangleEffort,
  onBetter?: (progress: Progress) => boolean | void,
): RectangleLay {
  const search = improveRectangleLay(problem, effort);
  for (let seen: Lay | undefined; ; ) {
    const { done, value } = search.next();
    if (done) return value;
    if (value.lay === seen) continue;
    seen = value.lay;
    if (onBetter?.(value) === true) return { kind: 'laid', lay: value.lay, bound: value.bound };
  }
}

/**
 * The same step by step, for a caller that wants to do other things in between: yields at once a first
 * lay, then progress about every hundredth of a second, always with the best lay so far (the same object until a better one).
 */
export function* improveRectangleLay(
  problem: LayProblem,
  effort: RectangleEffort,
): Generator<Progress & { readonly bound: number }, RectangleLay> {
  const gap = Math.ceil(problem.gap * PER_MM - NOISE);
  const width = Math.floor(problem.width * PER_MM + NOISE) + gap;
  const sorted = problem.pieces.map((piece, index) => waresOf(piece, index, gap, problem.fold === 'across'));
  const offFold = sorted.flatMap((wares, piece) => (wares === undefined ? [piece] : []));
  if (offFold.length > 0) return { kind: 'cannot be laid', pieces: offFold, reason: 'not on the fold' };
  const wares = sorted.flatMap((some) => some ?? []);
  const tooWide = wares.filter(({ w, h, quarter }) => w > width && (quarter === undefined || h > width));
  if (tooWide.length > 0) {
    return { kind: 'cannot be laid', pieces: [...new Set(tooWide.map((ware) => ware.piece))], reason: 'too wide' };
  }
  const folded = wares
    .filter((ware) => ware.onFold)
    .sort((a, b) => b.w - a.w || b.h - a.h || a.piece - b.piece);
  const free = wares.filter((ware) => !ware.onFold);

  const onFold = problem.fold === 'across' ? acrossTheCloth(folded, width) : alongTheCloth(folded, width);
  if (onFold === undefined) return { kind: 'cannot be laid', pieces: [...new Set(folded.map((ware) => ware.piece))], reason: 'not on the fold' };
  const items: RectangleItem[] = free.map(({ w, h, count, quarter }) => ({ w, h, count, turnable: quarter !== undefined }));
  const search = packRectangles({ width, items, floor: onFold.floor }, effort);

  const toMm = (length: number): number => Math.max(0, length - gap) / PER_MM;
  const toLay = (packing: RectanglePacking): Lay => ({
    length: toMm(packing.length),
    placements: [
      ...onFold.placements,
      ...packing.placements.map(({ item, x, y, turned: quarter }) => {
        const ware = itemAt(free, item);
        return placed(ware, (quarter ? ware.quarter : undefined) ?? ware.turn, x, y);
      }),
    ],
  });

  // The packing's own bound is that of lays laid square, with folded pieces in a row and gaps between boxes; others might be shorter.
  const special = folded.length > 0 || gap > 0 || problem.pieces.some((piece) => piece.anyTurn);
  let general: number | undefined;
  let packing: RectanglePacking | undefined;
  let lay: Lay = { length: 0, placements: [] };
  for (;;) {
    const { done, value } = search.next();
    if (done && value.kind === 'too wide') throw new Error('a piece that fits the cloth was found too wide');
    const now = value as RectangleProgress;
    if (now.packing !== packing) {
      packing = now.packing;
      lay = toLay(packing);
    }
    const bound = special ? (general ?? 0) : toMm(now.bound);
    if (done) return { kind: 'laid', lay, bound };
    yield { lay, bound, step: now.step, steps: now.steps };
    if (special) general ??= lowerBound(problem).length;
  }
}

/** The piece drawn and mirrored; nothing when it cannot lie on the fold. */
function waresOf(piece: LayPiece, index: number, gap: number, isAcross: boolean): readonly Ware[] | undefined {
  const { asDrawn, mirrored, either } = piece.count;
  const wares: Ware[] = [];
  for (const { flipped, count } of [
    { flipped: false, count: asDrawn + either },
    { flipped: true, count: mirrored },
  ]) {
    if (count <= 0) continue;
    const turns = squareFirst(piece.turns)
      .map((turn) => ({ turn, box: boxAsLaid(piece.outline, flipped, turn) }))
      .filter(({ turn, box }) => !piece.onFold || (isAcross ? turn % 180 !== 0 && box.minX >= -NOISE : turn % 180 === 0 && box.minY >= -NOISE))
      .map(({ turn, box }) => ({
        turn,
        w: Math.ceil((box.maxY - box.minY) * PER_MM - NOISE) + gap,
        h: Math.ceil((box.maxX - box.minX) * PER_MM - NOISE) + gap,
      }));
    const [first] = turns;
    if (first === undefined) return undefined;
    const quarter = turns.find(({ w, h }) => w === first.h && h === first.w && w !== h)?.turn;
    wares.push({ piece: index, outline: piece.outline, onFold: piece.onFold, mirrored: flipped, count, ...first, quarter });
  }
  return wares;
}

/** Quarter turns before any others: boxes fit rectangles best in them. */
function squareFirst(turns: readonly number[]): readonly number[] {
  return [...turns.filter((turn) => turn % 90 === 0), ...turns.filter((turn) => turn % 90 !== 0)];
}

/** Every piece on the fold with its place along it, micrometres. */
function rowOnFold(folded: readonly Ware[]): readonly { ware: Ware; y: number }[] {
  let y = 0;
  return folded.flatMap((ware) =>
    Array.from({ length: ware.count }, () => {
      const at = y;
      y += ware.h;
      return { ware, y: at };
    }),
  );
}

/** What lies on the fold, and the skyline that everything else is packed on. */
interface OnFold {
  readonly placements: readonly Placement[];
  readonly floor: readonly Step[];
}

function alongTheCloth(folded: readonly Ware[], width: number): OnFold {
  const row = rowOnFold(folded);
  return { placements: row.map(({ ware, y }) => placed(ware, ware.turn, 0, y, true)), floor: floorOver(row, width) };
}

/** Side by side on a fold across the cloth; undefined where the cloth is too narrow for that. */
function acrossTheCloth(folded: readonly Ware[], width: number): OnFold | undefined {
  const placements: Placement[] = [];
  const floor: Step[] = [];
  let across = 0;
  for (const ware of folded) {
    for (let left = ware.count; left > 0; left--) {
      placements.push(placed(ware, ware.turn, across, 0));
      floor.push({ x: across, y: ware.h });
      across += ware.w;
    }
  }
  if (across > width) return undefined;
  return { placements, floor: across < width ? [...floor, { x: across, y: 0 }] : floor };
}

/** The skyline over a row on the fold, widest first: it falls away from the fold. */
function floorOver(row: readonly { ware: Ware; y: number }[], width: number): readonly Step[] {
  const steps: Step[] = [];
  let x = 0;
  for (const { ware, y } of [...row].reverse()) {
    if (ware.w > x) steps.push({ x, y: y + ware.h });
    x = Math.max(x, ware.w);
  }
  if (x < width) steps.push({ x, y: 0 });
  return steps;
}

function placed(ware: Ware, turn: number, across: number, along: number, isInRow = false): Placement {
  const box = boxAsLaid(ware.outline, ware.mirrored, turn);
  const y = isInRow ? 0 : across / PER_MM - box.minY;
  return { piece: ware.piece, mirrored: ware.mirrored, turn, x: along / PER_MM - box.minX, y };
}
