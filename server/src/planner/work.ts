import { listOf } from '../buying/list.ts';
import { readWidths } from '../buying/other-widths.ts';
import { usualOptions, type MaterialPlan } from '../buying/plan.ts';
import { needsOf } from '../buying/requirements.ts';
import { supplyPurchases } from '../buying/supplies.ts';
import { planSentence, planTexts } from '../table/buying-text.ts';
import { materialLays, purchasesOf } from '../preview/lays.ts';
import type { MaterialLays, PreviewLays } from '../preview/lays-data.ts';
import { cutKeys } from '../preview/table.ts';
import { renderTable } from '../formats/format.ts';
import type { CuttingTable } from '../table/table.ts';
import { wholeTables } from '../table/whole-table.ts';
import { combinationsToShow } from '../table/combinations.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern } from '../model/pattern.ts';
import { combinationKey, type Answer, type Figure, type FiguresJob, type Job, type LaysJob, type TablesJob } from './jobs.ts';
import type { Kept } from './cache.ts';

/** Does a job step by step; most steps are short, and those that are not end early when the job is stopped. */
export function* work(job: Job, kept: Kept, isStopped: () => boolean): Generator<Answer | undefined, void> {
  const pattern = kept.read(job.texts)?.pattern;
  if (pattern === undefined) return;
  yield undefined;
  switch (job.kind) {
    case 'lays':
      return yield* lays(job, pattern, kept, isStopped);
    case 'figures':
      return yield* figures(job, pattern, kept, isStopped);
    case 'tables':
      return yield* tables(job, pattern);
  }
}

/** Options that there are; a choice left open takes its first. */
const known = (pattern: Pattern, chosen: Readonly<Record<string, string>>): Combination =>
  new Map(Object.entries(chosen).filter(([choice, option]) => pattern.choices.get(choice)?.includes(option) === true));

function* lays(job: LaysJob, pattern: Pattern, kept: Kept, isStopped: () => boolean): Generator<Answer | undefined, void> {
  const { display } = pattern;
  const resolved = pattern.resolve(known(pattern, job.combination));
  const { widths, unread } = readWidths(job.widths, display.unit);
  const keys = cutKeys(resolved);
  const supplies = supplyPurchases(resolved.supplies, job.articles);
  const searches = needsOf(resolved, job.articles).map((need) => kept.plan(need, { ...usualOptions, lay: job.lay, effort: job.effort, widths }, isStopped));
  const plans: MaterialPlan[] = [];
  const drawn: MaterialLays[] = [];
  const draw = (index: number, plan: MaterialPlan, state: MaterialLays['state']): void => {
    plans[index] = plan;
    drawn[index] = materialLays(plan, state, display, keys);
  };
  const answer = (state: PreviewLays['state'], done: number): Answer => ({
    id: job.id, kind: 'lays',
    lays: { articles: job.articles, state, done, materials: [...drawn], purchases: purchasesOf(listOf(job.articles, plans, supplies), display, pattern.world.facts.currency), unread },
  });

  for (const [index, search] of searches.entries()) {
    const plan = search.next().value;
    // Where buying is certain, nothing more is looked for.
    draw(index, plan, plan.done === 1 || plan.widths.every((width) => width.certain) ? 'settled' : 'first');
    yield undefined;
  }
  yield answer('looking', 0);
  for (const [index, search] of searches.entries()) {
    for (let turn = search.next(); ; turn = search.next()) {
      const isNew = turn.value.widths !== plans[index]?.widths;
      if (isNew || turn.done === true) draw(index, turn.value, turn.done === true ? 'settled' : 'better');
      if (turn.done === true) break;
      yield isNew ? answer('looking', (index + turn.value.done) / searches.length) : undefined;
    }
    yield index + 1 < searches.length ? answer('looking', (index + 1) / searches.length) : undefined;
  }
  yield answer('done', 1);
}

function* figures(job: FiguresJob, pattern: Pattern, kept: Kept, isStopped: () => boolean): Generator<Answer | undefined, void> {
  const found: Record<string, Record<string, Figure>> = {};
  for (const combination of combinationsToShow(pattern).combinations) {
    const resolved = pattern.resolve(combination);
    const ofThis: Record<string, Figure> = (found[combinationKey(resolved.combination)] = {});
    for (const need of needsOf(resolved, 1)) {
      const search = kept.plan(need, { ...usualOptions, effort: job.effort }, isStopped);
      let turn = search.next();
      for (; turn.done !== true; turn = search.next()) yield undefined;
      const { best } = turn.value;
      if (best === undefined) continue;
      const mark = best.certain || job.effort > 0 ? '' : ' (first lay)';
      ofThis[need.material.name] = { sentence: planSentence(best, need.material, pattern.display) + mark, buy: `buy ${planTexts(best, need.material, pattern.display).buy}` };
    }
  }
  yield { id: job.id, kind: 'figures', figures: found };
}

function* tables(job: TablesJob, pattern: Pattern): Generator<Answer | undefined, void> {
  const combinations = job.combination === 'all' ? pattern.combinations() : [new Map(Object.entries(job.combination))];
  const made: CuttingTable[] = [];
  // Nothing kept is used, so that the same text gives the same table on every way out.
  for (const table of wholeTables(pattern, combinations)) {
    made.push(table);
    yield undefined;
  }
  yield { id: job.id, kind: 'tables', text: renderTable(made, job.format, job.by) };
}
