import { measured, multipleAtLeast, nearestMultiple, rational, type Rational } from './rational.ts';

/**
 * Exact lengths of the units in millimetres: 1 in = 25.4 mm and 1 yd = 0.9144 m (international yard and pound
 * agreement of 1959; NIST SP 811).
 */
export const millimetresIn = {
  mm: rational(1),
  cm: rational(10),
  m: rational(1000),
  in: rational(254, 10),
  ft: rational(3048, 10),
  yd: rational(9144, 10),
} as const;

/** A unit that a file may be written and shown in. */
export type FileUnit = 'in' | 'cm' | 'mm';

/** How a file shows its lengths: rounded to the nearest whole number of steps, written in the unit. */
export interface Display {
  readonly unit: FileUnit;
  /** In millimetres. */
  readonly step: Rational;
  /** A unit that exports give every length in, too, to its usual step. */
  readonly also?: FileUnit;
}

/** The usual steps: an eighth of an inch, or a millimetre (common practice, no source). */
export function usualDisplay(unit: FileUnit): Display {
  return { unit, step: unit === 'in' ? millimetresIn.in.div(8) : millimetresIn.mm };
}

/** A length as people read it, to the nearest step: `7 1/2 in`, `19.1 cm`. */
export function showLength(millimetres: Rational, display: Display): string {
  return withUnit(nearestMultiple(millimetres, display.step), display.unit);
}

/** A difference as people read it: finer than a size, or most would read as nothing, by two halvings of a fraction or one more decimal. */
export const showFinely = (millimetres: Rational, display: Display): string =>
  showLength(millimetres, { ...display, step: display.step.div(display.unit === 'in' ? 4 : 10) });

/** A length as people read it, to the next step that is not below it: for what something must fit into. */
export function showLengthUp(millimetres: Rational, display: Display): string {
  // What curves add by flattening must not tip a size over to the next step.
  return withUnit(multipleAtLeast(millimetres.sub(flattening), display.step), display.unit);
}

/** Lengths along flattened curves are right to about this much, in millimetres; no step is nearly as fine. */
const flattening = rational(1, 100);

/**
 * What a shown length was rounded from; undefined where rounding changed nothing. A fraction of an inch that a tape
 * doesn't have is written as a decimal.
 */
export function roundedFrom(millimetres: Rational, display: Display): string | undefined {
  if (!isRounded(millimetres, display)) return undefined;
  const value = millimetres.div(millimetresIn[display.unit]);
  if (value.d <= 64n) return exactLength(millimetres, display.unit);
  return `${decimalNumber(nearestMultiple(value, rational(1, 1000)))} ${display.unit}`;
}

/** Whether a length is shown otherwise than it is. */
export const isRounded = (millimetres: Rational, { step }: Display): boolean => nearestMultiple(millimetres, step).sub(millimetres).abs().compare(flattening) > 0;

/**
 * A measured length as the one that was meant: what comes within a micrometre of a 64th of an inch, or of a tenth of
 * a millimetre, is that.
 */
export function asWritten(millimetres: number, unit: FileUnit): Rational {
  const part = unit === 'in' ? millimetresIn.in.div(64) : millimetresIn.mm.div(10);
  const found = measured(millimetres);
  const near = nearestMultiple(found, part);
  return Math.abs(near.valueOf() - millimetres) <= 0.001 ? near : found;
}

const withUnit = (millimetres: Rational, unit: FileUnit): string => `${writeNumber(millimetres.div(millimetresIn[unit]), unit)} ${unit}`;

/** A length exactly as it is, in the unit: `7 1/3 in`, `8.255 cm`. A decimal that never ends is written as a fraction. */
export function exactLength(millimetres: Rational, unit: FileUnit): string {
  return withUnit(millimetres, unit);
}

function writeNumber(value: Rational, unit: FileUnit): string {
  return unit === 'in' ? mixedNumber(value) : decimalNumber(value);
}

/** `7 1/2`, `-1/8`, `3`. */
export function mixedNumber(value: Rational): string {
  return value.toFraction(true);
}

/** `19.1`; a value without a finite decimal form is written as a mixed number. */
export function decimalNumber(value: Rational): string {
  const text = value.toString();
  return text.includes('(') ? mixedNumber(value) : text;
}
