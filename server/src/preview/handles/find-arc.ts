import { between, distance, minus, rightOf, times, unit } from '../../geometry/vector.ts';
import type { PathStep, Position } from '../../syntax/tree.ts';
import type { Finder } from './finder.ts';
import type { Handle } from './handle.ts';
import { bulgeOf } from './bulge.ts';

/** At the middle of an arc that says its radius: it bulges less the larger that is. */
export function ofRadius({ worth, number }: Finder, from: Position, step: PathStep, id: string, title: string): readonly Handle[] {
  if (step.kind !== 'arc step' || step.radius === undefined) return [];
  const { length, turn } = step.radius;
  const numbers = [from.x, from.y, step.to.x, step.to.y, length].map((formula) => worth(formula)?.amount);
  const [x1, y1, x2, y2, radius] = numbers;
  if (x1 === undefined || y1 === undefined || x2 === undefined || y2 === undefined || radius === undefined) return [];
  const [start, end] = [{ x: x1, y: y1 }, { x: x2, y: y2 }];
  const half = distance(start, end) / 2;
  if (half === 0 || radius < half) return [];
  const outwards = times(rightOf(unit(minus(end, start))), turn === 'left' ? 1 : -1);
  const runs = { kind: 'bulge', middle: between(start, end, 0.5), outwards, half } as const;
  return [{ id, title, at: bulgeOf(runs, radius), numbers: [number('radius', length, radius, runs, true)] }];
}
