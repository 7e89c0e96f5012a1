import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { flattenOutline } from '../../server/src/geometry/flatten.ts';
import { isCongruent } from '../../server/src/geometry/congruence.ts';
import { outlineArea, perimeter } from '../../server/src/geometry/measure.ts';
import { path } from '../../server/src/geometry/path.ts';
import type { Outline, Point } from '../../server/src/geometry/shape.ts';
import {
  followedBy, mirroring, mirroringAcross, moveOutline, movePoint, movePolyline, rotation, scaling, translation,
} from '../../server/src/geometry/transform.ts';
import { box, isClosed, coordinate, p, point, present } from './shapes.ts';

/** One of every kind of segment. */
const mixed = present(
  path(p(0, 0), [
    { segment: { kind: 'line', to: p(100, 0) }, name: 'base' },
    { segment: { kind: 'arc', to: p(120, 20), centre: p(100, 20), turn: 'left' } },
    { segment: { kind: 'elliptical', to: p(60, 50), centre: p(60, 20), radiusX: 60, radiusY: 30, startAngle: 0, endAngle: Math.PI / 2 } },
    { segment: { kind: 'cubic', control1: p(40, 30), control2: p(20, 70), to: p(0, 40) }, name: 'wave' },
  ]),
);

const flat = (outline: Outline) => flattenOutline(outline, 0.001).polygon;
const near = (a: Point, b: Point) => Math.hypot(a.x - b.x, a.y - b.y) < 1e-9;

describe('transforms', () => {
  it('leave area and length alone when they only move', () => {
    fc.assert(
      fc.property(coordinate, coordinate, fc.double({ min: -7, max: 7, noNaN: true }), point, (dx, dy, angle, about) => {
        for (const t of [translation(dx, dy), rotation(angle, about), mirroring(dx)]) {
          const moved = moveOutline(t, mixed);
          expect(isClosed(moved)).toBe(true);
          expect(outlineArea(moved)).toBeCloseTo(outlineArea(mixed), 3);
          expect(perimeter(moved)).toBeCloseTo(perimeter(mixed), 4);
        }
      }),
      { numRuns: 50 },
    );
  });

  it('move curves to where they move the curve’s points', () => {
    for (const t of [rotation(0.7, p(3, 9)), rotation(Math.PI / 2), rotation(-Math.PI / 2), rotation(Math.PI), mirroring(12), mirroringAcross(p(0, 0), p(1, 1)), mirroringAcross(p(0, 5), p(3, 7)), scaling(1.5), scaling(1.04, 0.97)]) {
      const ours = flat(moveOutline(t, mixed));
      expect(isCongruent(ours, movePolyline(t, flat(mixed)), 'none', 0.005) || isCongruent(ours, [...movePolyline(t, flat(mixed))].reverse(), 'none', 0.005)).toBe(true);
    }
  });

  it('mirrored twice is itself, exactly', () => {
    fc.assert(
      fc.property(fc.integer({ min: -500, max: 500 }), (x) => {
        const plain = box(120, 80, { top_left: { kind: 'round', radius: 16 }, bottom_right: { kind: 'box', across: 8, up: 4 } });
        expect(moveOutline(mirroring(x), moveOutline(mirroring(x), plain))).toEqual(plain);
      }),
    );
    const twice = moveOutline(mirroring(5), moveOutline(mirroring(5), mixed));
    expect(twice.edges.map(({ name }) => name)).toEqual(mixed.edges.map(({ name }) => name));
    expect(flat(twice).every((q, i) => near(q, present(flat(mixed)[i])))).toBe(true);
  });

  it('keeps a mirrored outline counter-clockwise and measured from matching ends', () => {
    const mirrored = moveOutline(mirroring(0), box(100, 60));
    expect(outlineArea(mirrored)).toBe(6000);
    expect(mirrored.edges.map(({ name }) => name)).toEqual(['left', 'top', 'right', 'bottom']);
    expect(mirrored.edges.at(-1)).toMatchObject({ start: p(-100, 0), measuredFrom: 'end' });
  });

  it('turns quarters exactly, keeping ellipses ellipses', () => {
    const turned = moveOutline(rotation(Math.PI / 2), box(100, 60));
    expect(turned.edges[1]?.start).toEqual(p(0, 100));
    const oval = moveOutline(rotation(Math.PI / 2), present(ellipse(100, 60)));
    expect(oval.edges[0]?.segments.every(({ kind }) => kind === 'elliptical')).toBe(true);
    const slanted = moveOutline(rotation(0.5), present(ellipse(100, 60)));
    expect(outlineArea(slanted)).toBeCloseTo(Math.PI * 50 * 30, 3);
    const stretched = moveOutline(scaling(1.1, 0.9), present(ellipse(100, 100)));
    expect(outlineArea(stretched)).toBeCloseTo(Math.PI * 55 * 45, 9);
  });

  it('composes in order', () => {
    const both = followedBy(rotation(0.4, p(2, 3)), translation(5, -1));
    expect(near(movePoint(both, p(7, 7)), movePoint(translation(5, -1), movePoint(rotation(0.4, p(2, 3)), p(7, 7))))).toBe(true);
  });
});
