import type { BuyingList } from '../buying/list.ts';
import { usualOptions } from '../buying/plan.ts';
import { moneyText } from '../buying/purchase.ts';
import { exactLength, showLength, type Display } from '../units/length.ts';
import { measured } from '../units/rational.ts';

/**
 * How the cloth was planned, where that is not as usual: `for 3 articles, laid open, effort 5`; empty otherwise. What to
 * buy hangs on it, so it belongs to what tells two tables of one pattern apart.
 */
export function mannerText({ articles, options }: BuyingList, display: Display, currency: string | undefined): string {
  const widths = options.widths.map(({ nominal, price }) => `${exactLength(nominal, display.unit)}${price === undefined ? '' : ` at ${moneyText(price, currency)}`}`);
  return [
    ...(articles === 1 ? [] : [`for ${articles} articles`]),
    ...(options.lay === usualOptions.lay ? [] : [`laid ${options.lay}`]),
    ...(options.gap === usualOptions.gap ? [] : [`gap ${showLength(measured(options.gap), display)}`]),
    ...(widths.length === 0 ? [] : [`beside ${widths.join(' and ')}`]),
    ...(options.effort === usualOptions.effort ? [] : [`effort ${options.effort}`]),
  ].join(', ');
}
