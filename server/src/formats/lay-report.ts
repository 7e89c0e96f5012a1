import type { BuyingList } from '../buying/list.ts';
import type { MaterialPlan, WidthPlan } from '../buying/plan.ts';
import { moneyText } from '../buying/purchase.ts';
import type { Pattern } from '../model/pattern.ts';
import { buyingRows, type BuyingRow } from '../table/buying-rows.ts';
import { leftoversText, planSentence, planWidth, spareText, spreadText, unplacedText } from '../table/buying-text.ts';
import { combinationText, stampText } from '../table/document.ts';
import type { CuttingTable } from '../table/table.ts';
import { buyingData } from './buying-json.ts';

/** What was laid out of one combination. */
export interface LaidCombination {
  readonly table: CuttingTable;
  readonly list: BuyingList;
  /** What was wrong with the lays; undefined where nobody looked. */
  readonly faults: readonly string[] | undefined;
}

/** `Field apron (size: M)`. */
export function layHeading(table: CuttingTable): string {
  const combination = combinationText(table);
  return `${table.title}${combination === '' ? '' : ` (${combination})`}`;
}

/** The last lines of every report and drawing. */
export const layFooter = (table: CuttingTable): readonly string[] => [...table.cautions, stampText(table)];

/** What to buy and how it lies, as lines to read. */
export function layLines({ table, list, faults }: LaidCombination, pattern: Pattern): readonly string[] {
  const { currency } = pattern.world.facts;
  const lines = [`${layHeading(table)}, ${list.articles === 1 ? 'one article' : `${list.articles} articles`}`, ''];
  for (const plan of list.materials) lines.push(...materialLines(plan, pattern), '');
  const supplies = buyingRows(list, pattern.display, currency).slice(list.materials.length);
  if (supplies.length > 0) lines.push(...supplies.map(supplyLine), '');
  if (faults !== undefined) lines.push(...(faults.length === 0 ? ['Checked: every lay is right.'] : ['Checked, and wrong:', ...faults.map((fault) => `  ${fault}`)]), '');
  return [...lines, ...layFooter(table), ''];
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
  const notes = [
    ...(width.form === 'lengths' && width.lays[0] !== undefined ? [spreadText(width.lays[0], display), ...spareText(width, plan.need.material, display)] : []),
    ...leftoversText(width, plan.need.material, display),
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

/** The same as JSON, with every lay. */
export function layJson(laid: readonly LaidCombination[], { display, world }: Pattern): string {
  const plans = laid.map(({ table, list, faults = [] }) => ({
    title: table.title, revision: table.revision, fingerprint: table.digest, planned: table.manner, combination: table.combination,
    ...buyingData(list, display, world.facts.currency), faults, cautions: table.cautions,
  }));
  return `${JSON.stringify({ format: 'piecewright lay', version: 2, plans }, null, 2)}\n`;
}
