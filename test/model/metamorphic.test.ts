import fc from 'fast-check';
import { describe, expect, it, vi } from 'vitest';
import { distancePointToBoundary } from '../../server/src/geometry/distance.ts';
import { outlineArea } from '../../server/src/geometry/measure.ts';
import type { Outline } from '../../server/src/geometry/shape.ts';
import { polygonOf } from '../../server/src/model/piece/polygons.ts';
import { analyse, pattern, sizeOf } from '../support/spec.ts';

// Many specs are computed here, which takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000 });

const eighths = (min: number, max: number): fc.Arbitrary<number> => fc.integer({ min: min * 8, max: max * 8 }).map((n) => n / 8);

/** Points on an ellipse at well-spread angles: a convex polygon. */
const convex = fc.tuple(eighths(4, 12), eighths(4, 12), fc.uniqueArray(fc.integer({ min: 0, max: 11 }), { minLength: 4, maxLength: 9 })).map(([a, b, turns]) =>
  turns.sort((x, y) => x - y).map((turn) => [Math.round(a * 80 * Math.cos((turn * Math.PI) / 6)) / 80, Math.round(b * 80 * Math.sin((turn * Math.PI) / 6)) / 80] as const));

const written = (points: readonly (readonly [number, number])[]): string => points.map(([x, y]) => `${x}, ${y}`).join(' to ');
const same = (a: Outline, b: Outline): void => {
  const [p, q] = [polygonOf(a), polygonOf(b)];
  for (const point of p) expect(distancePointToBoundary(point, q)).toBeLessThan(0.01);
  for (const point of q) expect(distancePointToBoundary(point, p)).toBeLessThan(0.01);
};

describe('allowance out and in again', () => {
  it('gives a rectangle back, exactly', () => {
    fc.assert(fc.property(eighths(2, 20), eighths(2, 20), fc.tuple(eighths(0, 0.875), eighths(0, 0.875), eighths(0, 0.875), eighths(0, 0.875)), (w, h, [t, r, b, l]) => {
      const edges = `allowance top ${t}\n  allowance right ${r}\n  allowance bottom ${b}\n  allowance left ${l}`;
      const found = pattern(`piece inner {
  drawn to stitching
  outline rectangle ${w} by ${h}
  ${edges}
}
piece outer {
  outline rectangle ${w} + ${l} + ${r} by ${h} + ${t} + ${b}
  ${edges}
}`);
      const [inner, outer] = [found.shape('inner'), found.shape('outer')];
      expect(sizeOf(inner.cutting)).toEqual(sizeOf(outer.cutting));
      expect(sizeOf(outer.stitching)).toEqual([w, h]);
      expect(inner.rectangle?.cutting.width.equals(outer.rectangle?.cutting.width ?? 0)).toBe(true);
      expect(outer.rectangle?.stitching.height.equals(inner.rectangle?.stitching.height ?? 0)).toBe(true);
    }), { numRuns: 40 });
  });

  it('gives a convex polygon back', () => {
    fc.assert(fc.property(convex, eighths(0.125, 1), (points, allowance) => {
      const found = pattern(`piece inner {\n  drawn to stitching\n  outline polygon from ${written(points)}\n  allowance ${allowance} mitred limit 40\n}`);
      const inner = found.shape('inner');
      const cutting = inner.cutting.edges.map((edge) => [edge.start.x / 25.4, edge.start.y / 25.4] as const);
      const outer = pattern(`piece outer {\n  outline polygon from ${written(cutting.map(([x, y]) => [Number(x.toFixed(9)), Number(y.toFixed(9))]))}\n  allowance ${allowance}\n}`).shape('outer');
      same(outer.stitching, inner.drawn);
    }), { numRuns: 40 });
  });

  it('adds the strips and the corners, and no more', () => {
    fc.assert(fc.property(convex, eighths(0.125, 1), (points, allowance) => {
      const shape = pattern(`piece a {\n  drawn to stitching\n  outline polygon from ${written(points)}\n  allowance ${allowance} rounded\n}`).shape('a');
      // Steiner's formula for a convex body and a disc: area + way round × distance + π × distance².
      const around = shape.drawn.edges.reduce((sum, edge) => sum + edge.segments.reduce((more, one) => more + Math.hypot(one.to.x - edge.start.x, one.to.y - edge.start.y), 0), 0);
      const d = allowance * 25.4;
      const expected = outlineArea(shape.drawn) + around * d + Math.PI * d * d;
      expect(Math.abs(outlineArea(shape.cutting) - expected)).toBeLessThan(0.03 * 2 * Math.PI * d);
    }), { numRuns: 30 });
  });
});

describe('mirrored twice', () => {
  it('is the piece itself', () => {
    fc.assert(fc.property(convex, (points) => {
      const found = pattern(`piece a {\n  outline polygon from ${written(points)}\n  allowance 1/4\n}\npiece b from a mirrored {\n}\npiece c from b mirrored {\n}\ncheck a mates b`);
      expect(found.faults).toEqual([]);
      same(found.shape('c').stitching, found.shape('a').stitching);
    }), { numRuns: 25 });
  });
});

describe('the same in another unit', () => {
  const text = (unit: 'in' | 'mm', w: number, h: number, allowance: number): string => {
    const n = (inches: number): string => (unit === 'in' ? String(inches) : (inches * 25.4).toFixed(6));
    return `pattern "T"
revision 1
unit ${unit}
allowance ${n(allowance)}
length w = ${n(w)}
piece a {
  outline rectangle w by ${n(h)}
  corner top round ${n(0.5)}
  line core = inset ${n(0.75)}
  notch left at ${n(1)}
}
piece b from a {
  allowance bottom ${n(1)}
}
piece c {
  outline ellipse w by ${n(h)}
  drawn to stitching
}
area whole = a.area + c.area
length around_it = b.perimeter + c.perimeter`;
  };
  it('has the same sizes', () => {
    fc.assert(fc.property(eighths(4, 12), eighths(4, 12), eighths(0.125, 0.625), (w, h, allowance) => {
      const [inches, millimetres] = [analyse(text('in', w, h, allowance)), analyse(text('mm', w, h, allowance))];
      for (const name of ['a', 'b', 'c']) {
        expect(sizeOf(inches.shape(name).cutting, 1)).toEqual(sizeOf(millimetres.shape(name).cutting, 1));
        expect(sizeOf(inches.shape(name).stitching, 1)).toEqual(sizeOf(millimetres.shape(name).stitching, 1));
      }
      for (const name of ['w', 'whole', 'around_it']) expect(inches.value(name).amount.valueOf()).toBeCloseTo(millimetres.value(name).amount.valueOf(), 4);
    }), { numRuns: 25 });
  });
});

describe('twice as large', () => {
  it('has twice the lengths and four times the area', () => {
    fc.assert(fc.property(convex, (points) => {
      const text = (scale: number): string => `length s = ${scale}\npiece a {\n  outline polygon from ${points.map(([x, y]) => `s * ${x}, s * ${y}`).join(' to ')}\n  allowance s * 1/4\n}`;
      const [one, two] = [pattern(text(1)).shape('a'), pattern(text(2)).shape('a')];
      expect(outlineArea(two.stitching) / outlineArea(one.stitching)).toBeCloseTo(4, 6);
      expect(two.stitching.edges.map((edge) => edge.name)).toEqual(one.stitching.edges.map((edge) => edge.name));
    }), { numRuns: 25 });
  });
});
