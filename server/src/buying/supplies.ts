import type { Price } from '../model/stock/purchase.ts';
import type { Supply } from '../model/stock/supply.ts';
import { one, rational, type Rational } from '../units/rational.ts';
import { costOfCount, costOfLength, roundedUpTo } from './purchase.ts';

/** What to buy of a supply. */
export interface SupplyPurchase {
  readonly supply: Supply;
  /** How many are needed in all. */
  readonly count: number;
  /** How many are bought: whole packs of what is sold in packs; as many as are needed of all else. */
  readonly bought: number;
  /** Millimetres needed in all of what is sold by length; undefined for what is counted. */
  readonly needed: Rational | undefined;
  /** Millimetres to buy, rounded up to the seller's step where there is one. */
  readonly buy: Rational | undefined;
  readonly cost: Rational | undefined;
  /** What one article uses up costs, be it a part of what is bought. */
  readonly costEach: Rational | undefined;
}

/** What to buy of each supply for so many articles. */
export function supplyPurchases(supplies: readonly Supply[], articles: number): readonly SupplyPurchase[] {
  return supplies.filter((supply) => supply.count.n > 0n).map((supply) => purchaseOf(supply, articles));
}

function purchaseOf(supply: Supply, articles: number): SupplyPurchase {
  const { count: each, serves, pack = one, price } = supply;
  const count = Number(each.mul(articles).div(serves).ceil().n);
  const length = lengthOfOne(supply);
  if (length === undefined) {
    const bought = rational(count).div(pack).ceil().mul(pack);
    const cost = (pieces: Rational): Rational | undefined => (price?.per === 'pack' ? price.amount.mul(pieces.div(pack)) : costOfCount(price, pieces));
    return { supply, count, bought: Number(bought.n), needed: undefined, buy: undefined, cost: cost(bought), costEach: cost(each.div(serves)) };
  }
  const needed = length.mul(count);
  const step = supply.purchase?.form === 'lengths' ? supply.purchase.step : undefined;
  const buy = step === undefined ? needed : roundedUpTo(step, needed);
  return { supply, count, bought: count, needed, buy, cost: costOf(price, rational(count), buy), costEach: costOf(price, each.div(serves), length.mul(each).div(serves)) };
}

/** The length that one takes of what is cut from a reel: webbing, binding, zip tape. A closed zip is counted. */
function lengthOfOne({ length, from }: Supply): Rational | undefined {
  return from === undefined ? length : from.source === 'tape' ? from.length : undefined;
}

/** What is cut from a reel may still be sold by the piece. */
const costOf = (price: Price | undefined, count: Rational, length: Rational): Rational | undefined => costOfLength(price, length) ?? costOfCount(price, count);

/** The sum of some costs; undefined where there is none. */
export function sumOfCosts(costs: readonly (Rational | undefined)[]): Rational | undefined {
  const given = costs.filter((cost) => cost !== undefined);
  return given.length === 0 ? undefined : given.reduce((sum, cost) => sum.add(cost), rational(0));
}
