import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isCongruent, isMirrorImageOf, isSymmetric } from '../../server/src/geometry/congruence.ts';
import { ellipse } from '../../server/src/geometry/ellipse.ts';
import { flattenOutline } from '../../server/src/geometry/flatten.ts';
import type { Polygon } from '../../server/src/geometry/shape.ts';
import { mirroring, moveOutline, movePolyline, rotation } from '../../server/src/geometry/transform.ts';
import { box, p, present, starShaped } from './shapes.ts';

const rectangle: Polygon = [p(0, 0), p(100, 0), p(100, 60), p(0, 60)];
/** An L leaning one way only. */
const hook: Polygon = [p(0, 0), p(60, 0), p(60, 20), p(20, 20), p(20, 90), p(0, 90)];
/** A slanted Z: its own image after half a turn, but not mirrored. */
const zed: Polygon = [p(0, 0), p(80, 0), p(110, 50), p(30, 50)];
const regular = (n: number): Polygon =>
  Array.from({ length: n }, (_, i) => p(50 * Math.cos((2 * Math.PI * i) / n), 50 * Math.sin((2 * Math.PI * i) / n)));

describe('symmetry', () => {
  it('is judged by the turns allowed', () => {
    expect(isSymmetric(rectangle, 'none')).toBe(true);
    expect(isSymmetric(hook, 'any')).toBe(false);
    expect(isSymmetric(zed, 'any')).toBe(false);
    // Symmetric about a level axis only: mirrored left to right it must be turned half round.
    const arrow: Polygon = [p(0, 0), p(70, 0), p(100, 30), p(70, 60), p(0, 60)];
    expect([isSymmetric(arrow, 'none'), isSymmetric(arrow, 'half'), isSymmetric(arrow, 'any')]).toEqual([false, true, true]);
    const slanted = movePolyline(rotation(0.37), arrow);
    expect([isSymmetric(slanted, 'none'), isSymmetric(slanted, 'half'), isSymmetric(slanted, 'any')]).toEqual([false, false, true]);
  });

  it('does not mind curves, their flattening, or extra corners', () => {
    const piece = box(120, 70, { top_left: { kind: 'round', radius: 25 }, top_right: { kind: 'round', radius: 25 } });
    const fine = flattenOutline(piece, 0.001).polygon;
    const coarse = flattenOutline(piece, 0.03).polygon;
    expect(isSymmetric(fine, 'none')).toBe(true);
    expect(isMirrorImageOf(fine, coarse, 'none')).toBe(true);
    const lopsided = flattenOutline(box(120, 70, { top_left: { kind: 'round', radius: 25 }, top_right: { kind: 'round', radius: 24.7 } })).polygon;
    expect(isSymmetric(lopsided, 'none')).toBe(false);
    expect(isCongruent(rectangle, [p(100, 0), p(100, 30), p(100, 60), p(0, 60), p(0, 0), p(40, 0)], 'none')).toBe(true);
  });

  it('notices less than a tenth of a millimetre', () => {
    const nudged = rectangle.map((q, i) => (i === 2 ? p(100.2, 60) : q));
    expect(isCongruent(rectangle, nudged, 'any')).toBe(false);
    expect(isCongruent(rectangle, nudged, 'any', 0.3)).toBe(true);
  });

  it('finds the turn of shapes that many turns leave alike', () => {
    for (const n of [3, 4, 5, 6, 7, 8, 12]) {
      const turned = movePolyline(rotation(0.123, p(7, 3)), regular(n));
      expect(isCongruent(regular(n), turned, 'any'), `${n} corners`).toBe(true);
      expect(isSymmetric(turned, 'any'), `${n} corners`).toBe(true);
    }
    expect(isSymmetric(flattenOutline(present(ellipse(90, 90))).polygon, 'any')).toBe(true);
    expect(isCongruent(regular(6), regular(12), 'any')).toBe(false);
  });

  it('recognises any shape turned, and mirrored only when asked', () => {
    fc.assert(
      fc.property(starShaped, fc.double({ min: 0, max: 6.28, noNaN: true }), fc.nat(20), (shape, angle, first) => {
        const turned = movePolyline(rotation(angle, p(11, -4)), shape);
        const k = first % turned.length;
        const moved = [...turned.slice(k), ...turned.slice(0, k)];
        expect(isCongruent(shape, moved, 'any')).toBe(true);
        expect(isMirrorImageOf(shape, [...movePolyline(mirroring(3), moved)].reverse(), 'any')).toBe(true);
      }),
    );
    expect(isCongruent(hook, [...movePolyline(mirroring(0), hook)].reverse(), 'any')).toBe(false);
    expect(isMirrorImageOf(hook, [...movePolyline(mirroring(0), hook)].reverse(), 'none')).toBe(true);
    const outline = present(ellipse(100, 60, 20, 200));
    expect(isMirrorImageOf(flattenOutline(outline).polygon, flattenOutline(moveOutline(mirroring(9), outline)).polygon, 'none')).toBe(true);
  });
});
