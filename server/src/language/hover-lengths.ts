import { showArea, showValue, type Value } from '../model/formulas/value.ts';
import { millimetresIn, roundedFrom, showLength, showLengthUp, usualDisplay, type Display } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';

const otherDisplay = (display: Display): Display => usualDisplay(display.unit === 'in' ? 'cm' : 'in');

/** A length in the pattern's unit and in the other one. */
export const bothUnits = (amount: Rational, display: Display): string => `${showLength(amount, display)} (${showLength(amount, otherDisplay(display))})`;

/** The same, neither shown less than it is. */
export const bothUnitsUp = (amount: Rational, display: Display): string => `${showLengthUp(amount, display)} (${showLengthUp(amount, otherDisplay(display))})`;

/** An area in the pattern's unit and in the other one. */
export const bothAreas = (amount: Rational, display: Display): string => `${showArea(amount, display)} (${showArea(amount, otherDisplay(display))})`;

/** A value in both units, and what it was rounded from. */
export function shown(value: Value, display: Display): string {
  if (value.dimension === 'area') return bothAreas(value.amount, display);
  if (value.dimension !== 'length') return showValue(value, display);
  const from = value.exact ? roundedFrom(value.amount, display) : undefined;
  return `${bothUnits(value.amount, display)}${from === undefined ? '' : `, ${isWrittenExactly(value.amount, display) ? 'exactly' : 'about'} ${from}`}`;
}

/** Whether what a length was rounded from is written as it is: as a fraction that a tape may have, or in three decimals. */
function isWrittenExactly(amount: Rational, { unit }: Display): boolean {
  const { d } = amount.div(millimetresIn[unit]);
  return d <= 64n || 1000n % d === 0n;
}

/** What a formula must give where it stands. */
export type Wanted = 'length' | 'area' | 'angle' | undefined;

/** A bare number of a file takes the file's unit from its place. */
export function inPlace(value: Value, wanted: Wanted, { unit }: Display): Value {
  if (value.dimension !== 'bare' || wanted === undefined) return value;
  const factor = millimetresIn[unit];
  const amount = wanted === 'length' ? value.amount.mul(factor) : wanted === 'area' ? value.amount.mul(factor).mul(factor) : value.amount;
  return { ...value, dimension: wanted, amount };
}
