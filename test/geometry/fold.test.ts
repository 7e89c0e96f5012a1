import fc from 'fast-check';
import { expect, test } from 'vitest';
import { foldLayers } from '../../server/src/geometry/fold.ts';
import { boundsOfPoints, polygonArea } from '../../server/src/geometry/measure.ts';
import type { Point, Polygon } from '../../server/src/geometry/shape.ts';

const rectangle = (width: number, height: number): Polygon => [{ x: 0, y: 0 }, { x: width, y: 0 }, { x: width, y: height }, { x: 0, y: height }];
const upright = (x: number): readonly [Point, Point] => [{ x, y: 0 }, { x, y: 1 }];

/** Folds one after the other; undefined where one of them misses. */
function folded(polygon: Polygon, folds: readonly (readonly [Point, Point])[]): readonly Polygon[] | undefined {
  return folds.reduce<readonly Polygon[] | undefined>((layers, line) => {
    const fold = layers && foldLayers(layers, line);
    return fold && [...fold.stays, ...fold.turned];
  }, [polygon]);
}
const sizeOf = (layers: readonly Polygon[] | undefined): readonly number[] => {
  if (layers === undefined) return [];
  const { minX, maxX, minY, maxY } = boundsOfPoints(layers.flat());
  return [maxX - minX, maxY - minY].map((length) => Math.round(length * 1e6) / 1e6);
};

test('a strap folded in four is a quarter as wide, and four layers lie everywhere', () => {
  const layers = folded(rectangle(40, 300), [upright(10), upright(30), upright(20)]);
  expect(sizeOf(layers)).toEqual([10, 300]);
  expect(layers?.map((layer) => Math.abs(polygonArea(layer)))).toEqual([3000, 3000, 3000, 3000]);
});
test('a hem turned twice takes both turns from the height', () =>
  expect(sizeOf(folded(rectangle(90, 70), [[{ x: 0, y: 65 }, { x: 1, y: 65 }], [{ x: 0, y: 55 }, { x: 1, y: 55 }]]))).toEqual([90, 55]));
test('what lies wholly on one side is not folded', () => expect(folded(rectangle(40, 30), [upright(40)])).toBeUndefined());

/**
 * The same by points: every point of the piece is turned over where it lies on the side that has fewer of them. Nothing of it
 * is taken from the geometry above.
 */
test('points that are turned over one by one lie within what was folded, and reach as far', () => {
  const simulate = (polygon: Polygon, folds: readonly (readonly [Point, Point])[]): readonly Point[] | undefined => {
    const [width, height] = sizeOf([polygon]) as [number, number];
    let points = Array.from({ length: 61 * 61 }, (_, index): Point => ({ x: (width * (index % 61)) / 60, y: (height * Math.floor(index / 61)) / 60 }));
    for (const [a, b] of folds) {
      const length = Math.hypot(b.x - a.x, b.y - a.y);
      const normal = { x: -(b.y - a.y) / length, y: (b.x - a.x) / length };
      const off = ({ x, y }: Point): number => (x - a.x) * normal.x + (y - a.y) * normal.y;
      const left = points.filter((point) => off(point) > 0).length;
      const right = points.filter((point) => off(point) < 0).length;
      // Where the two sides are nearly alike the points can't tell which is smaller.
      if (Math.abs(left - right) < 250) return undefined;
      points = points.map((point) => {
        const by = off(point);
        return (left < right ? by > 0 : by < 0) ? { x: point.x - 2 * by * normal.x, y: point.y - 2 * by * normal.y } : point;
      });
    }
    return points;
  };
  const line = fc.tuple(fc.integer({ min: 15, max: 85 }), fc.integer({ min: 15, max: 85 }), fc.integer({ min: 0, max: 359 })).map(([x, y, degrees]): readonly [Point, Point] =>
    [{ x, y }, { x: x + Math.cos((degrees * Math.PI) / 180), y: y + Math.sin((degrees * Math.PI) / 180) }]);
  let tried = 0;
  fc.assert(fc.property(fc.array(line, { minLength: 1, maxLength: 3 }), (folds) => {
    const polygon = rectangle(100, 80);
    const points = simulate(polygon, folds);
    const layers = folded(polygon, folds);
    if (points === undefined || layers === undefined) return;
    tried++;
    const [a, b] = [sizeOf(layers), sizeOf([points])];
    // The corners of the layers lie between points of the raster.
    expect(Math.abs((a[0] ?? 0) - (b[0] ?? 0))).toBeLessThan(6);
    expect(Math.abs((a[1] ?? 0) - (b[1] ?? 0))).toBeLessThan(6);
    expect(layers.reduce((sum, layer) => sum + Math.abs(polygonArea(layer)), 0)).toBeCloseTo(8000, 3);
  }), { numRuns: 300, seed: 7 });
  expect(tried).toBeGreaterThan(100);
});
