import type { Lay, LayProblem, Placement, Progress } from '../problem.ts';
import { seededRandom } from '../random.ts';
import { Field } from './field.ts';
import { layFirst, type Put } from './first.ts';
import { backTo, markOf, pairsOf, type Mark, type Pairs } from './pairs.ts';
import { toGrid } from './ring.ts';
import { taskOf, type Shape, type Task } from './shapes.ts';
import { compact, shorten } from './shorten.ts';
import { restore, snapshotOf } from './strip.ts';

/** Steps that take about one second on one core of a 2025 server processor, for typical problems (measured). */
export const stepsPerSecond = 16_000;

/** Pairs of items looked at that make one step. */
const workPerStep = 1000;

/** Share of the steps kept for pushing the last lay together, and the steps that it may take in any case. */
const compactingShare = 0.02;
const compactingSteps = 50;
/** Steps on top, as a share, for pushing together with the outlines as given where simpler ones stood in for them. */
const exactShare = 0.05;

/** What every search for the same lay begins with: its first lay, and the pairs of shapes that met in it. */
interface Start {
  readonly coarse: Task;
  readonly puts: readonly Put[];
  readonly pairs: Pairs;
  readonly mark: Mark;
  readonly work: number;
  /** The same pieces with the outlines as given, once they have been asked for. */
  exact: Task | undefined;
}

/** The same question is searched again and again, with ever more effort. Only the last one is kept, since a start is large. */
let latest: { readonly problem: LayProblem; readonly start: Start } | undefined;

function startOf(problem: LayProblem): Start {
  if (latest?.problem === problem && backTo(latest.start.pairs, latest.start.mark)) return latest.start;
  const before = latest?.start.pairs;
  latest = undefined;
  const coarse = taskOf(problem, 'coarse');
  const field = new Field(coarse, true, pairsOf(coarse, before));
  const puts = layFirst(field);
  const start: Start = { coarse, puts, pairs: field.pairs, mark: markOf(field.pairs), work: field.work, exact: undefined };
  latest = { problem, start };
  return start;
}

/** Lets go of what the last search began with: tens of megabytes where there are many pieces. The same search begins anew then. */
export function forgetStart(): void {
  latest = undefined;
}

/** A field just as the first lay left it, so that how much is searched doesn't depend on what was searched before. */
function begun({ coarse, puts, pairs, work }: Start): Field {
  const field = new Field(coarse, true, pairs);
  for (const { item, shape, x, y } of puts) field.put(item, shape, x, y);
  field.work = work;
  return field;
}

/** Pieces (indexes) that fit the strip in no permitted way; `planPolygons` leaves them out of its lays. */
export function unplaceable(problem: LayProblem): number[] {
  return [...taskOf(problem, 'coarse').unplaceable];
}

/**
 * Lays pieces of any outline on a strip, as short as it finds in `effort.steps` steps: a first lay at once, then ever
 * shorter strips, each cleared of overlap by guided local search. Every lay handed to `onBetter`, and the answer, is
 * free of overlap to a micrometre. The same problem, steps and seed give the same lay everywhere; true from `onBetter`
 * or, asked often, from `isStopped` ends the search early. Pieces that fit in no way are left out: see `unplaceable`.
 */
export function planPolygons(
  problem: LayProblem,
  effort: { readonly steps: number; readonly seed?: number; readonly isStopped?: (() => boolean) | undefined },
  onBetter?: (progress: Progress) => boolean | void,
): Lay {
  const { steps, isStopped = () => false } = effort;
  const start = startOf(problem);
  const field = begun(start);
  if (field.count === 0) return { length: 0, placements: [] };
  let cancelled = false;
  let best = snapshotOf(field);
  let length = Infinity;
  const accept = (): void => {
    const lay = layOf(field);
    if (lay.length >= length) return;
    best = snapshotOf(field);
    length = lay.length;
    const step = Math.min(steps, Math.floor(field.work / workPerStep));
    if (onBetter?.({ lay, step, steps }) === true) cancelled = true;
  };
  accept();
  const budget = steps * (1 - compactingShare) * workPerStep;
  if (field.guided) {
    const spent = (): boolean => cancelled || field.work >= budget || isStopped();
    shorten({ field, random: seededRandom(effort.seed ?? 1), budget, spent, accept });
    restore(field, best);
  }
  const last = Math.max(steps, compactingSteps) * workPerStep;
  compact(field, () => cancelled || field.work >= last);
  accept();
  restore(field, best);
  const exact = exactField(problem, start, field);
  if (!exact) return layOf(field);
  exact.work = field.work;
  compact(exact, () => cancelled || exact.work >= last + exactShare * steps * workPerStep);
  return layOf(exact);
}

/** The same lay with the outlines as given, where some were simplified; undefined when none was. */
function exactField(problem: LayProblem, start: Start, coarse: Field): Field | undefined {
  if (!coarse.task.shapes.some((shape) => shape.simplified)) return undefined;
  const exact = new Field((start.exact ??= taskOf(problem, 'exact')), false);
  const keyOf = (shape: Shape): string => `${shape.piece} ${shape.mirrored} ${shape.turn}`;
  const at = new Map(exact.task.shapes.map((shape, index) => [keyOf(shape), index]));
  for (let item = 0; item < coarse.count; item++) {
    const place = coarse.placeOf(item);
    const from = coarse.kind(place.shape);
    const index = at.get(keyOf(from));
    const to = index === undefined ? undefined : exact.task.shapes[index];
    if (index === undefined || to === undefined) return undefined;
    exact.put(item, index, place.x + from.offsetX - to.offsetX, place.y + from.offsetY - to.offsetY);
  }
  return exact;
}

/** The field's state as a lay. Positions are rounded to the grid, a tenth of a micrometre. */
function layOf(field: Field): Lay {
  const { grid } = field.task;
  let length = 0;
  const placements = Array.from({ length: field.count }, (_, i): Placement => {
    const place = field.placeOf(i);
    const shape = field.kind(place.shape);
    const x = toGrid(place.x, grid);
    length = Math.max(length, toGrid(x + shape.reach, grid));
    return { piece: shape.piece, mirrored: shape.mirrored, turn: shape.turn, x: toGrid(x + shape.offsetX, grid), y: toGrid(place.y + shape.offsetY, grid) };
  });
  return { length, placements };
}
