import type { LayCache } from '../buying/lay-out.ts';
import { planMaterial, type BuyingOptions } from '../buying/plan.ts';
import { listOf } from '../buying/list.ts';
import { supplyPurchases } from '../buying/supplies.ts';
import { needsOf, type MaterialNeed } from '../buying/requirements.ts';
import type { Resolved } from '../model/pattern.ts';
import type { Material } from '../model/stock/material.ts';
import type { Supply } from '../model/stock/supply.ts';
import { buyingRows, type BuyingRow } from '../table/buying-rows.ts';
import { together } from './causes.ts';
import { differing, type Cause, type Raw } from './change.ts';
import type { Pair } from './pair.ts';
import { printsTheSame } from './same-outline.ts';
import { factsOfMaterial, factsOfSupply, type Facts } from './stock-facts.ts';
import { cutLines } from './piece-changes.ts';
import { placesNow, withPlacesNow } from './places-now.ts';

/** How lays are planned, and those planned already. */
export interface Planning {
  readonly options: BuyingOptions;
  readonly lays: LayCache;
}

/**
 * Materials and supplies that are not as they were, and what is bought otherwise.
 *
 * @param planning undefined where cloth is left out
 */
export function stockChanges(pair: Pair, planning: Planning | undefined): readonly Raw[] {
  const { materials, supplies, causes, old, fresh } = pair;
  const { display } = fresh.pattern;
  return [
    ...materials.both.flatMap(([was, now]) => factChanges('material', now.title, factsOfMaterial(was, pair.was, display), factsOfMaterial(now, pair.now, display), () => causes.ofFacts(now.name, was.name))),
    ...calledOtherwise(pair, materials.both), ...calledOtherwise(pair, supplies.both),
    ...supplies.both.flatMap(([was, now]) => supplyFactChanges(pair, was, now)),
    ...(planning === undefined ? [] : materialPurchases(pair, planning)),
    ...supplyRowsOf(pair),
    ...supplies.come.flatMap((supply) => supplyChange(pair, undefined, supply)),
    ...supplies.gone.flatMap((supply) => supplyChange(pair, supply, undefined)),
    ...(old.pattern.world.facts.currency === fresh.pattern.world.facts.currency ? [] : currencyChange(pair)),
  ];
}

/** The figures of all prices are for another money; no amount is another. */
function currencyChange({ old, fresh, causes }: Pair): readonly Raw[] {
  const changes: Raw[] = [];
  differing(changes, { group: 'buy', subject: 'All prices', what: 'currency', causes: causes.ofFact('currency'), amounts: { was: '', now: '' } }, old.pattern.world.facts.currency ?? '', fresh.pattern.world.facts.currency ?? '');
  return changes;
}

/** What a thing is asked for by in a shop is more than a name. */
function calledOtherwise({ causes }: Pair, both: readonly (readonly [Called, Called])[]): readonly Raw[] {
  return both.filter(([was, now]) => was.title !== now.title).map(([was, now]): Raw => ({
    group: 'buy', kind: 'changed', subject: now.title, what: 'title', was: `called “${was.title}”`, now: `called “${now.title}”`, causes: causes.ofTitle(now.name, was.name),
  }));
}

type Called = Pick<Material, 'name' | 'title'>;

/** What must be another when it is bought comes with what to buy. */
function supplyFactChanges(pair: Pair, was: Supply, now: Supply): readonly Raw[] {
  const { causes, fresh } = pair;
  const [before, after] = withPlacesNow(pair);
  const { display } = fresh.pattern;
  const changes = factChanges('material', now.title, factsOfSupply(was, before, display, placesNow(pair)), factsOfSupply(now, after, display), () => causes.ofFacts(now.name, was.name));
  return changes.map((change) => (['kind', 'size'].includes(change.what) ? { ...change, group: 'buy' } : change));
}

function factChanges(group: Raw['group'], subject: string, was: Facts, now: Facts, why: () => readonly Cause[]): readonly Raw[] {
  const changes: Raw[] = [];
  for (const [what, text] of now) {
    const before = was.get(what) ?? '';
    if (before !== text) differing(changes, { group, subject, what, causes: saying(what, why()) }, before, text);
  }
  return changes;
}

/** The statements that facts are written in, where those are not called the same. */
const statements: Readonly<Record<string, string>> = { 'usable width': 'width', 'sold in': 'bought', 'pack of': 'bought', 'shrinks along': 'shrinks', 'shrinks across': 'shrinks', notes: 'note', 'set at': 'at', casing: 'length', 'for articles': 'serves' };

/** Of the lines that changed those that say this fact, or all where none of them does. */
function saying(what: string, causes: readonly Cause[]): readonly Cause[] {
  const own = causes.filter(({ text }) => text.startsWith(statements[what] ?? what));
  return own.length > 0 ? own : causes;
}

// ------------------------------------------------------------------------------------------------ to buy

/** Lays take work, and another order of the same pieces may be laid otherwise: only what is cut otherwise is planned anew. */
function materialPurchases(pair: Pair, planning: Planning): readonly Raw[] {
  const { materials: { both, gone, come }, was, now } = pair;
  const [before, after] = [needsOf(was, 1), needsOf(now, 1)];
  const needOf = (needs: readonly MaterialNeed[], material: Material): MaterialNeed | undefined => needs.find((need) => need.material.name === material.name);
  const compared = (a: Material | undefined, b: Material | undefined): readonly Raw[] => {
    const [old, fresh] = [a && needOf(before, a), b && needOf(after, b)];
    if (a !== undefined && b !== undefined && old !== undefined && fresh !== undefined && needsTheSame(pair, a, b)) return [];
    return purchaseChange(b?.title ?? a?.title ?? '', rowOf(pair, old, planning), rowOf(pair, fresh, planning), materialCauses(pair, a, b));
  };
  return [...both.flatMap(([a, b]) => compared(a, b)), ...come.flatMap((b) => compared(undefined, b)), ...gone.flatMap((a) => compared(a, undefined))];
}

function needsTheSame(pair: Pair, was: Material, now: Material): boolean {
  const { display } = pair.fresh.pattern;
  if (JSON.stringify([...factsOfMaterial(was, pair.was, display)]) !== JSON.stringify([...factsOfMaterial(now, pair.now, display)])) return false;
  const of = ({ pieces: all }: Resolved, { name }: Material): number => all.flatMap(({ cuts }) => cuts).filter((line) => line.material.name === name).length;
  let alike = 0;
  for (const [a, b] of pair.pieces.both) {
    for (const [line, other] of cutLines(pair, a, b).both) {
      if (other.material.name !== now.name) continue;
      if (line.material.name !== was.name || !line.count.equals(other.count) || line.hand !== other.hand || line.onFold !== other.onFold || line.wayUp !== other.wayUp || !printsTheSame(line, other)) return false;
      alike++;
    }
  }
  return alike === of(pair.was, was) && alike === of(pair.now, now);
}

function rowOf({ fresh: { pattern: { display, world } } }: Pair, need: MaterialNeed | undefined, { options, lays }: Planning): BuyingRow | undefined {
  return need && buyingRows(listOf(1, [planMaterial(need, options, lays)], [], options), display, world.facts.currency)[0];
}

function materialCauses(pair: Pair, was: Material | undefined, now: Material | undefined): readonly Cause[] {
  const { causes, pieces } = pair;
  const isOf = (name: string, material: Material | undefined): boolean => material?.name === name;
  return together([
    ...(was !== undefined && now !== undefined ? [causes.ofNamed(now.name, was.name)] : []),
    ...pieces.both.flatMap(([a, b]) => {
      const lines = cutLines(pair, a, b);
      return [
        ...lines.both.filter(([line, other]) => isOf(other.material.name, now) || isOf(line.material.name, was)).flatMap(([line, other]) => [causes.ofCut(other, line), ...(printsTheSame(line, other) ? [] : [causes.ofLay(b.shape.name, a.shape.name, other.along)])]),
        ...lines.come.filter((line) => isOf(line.material.name, now)).map((line) => causes.at('new', line.place)),
        ...lines.gone.filter((line) => isOf(line.material.name, was)).map((line) => causes.at('old', line.place)),
      ];
    }),
    ...pieces.come.filter(({ cuts }) => cuts.some((line) => isOf(line.material.name, now))).map(({ shape }) => causes.at('new', shape.place)),
    ...pieces.gone.filter(({ cuts }) => cuts.some((line) => isOf(line.material.name, was))).map(({ shape }) => causes.at('old', shape.place)),
  ]);
}

function purchaseChange(subject: string, was: BuyingRow | undefined, now: BuyingRow | undefined, causes: readonly Cause[]): readonly Raw[] {
  const changes: Raw[] = [];
  differing(changes, { group: 'buy', subject, what: 'amount', causes, amounts: { was: amountText(was), now: amountText(now) } }, purchaseText(was), purchaseText(now));
  return changes;
}

const amountText = (row: BuyingRow | undefined): string => (row === undefined ? '' : row.buy === '' ? row.notes.join(', ') : row.buy);

/** `5/8 yd, 9.20 EUR`; what fits nowhere says so. */
const purchaseText = (row: BuyingRow | undefined): string =>
  row === undefined ? '' : [amountText(row), row.cost].filter((text) => text !== '').join(', ');

function supplyRowsOf(pair: Pair): readonly Raw[] {
  return pair.supplies.both.flatMap(([was, now]) => supplyChange(pair, was, now));
}

function supplyChange({ causes, fresh: { pattern: { display, world } } }: Pair, was: Supply | undefined, now: Supply | undefined): readonly Raw[] {
  const row = (supply: Supply | undefined): BuyingRow | undefined => supply && buyingRows({ ...listOf(1, [], supplyPurchases([supply], 1), usual) }, display, world.facts.currency)[0];
  const why = now === undefined ? (was === undefined ? [] : causes.at('old', was.place)) : was === undefined ? causes.at('new', now.place) : causes.ofNamed(now.name, was.name);
  return purchaseChange(now?.title ?? was?.title ?? '', row(was), row(now), why);
}

const usual: BuyingOptions = { lay: 'shorter', gap: 0, effort: 0, widths: [], leastLeftover: 0 };
