import { costOfCount, costOfLength } from '../buying/purchase.ts';
import type { BuyingList } from '../buying/list.ts';
import type { MaterialPlan } from '../buying/plan.ts';
import { documentsToMarkdown, sectionToMarkdown } from '../formats/markdown.ts';
import { priceUnits } from '../syntax/statements/vocabulary.ts';
import { buyingLines, pricedRows, type BuyingLine, type BuyingRow } from '../table/buying-rows.ts';
import { documentsOf, sectionOf, sizeOf } from '../table/document.ts';
import { buyingKind, type Grouping } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';
import { rational, type Rational } from '../units/rational.ts';
import type { ListPrices } from './read-content.ts';
import { arrayOf, isCount, isNumber, isText, isTruth, oneOf, optional, record } from './shapes.ts';

/** A table in Markdown whose prices can be put in anew: all else in it follows from something else. */
export interface PricedTable {
  readonly text: string;
  readonly parts: readonly PricedPart[];
}

/** What a document says of buying: where that stands in the text, and what it is made of. */
interface PricedPart {
  readonly start: number;
  readonly end: number;
  /** As in the document; one that is empty where there are no sizes. */
  readonly sizes: readonly string[];
  /** What is bought in each of them. */
  readonly lists: readonly KeptList[];
}

interface KeptList {
  readonly articles: number;
  readonly currency?: string | undefined;
  readonly lines: readonly KeptLine[];
}

/** A {@link BuyingLine}, numbers as texts. */
interface KeptLine {
  readonly row: Omit<BuyingRow, 'place'>;
  readonly cost?: string | undefined;
  readonly costEach?: string | undefined;
  /** What it is bought of, where a plain list says its price. */
  readonly of?: Bought | undefined;
}

interface Bought {
  readonly list: string;
  readonly material: string;
  readonly price: string;
  readonly per: (typeof priceUnits)[number];
  /** Millimetres, or how many. */
  readonly amount: string;
  readonly isLength: boolean;
}

const isRational = (value: unknown): value is string => isText(value) && /^-?\d+(?:\/[1-9]\d*)?$/.test(value);

const isRow = record<Omit<BuyingRow, 'place'>>({
  item: isText, width: isText, found: isText, noneUnder: isText, buy: isText, amount: optional(record({ value: isNumber, unit: isText })), certain: isText,
  cost: isText, price: optional(isNumber), notes: arrayOf(isText), soldBy: isText, leftovers: arrayOf(isText),
});

export const isPricedTable = record<PricedTable>({ text: isText, parts: arrayOf(record<PricedPart>({
  start: isCount, end: isCount, sizes: arrayOf(isText), lists: arrayOf(record<KeptList>({
    articles: isCount, currency: optional(isText), lines: arrayOf(record<KeptLine>({
      row: isRow, cost: optional(isRational), costEach: optional(isRational),
      of: optional(record<Bought>({ list: isText, material: isText, price: isRational, per: oneOf(...priceUnits), amount: isRational, isLength: isTruth })),
    })),
  })),
})) });

/** Writes tables, with the parts that hang on the prices of plain lists. */
export function pricedTable(tables: readonly { readonly table: CuttingTable; readonly list: BuyingList }[], by: Grouping, currency: string | undefined, prices: ListPrices): PricedTable {
  const documents = documentsOf(tables.map(({ table }) => table), by);
  const text = documentsToMarkdown(documents);
  if (!tables.some(({ list }) => list.materials.some((plan) => boughtOf(plan, prices) !== undefined))) return { text, parts: [] };
  let from = 0;
  const parts = documents.flatMap(({ sections, tables: own }): readonly PricedPart[] => {
    const section = sections.find(({ key }) => key === 'buying');
    if (section === undefined) return [];
    const written = sectionToMarkdown(section);
    // Nothing that stands above it has a heading like its own: line ends of a text for people are spaces in Markdown.
    const start = text.indexOf(`\n\n${written}\n\n`, from) + 2;
    from = start + written.length;
    return [{ start, end: from, sizes: own.map(sizeOf), lists: own.flatMap((one) => tables.flatMap(({ table, list }) => (table === one ? [keptList(list, table, currency, prices)] : []))) }];
  });
  return { text, parts };
}

function keptList(list: BuyingList, { display }: CuttingTable, currency: string | undefined, prices: ListPrices): KeptList {
  return {
    articles: list.articles, currency,
    lines: buyingLines(list, display).map(({ row: { place: _, ...row }, cost, costEach }, index) => {
      const plan = list.materials[index];
      return { row, cost: cost?.toFraction(), costEach: costEach?.toFraction(), of: plan && boughtOf(plan, prices) };
    }),
  };
}

function boughtOf({ need: { material }, best }: MaterialPlan, prices: ListPrices): Bought | undefined {
  const { file } = material.place.chunk;
  const price = prices.get(file)?.get(material.name);
  if (best?.cost === undefined || material.price === undefined || price === undefined) return undefined;
  return { list: file, material: material.name, price: price.toFraction(), per: material.price.per, amount: best.buy.toFraction(), isLength: best.form === 'lengths' };
}

/** The same table at other prices of the same things; undefined where one of them has none. */
export function repriced(table: PricedTable, prices: ListPrices): PricedTable | undefined {
  const { text, parts } = table;
  if (parts.every(({ lists }) => lists.every(({ lines }) => lines.every(({ of }) => of === undefined || priceNow(of, prices)?.toFraction() === of.price)))) return table;
  const made: PricedPart[] = [];
  const texts: string[] = [];
  let [from, length] = [0, 0];
  const add = (more: string): void => {
    texts.push(more);
    length += more.length;
  };
  for (const { start, end, sizes, lists } of parts) {
    const now = lists.map((list) => atPrices(list, prices));
    if (!now.every((list) => list !== undefined)) return undefined;
    const rows = now.map(({ lines, articles, currency }) => ({ buying: pricedRows(lines.map(lineOf), articles, currency) }));
    add(text.slice(from, start));
    const at = length;
    add(sectionToMarkdown(sectionOf(buyingKind('told'), rows, sizes)));
    made.push({ start: at, end: length, sizes, lists: now });
    from = end;
  }
  add(text.slice(from));
  return { text: texts.join(''), parts: made };
}

function atPrices(list: KeptList, prices: ListPrices): KeptList | undefined {
  const lines = list.lines.map((line): KeptLine | undefined => {
    if (line.of === undefined) return line;
    const price = priceNow(line.of, prices);
    const cost = price && costOf(line.of, price);
    return cost && { ...line, cost: cost.toFraction(), costEach: cost.div(list.articles).toFraction(), of: { ...line.of, price: price.toFraction() } };
  });
  return lines.every((line) => line !== undefined) ? { ...list, lines } : undefined;
}

const priceNow = ({ list, material }: Bought, prices: ListPrices): Rational | undefined => prices.get(list)?.get(material);

const costOf = ({ per, amount, isLength }: Bought, price: Rational): Rational | undefined =>
  (isLength ? costOfLength : costOfCount)({ amount: price, per }, rational(amount));

const lineOf = ({ row, cost, costEach }: KeptLine): BuyingLine => ({
  row: { ...row, place: undefined }, cost: cost === undefined ? undefined : rational(cost), costEach: costEach === undefined ? undefined : rational(costEach),
});
