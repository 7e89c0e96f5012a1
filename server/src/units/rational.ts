import Fraction from 'fraction.js';

/** An exact rational number, with numerator and denominator of any size. */
export type Rational = Fraction;

export const zero: Rational = new Fraction(0);
export const one: Rational = new Fraction(1);

export function rational(numerator: number | bigint | string, denominator: number | bigint = 1): Rational {
  return typeof numerator === 'string' ? new Fraction(numerator) : new Fraction(numerator, denominator);
}

/**
 * A rational within a millionth of a measured number: what comes from curves and roots has no exact value to keep, and
 * a millionth of a millimetre is far below anything that cloth can show.
 */
export function measured(value: number): Rational {
  return new Fraction(Math.round(value * 1e6), 1e6);
}

/** The whole multiple of `step`, which must be above zero, nearest to `value`; a half goes away from zero. */
export function nearestMultiple(value: Rational, step: Rational): Rational {
  // Whole numbers alone, without a fraction for every step on the way: every length that is shown comes by here.
  const [part, whole] = [value.n * step.d, value.d * step.n];
  const steps = (2n * part + whole) / (2n * whole);
  return new Fraction(value.s * steps * step.n, step.d);
}

/** The least whole multiple of `step` that is not below `value`. */
export function multipleAtLeast(value: Rational, step: Rational): Rational {
  return value.div(step).ceil().mul(step);
}
