import type { SizedContents } from '../../pages/contents.ts';
import type { Display } from '../../units/length.ts';
import { millimetresIn } from '../../units/length.ts';
import type { Rational } from '../../units/rational.ts';
import { documentsOf } from '../../table/document.ts';
import { inOneLine } from '../../table/figures.ts';
import { workbook, type Cell, type Worksheet } from './workbook.ts';

/** Sheets that have numbers of their own in place of the table’s texts. */
const numbered = ['cuts', 'buying'];

/** The tables of a pattern as a workbook: counts, sizes, lengths and costs as numbers, each with its unit in its heading. */
export function toXlsx(contents: readonly SizedContents[], display: Display, currency: string | undefined): Uint8Array {
  const [document] = documentsOf(contents.map(({ table }) => table), 'piece');
  if (document === undefined) return workbook([]);
  const sized = contents.some(({ size }) => size !== undefined);
  const withSize = (columns: readonly string[]): readonly string[] => (sized ? ['Size', ...columns] : columns);
  const rowsOf = (rows: (of: SizedContents) => readonly (readonly Cell[])[]): readonly (readonly Cell[])[] => contents.flatMap((one) => rows(one).map((row) => (sized ? [one.size, ...row] : row)));
  return workbook([
    about(contents, currency),
    { name: 'Cut', columns: withSize(cutColumns(display)), rows: rowsOf((one) => cutRows(one, display)) },
    { name: 'Buy', columns: withSize(buyColumns(currency)), rows: rowsOf(buyRows) },
    ...document.sections.filter(({ key }) => !numbered.includes(key)).map(({ heading, columns, rows }): Worksheet => ({ name: heading, columns: columns.map((column) => column.heading), rows: rows.map((row) => row.map(({ text }) => numberOrText(text))) })),
    { name: 'Safety', columns: ['Caution'], rows: document.cautions.map((caution) => [caution]) },
    { name: 'Fingerprint', columns: ['What this was made from'], rows: [[document.stamp]] },
  ].filter(({ rows }) => rows.length > 0));
}

function about(contents: readonly SizedContents[], currency: string | undefined): Worksheet {
  const [first] = contents;
  const rows: [string, Cell][] = [
    ['Pattern', first?.table.title], ['Revision', numberOrText(first?.table.revision ?? '')],
    ...(first?.table.combination ?? []).filter(({ choice }) => contents.length === 1 || choice !== 'size').map(({ choiceTitle, optionTitle }): [string, Cell] => [choiceTitle, optionTitle]),
    ['Currency', currency],
    ...[...new Set(contents.flatMap(({ table: { notes } }) => notes))].map((note): [string, Cell] => ['Note', note]),
  ];
  return { name: 'Pattern', columns: ['What', 'Value'], rows: rows.filter(([, value]) => value !== undefined && value !== '') };
}

const wholeNumber = /^\d{1,15}$/;
/** A whole number is a number. Anything else is as it was written. */
const numberOrText = (text: string): Cell => (wholeNumber.test(text) && !/^0\d/.test(text) ? Number(text) : text);

const cutColumns = ({ unit }: Display): readonly string[] =>
  ['Piece', 'Material', 'Cut', `Width (${unit})`, `Height (${unit})`, 'Width (mm)', 'Height (mm)', 'Template', 'Along', 'On fold', 'Twins', 'Which side up', 'Notes'];

/** To a thousandth: exact lengths come out as they are, others far finer than cloth. */
const rounded = (value: number): number => Math.round(value * 1000) / 1000;

function cutRows({ resolved, table }: SizedContents, { unit }: Display): readonly (readonly Cell[])[] {
  const lines = resolved.pieces.flatMap(({ cuts }) => cuts);
  return lines.map((line) => {
    const row = table.cuts.find((one) => one.place === line.place);
    const width = line.rectangle?.width.valueOf() ?? line.bounds.width;
    const height = line.rectangle?.height.valueOf() ?? line.bounds.height;
    const inUnit = (millimetres: number): number => rounded(millimetres / millimetresIn[unit].valueOf());
    return [
      line.piece.title, line.material.title, Number(line.count.n), inUnit(width), inUnit(height), rounded(width), rounded(height),
      line.rectangle === undefined ? 'yes' : '', row?.along, line.onFold ? 'yes' : '', line.hand === 'twins' ? 'yes' : '', row?.wayUp, inOneLine(row?.notes ?? []),
    ];
  });
}

const buyColumns = (currency: string | undefined): readonly string[] =>
  ['Material or supply', 'Needed', 'Buy', 'Unit', `Cost${currency === undefined ? '' : ` (${currency})`}`, 'Width (mm)', 'Certain'];

function buyRows({ list }: SizedContents): readonly (readonly Cell[])[] {
  const cost = (amount: Rational | undefined): Cell => (amount === undefined ? undefined : Math.round(amount.valueOf() * 100) / 100);
  return [
    ...list.materials.map(({ need, best }): readonly Cell[] => (best === undefined
      ? [need.material.title]
      : [need.material.title, rounded(best.shortest.valueOf()), rounded(best.buy.valueOf()), best.form === 'lengths' ? 'mm' : best.form, cost(best.cost), rounded(best.usable.valueOf()), best.certain ? 'yes' : ''])),
    ...list.supplies.map(({ supply, count, bought, needed, buy, cost: price }): readonly Cell[] => (buy === undefined
      ? [supply.title, count, bought, 'each', cost(price)]
      : [supply.title, needed === undefined ? undefined : rounded(needed.valueOf()), rounded(buy.valueOf()), 'mm', cost(price)])),
    ...(list.cost === undefined ? [] : [['Everything', undefined, undefined, undefined, cost(list.cost), undefined, undefined]]),
  ];
}
