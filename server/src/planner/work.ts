import { listOf } from '../buying/list.ts';
import { readWidths } from '../buying/other-widths.ts';
import { usualOptions, type MaterialPlan } from '../buying/plan.ts';
import { KeptLays, type LayCache } from '../buying/lay-out.ts';
import { needsOf } from '../buying/requirements.ts';
import { supplyPurchases } from '../buying/supplies.ts';
import { planSentence, planTexts } from '../table/buying-text.ts';
import { comparedCount } from '../compare/combinations.ts';
import { compare } from '../compare/comparison.ts';
import { materialLays, purchasesOf } from '../preview/lays.ts';
import type { MaterialLays, PreviewLays } from '../preview/lays-data.ts';
import { cutKeys } from '../preview/table.ts';
import { renderTable } from '../formats/format.ts';
import { comparisonMarkdown } from '../formats/comparison-markdown.ts';
import { handingOver } from '../formats/pages.ts';
import type { CuttingTable } from '../table/table.ts';
import { wholeTables } from '../table/whole-table.ts';
import { combinationsToShow, tooManyCombinations } from '../table/combinations.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Work } from '../workers/job.ts';
import { PlanCache } from './plan-cache.ts';
import { combinationKey, type ComparisonRequest, type Figure, type FiguresRequest, type LaysRequest, type PagesRequest, type PlannerReply, type PlannerRequest, type TablesRequest } from './requests.ts';

/** The name of the workers that plan. */
export const plannerRole = 'piecewright planner';

type Steps = Generator<PlannerReply | undefined, void>;

/** Plans step by step; most steps are short, and those that are not end early when the work is stopped. */
export const plannerWork = (cache = new PlanCache()): Work<PlannerRequest, PlannerReply> => function* (request, isStopped) {
  const pattern = cache.read(request.texts)?.pattern;
  if (pattern === undefined) return;
  yield undefined;
  switch (request.kind) {
    case 'lays':
      return yield* lays(request, pattern, cache, isStopped);
    case 'figures':
      return yield* figures(request, pattern, cache, isStopped);
    case 'tables':
      return yield* tables(request, pattern);
    case 'pages':
      return yield* pages(request, pattern, isStopped);
    case 'comparison':
      return yield* comparison(request, pattern, cache, isStopped);
  }
};

/** Options that there are; a choice left open takes its first. */
const optionsThereAre = (pattern: Pattern, chosen: Readonly<Record<string, string>>): Combination =>
  new Map(Object.entries(chosen).filter(([choice, option]) => pattern.choices.get(choice)?.includes(option) === true));

function* lays(request: LaysRequest, pattern: Pattern, cache: PlanCache, isStopped: () => boolean): Steps {
  const { display } = pattern;
  const resolved = pattern.resolve(optionsThereAre(pattern, request.combination));
  const { widths, unread } = readWidths(request.widths, display.unit);
  const options = { ...usualOptions, lay: request.lay, effort: request.effort, widths };
  const keys = cutKeys(resolved);
  const supplies = supplyPurchases(resolved.supplies, request.articles);
  const searches = needsOf(resolved, request.articles).map((need) => cache.plan(need, options, isStopped));
  const plans: MaterialPlan[] = [];
  const drawn: MaterialLays[] = [];
  const draw = (index: number, plan: MaterialPlan, state: MaterialLays['state']): void => {
    plans[index] = plan;
    drawn[index] = materialLays(plan, state, display, keys);
  };
  const reply = (state: PreviewLays['state'], done: number): PlannerReply => ({
    kind: 'lays',
    lays: { articles: request.articles, state, done, materials: [...drawn], purchases: purchasesOf(listOf(request.articles, plans, supplies, options), display, pattern.world.facts.currency), unread },
  });

  for (const [index, search] of searches.entries()) {
    const plan = search.next().value;
    // Where buying is certain, nothing more is looked for.
    draw(index, plan, plan.done === 1 || plan.widths.every((width) => width.certain) ? 'settled' : 'first');
    yield undefined;
  }
  yield reply('looking', 0);
  for (const [index, search] of searches.entries()) {
    for (let turn = search.next(); ; turn = search.next()) {
      const isNew = turn.value.widths !== plans[index]?.widths;
      if (isNew || turn.done === true) draw(index, turn.value, turn.done === true ? 'settled' : 'better');
      if (turn.done === true) break;
      yield isNew ? reply('looking', (index + turn.value.done) / searches.length) : undefined;
    }
    yield index + 1 < searches.length ? reply('looking', (index + 1) / searches.length) : undefined;
  }
  yield reply('done', 1);
}

function* figures(request: FiguresRequest, pattern: Pattern, cache: PlanCache, isStopped: () => boolean): Steps {
  const planned: Record<string, Record<string, Figure>> = {};
  for (const combination of combinationsToShow(pattern).combinations) {
    const resolved = pattern.resolve(combination);
    const ofThis: Record<string, Figure> = (planned[combinationKey(resolved.combination)] = {});
    for (const need of needsOf(resolved, 1)) {
      const search = cache.plan(need, { ...usualOptions, effort: request.effort }, isStopped);
      let turn = search.next();
      for (; turn.done !== true; turn = search.next()) yield undefined;
      const { best } = turn.value;
      if (best === undefined) continue;
      const mark = best.certain || request.effort >= usualOptions.effort ? '' : ' (first lay)';
      ofThis[need.material.name] = { sentence: planSentence(best, need.material, pattern.display) + mark, buy: `buy ${planTexts(best, need.material, pattern.display).buy}${mark}` };
    }
  }
  yield { kind: 'figures', figures: planned };
}

function* tables(request: TablesRequest, pattern: Pattern): Steps {
  const combinations = request.combination === 'all' ? pattern.combinations() : [new Map(Object.entries(request.combination))];
  const made: CuttingTable[] = [];
  for (const table of wholeTables(pattern, combinations)) {
    made.push(table);
    yield undefined;
  }
  yield { kind: 'tables', text: renderTable(made, request.format, request.by) };
}

function* comparison({ earlier }: ComparisonRequest, pattern: Pattern, cache: PlanCache, isStopped: () => boolean): Steps {
  const before = cache.read(earlier)?.pattern;
  if (before === undefined) return;
  yield undefined;
  const markdown = tooManyCombinations(comparedCount(before, pattern)) ?? comparisonMarkdown(compare(before, pattern, usualOptions, cache.layCache(isStopped)));
  yield { kind: 'comparison', markdown };
}

function* pages({ combination, format, options }: PagesRequest, pattern: Pattern, isStopped: () => boolean): Steps {
  const laid = new KeptLays();
  const lays: LayCache = { get: (key) => laid.get(key), set: (key, one) => isStopped() || laid.set(key, one), bounds: laid.bounds, isStopped };
  const made = yield* handingOver({ pattern, combination: optionsThereAre(pattern, combination), options }, format, lays);
  yield { kind: 'pages', made };
}
