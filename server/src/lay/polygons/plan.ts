import type { Lay, LayProblem, Placement, Progress } from '../problem.ts';
import { seededRandom } from '../random.ts';
import { Field } from './field.ts';
import { layFirst } from './first.ts';
import { toGrid } from './ring.ts';
import { wantedOf } from './shapes.ts';
import { compact, shorten } from './shorten.ts';
import { restore, snapshotOf } from './strip.ts';

/** Steps that take about one second on one core of a 2025 server processor, for typical problems (measured). */
export const stepsPerSecond = 16_000;

/** Pairs of items looked at that make one step. */
const workPerStep = 1000;

/** Share of the steps kept for pushing the last lay together, and the steps that it may take in any case. */
const compactingShare = 0.02;
const compactingSteps = 50;

/** Pieces (indexes) that fit the strip in no permitted way; `planPolygons` leaves them out of its lays. */
export function unplaceable(problem: LayProblem): number[] {
  return [...wantedOf(problem, 'coarse').unplaceable];
}

/**
 * Lays pieces of any outline on a strip, as short as it finds in `effort.steps` steps: a first lay at once, then ever
 * shorter strips, each cleared of overlap by guided local search. Every lay handed to `onBetter`, and the answer, is
 * free of overlap to a micrometre. The same problem, steps and seed give the same lay everywhere; true from `onBetter`
 * ends the search. Pieces that fit in no way are left out: see `unplaceable`.
 */
export function planPolygons(
  problem: LayProblem,
  effort: { readonly steps: number; readonly seed?: number },
  onBetter?: (progress: Progress) => boolean | void,
): Lay {
  const { steps } = effort;
  const field = new Field(wantedOf(problem, 'coarse'));
  if (field.count === 0) return { length: 0, placements: [] };
  let cancelled = false;
  let best = snapshotOf(field);
  let length = Infinity;
  const accept = (): void => {
    if (field.reach() >= length) return;
    best = snapshotOf(field);
    length = field.reach();
    const step = Math.min(steps, Math.floor(field.work / workPerStep));
    if (onBetter?.({ lay: layOf(field), step, steps }) === true) cancelled = true;
  };
  layFirst(field);
  accept();
  const budget = steps * (1 - compactingShare) * workPerStep;
  if (field.guided) {
    const spent = (): boolean => cancelled || field.work >= budget;
    shorten({ field, random: seededRandom(effort.seed ?? 1), budget, spent, accept });
    restore(field, best);
  }
  const last = Math.max(steps, compactingSteps) * workPerStep;
  compact(field, () => cancelled || field.work >= last);
  accept();
  restore(field, best);
  return layOf(field);
}

/** The field's state as a lay. Positions are rounded to the grid, a tenth of a micrometre. */
function layOf(field: Field): Lay {
  const { shapes, grid } = field.wanted;
  let length = 0;
  const placements = Array.from({ length: field.count }, (_, i): Placement => {
    const shape = shapes[field.shape[i]!]!;
    const x = toGrid(field.x[i]!, grid);
    length = Math.max(length, toGrid(x + shape.width, grid));
    return { piece: shape.piece, mirrored: shape.mirrored, turn: shape.turn, x: toGrid(x + shape.offsetX, grid), y: toGrid(field.y[i]! + shape.offsetY, grid) };
  });
  return { length, placements };
}
