import type { Polygon } from './shape.ts';

/** Convex hull, counter-clockwise; of points on one line its ends, of none nothing (A. M. Andrew's monotone chain, Information Processing Letters 9(5), 1979). */
export function convexHull(points: Polygon): Polygon {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y);
  const half = (run: Polygon): { x: number; y: number }[] => {
    const chain: { x: number; y: number }[] = [];
    for (const point of run) {
      for (;;) {
        const b = chain.at(-1);
        const a = chain.at(-2);
        if (a === undefined || b === undefined || (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x) > 0) break;
        chain.pop();
      }
      chain.push({ x: point.x, y: point.y });
    }
    chain.pop();
    return chain;
  };
  return [...half(sorted), ...half(sorted.reverse())];
}
