import { mkdirSync } from 'node:fs';
import { basename, join } from 'node:path';
import { listOf, type BuyingList } from '../buying/list.ts';
import { planning, usualOptions, type BuyingOptions, type MaterialPlan, type OtherWidth, type WidthPlan } from '../buying/plan.ts';
import type { LaidOut } from '../buying/planner.ts';
import { moneyText } from '../buying/purchase.ts';
import { needsOf, type MaterialNeed } from '../buying/requirements.ts';
import { supplyPurchases } from '../buying/supplies.ts';
import { buyingData } from '../formats/buying-json.ts';
import { buyingRows, type BuyingRow } from '../table/buying-rows.ts';
import { leftoverText, planSentence, planWidth, spreadText, unplacedText } from '../table/buying-text.ts';
import { laySheet } from '../formats/lay-svg.ts';
import { combinationText, stampText } from '../table/document.ts';
import { cuttingTable, type CuttingTable } from '../table/table.ts';
import { verifyLay, type Fault } from '../lay/verify/verify.ts';
import type { Combination } from '../model/query/query.ts';
import type { Pattern, Resolved } from '../model/pattern.ts';
import { nearestName } from '../problems/near.ts';
import { millimetresIn, type FileUnit } from '../units/length.ts';
import { parseNumber } from '../units/number-text.ts';
import type { Rational } from '../units/rational.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { isRefused, openSpec } from './open.ts';
import { writeOutput } from './output.ts';
import { wholeNumber } from './whole-number.ts';
import { progressOn } from './progress.ts';
import { plain } from './report.ts';

export interface LayOptions {
  readonly material: readonly string[];
  readonly choose: readonly string[];
  readonly all: boolean;
  readonly articles: string;
  readonly width: readonly string[];
  readonly lay: BuyingOptions['lay'];
  readonly gap: string;
  readonly effort: string;
  readonly verify: boolean;
  readonly svg?: string;
  readonly json: boolean;
}

type LayMap = Map<string, readonly LaidOut[]>;

/** What was worked out for one combination. */
interface Laid {
  readonly table: CuttingTable;
  readonly list: BuyingList;
  readonly faults: readonly string[];
}

/**
 * `piecewright lay`: lays the pieces out and says what to buy. 0 where everything fits and every lay checked is right,
 * else 1. A piece that is too large for its cloth is left out, and said to be; other errors leave nothing to rely on.
 */
export async function lay(named: string, options: LayOptions): Promise<number> {
  const opened = await openSpec(named);
  const { pattern, spec } = opened;
  const articles = wholeNumber(options.articles, '--articles');
  const wanted = buyingOptions(options, pattern.display.unit);
  if (isRefused(opened, 'Nothing is laid out while the spec has errors: a wrong lay would cost cloth.', ['too-wide', 'too-large'])) return 1;
  const combinations = chosenCombinations(pattern, options.choose, options.all);
  checkMaterials(pattern, combinations, options.material);
  const lays: LayMap = new Map();
  const laid: Laid[] = [];
  for (const combination of combinations) laid.push(layOne(pattern, combination, articles, wanted, options, lays));
  if (options.json) await writeOutput(jsonOf(laid, pattern), undefined);
  else for (const one of laid) await writeOutput(textOf(one, pattern, options.verify), undefined);
  if (options.svg !== undefined) for (const one of laid) await drawAll(one, pattern, basename(spec.path, '.piece'), options.svg, laid.length > 1);
  const allFit = laid.every(({ list }) => list.materials.every((plan) => plan.best !== undefined && plan.best.unplaced.length === 0));
  return allFit && laid.every(({ faults }) => faults.length === 0) ? 0 : 1;
}

function layOne(pattern: Pattern, combination: Combination, articles: number, wanted: BuyingOptions, options: LayOptions, lays: LayMap): Laid {
  const resolved: Resolved = pattern.resolve(combination);
  const needs = needsOf(resolved, articles).filter(({ material }) => options.material.length === 0 || options.material.includes(material.name));
  const progress = progressOn(process.stderr, 'Laying out: per cent', 100);
  const plans = needs.map((need, index) => planShown(need, wanted, lays, (done) => { progress.show(Math.floor((100 * (index + done)) / needs.length)); }));
  progress.end();
  const list = listOf(articles, plans, options.material.length === 0 ? supplyPurchases(resolved.supplies, articles) : []);
  return { table: cuttingTable(pattern, combination, list), list, faults: options.verify ? plans.flatMap(faultsOf) : [] };
}

function planShown(need: MaterialNeed, options: BuyingOptions, lays: LayMap, show: (done: number) => void): MaterialPlan {
  const search = planning(need, options, lays);
  for (;;) {
    const { done, value } = search.next();
    show(value.done);
    if (done) return value;
  }
}

// ------------------------------------------------------------------------------------------------ what is asked for

function checkMaterials(pattern: Pattern, combinations: readonly Combination[], names: readonly string[]): void {
  const known = new Set(combinations.flatMap((combination) => needsOf(pattern.resolve(combination), 1).map(({ material }) => material.name)));
  for (const name of names) {
    if (known.has(name)) continue;
    const near = nearestName(name, [...known]);
    throw new UsageError(`Nothing is cut from a material called “${name}”.${near === undefined ? ` There are: ${[...known].join(', ')}.` : ` Did you mean “${near}”?`}`);
  }
}

function buyingOptions(options: LayOptions, unit: FileUnit): BuyingOptions {
  const effort = Number(options.effort);
  if (!(effort >= 0 && effort <= 3600)) throw new UsageError(`“${options.effort}” isn’t an effort: write a number from 0 to 3600, about the seconds to look for each lay.`);
  return { ...usualOptions, lay: options.lay, gap: lengthOf(options.gap, unit, '--gap', false).valueOf(), effort, widths: options.width.map((text) => widthOf(text, unit)) };
}

/** `54in`, or `54in=12.50` with what that width costs. */
function widthOf(text: string, unit: FileUnit): OtherWidth {
  const [width = '', price, ...more] = text.split('=');
  const amount = price === undefined ? undefined : numberOf(price);
  if (more.length > 0 || (price !== undefined && amount === undefined)) throw new UsageError(`“${text}” isn’t a width: write it as in 54in, or with a price as in 54in=12.50.`);
  return { nominal: lengthOf(width, unit, '--width', true), price: amount };
}

/** 1 km, in millimetres: no cloth is as wide. */
const longest = millimetresIn.m.mul(1000);

function lengthOf(text: string, unit: FileUnit, option: string, positive: boolean): Rational {
  const [, digits = '', named] = /^\s*(.*?)\s*(in|cm|mm|m|yd|ft)?\s*$/.exec(text) ?? [];
  const length = numberOf(digits)?.mul(millimetresIn[(named ?? unit) as keyof typeof millimetresIn]);
  if (length === undefined || (positive && length.compare(0) <= 0) || length.compare(longest) > 0) throw new UsageError(`“${text}” isn’t a length for ${option}: write it as in 54in, 7 1/2 in or 140 cm.`);
  return length;
}

/** A number as the language writes it, never negative. */
function numberOf(digits: string): Rational | undefined {
  const text = digits.trim();
  return /^(\d+(\.\d+)?|\.\d+|(\d+ +)?\d+\/\d+|\d* *[\u00BC-\u00BE\u2153-\u215E])$/u.test(text) ? parseNumber(text) : undefined;
}

// ------------------------------------------------------------------------------------------------ checking

const faultWords = (fault: Fault): string =>
  'placements' in fault ? `${fault.kind}, pieces ${fault.placements.map((index) => index + 1).join(' and ')}` : fault.kind;

function faultsOf(plan: MaterialPlan): readonly string[] {
  return plan.widths.flatMap((width) => width.lays.flatMap((found, index) =>
    verifyLay(found.problem, found.lay).map((fault) => `${plan.need.material.title}, lay ${index + 1}: ${faultWords(fault)}`)));
}

// ------------------------------------------------------------------------------------------------ what is said

function textOf({ table, list, faults }: Laid, pattern: Pattern, verified: boolean): string {
  const { currency } = pattern.world.facts;
  const combination = combinationText(table);
  const lines = [`${table.title}${combination === '' ? '' : ` (${combination})`}, ${list.articles === 1 ? 'one article' : `${list.articles} articles`}`, ''];
  for (const plan of list.materials) lines.push(...materialLines(plan, pattern), '');
  const supplies = buyingRows(list, pattern.display, currency).slice(list.materials.length);
  if (supplies.length > 0) lines.push(...supplies.map(supplyLine), '');
  if (verified) lines.push(...(faults.length === 0 ? ['Checked: every lay is right.'] : ['Checked, and wrong:', ...faults.map((fault) => `  ${fault}`)]), '');
  lines.push(...table.cautions, stampText(table), '');
  return `${lines.map(plain).join('\n')}\n`;
}

function materialLines(plan: MaterialPlan, pattern: Pattern): readonly string[] {
  const { material } = plan.need;
  if (plan.best === undefined) return [`${material.title}: no width is given, so nothing is laid out.`];
  const several = plan.widths.length > 1;
  return [
    `${material.title}${several ? '' : `, ${planWidth(plan.best, material, pattern.display)}`}`,
    ...plan.widths.flatMap((width) => widthLines(plan, width, several, pattern)),
  ];
}

function widthLines(plan: MaterialPlan, width: WidthPlan, several: boolean, { display, world }: Pattern): readonly string[] {
  const cost = width.cost === undefined ? '' : `, ${moneyText(width.cost, world.facts.currency)}`;
  const best = isCheapest(plan, width) ? ', the cheapest' : '';
  const leftovers = width.leftovers.flat().slice(0, 3).map((leftover) => leftoverText(leftover, display));
  const notes = [
    ...(width.form === 'lengths' && width.lays[0] !== undefined ? [spreadText(width.lays[0])] : []),
    ...(leftovers.length === 0 ? [] : [`left over: ${leftovers.join(', ')}`]),
  ];
  const leftOut = unplacedText(plan, width);
  return [
    `  ${several ? `${planWidth(width, plan.need.material, display)}: ` : ''}${planSentence(width, plan.need.material, display)}${cost}${best}`,
    ...(notes.length === 0 ? [] : [`    ${notes.join('; ')}`]),
    ...(leftOut === '' ? [] : [`    Attention: ${leftOut}`]),
  ];
}

/** Whether another width costs more and none less; those that cannot hold every piece don't count. */
function isCheapest({ widths }: MaterialPlan, { cost, unplaced }: WidthPlan): boolean {
  if (cost === undefined || unplaced.length > 0) return false;
  const others = widths.filter((other) => other.unplaced.length === 0).map((other) => other.cost);
  return others.every((other) => other === undefined || other.compare(cost) >= 0) && others.some((other) => other !== undefined && other.compare(cost) > 0);
}

function supplyLine({ item, found, buy, cost, notes }: BuyingRow): string {
  const facts = [found === '' ? '' : `needs ${found}`, buy === '' ? '' : `buy ${buy}`, cost, ...notes];
  return `${item}: ${facts.filter((fact) => fact !== '').join(', ')}`;
}

function jsonOf(laid: readonly Laid[], { display, world }: Pattern): string {
  const plans = laid.map(({ table, list, faults }) => ({
    title: table.title, revision: table.revision, inputs: table.digest, combination: table.combination,
    ...buyingData(list, display, world.facts.currency), faults, cautions: table.cautions,
  }));
  return `${JSON.stringify({ format: 'piecewright lay', version: 1, plans }, null, 2)}\n`;
}

// ------------------------------------------------------------------------------------------------ drawings

async function drawAll({ table, list }: Laid, { display }: Pattern, name: string, folder: string, several: boolean): Promise<void> {
  mkdirSync(folder, { recursive: true });
  const combination = combinationText(table);
  const texts = { heading: `${table.title}${combination === '' ? '' : ` (${combination})`}`, footer: [...table.cautions, stampText(table)] };
  for (const plan of list.materials) {
    for (const [index, width] of plan.widths.entries()) {
      const parts = [name, ...(several ? table.combination.map(({ option }) => option) : []), plan.need.material.name, ...(index === 0 ? [] : [String(Math.round((width.nominal ?? width.usable).valueOf()))])];
      const file = join(folder, `${parts.map(fileWord).join('-')}.svg`);
      await writeOutput(laySheet(plan, width, display, texts), file);
      process.stderr.write(`Wrote ${file}.\n`);
    }
  }
}

/** Names of a spec are letters, digits and underscores, but a file's name may be anything. */
const fileWord = (word: string): string => word.replace(/[^\p{L}\p{N}_.-]+/gu, '_');
