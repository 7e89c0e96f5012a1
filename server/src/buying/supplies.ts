import type { Price } from '../model/stock/purchase.ts';
import type { Supply } from '../model/stock/supply.ts';
import { rational, type Rational } from '../units/rational.ts';
import { costOfCount, costOfLength, roundedUpTo } from './purchase.ts';

/** What to buy of a supply. */
export interface SupplyPurchase {
  readonly supply: Supply;
  /** How many are needed in all. */
  readonly count: number;
  /** Millimetres needed in all of what is sold by length; undefined for what is counted. */
  readonly needed: Rational | undefined;
  /** Millimetres to buy, rounded up to the seller's step where there is one. */
  readonly buy: Rational | undefined;
  readonly cost: Rational | undefined;
}

/** What to buy of each supply for so many articles. */
export function supplyPurchases(supplies: readonly Supply[], articles: number): readonly SupplyPurchase[] {
  return supplies.filter((supply) => supply.count.n > 0n).map((supply) => purchaseOf(supply, articles));
}

function purchaseOf(supply: Supply, articles: number): SupplyPurchase {
  const count = supply.count.mul(articles);
  const whole = Number(count.ceil().n);
  const needed = lengthOfOne(supply)?.mul(count);
  if (needed === undefined) return { supply, count: whole, needed, buy: undefined, cost: costOfCount(supply.price, whole) };
  const step = supply.purchase?.form === 'lengths' ? supply.purchase.step : undefined;
  const buy = step === undefined ? needed : roundedUpTo(step, needed);
  return { supply, count: whole, needed, buy, cost: costOf(supply.price, whole, buy) };
}

/** The length that one takes of what is cut from a reel: webbing, binding, zip tape. A closed zip is counted. */
function lengthOfOne({ length, from }: Supply): Rational | undefined {
  return from === undefined ? length : from.source === 'tape' ? from.length : undefined;
}

/** What is cut from a reel may still be sold by the piece. */
const costOf = (price: Price | undefined, count: number, length: Rational): Rational | undefined => costOfLength(price, length) ?? costOfCount(price, count);

/** The sum of some costs; undefined where none is known. */
export function sumOfCosts(costs: readonly (Rational | undefined)[]): Rational | undefined {
  const known = costs.filter((cost) => cost !== undefined);
  return known.length === 0 ? undefined : known.reduce((sum, cost) => sum.add(cost), rational(0));
}
