import { basename, join } from 'node:path';
import { listOf } from '../buying/list.ts';
import { planning, type BuyingOptions, type MaterialPlan } from '../buying/plan.ts';
import { planFaults } from '../buying/plan-faults.ts';
import type { LaidOut } from '../buying/lay-out.ts';
import { needsOf, type MaterialNeed } from '../buying/requirements.ts';
import { supplyPurchases } from '../buying/supplies.ts';
import { layFooter, layHeading, layJson, layLines, type LaidCombination } from '../formats/lay-report.ts';
import { fileName, untaken } from '../formats/file-name.ts';
import { laySheet } from '../formats/lay-svg.ts';
import { cuttingTable } from '../table/table.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import { nearestName } from '../problems/near.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { buyingOptions, type TypedBuying } from './lay-options.ts';
import { isRefused, openSpec } from './open.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { plain, tell } from './terminal.ts';
import { wholeNumber } from './whole-number.ts';

export interface LayOptions extends TypedBuying {
  readonly material: readonly string[];
  readonly choose: readonly string[];
  readonly all: boolean;
  readonly verify: boolean;
  readonly svg?: string;
  readonly json: boolean;
}

type LayMap = Map<string, readonly LaidOut[]>;

/**
 * `piecewright lay`: lays the pieces out and says what to buy. 0 where everything fits and every lay checked is right,
 * else 1. A piece that is too large for its cloth is left out, and said to be; other errors leave nothing to rely on.
 */
export async function lay(named: string, options: LayOptions): Promise<number> {
  const opened = await openSpec(named);
  const { pattern, spec } = opened;
  const articles = wholeNumber(options.articles, '--articles');
  const buying = buyingOptions(options, pattern.display.unit);
  if (isRefused(opened, 'Nothing is laid out while the spec has errors: a wrong lay would cost cloth.', ['too-wide', 'too-large'])) return 1;
  const combinations = chosenCombinations(pattern, options.choose, options.all);
  checkMaterials(pattern, combinations, options.material);
  const lays: LayMap = new Map();
  const laid = combinations.map((combination) => layOne(pattern, combination, articles, buying, options, lays));
  if (options.json) await writeOutput(layJson(laid, pattern), undefined);
  else for (const one of laid) await writeOutput(`${layLines(one, pattern).map(plain).join('\n')}\n`, undefined);
  const taken = new Set<string>();
  if (options.svg !== undefined) for (const one of laid) await drawAll(one, pattern, basename(spec.path, '.piece'), { folder: options.svg, taken }, laid.length > 1);
  const allFit = laid.every(({ list }) => list.materials.every((plan) => plan.best !== undefined && plan.best.unplaced.length === 0));
  return allFit && laid.every(({ faults = [] }) => faults.length === 0) ? 0 : 1;
}

function layOne(pattern: Pattern, combination: Combination, articles: number, buying: BuyingOptions, options: LayOptions, lays: LayMap): LaidCombination {
  const resolved: Resolved = pattern.resolve(combination);
  const needs = needsOf(resolved, articles).filter(({ material }) => options.material.length === 0 || options.material.includes(material.name));
  const progress = progressOn(process.stderr, 'Laying out: per cent', 100);
  const plans = needs.map((need, index) => planShown(need, buying, lays, (done) => { progress.show(Math.floor((100 * (index + done)) / needs.length)); }));
  progress.end();
  const list = listOf(articles, plans, options.material.length === 0 ? supplyPurchases(resolved.supplies, articles) : [], buying);
  return { table: cuttingTable(pattern, combination, list), list, faults: options.verify ? plans.flatMap(planFaults) : undefined };
}

function planShown(need: MaterialNeed, options: BuyingOptions, lays: LayMap, show: (done: number) => void): MaterialPlan {
  const search = planning(need, options, lays);
  for (;;) {
    const { done, value } = search.next();
    show(value.done);
    if (done) return value;
  }
}

function checkMaterials(pattern: Pattern, combinations: readonly Combination[], names: readonly string[]): void {
  const used = new Set(combinations.flatMap((combination) => needsOf(pattern.resolve(combination), 1).map(({ material }) => material.name)));
  for (const name of names) {
    if (used.has(name)) continue;
    const near = nearestName(name, [...used]);
    throw new UsageError(`Nothing is cut from a material called “${name}”.${near === undefined ? ` There are: ${[...used].join(', ')}.` : ` Did you mean “${near}”?`}`);
  }
}

async function drawAll({ table, list }: LaidCombination, { display }: Pattern, name: string, { folder, taken }: { readonly folder: string; readonly taken: Set<string> }, several: boolean): Promise<void> {
  const texts = { heading: layHeading(table), footer: layFooter(table) };
  for (const plan of list.materials) {
    for (const [index, width] of plan.widths.entries()) {
      const parts = [name, ...(several ? table.combination.map(({ option }) => option) : []), plan.need.material.name, ...(index === 0 ? [] : [String(Math.round((width.nominal ?? width.usable).valueOf()))])];
      const file = join(folder, `${untaken(fileName(parts.join('-'), longestName), taken)}.svg`);
      await writeOutput(laySheet(plan, width, display, texts), file);
      tell(`Wrote ${file}.`);
    }
  }
}

/** Bytes of a drawing’s name, which tells material and options: a file’s name may have 255. */
const longestName = 200;
