import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { exactLength, millimetresIn, roundedFrom, showLength, showLengthUp, usualDisplay, type Display } from '../../server/src/units/length.ts';
import { rational, type Rational } from '../../server/src/units/rational.ts';

const inches = (text: string): Rational => rational(text).mul(millimetresIn.in);
const inchStep = (step: string): Display => ({ unit: 'in', step: inches(step) });
const eighth = inchStep('1/8');
const sixteenth = inchStep('1/16');
const thirtySecond = inchStep('1/32');
const millimetre: Display = { unit: 'mm', step: rational(1) };
const halfMillimetre: Display = { unit: 'mm', step: rational('0.5') };

const anyRational = fc.tuple(fc.bigInt({ min: -1_000_000_000_000n, max: 1_000_000_000_000n }), fc.bigInt({ min: 1n, max: 1_000_000n })).map(([n, d]) => rational(n, d));

describe('units', () => {
  // International yard and pound agreement, 1959; NIST Special Publication 811, Appendix B.
  it('have their exact definitions', () => {
    expect(millimetresIn.in.equals('25.4')).toBe(true);
    expect(millimetresIn.ft.equals('304.8')).toBe(true);
    expect(millimetresIn.yd.equals('914.4')).toBe(true);
    expect(millimetresIn.cm.equals(10)).toBe(true);
    expect(millimetresIn.m.equals(1000)).toBe(true);
    expect(millimetresIn.ft.equals(millimetresIn.in.mul(12))).toBe(true);
    expect(millimetresIn.yd.equals(millimetresIn.ft.mul(3))).toBe(true);
  });

  it('make 5/8 in exactly 15.875 mm', () => {
    expect(inches('5/8').toString()).toBe('15.875');
  });

  it('go round through one another without loss', () => {
    const names = ['mm', 'cm', 'm', 'in', 'ft', 'yd'] as const;
    const unit = fc.constantFrom(...names);
    fc.assert(fc.property(anyRational, unit, unit, (value, a, b) => {
      const inB = value.mul(millimetresIn[a]).div(millimetresIn[b]);
      expect(inB.mul(millimetresIn[b]).div(millimetresIn[a]).equals(value)).toBe(true);
    }));
  });
});

describe('showLength', () => {
  it.each([
    ['7.5', eighth, '7 1/2 in'],
    ['1/3', eighth, '3/8 in'], // 2.67 eighths
    ['1/3', sixteenth, '5/16 in'], // 5.33 sixteenths
    ['1/3', thirtySecond, '11/32 in'], // 10.67 thirty-seconds
    ['3', eighth, '3 in'],
    ['0', eighth, '0 in'],
    ['-5/8', eighth, '-5/8 in'],
  ])('shows %s in to the nearest step', (size, display, text) => {
    expect(showLength(inches(size), display)).toBe(text);
  });

  it.each<[string, Display, string]>([
    ['19.4', millimetre, '19 mm'],
    ['19.5', millimetre, '20 mm'],
    ['19.25', halfMillimetre, '19.5 mm'],
    ['19.24', halfMillimetre, '19 mm'],
    ['191', { unit: 'cm', step: rational(1) }, '19.1 cm'],
    ['197', { unit: 'cm', step: rational(5) }, '19.5 cm'],
  ])('shows %s mm to the nearest step', (size, display, text) => {
    expect(showLength(rational(size), display)).toBe(text);
  });

  it('takes halves away from zero on both sides', () => {
    expect(showLength(inches('1/16'), eighth)).toBe('1/8 in');
    expect(showLength(inches('-1/16'), eighth)).toBe('-1/8 in');
    expect(showLength(inches('3/16'), eighth)).toBe('1/4 in');
    expect(showLength(rational('-0.5'), millimetre)).toBe('-1 mm');
  });

  it('is never off by more than half a step', () => {
    const parse = (text: string): Rational => rational(text.replace(/ (in|mm)$/, '').replace(/^(-?)(\d+) (\d+\/\d+)$/, '$1$2 $3'));
    fc.assert(fc.property(anyRational, fc.constantFrom(eighth, sixteenth, thirtySecond, millimetre, halfMillimetre), (length, display) => {
      const shown = parse(showLength(length, display)).mul(millimetresIn[display.unit]);
      expect(shown.sub(length).abs().compare(display.step.div(2))).toBeLessThanOrEqual(0);
      expect(shown.div(display.step).d).toBe(1n);
    }));
  });
});

describe('showLengthUp', () => {
  it('goes to the next step that is not below', () => {
    expect(showLengthUp(inches('7 1/16'), eighth)).toBe('7 1/8 in');
    expect(showLengthUp(inches('7 1/8'), eighth)).toBe('7 1/8 in');
    expect(showLengthUp(rational('20.1'), millimetre)).toBe('21 mm');
    expect(showLengthUp(rational('20.1'), halfMillimetre)).toBe('20.5 mm');
  });

  it('is not tipped over by what flattening a curve adds', () => {
    expect(showLengthUp(rational('20.009'), millimetre)).toBe('20 mm');
    expect(showLengthUp(rational('20.02'), millimetre)).toBe('21 mm');
  });
});

describe('roundedFrom', () => {
  it('says nothing where nothing was rounded', () => {
    expect(roundedFrom(inches('7 1/2'), eighth)).toBeUndefined();
    expect(roundedFrom(rational('20.01'), millimetre)).toBeUndefined();
  });

  it('writes fractions that a tape has, and decimals for others', () => {
    expect(roundedFrom(inches('1 9/16'), eighth)).toBe('1 9/16 in');
    expect(roundedFrom(inches('3 1/3'), sixteenth)).toBe('3 1/3 in');
    expect(roundedFrom(inches('7 1/100'), eighth)).toBe('7.01 in');
    expect(roundedFrom(rational('8.255'), millimetre)).toBe('8.255 mm');
  });
});

describe('exact and usual', () => {
  it('writes a decimal that never ends as a fraction', () => {
    expect(exactLength(inches('7 1/3'), 'in')).toBe('7 1/3 in');
    expect(exactLength(inches('3 1/4'), 'cm')).toBe('8.255 cm');
    expect(exactLength(rational('1/3'), 'mm')).toBe('1/3 mm');
  });

  it('has the usual steps', () => {
    expect(usualDisplay('in').step.equals(inches('1/8'))).toBe(true);
    expect(usualDisplay('cm').step.equals(1)).toBe(true);
    expect(usualDisplay('mm').step.equals(1)).toBe(true);
  });
});
