import { edgeLength, pointAlong } from '../../geometry/measure.ts';
import { nearestAlong } from '../../geometry/nearest.ts';
import type { Edge, Point } from '../../geometry/shape.ts';
import { dot, minus, times } from '../../geometry/vector.ts';
import type { Place } from '../../problems/place.ts';
import { showLength, type Display } from '../../units/length.ts';
import { measured } from '../../units/rational.ts';
import { bulgeOf, radiusAt } from './bulge.ts';
import type { Handle, HandleNumber } from './handle.ts';
import { plainUnit, setBy, stepped, steppedShare, writtenLength, writtenShare } from './plain.ts';

/** What moving a handle comes to. */
export interface Move {
  /** What is written otherwise then, in the order of the text; nothing where each number stays. */
  readonly changes: readonly Change[];
  /** Where the handle is then: the nearest place that can be written. */
  readonly at: Point;
  /** `x 3 1/2 in, y 2 in`, with what stays as it is and why. */
  readonly says: string;
}

/** Another text in the place of a number. */
export interface Change {
  readonly place: Place;
  readonly before: string;
  readonly text: string;
}

/** Why nothing of a handle can be moved; undefined where something can. */
export function whyFixed({ numbers, fixed }: Handle): string | undefined {
  if (fixed !== undefined) return fixed;
  if (numbers.some(({ formula }) => plainUnit(formula) !== undefined)) return undefined;
  return numbers.map((one) => (numbers.length === 1 ? '' : `${one.says} `) + setBy(one.declaration, one.formula)).join('; ');
}

/** Moves a handle towards a point as far as plain numbers of the text can, to the step that the file is in. */
export function moveHandle(handle: Handle, to: Point, display: Display): Move {
  const changes: Change[] = [];
  const words: string[] = [];
  let { at } = handle;
  for (const number of handle.numbers) {
    const moved = plainUnit(number.formula) === undefined ? undefined : movedNumber(number, handle.at, to, display);
    if (moved === undefined) words.push(`${number.says} ${setBy(number.declaration, number.formula)}`);
    else {
      words.push(`${number.says} ${moved.shown}`);
      at = { x: at.x + moved.by.x, y: at.y + moved.by.y };
      if (moved.change !== undefined) changes.push(moved.change);
    }
  }
  return { changes: [...changes].sort((a, b) => a.place.start - b.place.start), at, says: handle.fixed ?? words.join(', ') };
}

interface Moved {
  /** Undefined where the number stays. */
  readonly change: Change | undefined;
  readonly by: Point;
  readonly shown: string;
}

function movedNumber(number: HandleNumber, at: Point, to: Point, display: Display): Moved {
  const { runs, now, formula, declaration } = number;
  const wish = wished(number, at, to);
  const isShare = runs.kind === 'along' && runs.isShare;
  const least = isShare ? 0.01 : display.step.valueOf();
  const show = (amount: number): string => (isShare ? writtenShare(steppedShare(measured(amount))) : showLength(measured(amount), display));
  // What was hardly moved stays as it is written, finer than a step as it may be.
  if (Math.abs(wish - now) < least / 2) return { change: undefined, by: { x: 0, y: 0 }, shown: show(now) };
  const before = declaration.text.slice(formula.start, formula.end);
  const value = isShare ? steppedShare(measured(wish)) : stepped(withinReach(number, measured(wish), display), display, number.isSize);
  const text = isShare ? writtenShare(value) : writtenLength(value, display, plainUnit(formula) !== '');
  return {
    change: text === before ? undefined : { place: { chunk: declaration, start: formula.start, end: formula.end }, before, text },
    by: movedBy(number, value.valueOf()),
    shown: show(value.valueOf()),
  };
}

/** What a number would be, were it any number. */
function wished(number: HandleNumber, at: Point, to: Point): number {
  const { runs, now } = number;
  switch (runs.kind) {
    case 'straight':
      return now + dot(minus(to, at), runs.goes) / dot(runs.goes, runs.goes);
    case 'along':
      return alongEdge(number, to);
    case 'bulge':
      // Where the handle is, the radius is as it is written.
      return to.x === at.x && to.y === at.y ? now : radiusAt(runs, to);
  }
}

/** How far along its edge, as the text counts, a point lies nearest. */
function alongEdge({ runs }: HandleNumber, to: Point): number {
  if (runs.kind !== 'along') return 0;
  const length = edgeLength(runs.edge);
  const fromStart = nearestAlong(runs.edge, to);
  const counted = (runs.edge.measuredFrom === 'end') !== (runs.from === 'end') ? length - fromStart : fromStart;
  return runs.isShare ? counted / length : counted;
}

/** No step beyond the end of an edge, and no radius that doesn't reach from one end of its arc to the other. */
function withinReach({ runs }: HandleNumber, wish: ReturnType<typeof measured>, { step }: Display): ReturnType<typeof measured> {
  if (runs.kind === 'bulge') {
    const least = measured(runs.half).div(step).ceil().mul(step);
    return wish.compare(least) < 0 ? least : wish;
  }
  if (runs.kind !== 'along') return wish;
  const last = measured(edgeLength(runs.edge)).div(step).floor().mul(step);
  return wish.compare(last) > 0 ? last : wish;
}

function movedBy({ runs, now }: HandleNumber, value: number): Point {
  if (runs.kind === 'straight') return times(runs.goes, value - now);
  if (runs.kind === 'bulge') return minus(bulgeOf(runs, value), bulgeOf(runs, now));
  const [before, after] = [pointOn(runs.edge, runs, now), pointOn(runs.edge, runs, value)];
  return before === undefined || after === undefined ? { x: 0, y: 0 } : minus(after, before);
}

function pointOn(edge: Edge, { from, isShare }: { readonly from: 'start' | 'end'; readonly isShare: boolean }, value: number): Point | undefined {
  const length = edgeLength(edge);
  const along = isShare ? value * length : value;
  return pointAlong(edge, from === 'end' ? length - along : along)?.point;
}
