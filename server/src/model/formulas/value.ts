import type { Place } from '../../problems/place.ts';
import { exactLength, mixedNumber, decimalNumber, millimetresIn, showLength, type Display } from '../../units/length.ts';
import { nearestMultiple, rational, type Rational } from '../../units/rational.ts';

/** What a value measures. A `bare` number was written without a unit and takes one where a length or angle is needed. */
export type Dimension = 'bare' | 'number' | 'length' | 'area' | 'angle';

/**
 * A computed value with its trail: where it was written, and the values that it came from. Lengths are in millimetres,
 * areas in square millimetres, angles in degrees.
 */
export interface Value {
  readonly dimension: Dimension;
  readonly amount: Rational;
  /** False for what was measured along a curve or taken as a root: it is right to a millionth of its unit. */
  readonly exact: boolean;
  readonly place: Place;
  /** The name it was reached by: `cover_w`, `cover.top`. */
  readonly name?: string;
  readonly from: readonly Value[];
}

export const dimensionNames: Readonly<Record<Dimension, string>> = {
  bare: 'a bare number',
  number: 'a count or ratio',
  length: 'a length',
  area: 'an area',
  angle: 'an angle',
};

/** The dimension of a product; undefined where it has no meaning here. */
export function productDimension(a: Dimension, b: Dimension): Dimension | undefined {
  if (a === 'bare') return b;
  if (b === 'bare') return a;
  if (a === 'number') return b;
  if (b === 'number') return a;
  return a === 'length' && b === 'length' ? 'area' : undefined;
}

/** The dimension of a quotient; undefined where it has no meaning here. */
export function quotientDimension(a: Dimension, b: Dimension): Dimension | undefined {
  if (b === 'bare' || b === 'number') return a === 'bare' ? b : a;
  if (a === b) return 'number';
  return a === 'area' && b === 'length' ? 'length' : undefined;
}

/** A value as people read it: lengths rounded to the file's step, other kinds as they are. */
export function showValue(value: Value, display: Display): string {
  switch (value.dimension) {
    case 'length':
      return showLength(value.amount, display);
    case 'area':
      return showArea(value.amount, display);
    case 'angle':
      return `${decimalNumber(nearestMultiple(value.amount, rational(1, 100)))}°`;
    default:
      return value.exact ? exactNumber(value.amount) : decimalNumber(nearestMultiple(value.amount, rational(1, 1000)));
  }
}

/** `1 1/2`, `1/3`, `1.05`: fifths, hundredths and the like as decimals, since nobody writes them as fractions. */
const exactNumber = (amount: Rational): string => (amount.d % 5n === 0n && 1000n % amount.d === 0n ? decimalNumber(amount) : mixedNumber(amount));

/** A value without rounding, where it is exact. */
export function exactValue(value: Value, display: Display): string {
  return value.dimension === 'length' && value.exact ? exactLength(value.amount, display.unit) : showValue(value, display);
}

/** An area in square inches or square centimetres, to a tenth. */
export function showArea(squareMillimetres: Rational, display: Display): string {
  const [unit, label] = display.unit === 'in' ? [millimetresIn.in, 'sq in'] : [millimetresIn.cm, 'sq cm'];
  return `${decimalNumber(nearestMultiple(squareMillimetres.div(unit.mul(unit)), rational(1, 10)))} ${label}`;
}
