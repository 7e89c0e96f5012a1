import { asWritten, exactLength, isRounded, millimetresIn, showLength, showLengthUp, usualDisplay, type Display } from '../units/length.ts';
import type { ExactSize } from '../model/piece/piece.ts';
import type { Size } from '../model/piece/size.ts';
import type { Rational } from '../units/rational.ts';
import { sidesText } from '../units/sides.ts';

/** A length in words and as a number, for people and for programs. */
export interface Measure {
  /** `7 1/2 in`, `about 7 5/8 in (exactly 7 9/16 in)`. */
  readonly text: string;
  /** Of the unit; to a millionth of it. */
  readonly value: number;
  readonly unit: Display['unit'];
}

export interface MeasuredSize {
  readonly width: Measure;
  readonly height: Measure;
  /** Whether it is a circle, of which both are the diameter. */
  readonly circle: boolean;
}

/** A length or a rational one, in millimetres. */
type Millimetres = number | Rational;

const rationalOf = (length: Millimetres, { unit }: Display): Rational => (typeof length === 'number' ? asWritten(length, unit) : length);

/**
 * A length to the nearest step. What is rounded says `about`, and from what where that is a length that one would write:
 * on a curve nobody needs it. A pattern that asks for two units has the other in brackets.
 */
export function figure(length: Millimetres, display: Display): string {
  return figureOf(length, rationalOf(length, display), display);
}

function figureOf(length: Millimetres, millimetres: Rational, display: Display): string {
  const isAbout = isRounded(millimetres, display);
  const exactly = isAbout && isWritten(millimetres, display) ? [`exactly ${exactLength(millimetres, display.unit)}`] : [];
  const other = display.also === undefined ? [] : [inOther(length, usualDisplay(display.also))];
  const more = [...exactly, ...other];
  return `${nearest(millimetres, display, isAbout)}${more.length === 0 ? '' : ` (${more.join('; ')})`}`;
}

function inOther(length: Millimetres, display: Display): string {
  const millimetres = rationalOf(length, display);
  return nearest(millimetres, display, isRounded(millimetres, display));
}

const nearest = (millimetres: Rational, display: Display, isAbout: boolean): string => `${isAbout ? 'about ' : ''}${showLength(millimetres, display)}`;

/** A length to the next step that is not below it, for what something fits within. */
export function figureUp(length: Millimetres, display: Display): string {
  const up = (one: Display): string => showLengthUp(rationalOf(length, one), one);
  return `${up(display)}${display.also === undefined ? '' : ` (${up(usualDisplay(display.also))})`}`;
}

function isWritten(millimetres: Rational, { unit }: Display): boolean {
  const value = millimetres.div(millimetresIn[unit]);
  return unit === 'in' ? value.d <= 64n : value.mul(100).d === 1n;
}

export function measure(length: Millimetres, display: Display): Measure {
  const millimetres = rationalOf(length, display);
  return { text: figureOf(length, millimetres, display), ...valueOf(millimetres, display) };
}

/** The same where the text says what it fits within. */
export function measureUp(length: Millimetres, display: Display): Measure {
  return { text: figureUp(length, display), ...valueOf(rationalOf(length, display), display) };
}

function valueOf(millimetres: Rational, { unit }: Display): Omit<Measure, 'text'> {
  const value = millimetres.div(millimetresIn[unit]).valueOf();
  return { value: Math.round(value * 1e6) / 1e6 || 0, unit };
}

/** Both sides of something; what was measured is told as what was meant. */
export function measureSize({ width, height, exact, circle = false }: ExactSize & Partial<Pick<Size, 'circle'>>, display: Display, measured = measure): MeasuredSize {
  const side = (length: Rational): Millimetres => (exact ? length : length.valueOf());
  return { width: measured(side(width), display), height: measured(side(height), display), circle };
}

/** Width, then height: `9 1/2 in × 7 in`; of a circle `circle, 11 in across`. */
export const sizeText = ({ width, height, circle }: MeasuredSize): string => sidesText(circle, width.text, height.text);

/** Remarks in one line: `not lined; press it`. A sentence has no full stop where another follows. */
export const inOneLine = (remarks: readonly string[]): string => remarks.map((remark, index) => (index < remarks.length - 1 ? remark.replace(/(?<=[^.])\.$/, '') : remark)).join('; ');

/** `cloth, lining and cork`. */
export const listed = (words: readonly string[]): string => (words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1] ?? ''}`);
