import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { itemAt } from '../geometry/lists.ts';
import { bandsOf } from '../lay/bands.ts';
import { lowerBound } from '../lay/bounds/bound.ts';
import { boundsOfPoints } from '../geometry/measure.ts';
import { areaOf, boxAsLaid } from '../lay/bounds/outline.ts';
import { planPolygons, stepsPerSecond } from '../lay/polygons/plan.ts';
import type { Lay, LayProblem } from '../lay/problem.ts';
import { STEPS_PER_SECOND } from '../lay/rectangles/pack.ts';
import { improveRectangleLay } from '../lay/rectangles/plan.ts';

/** A lay and a length, in millimetres, that none can be under. */
export interface LaidOut {
  readonly lay: Lay;
  readonly bound: number;
  /** Whether all the effort was spent on it, or no lay can be shorter. */
  readonly finished: boolean;
}

/**
 * Lays by the content of their question: all that a search came to, each better than the one before, so that whoever has
 * enough earlier is given what the search itself would have given. A `Map` will do. One that says that the work is stopped
 * ends a search under way at once; it must then take nothing that it is given, since that is unfinished.
 */
export interface LayCache {
  get(key: string): readonly LaidOut[] | undefined;
  set(key: string, laid: readonly LaidOut[]): unknown;
  /** Lengths, in millimetres, that no lay of a question can be under, by its content; reckoned anew each time where there is no room for them. */
  readonly bounds?: { get(key: string): number | undefined; set(key: string, bound: number): unknown };
  readonly isStopped?: () => boolean;
}

/** Keeps all lays and bounds for as long as it is there. */
export class KeptLays extends Map<string, readonly LaidOut[]> implements LayCache {
  readonly bounds = new Map<string, number>();
}

/** A length, in millimetres, that no lay of a question can be under. */
export function boundOf(problem: LayProblem, cache?: LayCache): number {
  if (cache?.bounds === undefined) return lowerBound(problem).length;
  const key = contentKey(problem, 0);
  const kept = cache.bounds.get(key);
  if (kept !== undefined) return kept;
  const bound = lowerBound(problem).length;
  cache.bounds.set(key, bound);
  return bound;
}

/** A piece that fills at least this much of its box is laid as its box: rounded corners save no cloth (invented). */
const nearlyRectangle = 0.98;

/** Shares of the effort that polygons are planned with in turn, so that something better is there soon. */
const rungs = [1 / 16, 1 / 4, 1];

/** A question is asked for its bound, its lays and its seed; hashing it takes as long as a small first lay. */
const keys = new WeakMap<LayProblem, Map<number, string>>();

/** The question asked with so much effort, whatever the pieces are called. */
export function contentKey(problem: LayProblem, effort: number): string {
  const known = keys.get(problem) ?? new Map<number, string>();
  keys.set(problem, known);
  const kept = known.get(effort);
  if (kept !== undefined) return kept;
  const asked = { ...problem, effort, pieces: problem.pieces.map(({ outline, count, turns, anyTurn = false, onFold, single = false }) => ({ outline, count, turns, anyTurn, onFold, single })) };
  const key = bytesToHex(sha256(utf8ToBytes(JSON.stringify(asked))));
  known.set(effort, key);
  return key;
}

/**
 * Lays pieces out, by the search that suits them: yields a first lay at once, then every better one, and whenever
 * some time has gone by the best so far. `effort` is about seconds of work, counted in steps, so that the same question
 * has the same answer everywhere. All pieces must fit the width; `enough` ends the search early.
 */
export function* laying(problem: LayProblem, effort: number, cache?: LayCache, enough: (laid: LaidOut) => boolean = () => false): Generator<LaidOut, LaidOut> {
  const key = cache && contentKey(problem, effort);
  for (const laid of (key !== undefined && cache?.get(key)) || []) {
    yield laid;
    if (laid.finished || enough(laid)) return laid;
  }
  // Twice the effort starts with the same search; a first lay takes no chances.
  const seed = effort === 0 ? 0 : parseInt(contentKey(problem, 0).slice(0, 8), 16);
  const search = searchFor(problem, effort, seed, cache);
  const steps: LaidOut[] = [];
  for (;;) {
    const { done, value } = search.next();
    const last = steps.at(-1);
    if (last?.lay !== value.lay || last.bound !== value.bound || last.finished !== value.finished) steps.push(value);
    yield value;
    if (done !== true && !enough(value)) continue;
    if (key !== undefined) cache?.set(key, steps);
    return value;
  }
}

function searchFor(problem: LayProblem, effort: number, seed: number, cache: LayCache | undefined): Generator<LaidOut, LaidOut> {
  if (problem.doubleTo !== undefined) return banded(problem, effort, cache);
  // Outlines are laid on a fold along the cloth alone.
  const isOnlyBoxes = problem.fold === 'across' && problem.pieces.some((piece) => piece.onFold);
  return isOnlyBoxes || isBoxed(problem) ? boxes(problem, effort, seed, cache) : outlines(problem, effort, seed, cache);
}

/** Cloth that is folded in part: either band by itself, as long as the longer of them. */
function* banded(problem: LayProblem, effort: number, cache: LayCache | undefined): Generator<LaidOut, LaidOut> {
  const { gap } = problem;
  const bound = boundOf(problem, cache);
  // What is cut from the single layer keeps the gap from what is cut from both.
  const bands = bandsOf(problem).map((band) => (band.from === 0 || band.pieces.length === 0 ? band : { ...band, from: band.from + gap, problem: { ...band.problem, width: band.problem.width - gap } }));
  let laid = bands.map((band) => layOut(band.problem, 0, cache));
  const together = (finished: boolean): LaidOut => {
    const placements = bands.flatMap(({ pieces, from }, index) => itemAt(laid, index).lay.placements.map((one) => ({ ...one, piece: itemAt(pieces, one.piece), y: one.y + from })));
    const length = Math.max(...laid.map((one) => one.lay.length));
    return { lay: { length, placements }, bound: Math.min(bound, length), finished };
  };
  yield together(false);
  for (const index of effort > 0 ? [0, 1].sort((a, b) => itemAt(laid, b).lay.length - itemAt(laid, a).lay.length) : []) {
    for (const better of laying(itemAt(bands, index).problem, effort, cache)) {
      if (better.lay.length < itemAt(laid, index).lay.length) laid = laid.map((one, at) => (at === index ? better : one));
      yield together(false);
    }
  }
  return together(true);
}

/** Lays pieces out in one go. */
export function layOut(problem: LayProblem, effort: number, cache?: LayCache, enough?: (laid: LaidOut) => boolean): LaidOut {
  const search = laying(problem, effort, cache, enough);
  for (;;) {
    const { done, value } = search.next();
    if (done) return value;
  }
}

/** Whether every piece all but fills its box as it may be laid square. */
function isBoxed(problem: LayProblem): boolean {
  return problem.pieces.every(({ outline, turns }) => turns.some((turn) => {
    const box = boxAsLaid(outline, false, turn);
    return turn % 90 === 0 && areaOf(outline) >= nearlyRectangle * (box.maxX - box.minX) * (box.maxY - box.minY);
  }));
}

function* boxes(problem: LayProblem, effort: number, seed: number, cache: LayCache | undefined): Generator<LaidOut, LaidOut> {
  // The search’s bound is that of boxes; pieces with rounded corners might lie closer.
  const bound = boundOf(problem, cache);
  const search = improveRectangleLay(problem, { steps: Math.round(effort * STEPS_PER_SECOND), seed });
  const exact = problem.pieces.every((piece) => isExactBox(piece.outline));
  const laidOut = (lay: Lay, proved: number, finished: boolean): LaidOut => ({ lay, bound: Math.min(lay.length, exact ? Math.max(bound, proved) : bound), finished });
  for (;;) {
    const { done, value } = search.next();
    if (!done) yield laidOut(value.lay, value.bound, false);
    else if (value.kind === 'laid') return laidOut(value.lay, value.bound, true);
    else return yield* outlines(problem, effort, seed, cache);
  }
}

const isExactBox = (outline: LayProblem['pieces'][number]['outline']): boolean => {
  const box = boundsOfPoints(outline);
  return Math.abs(areaOf(outline) - (box.maxX - box.minX) * (box.maxY - box.minY)) <= 1e-3;
};

function* outlines(problem: LayProblem, effort: number, seed: number, cache: LayCache | undefined): Generator<LaidOut, LaidOut> {
  const bound = boundOf(problem, cache);
  const boxed = layBoxes(problem);
  let lay = boxed !== undefined && isShortest(boxed, bound) ? boxed : shorter(planPolygons(problem, { steps: 0, seed }), boxed);
  const laidOut = (finished: boolean): LaidOut => ({ lay, bound: Math.min(bound, lay.length), finished });
  yield laidOut(false);
  for (const share of effort > 0 ? rungs : []) {
    if (isShortest(lay, bound)) break;
    lay = shorter(lay, planPolygons(problem, { steps: Math.round(effort * share * stepsPerSecond), seed, isStopped: cache?.isStopped }));
    yield laidOut(false);
  }
  return laidOut(true);
}

/** Whether none can be shorter than a lay; bounds are lowered by a little, against what rounding may have added to them. */
const isShortest = (lay: Lay, bound: number): boolean => lay.length <= bound * (1 + 1e-8);

/** A first lay by the boxes of the pieces, which costs next to nothing; undefined where boxes don't fit. */
export function layBoxes(problem: LayProblem): Lay | undefined {
  const { value } = improveRectangleLay(problem, { steps: 0 }).next();
  return 'kind' in value ? (value.kind === 'laid' ? value.lay : undefined) : value.lay;
}

/** The shorter of two lays; one that leaves a piece out is no answer to the other. */
function shorter(one: Lay, other: Lay | undefined): Lay {
  if (other === undefined || other.placements.length < one.placements.length) return one;
  return other.length < one.length || other.placements.length > one.placements.length ? other : one;
}
