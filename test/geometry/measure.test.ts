import { Arc as FlatArc, point as flatPoint, Polygon as FlatPolygon } from '@flatten-js/core';
import { Bezier } from 'bezier-js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { flattenEdge, flattenOutline } from '../../server/src/geometry/flatten.ts';
import { bounds, edgeLength, outlineArea, perimeter, pointAlong, polygonArea } from '../../server/src/geometry/measure.ts';
import { path, polygon } from '../../server/src/geometry/path.ts';
import { pointOn } from '../../server/src/geometry/segment.ts';
import type { Edge, Point, Segment } from '../../server/src/geometry/shape.ts';
import { box, coordinate, p, point, present, starShaped } from './shapes.ts';

const edgeOf = (start: Point, ...segments: Segment[]): Edge => ({ name: 'e', start, segments, measuredFrom: 'start' });
const cubic = fc.record({ start: point, control1: point, control2: point, to: point });
const asBezier = ({ start, control1, control2, to }: Record<'start' | 'control1' | 'control2' | 'to', Point>) =>
  new Bezier(start.x, start.y, control1.x, control1.y, control2.x, control2.y, to.x, to.y);

describe('against @flatten-js/core', () => {
  it('agrees on the area and perimeter of polygons', () => {
    fc.assert(
      fc.property(starShaped, (points) => {
        const outline = present(polygon(points));
        const theirs = new FlatPolygon(points.map(({ x, y }) => flatPoint(x, y)));
        expect(outlineArea(outline)).toBeCloseTo(theirs.area(), 6);
        const sides = [...theirs.faces].reduce((sum, face) => sum + face.perimeter, 0);
        expect(perimeter(outline)).toBeCloseTo(sides, 8);
      }),
    );
  });

  it('agrees on the length and extent of circular arcs', () => {
    const angle = fc.integer({ min: 0, max: 628 }).map((n) => n / 100);
    fc.assert(
      fc.property(point, fc.integer({ min: 1, max: 400 }), angle, angle, fc.boolean(), (centre, radius, a, b, left) => {
        fc.pre(Math.abs(a - b) > 0.02 && Math.abs(a - b) < 6.2);
        const theirs = new FlatArc(flatPoint(centre.x, centre.y), radius, a, b, left);
        const at = (t: number) => p(centre.x + radius * Math.cos(t), centre.y + radius * Math.sin(t));
        const edge = edgeOf(at(a), { kind: 'arc', to: at(b), centre, turn: left ? 'left' : 'right' });
        expect(edgeLength(edge)).toBeCloseTo(theirs.length, 7);
        const reach = bounds({ edges: [edge] });
        expect(reach.minX).toBeCloseTo(theirs.box.xmin, 6);
        expect(reach.maxY).toBeCloseTo(theirs.box.ymax, 6);
      }),
    );
  });
});

describe('against bezier-js', () => {
  it('agrees on the length and extent of cubics', () => {
    fc.assert(
      fc.property(cubic, (c) => {
        const theirs = asBezier(c);
        // Its length is one fixed 24-point rule, good on curves cut fine enough, except right at a cusp.
        const inParts = (n: number) =>
          Array.from({ length: n }, (_, i) => theirs.split(i / n, (i + 1) / n).length()).reduce((x, y) => x + y, 0);
        const expected = inParts(64);
        const edge = edgeOf(c.start, { kind: 'cubic', control1: c.control1, control2: c.control2, to: c.to });
        const settled = Math.abs(inParts(128) - expected) < 1e-8;
        expect(Math.abs(edgeLength(edge) - expected)).toBeLessThan(settled ? 1e-5 : 5e-4);
        const box = theirs.bbox();
        const reach = bounds({ edges: [edge] });
        expect(reach.minX).toBeCloseTo(box.x.min, 6);
        expect(reach.maxX).toBeCloseTo(box.x.max, 6);
        expect(reach.minY).toBeCloseTo(box.y.min, 6);
        expect(reach.maxY).toBeCloseTo(box.y.max, 6);
      }),
    );
  });

  it('lies at the same points', () => {
    fc.assert(
      fc.property(cubic, fc.integer({ min: 0, max: 100 }), (c, percent) => {
        const theirs = asBezier(c).get(percent / 100);
        const ours = pointOn(c.start, { kind: 'cubic', ...c }, percent / 100);
        expect(Math.hypot(ours.x - theirs.x, ours.y - theirs.y)).toBeLessThan(1e-9);
      }),
    );
  });
});

describe('lengths', () => {
  it('finds the perimeter of an ellipse as the complete elliptic integral does', () => {
    // 4a·E(e) by the arithmetic-geometric mean (Abramowitz & Stegun 17.6).
    const [a, b] = [50, 30];
    let [x, y, sum, power] = [1, b / a, 0, 0.5];
    let c = Math.sqrt(1 - (b / a) ** 2);
    for (let i = 0; i < 8; i++) {
      sum += power * c * c;
      [x, y, c, power] = [(x + y) / 2, Math.sqrt(x * y), (x - y) / 2, power * 2];
    }
    expect(perimeter(present(ellipse(2 * a, 2 * b)))).toBeCloseTo(4 * a * (Math.PI / (2 * x)) * (1 - sum), 6);
  });

  it('measures a cubic with a cusp', () => {
    // x = y^(2/3)-like: both controls crossed so that the curve stops and turns back at its middle.
    const edge = edgeOf(p(0, 0), { kind: 'cubic', control1: p(100, 100), control2: p(0, 100), to: p(100, 0) });
    const dense = flattenEdge(edge, 1e-7);
    const summed = dense.slice(1).reduce((sum, q, i) => sum + Math.hypot(q.x - present(dense[i]).x, q.y - present(dense[i]).y), 0);
    expect(edgeLength(edge)).toBeCloseTo(summed, 3);
  });
});

describe('pointAlong', () => {
  it('measures from the end the edge says and keeps the outline direction', () => {
    const outline = box(200, 120, { top_left: { kind: 'round', radius: 20 } });
    const along = (name: string, mm: number) => pointAlong(present(outline.edges.find((e) => e.name === name)), mm);
    expect(along('bottom', 30)).toEqual({ point: p(30, 0), tangent: p(1, 0) });
    expect(along('top', 30)).toEqual({ point: p(50, 120), tangent: p(-1, 0) });
    expect(along('left', 25)?.point.y).toBeCloseTo(25, 12);
    expect(along('left', -0.1)).toBeUndefined();
    expect(along('left', 100.1)).toBeUndefined();
    expect(along('left', Number.NaN)).toBeUndefined();
  });

  it('divides any curve where asked', () => {
    const ellipticalEdge = present(present(ellipse(130, 70, 20, 300)).edges[0]);
    const wave: Edge = edgeOf(p(0, 0), { kind: 'cubic', control1: p(10, 90), control2: p(150, -60), to: p(140, 40) });
    for (const edge of [ellipticalEdge, wave]) {
      const total = edgeLength(edge);
      for (const share of [0, 0.1, 0.33, 0.5, 0.77, 1]) {
        const at = present(pointAlong(edge, total * share));
        // The length of a dense polyline up to that point must be what was asked for.
        const dense = flattenEdge(edge, 1e-6);
        let walked = 0;
        let best = { gap: Infinity, walked: 0 };
        dense.forEach((q, i) => {
          const before = dense[i - 1];
          if (before) walked += Math.hypot(q.x - before.x, q.y - before.y);
          const gap = Math.hypot(q.x - at.point.x, q.y - at.point.y);
          if (gap < best.gap) best = { gap, walked };
        });
        expect(Math.abs(best.walked - total * share)).toBeLessThan(best.gap + 1e-3);
        expect(Math.hypot(at.tangent.x, at.tangent.y)).toBeCloseTo(1, 12);
      }
    }
  });
});

describe('area and flattening', () => {
  it('gives curves the area their polygons approach', () => {
    fc.assert(
      fc.property(fc.array(coordinate, { minLength: 4, maxLength: 4 }), (v) => {
        const [a, b, c, d] = v.map((x) => x / 10) as [number, number, number, number];
        const outline = path(p(0, 0), [
          { segment: { kind: 'cubic', control1: p(60 + a, b), control2: p(140 + c, d), to: p(200, 0) } },
          { segment: { kind: 'arc', to: p(0, 0), centre: p(100, 0), turn: 'left' } },
        ]);
        fc.pre(outline !== undefined);
        const made = present(outline);
        const fine = polygonArea(flattenOutline(made, 1e-5).polygon);
        expect(Math.abs(outlineArea(made) - fine)).toBeLessThan(0.02);
      }),
    );
  });

  it('keeps within the tolerance and says which corners belong to which edge', () => {
    const outline = present(ellipse(300, 120, 10, 200));
    const { polygon: corners, ranges } = flattenOutline(outline);
    expect(ranges.map(({ name }) => name)).toEqual(['arc', 'chord']);
    expect(ranges.at(-1)?.to).toBe(corners.length);
    const [arc] = ranges;
    const first = present(outline.edges[0]);
    expect(corners[present(arc).from]).toEqual(first.start);
    expect(corners[present(arc).to]).toEqual(present(outline.edges[1]).start);
    // Every point of the true curve is within 0.01 mm of a chord.
    const dense = flattenEdge(first, 1e-6);
    const coarse = flattenEdge(first);
    for (const q of dense) {
      const nearest = Math.min(
        ...coarse.slice(1).map((b, i) => {
          const a = present(coarse[i]);
          const [ux, uy] = [b.x - a.x, b.y - a.y];
          const t = Math.min(1, Math.max(0, ((q.x - a.x) * ux + (q.y - a.y) * uy) / (ux * ux + uy * uy)));
          return Math.hypot(a.x + t * ux - q.x, a.y + t * uy - q.y);
        }),
      );
      expect(nearest).toBeLessThanOrEqual(0.01 + 1e-9);
    }
    expect(coarse.length).toBeLessThan(dense.length / 10);
  });
});
