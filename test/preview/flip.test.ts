import { expect, it } from 'vitest';
import { flipped, flippedPath } from '../../server/src/preview/flip.ts';
import { Draft, shapes, wallet } from './specs.ts';

it('turns every x round, and an arc the other way', () => {
  expect(flippedPath('M3 1L4 -2l1.5 2C1 2 -3 4 0 6A5 4 0 0 1 7 8Z')).toBe('M-3 1L-4 -2l-1.5 2C-1 2 3 4 0 6A5 4 0 0 0 -7 8Z');
  expect(flippedPath('')).toBe('');
});

it('gives each piece again when it is turned over twice', () => {
  for (const text of [shapes, wallet]) {
    const { pieces } = new Draft().data(text);
    for (const { drawing } of pieces) {
      const numbers = (path: string): readonly number[] => (path.match(/-?[\d.]+/g) ?? []).map(Number);
      const twice = flipped(flipped(drawing));
      expect({ ...twice.box, x: 0 }).toEqual({ ...drawing.box, x: 0 });
      expect(twice.box.x).toBeCloseTo(drawing.box.x, 6);
      for (const [index, part] of drawing.parts.entries()) {
        expect(numbers(twice.parts[index]?.path ?? '')).toEqual(numbers(part.path));
        expect(twice.parts[index]?.signs?.map(({ x, y }) => [x + 0, y])).toEqual(part.signs?.map(({ x, y }) => [x + 0, y]));
      }
    }
  }
});
