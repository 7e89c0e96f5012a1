import type { CutLine } from '../model/piece/cut-line.ts';
import { sizeOfCut } from '../model/piece/size.ts';
import { cutSizeText as sizeTextOf, measuredCut } from '../table/cut-rows.ts';
import { figure, measureSize } from '../table/figures.ts';
import { exactLength, millimetresIn, usualDisplay, type Display, type FileUnit } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import { sidesText } from '../units/sides.ts';

/** Reviewers read either system, so a comparison has every length in both. */
export const bothUnits = (display: Display): Display => ({ ...display, also: display.also ?? (display.unit === 'in' ? 'cm' : 'in') });

/** The size of what is cut, in both units: `9 1/2 in (24.1 cm) × 7 in (17.8 cm)`. */
export const cutSizeText = (line: CutLine, display: Display): string => sizeTextOf(line, measuredCut(line, bothUnits(display)));

/** The same to a thousandth of the unit, where a change is finer than the pattern's step. */
export function fineSizeText(line: CutLine, display: Display): string {
  const { width, height, circle } = measureSize(sizeOfCut(line), display);
  const fine = (value: number): string => `${Math.round(value * 1000) / 1000} ${display.unit}`;
  return sidesText(circle, fine(width.value), fine(height.value));
}

/** A length as it was written, without rounding, in both units: `58 in (147.32 cm)`; in the other unit only where that has a fraction for it. */
export function inBothUnits(millimetres: Rational, display: Display): string {
  const { unit, also } = bothUnits(display);
  return `${exactLength(millimetres, unit)}${also === undefined ? '' : ` (${asNearAsRead(millimetres, also)})`}`;
}

/** A tape has halves of an inch down to its 64th. */
function asNearAsRead(millimetres: Rational, unit: FileUnit): string {
  return unit === 'in' && 64n % millimetres.div(millimetresIn.in).d !== 0n ? figure(millimetres, usualDisplay(unit)) : exactLength(millimetres, unit);
}
