import { limits } from '../problems/limits.ts';
import { millimetresIn, type FileUnit } from '../units/length.ts';
import { parseNumber } from '../units/number-text.ts';
import type { Rational } from '../units/rational.ts';
import type { OtherWidth } from './plan.ts';

/**
 * Widths as a person lists them, `44 in, 60 in = 12.50`: each a length, in the given unit where none is named, with what
 * it costs after an equals sign. What can’t be read, or is more than {@link limits.otherWidths}, is given back as it is.
 */
export function readWidths(text: string, unit: FileUnit): { readonly widths: readonly OtherWidth[]; readonly unread: readonly string[] } {
  const widths: OtherWidth[] = [];
  const unread: string[] = [];
  for (const part of text.split(/[,;]/).map((one) => one.trim()).filter((one) => one !== '')) {
    const width = widths.length < limits.otherWidths ? readWidth(part, unit) : undefined;
    if (width === undefined) unread.push(part);
    else if (!widths.some(({ nominal }) => nominal.equals(width.nominal))) widths.push(width);
  }
  return { widths, unread };
}

/** One width, `54in` or `54in = 12.50`; undefined where it can’t be read or is none. */
export function readWidth(text: string, unit: FileUnit): OtherWidth | undefined {
  const [length = '', price, ...more] = text.split('=');
  const nominal = readLength(length, unit);
  const amount = price === undefined ? undefined : numberOf(price);
  if (more.length > 0 || nominal === undefined || nominal.compare(0) <= 0 || (price !== undefined && amount === undefined)) return undefined;
  return { nominal, price: amount };
}

/** A length as a person types it, millimetres; undefined where it can’t be read, is negative or more than {@link limits.typedLength}. */
export function readLength(text: string, unit: FileUnit): Rational | undefined {
  const [, digits = '', named] = /^\s*(.*?)\s*(in|cm|mm|m|yd|ft)?\s*$/.exec(text) ?? [];
  const length = numberOf(digits)?.mul(millimetresIn[(named ?? unit) as keyof typeof millimetresIn]);
  return length === undefined || length.compare(limits.typedLength) > 0 ? undefined : length;
}

/** A number as the language writes it, never negative. */
function numberOf(digits: string): Rational | undefined {
  const text = digits.trim();
  return /^(\d{1,9}(\.\d{1,9})?|\.\d{1,9}|(\d{1,9} +)?\d{1,9}\/0*[1-9]\d{0,8}|\d{0,9} *[\u00BC-\u00BE\u2153-\u215E])$/u.test(text) ? parseNumber(text) : undefined;
}
