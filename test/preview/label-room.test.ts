import fc from 'fast-check';
import { expect, it } from 'vitest';
import { pointInside } from '../../server/src/geometry/inside.ts';
import type { Point } from '../../server/src/geometry/shape.ts';
import { groundOf, roomIn, without } from '../../server/src/preview/label-room.ts';
import { Draft, shapes, wallet } from './specs.ts';

const rectangle = (width: number, height: number): readonly Point[] => [{ x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: height }, { x: 0, y: height }];

it('is all of a rectangle, and of one that is parted the larger part', () => {
  expect(roomIn(groundOf(rectangle(200, 100)))).toMatchObject({ x: 100, y: 50, across: 200, high: 100 });
  const { x, across, high } = roomIn(without(groundOf(rectangle(200, 100)), [[{ x: 60, y: -5 }, { x: 60, y: 105 }]]));
  expect(x - across / 2).toBeGreaterThanOrEqual(60);
  expect([x + across / 2, high]).toEqual([200, 100]);
});

it('lies within any shape, and no line runs through it', () => {
  const point = fc.record({ x: fc.integer({ min: 0, max: 300 }), y: fc.integer({ min: 0, max: 300 }) });
  fc.assert(fc.property(fc.integer({ min: 3, max: 9 }), fc.array(fc.tuple(point, point), { maxLength: 4 }), (corners, lines) => {
    const ring = Array.from({ length: corners }, (_, at) => ({ x: 150 + 150 * Math.cos((2 * Math.PI * at) / corners), y: 150 + 90 * Math.sin((2 * Math.PI * at) / corners) }));
    const { x, y, across, high } = roomIn(without(groundOf(ring), lines));
    if (across === 0) return;
    // So much of a cell may be outside, and so much of it may a line cut off.
    const [edge, cut] = [0.4, 6];
    for (const [right, up] of [[-1, -1], [1, -1], [1, 1], [-1, 1]] as const) expect(pointInside({ x: x + right * (across / 2 - edge), y: y + up * (high / 2 - edge) }, ring)).toBe(true);
    for (const [a, b] of lines) {
      for (let share = 0; share <= 1; share += 0.01) {
        const [atX, atY] = [a.x + (b.x - a.x) * share, a.y + (b.y - a.y) * share];
        expect(Math.abs(atX - x) < across / 2 - cut && Math.abs(atY - y) < high / 2 - cut).toBe(false);
      }
    }
  }), { numRuns: 60 });
});

it('keeps names of drawn pieces off their folds and off the arrow along their grain', () => {
  const crossed = [wallet, shapes].flatMap((text) => new Draft().data(text).pieces).flatMap(({ name, drawing: { parts, room } }) => parts
    .filter(({ kind, path }) => ['grain', 'foldline', 'fold'].includes(kind) && path !== '')
    .filter(({ path }) => [...path.matchAll(/M(\S+) (\S+)L(\S+) (\S+)/g)].some(([, ...ends]) => {
      const [x1 = 0, y1 = 0, x2 = 0, y2 = 0] = ends.map(Number);
      return Array.from({ length: 101 }, (_, at) => at / 100).some((share) => Math.abs(x1 + (x2 - x1) * share - room.x) < room.across * 0.49 && Math.abs(y1 + (y2 - y1) * share - room.y) < room.high * 0.49);
    })).map(({ kind }) => `${kind} of ${name}`));
  expect(crossed).toEqual([]);
});

it('keeps names within the stitching lines, unless there is little room', () => {
  const roomOf = (width: number, allowance: number): { readonly from: number; readonly to: number } => {
    const [piece] = new Draft().data(`pattern "Rooms"\nrevision 1\nunit cm\nallowance ${allowance}\nmaterial cloth {\n  width 150\n}\npiece one {\n  outline rectangle ${width} by 20\n  cut 1 cloth\n}\n`).pieces;
    if (piece === undefined) throw new Error('nothing was drawn');
    const { x, across } = piece.drawing.room;
    return { from: x - across / 2, to: x + across / 2 };
  };
  // 20 cm wide, of which 3 are allowance on either side.
  const { from, to } = roomOf(20, 3);
  expect([from >= 30, to <= 170, to - from > 100]).toEqual([true, true, true]);
  // Of 5 cm all but one are.
  const narrow = roomOf(5, 2);
  expect(narrow.to - narrow.from).toBeGreaterThan(20);
});

it('takes the finished size into account, too', () => {
  const ground = without(groundOf(rectangle(300, 300)), [[{ x: 0, y: 60 }, { x: 300, y: 60 }], [{ x: 60, y: 60 }, { x: 60, y: 300 }], [{ x: 100, y: 60 }, { x: 100, y: 300 }], [{ x: 100, y: 80 }, { x: 300, y: 300 }]]);
  const of = (size: string): number => roomIn(ground, { title: 'Tab', size }).from;
  expect(of('finished 100 cm × 100 cm')).toBeGreaterThan(of('finished 1 cm'));
});
