import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { bounds, outlineArea, perimeter } from '../../server/src/geometry/measure.ts';
import { polygon } from '../../server/src/geometry/path.ts';
import type { Outline, Polyline } from '../../server/src/geometry/shape.ts';
import { splitOutline } from '../../server/src/geometry/split.ts';
import { box, isClosed, convex, p, point, present } from './shapes.ts';

function part(outline: Outline, cut: Polyline, side: 'left' | 'right'): Outline {
  const made = splitOutline(outline, cut, side, 'cut');
  if (made.kind !== 'ok') throw new Error(made.kind);
  return made.outline;
}
const names = (outline: Outline) => outline.edges.map(({ name }) => name);

describe('split', () => {
  it('takes the part on the asked side, running short cuts on to the boundary', () => {
    const cut = [p(30, 40), p(30, 20)];
    const left = part(box(100, 60), cut, 'left');
    const right = part(box(100, 60), cut, 'right');
    // Seen looking down the cut, its left is the side of greater x.
    expect(bounds(left).minX).toBeCloseTo(30, 12);
    expect(bounds(left).maxX).toBe(100);
    expect(bounds(right).maxX).toBeCloseTo(30, 12);
    expect([outlineArea(left), outlineArea(right)].map(Math.round)).toEqual([4200, 1800]);
    expect(names(left)).toEqual(['bottom', 'right', 'top', 'cut']);
    expect(names(right)).toEqual(['top', 'left', 'bottom', 'cut']);
    expect([left.edges.at(-1)?.measuredFrom, right.edges.at(-1)?.measuredFrom]).toEqual(['start', 'end']);
  });

  it('gives parts whose areas add up, and whose lengths share the cut', () => {
    fc.assert(
      fc.property(convex, fc.nat(), fc.nat(), point, (points, i, j, bend) => {
        const outline = present(polygon(points));
        const middle = (k: number) => {
          const [a, b] = [present(points[k % points.length]), present(points[(k + 1) % points.length])];
          return p((a.x + b.x) / 2, (a.y + b.y) / 2);
        };
        fc.pre(i % points.length !== j % points.length);
        // A bend well inside keeps the cut inside a convex shape.
        const centre = points.reduce((s, q) => p(s.x + q.x / points.length, s.y + q.y / points.length), p(0, 0));
        const inner = p(centre.x + bend.x / 100, centre.y + bend.y / 100);
        const cut = [middle(i), inner, middle(j)];
        const left = part(outline, cut, 'left');
        const right = part(outline, cut, 'right');
        expect(isClosed(left) && isClosed(right)).toBe(true);
        expect(outlineArea(left)).toBeGreaterThan(0);
        expect(outlineArea(right)).toBeGreaterThan(0);
        expect(outlineArea(left) + outlineArea(right)).toBeCloseTo(outlineArea(outline), 6);
        const across = Math.hypot(present(cut[0]).x - inner.x, present(cut[0]).y - inner.y) + Math.hypot(present(cut[2]).x - inner.x, present(cut[2]).y - inner.y);
        expect(perimeter(left) + perimeter(right)).toBeCloseTo(perimeter(outline) + 2 * across, 6);
      }),
    );
  });

  it('keeps curves curves', () => {
    const circle = present(ellipse(100, 100));
    const lower = part(circle, [p(-5, 30), p(105, 30)], 'right');
    // A circular segment 20 mm from the centre.
    const angle = 2 * Math.acos(20 / 50);
    expect(outlineArea(lower)).toBeCloseTo((2500 / 2) * (angle - Math.sin(angle)), 6);
    expect(lower.edges.flatMap(({ segments }) => segments.map(({ kind }) => kind))).toContain('arc');
    const oval = present(ellipse(120, 80));
    const a = part(oval, [p(10, 0), p(100, 80)], 'left');
    const b = part(oval, [p(10, 0), p(100, 80)], 'right');
    expect(outlineArea(a) + outlineArea(b)).toBeCloseTo(Math.PI * 60 * 40, 6);
  });

  it('names both runs of an edge cut out of the middle', () => {
    const cut = [p(30, -1), p(30, 20), p(70, 20), p(70, -1)];
    const outer = part(box(100, 60), cut, 'left');
    expect(outlineArea(outer)).toBe(6000 - 800);
    expect(names(outer)).toEqual(['bottom_2', 'right', 'top', 'left', 'bottom', 'cut']);
    // The plain name stays where measuring begins, at the left.
    expect(outer.edges.find(({ name }) => name === 'bottom')).toMatchObject({ start: p(0, 0) });
    expect(names(part(box(100, 60), cut, 'right'))).toEqual(['bottom', 'cut']);
  });

  it('cuts from corner to corner without leaving specks', () => {
    const made = part(box(100, 60), [p(0, 0), p(100, 60)], 'left');
    expect(names(made)).toEqual(['top', 'left', 'cut']);
    expect(outlineArea(made)).toBeCloseTo(3000, 9);
  });

  it('says when the cut misses or leaves several parts', () => {
    expect(splitOutline(box(100, 60), [p(-10, 70), p(110, 70)], 'left', 'cut')).toEqual({ kind: 'misses' });
    expect(splitOutline(box(100, 60), [p(-50, 30), p(-10, 30)], 'left', 'cut')).toEqual({ kind: 'misses' });
    expect(splitOutline(box(100, 60), [p(10, 10)], 'left', 'cut')).toEqual({ kind: 'misses' });
    expect(splitOutline(box(100, 60), [p(0, 0), p(100, 0)], 'left', 'cut')).toEqual({ kind: 'misses' });
    const hollow = present(polygon([p(0, 0), p(100, 0), p(100, 100), p(50, 40), p(0, 100)]));
    expect(splitOutline(hollow, [p(-10, 60), p(110, 60)], 'left', 'cut')).toEqual({ kind: 'several_parts' });
  });
});
