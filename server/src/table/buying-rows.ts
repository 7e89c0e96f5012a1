import type { BuyingList } from '../buying/list.ts';
import type { MaterialPlan } from '../buying/plan.ts';
import { exactIn, moneyText, sellingUnit } from '../buying/purchase.ts';
import type { SupplyPurchase } from '../buying/supplies.ts';
import type { Place } from '../problems/place.ts';
import { showLength, type Display } from '../units/length.ts';
import { leftoverText, planTexts, planWidth, spreadText, unplacedText } from './buying-text.ts';

/** One line of the buying list, in words. */
export interface BuyingRow {
  readonly item: string;
  readonly width: string;
  readonly found: string;
  readonly noneUnder: string;
  readonly buy: string;
  /** `certain` where no better lay would change the purchase. */
  readonly certain: string;
  /** Empty where no price is known. */
  readonly cost: string;
  readonly notes: readonly string[];
  readonly place: Place | undefined;
}

/** The buying list in words: materials, supplies, and what they cost together. */
export function buyingRows(list: BuyingList, display: Display, currency: string | undefined): readonly BuyingRow[] {
  const rows = [
    ...list.materials.map((plan) => materialRow(plan, display, currency)),
    ...list.supplies.map((purchase) => supplyRow(purchase, display, currency)),
  ];
  if (list.cost === undefined) return rows;
  const notes = list.isCostComplete ? [] : ['only what has a price'];
  return [...rows, { ...empty, item: list.articles === 1 ? 'Everything' : `Everything, ${list.articles} articles`, cost: moneyText(list.cost, currency), notes }];
}

const empty: BuyingRow = { item: '', width: '', found: '', noneUnder: '', buy: '', certain: '', cost: '', notes: [], place: undefined };

function materialRow(plan: MaterialPlan, display: Display, currency: string | undefined): BuyingRow {
  const { material } = plan.need;
  const { best } = plan;
  const row = { ...empty, item: material.title, place: material.place };
  if (best === undefined) return { ...row, notes: ['no width is given'] };
  const unplaced = unplacedText(plan, best);
  const leftovers = best.leftovers.flat().slice(0, 3).map((leftover) => leftoverText(leftover, display));
  return {
    ...row,
    width: planWidth(best, material, display),
    ...planTexts(best, material, display),
    certain: best.certain ? 'certain' : '',
    cost: best.cost === undefined ? '' : moneyText(best.cost, currency),
    notes: [
      ...(unplaced === '' ? [] : [unplaced]),
      ...(best.form === 'lengths' && best.lays[0] !== undefined ? [spreadText(best.lays[0])] : []),
      ...(leftovers.length === 0 ? [] : [`left over: ${leftovers.join(', ')}`]),
    ],
  };
}

function supplyRow({ supply, count, needed, buy, cost }: SupplyPurchase, display: Display, currency: string | undefined): BuyingRow {
  const row = { ...empty, item: supply.title, place: supply.place, cost: cost === undefined ? '' : moneyText(cost, currency) };
  if (needed === undefined || buy === undefined) return { ...row, buy: String(count) };
  const step = supply.purchase?.form === 'lengths' ? supply.purchase.step : undefined;
  return {
    ...row,
    found: showLength(needed, display),
    buy: step === undefined ? showLength(buy, display) : exactIn(buy, sellingUnit(step, display)),
    notes: count > 1 ? [`${count} pieces`] : [],
  };
}
