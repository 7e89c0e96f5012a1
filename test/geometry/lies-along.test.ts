import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { liesAlong } from '../../server/src/geometry/lies-along.ts';
import type { Point, Polyline } from '../../server/src/geometry/shape.ts';

const rectangle = (width: number, height: number): readonly Point[] => [{ x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: height }, { x: 0, y: height }];
/** Down the left side, along the lower one, up the right one. */
const bowl = (width: number, left: number, right = left): Polyline => [{ x: 0, y: left }, { x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: right }];
const arc = (radius: number, degrees: number): Polyline => Array.from({ length: degrees + 1 }, (_, index) => ({ x: radius * Math.cos((index * Math.PI) / 180), y: radius * Math.sin((index * Math.PI) / 180) }));
const circle = (radius: number): Polyline => arc(radius, 359);

describe('a run lies along a ring', () => {
  it.each([
    ['three sides of it', bowl(140, 120)],
    ['shorter sides beside the one that fits', bowl(140, 90)],
    ['one of the two shorter', bowl(140, 120, 60)],
    ['on its other side', bowl(120, 100)],
    ['half a millimetre off', bowl(140.9, 120)],
    ['part of one side', [{ x: 5, y: 5 }, { x: 100, y: 5 }]],
    ['all round', [...rectangle(140, 120), { x: 0, y: 0 }]],
    ['all round from within a side', [{ x: 70, y: 0 }, { x: 140, y: 0 }, { x: 140, y: 120 }, { x: 0, y: 120 }, { x: 0, y: 0 }, { x: 70, y: 0 }]],
    ['the other way about', [...bowl(140, 120, 60)].reverse()],
  ])('%s', (_, run) => expect(liesAlong(run, rectangle(140, 120), 0.5)).toBe(true));

  it.each([
    ['too wide', bowl(180, 100)],
    ['too narrow', bowl(100, 100)],
    ['too deep', bowl(140, 130)],
    ['more than half a millimetre off', bowl(141.6, 120)],
    ['a side that is too long', [{ x: 0, y: 0 }, { x: 145, y: 0 }]],
    ['round corners', [...arc(140, 90)]],
    ['longer than the ring', [...rectangle(140, 120), { x: 0, y: 0 }, { x: 100, y: 0 }]],
    ['all round another', [...rectangle(150, 110), { x: 0, y: 0 }]],
    // It is only 0.6 mm longer by that.
    ['a side that bulges by three millimetres', [{ x: 0, y: 100 }, { x: 0, y: 65 }, { x: -3, y: 50 }, { x: 0, y: 35 }, { x: 0, y: 0 }, { x: 140, y: 0 }, { x: 140, y: 100 }]],
    ['a corner that is cut off', [{ x: 0, y: 100 }, { x: 0, y: 0 }, { x: 138, y: 0 }, { x: 140, y: 2 }, { x: 140, y: 100 }]],
  ])('but not %s', (_, run) => expect(liesAlong(run, rectangle(140, 120), 0.5)).toBe(false));

  it('of a circle any part of one as large, and of no other', () => {
    expect(liesAlong(arc(60, 200), circle(60), 0.5)).toBe(true);
    expect(liesAlong(arc(60, 359), circle(60), 0.5)).toBe(true);
    expect(liesAlong(arc(62, 200), circle(60), 0.5)).toBe(false);
    expect(liesAlong(arc(58, 200), circle(60), 0.5)).toBe(false);
  });

  it('wherever it is drawn, turned or flipped, and whichever way the ring is listed', () => {
    const ring: readonly Point[] = [{ x: 0, y: 0 }, { x: 130, y: 20 }, { x: 110, y: 140 }, { x: 30, y: 120 }, { x: -40, y: 60 }];
    fc.assert(fc.property(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 1, max: 5 }), fc.double({ min: 0, max: 6.28, noNaN: true }), fc.boolean(), fc.boolean(), fc.double({ min: -500, max: 500, noNaN: true }), (start, sides, radians, flips, turns, by) => {
      const run = Array.from({ length: sides + 1 }, (_, index) => ring[(start + index) % ring.length] ?? { x: 0, y: 0 });
      const moved = run.map(({ x, y }) => ({ x: (flips ? -1 : 1) * (x * Math.cos(radians) - y * Math.sin(radians)) + by, y: x * Math.sin(radians) + y * Math.cos(radians) - by }));
      expect(liesAlong(moved, turns ? ring.toReversed() : ring, 0.5)).toBe(true);
      // Six millimetres more on one side of several fit nowhere on a ring whose sides are all others.
      const [first, second, ...rest] = moved;
      if (first === undefined || second === undefined || rest.length < 2) return;
      const long = Math.hypot(second.x - first.x, second.y - first.y);
      const [dx, dy] = [((second.x - first.x) * 6) / long, ((second.y - first.y) * 6) / long];
      expect(liesAlong([first, ...moved.slice(1).map(({ x, y }) => ({ x: x + dx, y: y + dy }))], turns ? ring.toReversed() : ring, 0.5)).toBe(false);
    }));
  });
});
