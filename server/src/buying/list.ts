import type { Resolved } from '../model/pattern.ts';
import { forgetStart } from '../lay/polygons/plan.ts';
import type { Rational } from '../units/rational.ts';
import { planMaterial, type BuyingOptions, type MaterialPlan } from './plan.ts';
import type { LayCache } from './lay-out.ts';
import { needsOf, type MaterialNeed } from './requirements.ts';
import { sumOfCosts, supplyPurchases, type SupplyPurchase } from './supplies.ts';

/** Everything to buy for so many articles. */
export interface BuyingList {
  readonly articles: number;
  /** How the materials were planned. */
  readonly options: BuyingOptions;
  readonly materials: readonly MaterialPlan[];
  readonly supplies: readonly SupplyPurchase[];
  /** The sum of the costs that are known; undefined where none is. */
  readonly cost: Rational | undefined;
  /** What one article costs: its share of the materials bought, and what it uses up of the supplies. */
  readonly costEach: Rational | undefined;
  /** Whether every line has a known cost. */
  readonly isCostComplete: boolean;
}

/** Plans every material of a pattern in one combination. */
export function buyingList(resolved: Resolved, articles: number, options: BuyingOptions, cache?: LayCache): BuyingList {
  const plans = needsOf(resolved, articles).map((need: MaterialNeed) => planMaterial(need, options, cache));
  // All that was asked is answered.
  forgetStart();
  return listOf(articles, plans, supplyPurchases(resolved.supplies, articles), options);
}

/** The list of plans that are made already. */
export function listOf(articles: number, materials: readonly MaterialPlan[], supplies: readonly SupplyPurchase[], options: BuyingOptions): BuyingList {
  const costs = [...materials.map((plan) => plan.best?.cost), ...supplies.map((purchase) => purchase.cost)];
  const each = [...materials.map((plan) => plan.best?.cost?.div(articles)), ...supplies.map((purchase) => purchase.costEach)];
  return { articles, options, materials, supplies, cost: sumOfCosts(costs), costEach: sumOfCosts(each), isCostComplete: costs.every((cost) => cost !== undefined) };
}
