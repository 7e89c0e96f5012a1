import type { MaterialPlan, WidthPlan } from '../buying/plan.ts';
import { exactIn, isMetric, roughIn, unitOf, type SellingUnit } from '../buying/purchase.ts';
import { exactLength, millimetresIn, showLength, type Display } from '../units/length.ts';
import { measured, type Rational } from '../units/rational.ts';
import type { Leftover } from '../buying/leftovers.ts';
import type { LaidQuestion } from '../buying/lays.ts';
import { percent } from './material-rows.ts';

/** The figures of a plan as people read them, in the pattern’s own system of units; all empty where nothing fits. */
export interface PlanTexts {
  /** `0.62 yd`, `2 panels`: never less than the shortest lay. */
  readonly found: string;
  /** Never more than what none can be under; `the same` where no lay can be shorter than this one. */
  readonly noneUnder: string;
  /** `5/8 yd`, `2 panels`. */
  readonly buy: string;
}

/** Whether no lay can be shorter than the one found; a hundredth of a millimetre, what rounding of bounds may come to, is no difference to the maker. */
const isShortest = ({ shortest, noneUnder }: WidthPlan): boolean => shortest.sub(noneUnder).compare(0.01) <= 0;

export function planTexts(plan: WidthPlan, material: MaterialPlan['need']['material'], display: Display): PlanTexts {
  if (plan.shortest.n === 0n) return { found: '', noneUnder: '', buy: '' };
  if (plan.form !== 'lengths') {
    const counted = (count: Rational): string => countText(count, plan.form === 'panels' ? 'panel' : 'sheet');
    return { found: counted(plan.shortest), noneUnder: counted(plan.noneUnder), buy: counted(plan.buy) };
  }
  const unit = unitOf(material.purchase, display);
  const buy = lengthToBuy(plan.buy, unit, display);
  const read = readIn(unit, display);
  // What is the shortest there can be is one length, not two roundings of it.
  return { found: roughIn(plan.shortest, read, 'up'), noneUnder: isShortest(plan) ? 'the same' : roughIn(plan.noneUnder, read, 'down'), buy };
}

/** The unit that lengths sold in a unit are read in: that one, or the one of the pattern’s own system. */
const readIn = (unit: SellingUnit, { unit: own }: Display): SellingUnit => (isMetric(own) === isMetric(unit) ? unit : isMetric(own) ? 'm' : 'yd');

/**
 * A length to buy, first in the pattern’s own system of units, as all its lengths are. Where it is sold in the other one, that
 * stands beside it, exactly, and the first is never less: `0.58 m (5/8 yd)`. A pattern that is read in both has both.
 */
export function lengthToBuy(millimetres: Rational, unit: SellingUnit, display: Display): string {
  const { also } = display;
  const read = readIn(unit, display);
  if (read !== unit) return `${roughIn(millimetres, read, 'up')} (${exactIn(millimetres, unit)})`;
  const other = also !== undefined && isMetric(also) !== isMetric(unit) ? ` (${roughIn(millimetres, isMetric(unit) ? 'yd' : 'm', 'up')})` : '';
  return `${exactIn(millimetres, unit)}${other}`;
}

const countText = (count: Rational, word: string): string => `${count.toFraction()} ${word}${count.equals(1) ? '' : 's'}`;

/** `found 0.62 yd, none under 0.58 yd, buy 5/8 yd`, and `certain` where no better lay would change the purchase; `nothing fits`. */
export function planSentence(plan: WidthPlan, material: MaterialPlan['need']['material'], display: Display): string {
  const { found, noneUnder, buy } = planTexts(plan, material, display);
  if (found === '') return 'nothing fits';
  return `found ${found}, ${plan.form === 'lengths' && isShortest(plan) ? 'none shorter' : `none under ${noneUnder}`}, buy ${buy}${plan.certain ? ', certain' : ''}`;
}

/** `44 in wide, 42 in usable`; of a panel or sheet both its sides, `90 cm × 45 cm`. */
export function planWidth({ nominal, usable }: WidthPlan, { purchase }: MaterialPlan['need']['material'], display: Display): string {
  if (purchase.form !== 'lengths') return `${widthText(purchase.width, display)} × ${widthText(purchase.height, display)}`;
  if (nominal === undefined || nominal.equals(usable)) return `${widthText(usable, display)} wide`;
  return `${widthText(nominal, display)} wide, ${widthText(usable, display)} usable`;
}

/** A width in the pattern’s own unit: exactly where a tape has it, else no wider than it is, with the centimetres that it is sold in beside it. */
function widthText(millimetres: Rational, display: Display): string {
  const { unit, step } = display;
  const finest = unit === 'in' ? 32n : 100n;
  if (millimetres.div(millimetresIn[unit]).d <= finest) return exactLength(millimetres, unit);
  const sold = millimetres.div(millimetresIn.cm).d === 1n ? ` (${exactLength(millimetres, 'cm')})` : '';
  return `${exactLength(millimetres.div(step).floor().mul(step), unit)}${sold}`;
}

/** `does not fit and is left out: Cover, Tab`; empty where all can. */
export function unplacedText({ need }: MaterialPlan, plan: WidthPlan): string {
  const titles = [...new Set(plan.unplaced.map((index) => need.requirements[index]?.title ?? ''))];
  return titles.length === 0 ? '' : `does not fit and is left out: ${titles.join(', ')}`;
}

/** `4 1/2 in × 6 in`: across the cloth, then along it, as width and height of a piece with its grain upright; never overstated. */
export function leftoverText({ length, width, onFold, twice }: Leftover, display: Display): string {
  const down = (millimetres: number): string => {
    const steps = Math.floor(millimetres / display.step.valueOf() + 1e-6);
    return exactLength(display.step.mul(Math.max(0, steps)), display.unit);
  };
  return `${down(width)} × ${down(length)}${onFold ? ' (half, on the fold)' : twice ? ' (twice)' : ''}`;
}

/** `1 in of it for squaring and fraying and 3 % for shrinking`; nothing where nothing is spared. */
export function spareText({ spare }: WidthPlan, { shrinkage: { along } }: MaterialPlan['need']['material'], display: Display): readonly string[] {
  const parts = [...(spare.n === 0n ? [] : [[exactLength(spare, display.unit), 'squaring and fraying']]), ...(along.n === 0n ? [] : [[percent(along), 'shrinking']])];
  return parts.length === 0 ? [] : [parts.map(([amount, purpose], index) => `${amount ?? ''} ${index === 0 ? 'of it ' : ''}for ${purpose ?? ''}`).join(' and ')];
}

/** `left over: 4 1/2 in × 6 in`, the largest first; after shrinking, where the cloth shrinks. Nothing where nothing is. */
export function leftoversText({ leftovers }: WidthPlan, { shrinkage: { along, across } }: MaterialPlan['need']['material'], display: Display): readonly string[] {
  const texts = leftovers.flat().slice(0, 3).map((leftover) => leftoverText(leftover, display));
  const when = along.n > 0n || across.n > 0n ? ' after shrinking' : '';
  return texts.length === 0 ? [] : [`left over${when}: ${texts.join(', ')}`];
}

/** How the cloth is spread: `folded selvedge to selvedge`, `open, in one layer`. */
export function spreadText({ manner, problem }: LaidQuestion, display: Display): string {
  switch (manner) {
    case 'open':
      return 'open, in one layer';
    case 'folded':
      return 'folded selvedge to selvedge';
    case 'partial':
      return `folded in part, ${lengthText(problem.doubleTo ?? 0, display)} of it double`;
    case 'crosswise':
      return 'folded crosswise, end to end';
  }
}

/** Lengths that were measured, as they are shown. */
export const lengthText = (millimetres: number, display: Display): string => showLength(measured(millimetres), display);

/** How much cloth a lay takes, never understated. */
export function laidText(millimetres: number, display: Display): string {
  const steps = Math.ceil(millimetres / display.step.valueOf() - 1e-6);
  return exactLength(display.step.mul(Math.max(0, steps)), display.unit);
}
