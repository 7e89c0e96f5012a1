import type { Declaration, Expression, Unit } from '../../syntax/tree.ts';
import { decimalNumber, millimetresIn, mixedNumber, type Display } from '../../units/length.ts';
import { nearestMultiple, rational, type Rational } from '../../units/rational.ts';

/** The unit that a plain number is written with, empty for none; undefined of a formula. */
export function plainUnit(formula: Expression): Unit | '' | undefined {
  if (formula.kind === 'negation') return formula.operand.kind === 'number' ? plainUnit(formula.operand) : undefined;
  return formula.kind === 'number' ? (formula.unit ?? '') : undefined;
}

/** Why a formula is left as it is. */
export const setBy = ({ text }: Declaration, { start, end }: Expression): string => `set by a formula: ${text.slice(start, end).replace(/\s+/g, ' ')}`;

/** A length to the file's step, at least one where it is a size; exact. */
export function stepped(millimetres: Rational, { step }: Display, isSize: boolean): Rational {
  const near = nearestMultiple(millimetres, step);
  return isSize && near.compare(step) < 0 ? step : near;
}

/** A length as a number of the text: in the file's unit, which is said only where a unit was said before. */
export function writtenLength(millimetres: Rational, { unit }: Display, withUnit: boolean): string {
  const value = millimetres.div(millimetresIn[unit]);
  const number = unit === 'in' ? mixedNumber(value) : decimalNumber(value);
  return withUnit ? `${number} ${unit}` : number;
}

/** A share to a whole per cent. */
export const steppedShare = (share: Rational): Rational => nearestMultiple(share, rational(1, 100));

export const writtenShare = (share: Rational): string => `${decimalNumber(share.mul(100))}%`;
