import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseNumber } from '../../server/src/units/number-text.ts';
import { rational } from '../../server/src/units/rational.ts';

describe('parseNumber', () => {
  it.each([
    ['7', '7'], ['7.5', '15/2'], ['.5', '1/2'], ['1/4', '1/4'], ['7 1/2', '15/2'], ['7½', '15/2'], ['7 ½', '15/2'], ['½', '1/2'],
    ['7  1/2', '15/2'], ['10/4', '5/2'], ['0', '0'], ['007', '7'], ['0.1', '1/10'], ['2 ⅝', '21/8'], ['3 0/5', '3'],
  ])('reads %j as %s', (written, value) => {
    expect(parseNumber(written)?.equals(rational(value))).toBe(true);
  });

  // The Unicode Standard, Number Forms and Latin-1 Supplement: the value of each sign.
  it.each([
    ['¼', 1, 4], ['½', 1, 2], ['¾', 3, 4], ['⅓', 1, 3], ['⅔', 2, 3], ['⅕', 1, 5], ['⅖', 2, 5], ['⅗', 3, 5], ['⅘', 4, 5],
    ['⅙', 1, 6], ['⅚', 5, 6], ['⅛', 1, 8], ['⅜', 3, 8], ['⅝', 5, 8], ['⅞', 7, 8],
  ] as const)('knows %s', (sign, numerator, denominator) => {
    expect(parseNumber(sign)?.equals(rational(numerator, denominator))).toBe(true);
    expect(parseNumber(`2${sign}`)?.equals(rational(2 * denominator + numerator, denominator))).toBe(true);
  });

  it.each(['1/0', '7 1/0', '0/0', '3/000'])('has no value for %s', (written) => {
    expect(parseNumber(written)).toBeUndefined();
  });

  it('reads back any mixed number and any decimal', () => {
    fc.assert(fc.property(fc.nat(9999), fc.nat(63), fc.integer({ min: 1, max: 64 }), (whole, n, d) => {
      expect(parseNumber(`${whole} ${n}/${d}`)?.equals(rational(whole * d + n, d))).toBe(true);
      expect(parseNumber(`${whole}.${n}`)?.equals(rational(`${whole}.${n}`))).toBe(true);
    }));
  });
});
