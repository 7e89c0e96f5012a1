import Fraction from 'fraction.js';
import type { Rational } from './rational.ts';

const vulgar: Readonly<Record<string, string>> = {
  '¼': '1/4', '½': '1/2', '¾': '3/4', '⅓': '1/3', '⅔': '2/3', '⅕': '1/5', '⅖': '2/5', '⅗': '3/5', '⅘': '4/5',
  '⅙': '1/6', '⅚': '5/6', '⅛': '1/8', '⅜': '3/8', '⅝': '5/8', '⅞': '7/8',
};

/**
 * The value of a number as written: `7`, `7.5`, `1/4`, `7 1/2`, `7½`.
 *
 * @returns undefined where a fraction divides by zero
 */
export function parseNumber(digits: string): Rational | undefined {
  if (digits.length > longestRemembered) return readNumber(digits);
  let known = read.get(digits);
  if (known === undefined && !read.has(digits)) {
    if (read.size > 10_000) read.clear();
    read.set(digits, (known = readNumber(digits)));
  }
  return known;
}

const longestRemembered = 40;

/** A spec says the same few numbers over and over. */
const read = new Map<string, Rational | undefined>();

function readNumber(digits: string): Rational | undefined {
  const plain = digits.replace(/[\u00BC-\u00BE\u2153-\u215E]/u, (sign) => ` ${vulgar[sign] ?? ''}`).trim().replace(/ +/g, ' ');
  if (/\/0+$/.test(plain)) return undefined;
  return new Fraction(plain.startsWith('.') ? `0${plain}` : plain);
}
