import type { BuyingList } from '../buying/list.ts';
import type { MaterialPlan } from '../buying/plan.ts';
import { exactIn, moneyText, sellingUnit, unitOf, type SellingUnit } from '../buying/purchase.ts';
import { sumOfCosts, type SupplyPurchase } from '../buying/supplies.ts';
import type { Place } from '../problems/place.ts';
import { millimetresIn, type Display } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import { figure } from './figures.ts';
import { leftoversText, lengthToBuy, planTexts, planWidth, spareText, spreadText, unplacedText } from './buying-text.ts';

export interface Quantity {
  readonly value: number;
  readonly unit: SellingUnit | 'panel' | 'sheet' | 'each';
}

/** One line of the buying list, in words. */
export interface BuyingRow {
  readonly item: string;
  readonly width: string;
  readonly found: string;
  readonly noneUnder: string;
  readonly buy: string;
  /** The same as a number: of a unit of length, or of `panel`, `sheet` or `each`. */
  readonly amount: Quantity | undefined;
  /** `certain` where no better lay would change the purchase. */
  readonly certain: string;
  /** Empty where no price is known. */
  readonly cost: string;
  /** The same as a number, in the currency of the pattern. */
  readonly price: number | undefined;
  readonly notes: readonly string[];
  /** In which steps a length is sold, `1/8 yd`; empty of anything else. */
  readonly soldBy: string;
  /** What the lays leave over, told where they are not drawn. */
  readonly leftovers: readonly string[];
  readonly place: Place | undefined;
}

/** A line before it has a price: all that is said of it follows from something else. */
export interface BuyingLine {
  /** Without what it costs. */
  readonly row: BuyingRow;
  /** What it costs, and the share of one article: see {@link BuyingList}. */
  readonly cost: Rational | undefined;
  readonly costEach: Rational | undefined;
}

/** The buying list in words: materials, supplies, and what they cost together. */
export const buyingRows = (list: BuyingList, display: Display, currency: string | undefined): readonly BuyingRow[] =>
  pricedRows(buyingLines(list, display), list.articles, currency);

/** The lines of materials, in their order, and those of supplies. */
export const buyingLines = ({ materials, supplies, articles }: BuyingList, display: Display): readonly BuyingLine[] => [
  ...materials.map((plan) => ({ row: materialRow(plan, display), cost: plan.best?.cost, costEach: plan.best?.cost?.div(articles) })),
  ...supplies.map((purchase) => ({ row: supplyRow(purchase, display), cost: purchase.cost, costEach: purchase.costEach })),
];

/** Lines with what they cost, and all of them together. */
export function pricedRows(lines: readonly BuyingLine[], articles: number, currency: string | undefined): readonly BuyingRow[] {
  const rows = lines.map(({ row, cost }) => ({ ...row, ...costs(cost, currency) }));
  const cost = sumOfCosts(lines.map((line) => line.cost));
  if (cost === undefined) return rows;
  const costEach = sumOfCosts(lines.map((line) => line.costEach));
  const all = costs(cost, currency);
  const asShown = rows.reduce((sum, { price }) => sum + (price ?? 0), 0);
  const isRounded = Math.abs(asShown - (all.price ?? 0)) > smallestCoin / 2;
  const notes = [...(lines.every((line) => line.cost !== undefined) ? [] : ['only what has a price']), ...costEachText({ articles, cost, costEach }, currency), ...(isRounded ? ['rounded only in all'] : [])];
  return [...rows, { ...empty, item: articles === 1 ? 'Everything' : `Everything, ${articles} articles`, ...all, notes }];
}

/** Prices are shown to a hundredth. */
const smallestCoin = 0.01;

/** What one article costs, where that isn't what is paid: of several, or with something left for the next. */
function costEachText({ articles, cost, costEach }: Pick<BuyingList, 'articles' | 'cost' | 'costEach'>, currency: string | undefined): readonly string[] {
  if (cost === undefined || costEach === undefined) return [];
  const isAllUsed = moneyText(costEach.mul(articles), currency) === moneyText(cost, currency);
  if (articles === 1 && isAllUsed) return [];
  return [`${moneyText(costEach, currency)} for each${isAllUsed ? '' : ', of supplies only what it uses up'}`];
}

const empty: BuyingRow = { item: '', width: '', found: '', noneUnder: '', buy: '', amount: undefined, certain: '', cost: '', price: undefined, notes: [], soldBy: '', leftovers: [], place: undefined };

/** What something costs, in words and as a number. */
const costs = (cost: Rational | undefined, currency: string | undefined): Pick<BuyingRow, 'cost' | 'price'> =>
  cost === undefined ? { cost: '', price: undefined } : { cost: moneyText(cost, currency), price: Number(moneyText(cost, undefined)) };

const quantity = (millimetres: Rational, unit: SellingUnit): Quantity => ({ value: Math.round(millimetres.div(millimetresIn[unit]).valueOf() * 1e6) / 1e6, unit });

function materialRow(plan: MaterialPlan, display: Display): BuyingRow {
  const { material } = plan.need;
  const { best } = plan;
  const row = { ...empty, item: material.title, place: material.place };
  if (best === undefined) return { ...row, notes: ['no width is given'] };
  const unplaced = unplacedText(plan, best);
  return {
    ...row,
    width: planWidth(best, material, display),
    ...planTexts(best, material, display),
    amount: best.buy.n === 0n ? undefined : best.form === 'lengths' ? quantity(best.buy, unitOf(material.purchase, display)) : { value: best.buy.valueOf(), unit: best.form === 'panels' ? 'panel' : 'sheet' },
    certain: best.certain ? 'certain' : '',
    notes: [
      ...(unplaced === '' ? [] : [unplaced]),
      ...(best.form === 'lengths' && best.lays[0] !== undefined ? [spreadText(best.lays[0], display), ...spareText(best, material, display)] : []),
    ],
    soldBy: material.purchase.form === 'lengths' && best.form === 'lengths' ? exactIn(material.purchase.step, unitOf(material.purchase, display)) : '',
    leftovers: leftoversText(best, material, display),
  };
}

function supplyRow({ supply, count, bought, needed, buy }: SupplyPurchase, display: Display): BuyingRow {
  const row = { ...empty, item: supply.title, place: supply.place };
  const serves = supply.serves.compare(1) > 0 ? [`${supply.count.toFraction()} for ${supply.serves.toFraction()} articles`] : [];
  if (needed === undefined || buy === undefined) {
    const counted = { ...row, amount: { value: bought, unit: 'each' as const }, notes: serves };
    if (supply.pack === undefined) return { ...counted, buy: String(count) };
    const packs = bought / Number(supply.pack.n);
    return { ...counted, found: String(count), buy: `${packs} ${packs === 1 ? 'pack' : 'packs'} of ${supply.pack.toFraction()}` };
  }
  const step = supply.purchase?.form === 'lengths' ? supply.purchase.step : undefined;
  return {
    ...row,
    found: figure(needed, display),
    buy: step === undefined ? figure(buy, display) : lengthToBuy(buy, sellingUnit(step, display), display),
    amount: quantity(buy, step === undefined ? display.unit : sellingUnit(step, display)),
    notes: [...(count > 1 ? [`${count} pieces`] : []), ...serves],
  };
}
