import type { Lay, LayProblem, Placement, Progress } from '../problem.ts';
import { seededRandom, type Random } from '../random.ts';
import { Field } from './field.ts';
import { layFirst } from './first.ts';
import type { Search } from './move.ts';
import { roomX, roomY } from './move.ts';
import { toGrid } from './ring.ts';
import { restore, separate, snapshotOf, type Snapshot } from './separate.ts';
import { wantedOf } from './shapes.ts';

/** Pieces (indexes) that fit the strip in no permitted way; `planPolygons` leaves them out of its lays. */
export function unplaceable(problem: LayProblem): number[] {
  return [...wantedOf(problem).unplaceable];
}

/** Work counted by the field that makes one step. */
const workPerStep = 1000;

const search: Search = { anywhere: 24, nearby: 12, refined: 2, rounds: 6 };

export function planPolygons(problem: LayProblem, effort: { steps: number; seed?: number }, onBetter?: (progress: Progress) => boolean | void): Lay {
  const wanted = wantedOf(problem);
  const field = new Field(wanted);
  const random = seededRandom(effort.seed ?? 1);
  if (field.count === 0) return { length: 0, placements: [] };
  layFirst(field);
  const steps = effort.steps;
  let cancelled = false;
  const spent = (): boolean => cancelled || field.work >= steps * workPerStep;
  let best = snapshotOf(field);
  let length = field.reach();
  const report = (): void => {
    if (onBetter?.({ lay: layOf(field), step: Math.min(steps, Math.floor(field.work / workPerStep)), steps }) === true) cancelled = true;
  };
  report();
  const exploring = 0.8 * steps * workPerStep;
  const begun = field.work;
  let stuck: Snapshot[] = [];
  while (!spent()) {
    const explore = field.work < exploring;
    const done = Math.min(1, (field.work - exploring) / (steps * workPerStep - exploring));
    const shrink = explore ? 0.01 : 0.002 * (1 - done) + 0.00005;
    const target = length * (1 - shrink);
    if (!explore) restore(field, best);
    squeeze(field, target);
    field.weight.fill(1);
    const outcome = separate(field, target, search, explore ? { sweeps: 100, strikes: 3 } : { sweeps: 50, strikes: 2 }, random, spent);
    if (outcome.free) {
      best = snapshotOf(field);
      length = field.reach();
      stuck = [];
      report();
    } else if (explore) {
      stuck.push(outcome.best);
      restore(field, stuck[Math.floor(random() * stuck.length)]!);
      swapTwo(field, target, random);
    }
  }
  void begun;
  restore(field, best);
  return layOf(field);
}

function squeeze(field: Field, length: number): void {
  for (let i = 0; i < field.count; i++) {
    const most = roomX(field, field.shape[i]!, length);
    if (field.x[i]! > most) field.put(i, field.shape[i]!, most, field.y[i]!);
  }
}

function swapTwo(field: Field, length: number, random: Random): void {
  const bySize = Array.from({ length: field.count }, (_, i) => i).sort((a, b) => field.wanted.shapes[field.shape[b]!]!.area - field.wanted.shapes[field.shape[a]!]!.area || a - b);
  const large = bySize.slice(0, Math.max(2, Math.ceil(field.count / 2)));
  const a = large[Math.floor(random() * large.length)]!;
  const others = large.filter((b) => field.wanted.items[b] !== field.wanted.items[a]);
  if (others.length === 0) return;
  const b = others[Math.floor(random() * others.length)]!;
  const [ax, ay, bx, by] = [field.x[a]!, field.y[a]!, field.x[b]!, field.y[b]!];
  field.put(a, field.shape[a]!, Math.min(bx, roomX(field, field.shape[a]!, length)), Math.min(by, roomY(field, field.shape[a]!)));
  field.put(b, field.shape[b]!, Math.min(ax, roomX(field, field.shape[b]!, length)), Math.min(ay, roomY(field, field.shape[b]!)));
}

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
