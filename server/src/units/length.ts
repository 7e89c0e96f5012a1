import { nearestMultiple, rational, type Rational } from './rational.ts';

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
}

/** The usual steps: an eighth of an inch, or a millimetre (common practice, no source). */
export function usualDisplay(unit: FileUnit): Display {
  return { unit, step: unit === 'in' ? millimetresIn.in.div(8) : millimetresIn.mm };
}

export interface ShownLength {
  /** With its unit: `7 1/2 in`, `19.1 cm`. */
  readonly text: string;
  /** Whether the text says another length than the exact one. */
  readonly rounded: boolean;
}

/** A length as people read it. */
export function showLength(millimetres: Rational, display: Display): ShownLength {
  const shown = nearestMultiple(millimetres, display.step);
  return { text: `${writeNumber(shown.div(millimetresIn[display.unit]), display.unit)} ${display.unit}`, rounded: !shown.equals(millimetres) };
}

/** A length exactly as it is, in the unit: `7 1/3 in`, `8.255 cm`. A decimal that never ends is written as a fraction. */
export function exactLength(millimetres: Rational, unit: FileUnit): string {
  return `${writeNumber(millimetres.div(millimetresIn[unit]), unit)} ${unit}`;
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
