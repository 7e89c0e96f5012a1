import { stringify } from 'csv-stringify/sync';
import { visibleText } from './escape.ts';
import { fingerprintText } from '../table/document.ts';
import { sectionKinds, type Grouping, type SectionKey, type SectionKind } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';
import { headings } from '../table/words.ts';

/**
 * One part of a table as CSV after RFC 4180: one kind of row a file, with a column for each choice. Every row says which
 * pattern it is of, and carries the cautions, since rows are copied from file to file. A cell that a spreadsheet would take for a
 * formula is marked as text.
 */
export function toCsv(tables: readonly CuttingTable[], by: Grouping, section: SectionKey): string {
  const choices = [...new Map(tables.flatMap((table) => table.combination.map(({ choice, choiceTitle }) => [choice, choiceTitle] as const)))];
  const kind = section === 'safety' ? safety : sectionKinds(by).find((one) => one.key === section);
  if (kind === undefined) throw new Error(`There is no section ${section}.`);
  const columns = [...choices.map(([, title]) => `Choice: ${title}`), ...kind.columns.map((column) => column.heading), 'Pattern', 'Revision', 'Fingerprint', ...(section === 'safety' ? [] : ['Safety'])];
  const rows = tables.flatMap((table) => {
    const chosen = choices.map(([choice]) => table.combination.find((one) => one.choice === choice)?.optionTitle ?? '');
    const stamp = [table.title, table.revision ?? '', fingerprintText(table), ...(section === 'safety' ? [] : [table.cautions.join(' ')])];
    return kind.rows(table).map((row) => [...chosen, ...row.cells.map((cell) => cell.text), ...stamp]);
  });
  // A lone line feed must stand in quotes too (RFC 4180, section 2, rule 6), though records end in both.
  return stringify([columns, ...rows].map((cells) => cells.map(visibleText)), { record_delimiter: '\r\n', escape_formulas: true, quoted_match: /[\r\n]/ });
}

const safety: Pick<SectionKind, 'columns' | 'rows'> = {
  columns: [{ key: 'caution', heading: headings.safety }],
  rows: (table) => table.cautions.map((text) => ({ id: text, cells: [{ text, remarks: undefined, template: undefined }] })),
};
