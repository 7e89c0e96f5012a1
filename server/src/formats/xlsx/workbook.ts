import { strToU8, zipSync } from 'fflate';
import { escapeMarkup } from '../escape.ts';

/** What stands in a cell: a number stays one, nothing is left blank. A text is never a formula, whatever it begins with. */
export type Cell = string | number | undefined;

export interface Worksheet {
  readonly name: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
}

/** The longest text that a cell may hold (Excel specifications and limits: 32,767). */
export const longestText = 32_767;
/** Signs that a worksheet’s name may not have, and its greatest length. */
const forbidden = /[\\/?*[\]:]/g;
const longestName = 31;

const xml = (body: string): Uint8Array => strToU8(`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n${body}`);
const namespace = 'http://schemas.openxmlformats.org';

/**
 * A workbook (ECMA-376, SpreadsheetML) with a bold first row that stays in sight. It holds no date: all its parts are of
 * the first day that a ZIP file can say, in whatever zone this runs.
 */
export function workbook(sheets: readonly Worksheet[]): Uint8Array {
  const names = sheetNames(sheets);
  const parts: Record<string, Uint8Array> = {
    '[Content_Types].xml': xml(`<Types xmlns="${namespace}/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>${sheets.map((_, index) => `<Override PartName="/xl/worksheets/sheet${index + 1}.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/>`).join('')}</Types>`),
    '_rels/.rels': xml(relationships([['officeDocument', 'xl/workbook.xml']])),
    'xl/workbook.xml': xml(`<workbook xmlns="${namespace}/spreadsheetml/2006/main" xmlns:r="${namespace}/officeDocument/2006/relationships"><sheets>${names.map((name, index) => `<sheet name="${escapeMarkup(name)}" sheetId="${index + 1}" r:id="rId${index + 1}"/>`).join('')}</sheets></workbook>`),
    'xl/_rels/workbook.xml.rels': xml(relationships([...sheets.map((_, index): [string, string] => ['worksheet', `worksheets/sheet${index + 1}.xml`]), ['styles', 'styles.xml']])),
    'xl/styles.xml': xml(`<styleSheet xmlns="${namespace}/spreadsheetml/2006/main"><fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts><fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills><borders count="1"><border/></borders><cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf xfId="0"/><xf xfId="0" fontId="1" applyFont="1"/><xf xfId="0" applyAlignment="1"><alignment wrapText="1" vertical="top"/></xf></cellXfs></styleSheet>`),
    ...Object.fromEntries(sheets.map((sheet, index) => [`xl/worksheets/sheet${index + 1}.xml`, worksheet(sheet)])),
  };
  return zipSync(parts, { mtime: '1980-01-01T00:00:00', level: 6 });
}

const relationships = (all: readonly (readonly [string, string])[]): string =>
  `<Relationships xmlns="${namespace}/package/2006/relationships">${all.map(([type, target], index) => `<Relationship Id="rId${index + 1}" Type="${namespace}/officeDocument/2006/relationships/${type}" Target="${target}"/>`).join('')}</Relationships>`;

/** Names as they are allowed, each once however letters are written. */
function sheetNames(sheets: readonly Worksheet[]): readonly string[] {
  const taken = new Set<string>();
  return sheets.map(({ name }) => {
    const plain = name.replace(forbidden, ' ').replace(/[\p{Cc}\p{Cf}]/gu, '').replace(/\s+/g, ' ').trim().slice(0, longestName).replace(/^'+|'+$/g, '') || 'Sheet';
    let unique = plain;
    for (let count = 2; taken.has(unique.toLowerCase()); count++) unique = `${plain.slice(0, longestName - 4)} ${count}`;
    taken.add(unique.toLowerCase());
    return unique;
  });
}

function worksheet({ columns, rows }: Worksheet): Uint8Array {
  const widths = columns.map((head, column) => Math.min(60, Math.max(8, ...[head, ...rows.map((row) => row[column])].map((cell) => String(cell ?? '').length + 2))));
  const all = [columns.map((head) => cellMarkup(head, 1)), ...rows.map((row) => row.map((cell) => cellMarkup(cell, 2)))];
  return xml([
    `<worksheet xmlns="${namespace}/spreadsheetml/2006/main"><sheetViews><sheetView workbookViewId="0"><pane ySplit="1" topLeftCell="A2" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>`,
    `<cols>${widths.map((width, index) => `<col min="${index + 1}" max="${index + 1}" width="${width}" customWidth="1"/>`).join('')}</cols>`,
    `<sheetData>${all.map((cells, row) => `<row r="${row + 1}">${cells.map((cell, column) => cell.replace('<c', `<c r="${columnName(column)}${row + 1}"`)).join('')}</row>`).join('')}</sheetData></worksheet>`,
  ].join(''));
}

function cellMarkup(cell: Cell, style: number): string {
  if (cell === undefined || cell === '') return '';
  if (typeof cell === 'number') return Number.isFinite(cell) ? `<c s="${style}"><v>${cell}</v></c>` : '';
  return `<c s="${style}" t="inlineStr"><is><t xml:space="preserve">${escapeMarkup(clean(cell))}</t></is></c>`;
}

/** Half of a pair of signs can’t be written, nor two signs that XML keeps for itself. */
const clean = (text: string): string => text.slice(0, longestText).replace(/[\uD800-\uDFFF\uFFFE\uFFFF]/gu, '');

/** `A` … `Z`, `AA` … */
function columnName(index: number): string {
  return index < 26 ? String.fromCharCode(65 + index) : columnName(Math.floor(index / 26) - 1) + columnName(index % 26);
}
