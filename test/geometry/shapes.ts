import fc from 'fast-check';
import { edgeEnd } from '../../server/src/geometry/edge.ts';
import { rectangle } from '../../server/src/geometry/rectangle.ts';
import type { Corner, CornerName } from '../../server/src/geometry/rectangle.ts';
import type { Outline, Point, Polygon } from '../../server/src/geometry/shape.ts';

export const p = (x: number, y: number): Point => ({ x, y });

/** A rectangle that must exist. */
export function box(width: number, height: number, corners: Partial<Record<CornerName, Corner>> = {}): Outline {
  const made = rectangle(width, height, corners);
  if (made.kind !== 'ok') throw new Error(`expected a rectangle, got ${made.kind}`);
  return made.outline;
}

/** Whether every edge starts where the one before it ends. */
export const isClosed = (outline: Outline): boolean =>
  outline.edges.every((edge, i) => {
    const end = edgeEnd(present(outline.edges.at(i - 1)));
    return Math.hypot(end.x - edge.start.x, end.y - edge.start.y) <= 1e-9;
  });

/** The value, which must be there. */
export function present<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('expected a value');
  return value;
}

/** A coordinate in mm, of a size and fineness that occur. */
export const coordinate = fc.integer({ min: -300_000, max: 300_000 }).map((n) => n / 1000);

export const point = fc.record({ x: coordinate, y: coordinate });

/** A convex polygon, counter-clockwise: points on an ellipse, at angles well apart. */
export const convex: fc.Arbitrary<Polygon> = fc
  .record({
    gaps: fc.array(fc.integer({ min: 10, max: 100 }), { minLength: 4, maxLength: 12 }),
    radiusX: fc.integer({ min: 40, max: 200 }),
    radiusY: fc.integer({ min: 40, max: 200 }),
    centre: point,
  })
  .filter(({ gaps }) => Math.max(...gaps) < 0.45 * gaps.reduce((a, b) => a + b, 0))
  .map(({ gaps, radiusX, radiusY, centre }) => {
    const total = gaps.reduce((a, b) => a + b, 0);
    let angle = 0;
    return gaps.map((gap) => {
      angle += (2 * Math.PI * gap) / total;
      return p(centre.x + radiusX * Math.cos(angle), centre.y + radiusY * Math.sin(angle));
    });
  });

/** A star-shaped polygon, mostly not convex: a different radius at each of evenly spread angles. */
export const starShaped: fc.Arbitrary<Polygon> = fc
  .record({ radii: fc.array(fc.integer({ min: 30, max: 150 }), { minLength: 5, maxLength: 14 }), centre: point })
  .map(({ radii, centre }) =>
    radii.map((radius, i) => {
      const angle = (2 * Math.PI * i) / radii.length;
      return p(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle));
    }),
  );
