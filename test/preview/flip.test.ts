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

it('has what is on the right side behind, unless something is laid there on the wrong side', () => {
  const text = 'pattern "Sides"\nunit cm\nuse "studio/materials.piece"\npiece flap "Flap" {\n  outline rectangle 20 by 16\n  line core = inset 1\n  line badge = rectangle 4 by 3 at 2, 11\n  line seam_at = level at 4\n  placement tab_at = rectangle 3 by 3 at 9, 2\n  foldline half = level at 8\n  mark eye at 4, 4\n  drill hole at 6, 4\n  notch top at 50%\n  cut 1 canvas\n  cut 1 stay along core on wrong side\n  cut 1 felt along badge on right side\n}\n';
  const [piece] = new Draft().data(text).pieces;
  if (piece === undefined) throw new Error('not drawn');
  expect(flipped(piece.drawing, piece.layers).parts.filter(({ behind }) => behind === true).map(({ name }) => name).sort()).toEqual(['badge', 'eye', 'tab_at']);
});
