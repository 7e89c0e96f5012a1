import { expect, it } from 'vitest';
import { catchPoints, caught, distanceWords, pointWords, stepOf } from '../../client/preview/measuring.ts';
import { Draft } from './specs.ts';

it('measures between two points, across and up', () => {
  // The sides of a right triangle are as 3 to 4 to 5 (Euclid, Elements I.47).
  expect(distanceWords({ x: 25.4, y: 0 }, { x: 25.4 * 5, y: 25.4 * 3 }, 'in')).toBe('5 in apart: 4 in across, 3 in up');
  expect(distanceWords({ x: 0, y: 40 }, { x: -30, y: 0 }, 'cm')).toBe('5 cm apart: 3 cm across, 4 cm down');
});

it('tells points as finely as a ruler is read', () => {
  expect(pointWords({ x: 25.4 * 1.3, y: -25.4 / 16 }, 'in')).toBe('x 1 5/16 in, y -1/16 in');
  expect(pointWords({ x: 12.34, y: 100 }, 'cm')).toBe('x 1.2 cm, y 10 cm');
  expect(pointWords({ x: 12.34, y: 100 }, 'mm')).toBe('x 12 mm, y 100 mm');
  expect([stepOf('in'), stepOf('cm')]).toEqual([25.4 / 16, 1]);
});

it('takes hold of corners, ends of lines and marks that are near enough, and of the nearest', () => {
  const { pieces } = new Draft().data('pattern "Held"\nunit cm\nallowance none\nmaterial felt "Felt" {\n  width 90\n}\npiece a "A" {\n  outline rectangle 10 by 8\n  line crease = from 1, 2 to 9, 2\n  mark knob at 5, 5\n  cut 1 felt\n}\n');
  const points = pieces[0] === undefined ? [] : catchPoints(pieces[0].drawing);
  for (const [x, y] of [[0, 0], [100, 0], [100, 80], [0, 80], [10, 20], [90, 20], [50, 50]] as const) expect(points, `${x}, ${y}`).toContainEqual({ x, y });
  expect(caught({ x: 52, y: 49 }, points, 3)).toEqual({ x: 50, y: 50 });
  expect(caught({ x: 54, y: 50 }, points, 3)).toEqual({ x: 54, y: 50 });
  expect(caught({ x: 1, y: 1 }, [{ x: 3, y: 3 }, { x: 0, y: 0 }], 5)).toEqual({ x: 0, y: 0 });
});
