import { KeptLays } from '../buying/lay-out.ts';
import { listOf } from '../buying/list.ts';
import { planMaterial, type BuyingOptions } from '../buying/plan.ts';
import { needsOf } from '../buying/requirements.ts';
import { supplyPurchases } from '../buying/supplies.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import { materialLays, purchasesOf } from './lays.ts';
import type { PreviewLays } from './lays-data.ts';
import { cutKeys } from './table.ts';

/** What to buy for one article, and how it lies, looked for to the end. */
export function wholeLays(pattern: Pattern, combination: Combination, options: BuyingOptions, kept = new KeptLays()): PreviewLays {
  const resolved = pattern.resolve(combination);
  const keys = cutKeys(resolved);
  const plans = needsOf(resolved, 1).map((need) => planMaterial(need, options, kept));
  return {
    articles: 1,
    state: 'done',
    done: 1,
    materials: plans.map((plan) => materialLays(plan, 'settled', pattern.display, keys)),
    purchases: purchasesOf(listOf(1, plans, supplyPurchases(resolved.supplies, 1), options), pattern.display, pattern.world.facts.currency),
    unread: [],
  };
}
