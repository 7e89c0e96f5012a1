import { describe, expect, it } from 'vitest';
import { partOfEdge } from '../../server/src/geometry/part.ts';
import { polylineLength } from '../../server/src/geometry/measure.ts';
import type { Edge } from '../../server/src/geometry/shape.ts';

const bent: Edge = { name: 'bent', measuredFrom: 'end', start: { x: 0, y: 0 }, segments: [{ kind: 'line', to: { x: 10, y: 0 } }, { kind: 'line', to: { x: 10, y: 20 } }] };
/** A quarter of a circle of radius 100 about the origin, 50π long. */
const quarter: Edge = { name: 'quarter', measuredFrom: 'start', start: { x: 100, y: 0 }, segments: [{ kind: 'arc', centre: { x: 0, y: 0 }, turn: 'left', to: { x: 0, y: 100 } }] };

describe('part of an edge', () => {
  it('runs as the outline does, whichever end the edge is measured from', () => {
    expect(partOfEdge(bent, 4, 25)).toEqual([{ x: 4, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 15 }]);
    expect(partOfEdge(bent, 12, 18)).toEqual([{ x: 10, y: 2 }, { x: 10, y: 8 }]);
    expect(partOfEdge(bent, 10, 30)).toEqual([{ x: 10, y: 0 }, { x: 10, y: 20 }]);
    expect(partOfEdge(bent, -5, 99)).toEqual([{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 20 }]);
  });

  it('keeps to a curve', () => {
    const half = partOfEdge(quarter, 0, 25 * Math.PI);
    expect(half.at(-1)!.x).toBeCloseTo(100 * Math.cos(Math.PI / 4), 6);
    expect(half.at(-1)!.y).toBeCloseTo(100 * Math.sin(Math.PI / 4), 6);
    expect(polylineLength(half)).toBeCloseTo(25 * Math.PI, 1);
    expect(Math.max(...half.map(({ x, y }) => Math.abs(Math.hypot(x, y) - 100)))).toBeLessThan(1e-6);
  });
});
