import { inSizes, wordsOf } from './in-sizes.ts';
import { inOneLine } from './figures.ts';
import type { CuttingTable } from './table.ts';
import { sectionKinds, type Grouping, type LaysShown, type SectionCell, type SectionKey, type SectionKind, type SectionRow } from './sections.ts';

/** A table as it is printed: of one combination, or of several sizes side by side. */
export interface TableDocument {
  readonly title: string;
  /** `tab: cork, size: M`; `tab: cork, sizes S, M and L`; empty where there is nothing to choose. */
  readonly combination: string;
  readonly notes: readonly string[];
  readonly sections: readonly Section[];
  readonly cautions: readonly string[];
  /** Which revision this is, and what it was worked out from. */
  readonly stamp: string;
  /** What it is made of, in the order of its sizes. */
  readonly tables: readonly CuttingTable[];
}

/** A part of a document as every format shows it. */
export interface Section {
  readonly key: SectionKey;
  readonly heading: string;
  /** What holds for all rows, said once. */
  readonly said: readonly string[];
  readonly columns: readonly { readonly heading: string; readonly numeric: boolean }[];
  readonly rows: readonly (readonly Cell[])[];
  readonly below: readonly string[];
}

export interface Cell {
  readonly text: string;
  readonly template: number | undefined;
}

/** Tables that differ in their size alone come side by side in one document; any others have one each. */
export function documentsOf(tables: readonly CuttingTable[], by: Grouping, lays: LaysShown = 'told'): readonly TableDocument[] {
  const groups: CuttingTable[][] = [];
  const open = new Map<string, CuttingTable[]>();
  for (const table of tables) {
    const key = JSON.stringify(table.combination.filter(({ choice }) => choice !== 'size'));
    const group = open.get(key);
    const size = sizeOf(table);
    if (group === undefined || size === '' || group.some((other) => sizeOf(other) === size)) {
      const fresh = [table];
      open.set(key, fresh);
      groups.push(fresh);
    } else group.push(table);
  }
  return groups.map((group) => documentOf(group, by, lays));
}

/** The size that a table is of; empty where it is of none. */
export const sizeOf = (table: CuttingTable): string => table.combination.find(({ choice }) => choice === 'size')?.option ?? '';

function documentOf(tables: readonly CuttingTable[], by: Grouping, lays: LaysShown): TableDocument {
  const [first] = tables;
  if (first === undefined) throw new Error('A document is made of at least one table.');
  const sizes = tables.map(sizeOf);
  return {
    title: first.title,
    combination: combinationText(first, sizes.length === 1 ? undefined : sizes),
    notes: [...(first.articles === 1 ? [] : [`For ${first.articles} articles: numbers of pieces, layers and supplies are for all of them.`]), ...merged(tables.map((table) => table.notes), sizes)],
    sections: sectionKinds(by, lays).filter((kind) => !tables.every(kind.saysNothing)).map((kind) => sectionOf(kind, tables, sizes)).filter((section) => section.rows.length > 0),
    cautions: merged(tables.map((table) => table.cautions), sizes),
    stamp: stampText(first),
    tables,
  };
}

/** The last line of every export: which revision this is, what it was worked out from, and how the cloth was planned where that is not as usual. */
export const stampText = (table: CuttingTable): string => `Revision ${table.revision ?? 'not given'}, fingerprint ${fingerprintText(table)}`;

/** What tells two tables apart: `0a1b2c3d4e5f`, `0a1b2c3d4e5f (for 3 articles, effort 5)`. */
export const fingerprintText = ({ digest, manner }: CuttingTable): string => (manner === '' ? digest : `${digest} (${manner})`);

/** `Tab: Cork, size: M`, in titles; empty where there is nothing to choose. */
export function combinationText({ combination }: CuttingTable, sizes?: readonly string[]): string {
  const said = combination.filter(({ choice }) => sizes === undefined || choice !== 'size').map(({ choiceTitle, optionTitle }) => `${choiceTitle}: ${optionTitle}`);
  return [...said, ...(sizes === undefined ? [] : [`sizes: ${sizes.join(', ')}`])].join(', ');
}

// ------------------------------------------------------------------------------------------------ sizes side by side

/** A row as it is in each of the sizes; undefined where there is none. */
type Across = readonly (SectionRow | undefined)[];

/** A part of a document, its tables in the order of the sizes. */
export function sectionOf<Table>(kind: SectionKind<Table>, tables: readonly Table[], sizes: readonly string[]): Section {
  const rows = aligned(tables.map(kind.rows));
  const said = [...new Set(tables.flatMap(kind.said))];
  const columns: { readonly heading: string; readonly numeric: boolean; readonly cells: readonly Cell[] }[] = [];
  kind.columns.forEach((column, index) => {
    const cells = rows.map((row) => row.map((one) => one?.cells[index]));
    const before = columns.length;
    const isList = cells.some((row) => row.some((cell) => cell?.remarks !== undefined));
    for (const { names, texts } of isList ? joined(cells, sizes) : split(cells, sizes)) {
      if (texts.every(({ text }) => text === '')) continue;
      const [one] = texts;
      const isSame = texts.length > 1 && one !== undefined && texts.every(({ text }) => text === one.text) && names === '';
      if (isSame && column.once !== undefined) said.push(column.once(one.text));
      else columns.push({ heading: names === '' ? column.heading : `${column.heading}, ${names}`, numeric: column.numeric ?? false, cells: texts });
    }
    if (columns.length > before) said.push(...explanations(column, cells));
  });
  if (rows.some((row) => row.includes(undefined))) {
    columns.push({ heading: 'Only in', numeric: false, cells: rows.map((row) => ({ text: row.includes(undefined) ? sizes.filter((_, at) => row[at] !== undefined).join(', ') : '', template: undefined })) });
  }
  return {
    key: kind.key,
    heading: kind.heading,
    said,
    columns: columns.map(({ heading, numeric }) => ({ heading, numeric })),
    rows: rows.map((_, at) => columns.map(({ cells }) => cells[at] ?? { text: '', template: undefined })),
    below: merged(tables.map(kind.below), sizes),
  };
}

/** What the words of a column that is there mean. */
function explanations({ explained }: Pick<SectionKind['columns'][number], 'explained'>, cells: CellsAcross): readonly string[] {
  if (explained === undefined) return [];
  const words = new Set(cells.flat().map((cell) => cell?.text));
  return [...new Set(Object.entries(explained).filter(([word]) => words.has(word)).map(([, meaning]) => meaning))];
}

/** The rows of all sizes, each once, in the order of the sizes and of the rows in them. */
function aligned(lists: readonly (readonly SectionRow[])[]): readonly Across[] {
  const order: string[] = [];
  const found = new Map<string, (SectionRow | undefined)[]>();
  lists.forEach((list, at) => {
    const seen = new Map<string, number>();
    let after = -1;
    for (const row of list) {
      const times = (seen.get(row.id) ?? 0) + 1;
      seen.set(row.id, times);
      const key = `${row.id}#${times}`;
      const across = found.get(key);
      if (across === undefined) {
        order.splice(++after, 0, key);
        found.set(key, lists.map((_, other) => (other === at ? row : undefined)));
      } else {
        across[at] = row;
        after = order.indexOf(key);
      }
    }
  });
  return order.map((key) => found.get(key) ?? []);
}

interface Side {
  /** The sizes that it is for; empty where it is for all. */
  readonly names: string;
  readonly texts: readonly Cell[];
}

type CellsAcross = readonly (readonly (SectionCell | undefined)[])[];

const absent = '–';

/** One column where no row differs from size to size, else one for each size; sizes that are alike share theirs. */
function split(cells: CellsAcross, sizes: readonly string[]): readonly Side[] {
  const isSame = sizes.length === 1 || cells.every((row) => new Set(row.filter((cell) => cell !== undefined).map((cell) => cell.text)).size <= 1);
  if (isSame) return [{ names: '', texts: cells.map((row) => shown(row.find((cell) => cell !== undefined))) }];
  const sides = new Map<string, { readonly names: string[]; readonly texts: readonly Cell[] }>();
  sizes.forEach((size, at) => {
    const texts = cells.map((row) => shown(row[at]));
    const key = JSON.stringify(texts.map(({ text }) => text));
    const same = sides.get(key);
    if (same === undefined) sides.set(key, { names: [size], texts });
    else same.names.push(size);
  });
  return [...sides.values()].map(({ names, texts }) => ({ names: names.join(', '), texts }));
}

const shown = (cell: SectionCell | undefined): Cell => (cell === undefined ? { text: absent, template: undefined } : { text: cell.text, template: cell.template });

/** Lists of remarks stay in one column; what is not said of all sizes says of which. */
function joined(cells: CellsAcross, sizes: readonly string[]): readonly Side[] {
  return [{ names: '', texts: cells.map((row) => ({ text: inOneLine(merged(row.map((cell) => cell?.remarks), sizes)), template: undefined })) }];
}

/** Remarks of all sizes, each once; undefined where a size has nothing that could be remarked on. */
function merged(lists: readonly (readonly string[] | undefined)[], sizes: readonly string[]): readonly string[] {
  if (sizes.length === 1) return [...new Set(lists[0])];
  const there = lists.filter((list) => list !== undefined);
  const told = sayingOnce(lists, sizes);
  const all = [...new Set(there.flat().map((remark) => told.get(remark) ?? remark))];
  return all.map((remark) => {
    const names = sizes.filter((_, at) => lists[at]?.some((one) => (told.get(one) ?? one) === remark) === true);
    return names.length === there.length ? remark : `${names.join(', ')}: ${remark}`;
  });
}

/** Remarks that are the same in all sizes but for their figures, each with the one that says them all. */
function sayingOnce(lists: readonly (readonly string[] | undefined)[], sizes: readonly string[]): ReadonlyMap<string, string> {
  const there = lists.flatMap((list, at) => (list === undefined ? [] : [{ list, size: sizes[at] ?? '' }]));
  const isEverywhere = (remark: string): boolean => there.every(({ list }) => list.includes(remark));
  const told = new Map<string, string>();
  for (const remark of there[0]?.list ?? []) {
    if (isEverywhere(remark)) continue;
    const alike = there.map(({ list, size }) => ({ size, texts: list.filter((one) => !isEverywhere(one) && wordsOf(one) === wordsOf(remark)) }));
    if (alike.some(({ texts }) => texts.length !== 1)) continue;
    const once = inSizes(alike.map(({ size, texts: [text = ''] }) => ({ size, text })));
    for (const { texts: [text = ''] } of alike) told.set(text, once);
  }
  return told;
}
