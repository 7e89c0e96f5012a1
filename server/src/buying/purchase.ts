import type { Price, Purchase } from '../model/stock/purchase.ts';
import { decimalNumber, exactLength, millimetresIn, mixedNumber, showLength, type Display } from '../units/length.ts';
import { multipleAtLeast, one, rational, zero, type Rational } from '../units/rational.ts';

/** A measured length, never less than it is: whole micrometres, rounded up. */
export const micrometresUp = (millimetres: number): Rational => rational(Math.ceil(millimetres * 1000 - 1e-6), 1000);

/** A measured length, never more than it is. */
export const micrometresDown = (millimetres: number): Rational => rational(Math.max(0, Math.floor(millimetres * 1000 + 1e-6)), 1000);

/**
 * What must be bought to have so much after the first wash. Shrinkage is the loss as a share of the length before, as
 * AATCC TM135 defines it, so the need is divided by what is left: 3 yd at 5 % take 3.158 yd.
 */
export const beforeShrinking = (needed: Rational, shrinkage: Rational): Rational => needed.div(one.sub(shrinkage));

/** What a seller cuts for a length: whole steps, millimetres. Whatever is above a step takes the next one. */
export const roundedUpTo = (step: Rational, length: Rational): Rational => (length.compare(0) <= 0 ? zero : multipleAtLeast(length, step));

/** The price of a length in millimetres; undefined where the price is for something else than length. */
export function costOfLength(price: Price | undefined, millimetres: Rational): Rational | undefined {
  if (price === undefined) return undefined;
  const { per } = price;
  return per === 'yd' || per === 'm' || per === 'ft' ? price.amount.mul(millimetres.div(millimetresIn[per])) : undefined;
}

/** The price of so many panels, sheets or supplies; undefined where the price is for length. */
export function costOfCount(price: Price | undefined, count: Rational | number): Rational | undefined {
  if (price === undefined) return undefined;
  return price.per === 'panel' || price.per === 'sheet' || price.per === 'each' ? price.amount.mul(count) : undefined;
}

// ------------------------------------------------------------------------------------------------ words

export type SellingUnit = 'yd' | 'm' | 'ft' | 'in' | 'cm' | 'mm';

/** The unit that a seller measures a step in: an eighth of a yard is yards, ten centimetres are metres. */
export function sellingUnit(step: Rational, display: Display): SellingUnit {
  const yards = step.div(millimetresIn.yd);
  if (yards.d <= 16n && (yards.d & (yards.d - 1n)) === 0n) return 'yd';
  if (step.div(millimetresIn.ft).d === 1n) return 'ft';
  if (step.div(millimetresIn.cm).d === 1n) return 'm';
  return display.unit;
}

/** The unit of the lengths of a way of buying. */
export const unitOf = (purchase: Purchase, display: Display): SellingUnit =>
  purchase.form === 'lengths' ? sellingUnit(purchase.step, display) : display.unit;

/** A length to buy, exactly: `5/8 yd`, `1.3 m`. */
export function exactIn(millimetres: Rational, unit: SellingUnit): string {
  if (unit === 'in' || unit === 'cm' || unit === 'mm') return exactLength(millimetres, unit);
  const value = millimetres.div(millimetresIn[unit]);
  return `${unit === 'm' ? decimalNumber(value) : mixedNumber(value)} ${unit}`;
}

export const isMetric = (unit: SellingUnit): boolean => unit === 'm' || unit === 'cm' || unit === 'mm';

/** The step that something is sold in, as its seller says it, and about how long that is where the pattern goes by the other system of units: `1/8 yd (about 11.4 cm)`. */
export function stepText(step: Rational, display: Display): string {
  const unit = sellingUnit(step, display);
  const sold = exactIn(step, unit);
  return isMetric(unit) === isMetric(display.unit) ? sold : `${sold} (about ${showLength(step, display)})`;
}

/** A length to two decimals, rounded up where it was found and down where nothing can be under it. */
export function roughIn(millimetres: Rational, unit: SellingUnit, way: 'up' | 'down'): string {
  const hundredths = millimetres.div(millimetresIn[unit]).mul(100);
  // A thousandth of a hundredth is what micrometres leave over.
  const noise = rational(1, 1000);
  const whole = way === 'up' ? hundredths.sub(noise).ceil() : hundredths.add(noise).floor();
  return `${whole.div(100).valueOf().toFixed(2)} ${unit}`;
}

/** A sum of money, to two decimals (a half goes up), with its currency where the pattern gives one. */
export function moneyText(amount: Rational, currency: string | undefined): string {
  const text = amount.mul(100).add(rational(1, 2)).floor().div(100).valueOf().toFixed(2);
  return currency === undefined ? text : `${text} ${currency}`;
}
