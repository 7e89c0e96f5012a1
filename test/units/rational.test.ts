import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { measured, multipleAtLeast, nearestMultiple, rational } from '../../server/src/units/rational.ts';

const value = fc.tuple(fc.integer({ min: -1e9, max: 1e9 }), fc.integer({ min: 1, max: 1000 })).map(([n, d]) => rational(n, d));
const step = fc.tuple(fc.integer({ min: 1, max: 1000 }), fc.integer({ min: 1, max: 64 })).map(([n, d]) => rational(n, d));

describe('multiples', () => {
  it('nearest: whole, at most half a step off, and odd about zero', () => {
    fc.assert(fc.property(value, step, (v, s) => {
      const near = nearestMultiple(v, s);
      expect(near.div(s).d).toBe(1n);
      expect(near.sub(v).abs().compare(s.div(2))).toBeLessThanOrEqual(0);
      expect(nearestMultiple(v.neg(), s).equals(near.neg())).toBe(true);
      expect(nearestMultiple(near, s).equals(near)).toBe(true);
    }));
  });

  it('nearest: halves go away from zero', () => {
    fc.assert(fc.property(fc.nat(10_000), step, (n, s) => {
      const half = s.mul(rational(2 * n + 1, 2));
      expect(nearestMultiple(half, s).equals(s.mul(n + 1))).toBe(true);
      expect(nearestMultiple(half.neg(), s).equals(s.mul(-n - 1))).toBe(true);
    }));
  });

  it('at least: whole, not below, and less than a step above', () => {
    fc.assert(fc.property(value, step, (v, s) => {
      const up = multipleAtLeast(v, s);
      expect(up.div(s).d).toBe(1n);
      expect(up.compare(v)).toBeGreaterThanOrEqual(0);
      expect(up.sub(v).compare(s)).toBeLessThan(0);
    }));
  });
});

describe('measured', () => {
  it('is within half a millionth', () => {
    fc.assert(fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (v) => {
      expect(Math.abs(measured(v).valueOf() - v)).toBeLessThanOrEqual(6e-7);
    }));
  });
});
