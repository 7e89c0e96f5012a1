import { point as flatPoint, Polygon as FlatPolygon } from '@flatten-js/core';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { difference, intersection, union } from '../../server/src/geometry/boolean.ts';
import { selfCrossing } from '../../server/src/geometry/crossing.ts';
import { distancePointToBoundary, distancePointToPolyline } from '../../server/src/geometry/distance.ts';
import { clearance, contains, containsPolyline, pointInside } from '../../server/src/geometry/inside.ts';
import { polygonArea } from '../../server/src/geometry/measure.ts';
import type { Polygon } from '../../server/src/geometry/shape.ts';
import { convex, p, point, present, starShaped } from './shapes.ts';

const square = (side: number, x = 0, y = 0): Polygon => [p(x, y), p(x + side, y), p(x + side, y + side), p(x, y + side)];
const theirs = (points: Polygon) => new FlatPolygon(points.map(({ x, y }) => flatPoint(x, y)));
const total = (parts: Polygon[]) => parts.reduce((sum, part) => sum + polygonArea(part), 0);

describe('selfCrossing', () => {
  it('finds the crossing of a bow tie', () => {
    expect(selfCrossing([p(0, 0), p(10, 10), p(10, 0), p(0, 10)])).toEqual(p(5, 5));
  });

  it('passes simple shapes, repeated corners and all', () => {
    expect(selfCrossing(square(10))).toBeUndefined();
    expect(selfCrossing([p(0, 0), p(10, 0), p(10, 0), p(5, 2), p(10, 10), p(0, 10)])).toBeUndefined();
    fc.assert(
      fc.property(starShaped, (points) => {
        expect(selfCrossing(points)).toBeUndefined();
      }),
    );
  });

  it('counts a touch and a fold-back, and twice round', () => {
    expect(selfCrossing([p(0, 0), p(10, 0), p(10, 10), p(5, 0), p(0, 10)])).toEqual(p(5, 0));
    expect(selfCrossing([p(0, 0), p(10, 0), p(20, 0), p(10, 0), p(10, 10)])).toBeDefined();
    expect(selfCrossing([...square(10), ...square(10)])).toBeDefined();
  });

  it('agrees with @flatten-js/core on random polygons', () => {
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 4, maxLength: 9, selector: ({ x, y }) => `${x} ${y}` }), (points) => {
        const polygon = theirs(points);
        // Its isValid looks for self-intersection of the boundary.
        expect(selfCrossing(points) === undefined).toBe(polygon.isValid());
      }),
      { numRuns: 300 },
    );
  });

  it('finds one bad corner among many', () => {
    const many = Array.from({ length: 1000 }, (_, i) => p(100 * Math.cos((i * Math.PI) / 500), 80 * Math.sin((i * Math.PI) / 500)));
    const bad = many.map((q, i) => (i === 700 ? p(99, 60) : q));
    expect(selfCrossing(many)).toBeUndefined();
    expect(selfCrossing(bad)).toBeDefined();
  });
});

describe('inside and apart', () => {
  it('agrees with @flatten-js/core on points and distances', () => {
    fc.assert(
      fc.property(starShaped, point, (points, q) => {
        const polygon = theirs(points);
        const there = flatPoint(q.x, q.y);
        const apart = Math.min(...[...polygon.edges].map((edge) => edge.shape.distanceTo(there)[0]));
        fc.pre(apart > 1e-6);
        expect(pointInside(q, points)).toBe(polygon.contains(there));
        expect(distancePointToBoundary(q, points)).toBeCloseTo(apart, 8);
      }),
    );
  });

  it('agrees with @flatten-js/core on one shape inside another', () => {
    const pair = fc.record({ outer: starShaped, inner: convex, scale: fc.integer({ min: 5, max: 120 }) });
    let insideCount = 0;
    fc.assert(
      fc.property(pair, ({ outer, inner, scale }) => {
        const mid = { x: outer.reduce((s, q) => s + q.x, 0) / outer.length, y: outer.reduce((s, q) => s + q.y, 0) / outer.length };
        const from = present(inner[0]);
        const small = inner.map((q) => p(mid.x + ((q.x - from.x) * scale) / 100, mid.y + ((q.y - from.y) * scale) / 100));
        const expected = theirs(outer).contains(theirs(small));
        if (expected) insideCount++;
        expect(contains(outer, small, 0)).toBe(expected);
      }),
      { numRuns: 200 },
    );
    expect(insideCount).toBeGreaterThan(5);
  });

  it('allows what the tolerance allows and no more', () => {
    expect(contains(square(100), square(100), 0)).toBe(true);
    expect(contains(square(100), square(100, 0.04), 0.05)).toBe(true);
    expect(contains(square(100), square(100, 0.06), 0.05)).toBe(false);
    expect(contains(square(100), [], 1)).toBe(false);
  });

  it('sees a line that leaves between two inside ends', () => {
    const hollow: Polygon = [p(0, 0), p(100, 0), p(100, 100), p(50, 40), p(0, 100)];
    expect(containsPolyline(hollow, [p(10, 60), p(90, 60)], 0)).toBe(false);
    // At its deepest the line is about 16 mm outside (the hollow's slanting sides are nearest).
    expect(containsPolyline(hollow, [p(10, 60), p(90, 60)], 10)).toBe(false);
    expect(containsPolyline(hollow, [p(10, 60), p(90, 60)], 17)).toBe(true);
    expect(containsPolyline(hollow, [p(10, 30), p(90, 30)], 0)).toBe(true);
  });

  it('ends also where a line runs along a side and on beyond its corner', () => {
    // By rounding, the first stretch lies a ten-million-millionth outside and the rest far inside.
    const outer: Polygon = [p(-247.993, 299.988), p(-260.15583142591584, 322.988), p(-240.993, 402.17899764656374), p(-408.993, 299.988), p(-299.993, 198.988)];
    expect(containsPolyline(outer, [p(-247.993, 299.988), p(-263.68515346728964, 329.6619728693958), p(-300, 300)], 0.01)).toBe(true);
  });

  it('measures the gap between a line and a boundary', () => {
    expect(clearance([p(20, 10), p(80, 10)], square(100))).toBe(10);
    expect(clearance([p(50, 50)], square(100))).toBe(50);
    expect(clearance([p(50, 50), p(150, 50)], square(100))).toBe(0);
    expect(clearance([p(110, 0), p(120, 0)], square(100))).toBe(10);
    expect(clearance([], square(100))).toBe(Infinity);
    expect(distancePointToPolyline(p(0, 5), [p(3, 0), p(3, 10), p(-4, 5)])).toBeLessThanOrEqual(3);
    expect(distancePointToPolyline(p(0, 5), [])).toBe(Infinity);
  });
});

describe('boolean', () => {
  it('keeps inclusion and exclusion of area', () => {
    fc.assert(
      fc.property(convex, convex, (a, shape) => {
        const from = present(shape[0]);
        const to = present(a[0]);
        const b = shape.map((q) => p(q.x - from.x + to.x - 20, q.y - from.y + to.y - 15));
        // Rounding to whole micrometres moves a boundary of a metre or so by up to 0.001 mm.
        const near = (x: number, y: number) => expect(Math.abs(x - y)).toBeLessThan(4);
        near(total(union([a], [b])), polygonArea(a) + polygonArea(b) - total(intersection([a], [b])));
        near(total(difference([a], [b])), polygonArea(a) - total(intersection([a], [b])));
      }),
    );
  });

  it('returns rings counter-clockwise and holes clockwise', () => {
    const ring = difference([square(100)], [square(20, 40, 40)]);
    expect(ring.map(polygonArea).sort((a, b) => a - b)).toEqual([-400, 10_000]);
    expect(total(union(ring))).toBe(9600);
  });
});
