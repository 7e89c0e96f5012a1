import fc from 'fast-check';
import { expect, it } from 'vitest';
import { namesOutside, type OutsideForm, type Patch } from '../../client/preview/outside-names.ts';

const within: Patch = { x: 0, y: 0, width: 400, height: 300 };
const alone: OutsideForm = { details: '', isStacked: true, width: 60, height: 14 };
const behind: OutsideForm = { details: 'finished 3 cm', isStacked: false, width: 150, height: 14 };
const below: OutsideForm = { ...behind, isStacked: true, width: 90, height: 28 };
const named = (piece: Patch): Parameters<typeof namesOutside>[0][number] => ({ name: 'tab', piece, beside: [behind, below, alone], led: [alone] });

it('stand right beside their piece, with its size where that has room too', () => {
  const piece = { x: 100, y: 100, width: 30, height: 20 };
  expect(namesOutside([named(piece)], [piece], within).get('tab')).toEqual({ at: { x: 133, y: 103, width: 150, height: 14 }, form: behind, leader: undefined });
  const narrow = { x: 95, y: 95, width: 110, height: 30 };
  expect(namesOutside([named(piece)], [piece], narrow).get('tab')).toMatchObject({ at: { x: 133 }, form: alone });
});

it('have the size below them where it has no room behind, and nothing is written of a name that has room inside but with its size', () => {
  const piece = { x: 100, y: 100, width: 30, height: 20 };
  const narrow = { x: 95, y: 90, width: 130, height: 45 };
  expect(namesOutside([named(piece)], [piece], narrow).get('tab')).toMatchObject({ at: { x: 133, y: 96, width: 90, height: 28 }, form: below });
  const inside = { ...named(piece), beside: [behind, below], led: [] };
  expect(namesOutside([inside], [piece], narrow).get('tab')?.form).toEqual(below);
  const low = { x: 95, y: 95, width: 130, height: 27 };
  expect([named(piece), inside].map((one) => namesOutside([one], [piece], low).get('tab')?.form)).toEqual([alone, undefined]);
});

it('are led to from afar where all is taken around, past no other piece', () => {
  const piece = { x: 190, y: 140, width: 20, height: 20 };
  const around = [{ x: 100, y: 100, width: 200, height: 39 }, { x: 100, y: 161, width: 200, height: 40 }, { x: 100, y: 139, width: 89, height: 22 }];
  const found = namesOutside([named(piece)], [piece, ...around, { x: 211, y: 139, width: 20, height: 22 }], within);
  expect(found.size).toBe(0);
  // To its right something stands in the way of the words, but not of a line below it.
  const led = namesOutside([named(piece)], [piece, ...around, { x: 214, y: 139, width: 60, height: 8 }], within).get('tab');
  expect(led?.at.x).toBeGreaterThan(274);
  expect(led?.leader?.length ?? 0).toBeGreaterThan(20);
});

it('never hide a piece or another name, nor leave what is in sight', () => {
  const patch = fc.record({ x: fc.integer({ min: 0, max: 360 }), y: fc.integer({ min: 0, max: 270 }), width: fc.integer({ min: 5, max: 60 }), height: fc.integer({ min: 5, max: 60 }) });
  const meets = (a: Patch, b: Patch): boolean => a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  fc.assert(fc.property(fc.array(patch, { minLength: 1, maxLength: 12 }), (pieces) => {
    const found = [...namesOutside(pieces.map((piece, at) => ({ ...named(piece), name: String(at) })), pieces, within).values()].map(({ at }) => at);
    for (const [index, one] of found.entries()) {
      expect(pieces.some((piece) => meets(one, piece)) || found.slice(0, index).some((other) => meets(one, other))).toBe(false);
      expect(one.x >= 0 && one.y >= 0 && one.x + one.width <= 400 && one.y + one.height <= 300).toBe(true);
    }
  }), { numRuns: 80 });
});
