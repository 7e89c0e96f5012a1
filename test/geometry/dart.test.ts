import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dartOn, truedOver } from '../../server/src/geometry/dart.ts';
import { distancePointToBoundary } from '../../server/src/geometry/distance.ts';
import { flattenEdge } from '../../server/src/geometry/flatten.ts';
import { edgeLength } from '../../server/src/geometry/measure.ts';
import { offsetOutline } from '../../server/src/geometry/offset.ts';
import type { Edge, Outline, Point } from '../../server/src/geometry/shape.ts';

/** A piece with a curved upper edge, which runs from right to left. */
const piece = (rise: number): Outline => ({
  edges: [
    { name: 'bottom', start: { x: 0, y: 0 }, segments: [{ kind: 'line', to: { x: 200, y: 0 } }], measuredFrom: 'start' },
    { name: 'right', start: { x: 200, y: 0 }, segments: [{ kind: 'line', to: { x: 200, y: 100 } }], measuredFrom: 'start' },
    { name: 'top', start: { x: 200, y: 100 }, segments: [{ kind: 'cubic', control1: { x: 140, y: 100 + rise }, control2: { x: 60, y: 100 + rise }, to: { x: 0, y: 100 } }], measuredFrom: 'end' },
    { name: 'left', start: { x: 0, y: 100 }, segments: [{ kind: 'line', to: { x: 0, y: 0 } }], measuredFrom: 'end' },
  ],
});
const topOf = ({ edges }: Outline): Edge => edges.find(({ name }) => name === 'top') ?? edges[0] as Edge;
const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);

/** How the cloth over a dart lies once it is folded over a leg: by turning the plane, not by the formula that was used. */
function foldedOver(point: Point, tip: Point, leg: Point): Point {
  const angle = Math.atan2(leg.y - tip.y, leg.x - tip.x);
  const radius = distance(point, tip);
  const own = Math.atan2(point.y - tip.y, point.x - tip.x);
  return { x: tip.x + radius * Math.cos(2 * angle - own), y: tip.y + radius * Math.sin(2 * angle - own) };
}

test('a dart on a straight edge', () => {
  const top: Edge = { name: 'top', start: { x: 100, y: 50 }, segments: [{ kind: 'line', to: { x: 0, y: 50 } }], measuredFrom: 'end' };
  expect(dartOn(top, 40, 20, 30)).toEqual([{ x: 70, y: 50 }, { x: 60, y: 20 }, { x: 50, y: 50 }]);
  expect(dartOn(top, 5, 20, 30)).toBeUndefined();
  expect(dartOn(top, 95, 20, 30)).toBeUndefined();
});

test('closed and laid to either side, a trued dart is cut as what it lies on', () => {
  const asked = fc.record({ rise: fc.integer({ min: -30, max: 60 }), at: fc.integer({ min: 35, max: 65 }), width: fc.integer({ min: 8, max: 30 }), depth: fc.integer({ min: 25, max: 70 }), allowance: fc.integer({ min: 3, max: 15 }) });
  fc.assert(fc.property(asked, ({ rise, at, width, depth, allowance }) => {
    const stitching = piece(rise);
    const top = topOf(stitching);
    const dart = dartOn(top, (edgeLength(top) * at) / 100, width, depth);
    expect(dart).toBeDefined();
    if (dart === undefined) return;
    const [first, tip, last] = dart;
    expect(Math.abs(distance(first, tip) - distance(last, tip))).toBeLessThan(1e-9);
    const moved = offsetOutline(stitching, () => allowance, () => ({ kind: 'mitre', limit: 4 }));
    const cutting = moved.kind === 'ok' ? topOf(moved.outline) : top;
    const trued = truedOver(cutting, dart);
    expect(trued).toBeDefined();
    if (trued === undefined) return;
    const plain = flattenEdge(cutting);
    const cap = flattenEdge(trued).filter((point) => distancePointToBoundary(point, [...plain, ...plain.toReversed()]) > 0.02);
    expect(cap.length).toBeGreaterThan(0);
    const middle = { x: (first.x + last.x) / 2, y: (first.y + last.y) / 2 };
    const across = { x: last.x - first.x, y: last.y - first.y };
    for (const point of cap) {
      const isFirst = (point.x - middle.x) * across.x + (point.y - middle.y) * across.y <= 1e-6;
      const lies = foldedOver(point, tip, isFirst ? first : last);
      // The halves meet on the dart's middle where the edge is the same on both sides; else beside it, over the one or the other.
      const other = foldedOver(point, tip, isFirst ? last : first);
      expect(Math.min(...[lies, other].map((one) => distancePointToBoundary(one, [...plain, ...plain.toReversed()])))).toBeLessThan(0.05);
    }
  }), { numRuns: 200, seed: 3 });
});
