import { stringify } from 'csv-stringify/sync';
import { combinationText, sectionsOf, stampText, type Grouping } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';

/**
 * A table as CSV after RFC 4180. All sections share one set of columns, so that the file stays one table; a cell that a
 * spreadsheet would take for a formula is marked as text.
 */
export function toCsv(tables: readonly CuttingTable[], by: Grouping): string {
  const rows = tables.flatMap((table) => rowsOf(table, by));
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  // A lone line feed must stand in quotes too (RFC 4180, section 2, rule 6), though records end in both.
  return stringify([columns, ...rows.map((row) => columns.map((column) => row[column] ?? ''))], { record_delimiter: '\r\n', escape_formulas: true, quoted_match: /[\r\n]/ });
}

type Row = Readonly<Record<string, string>>;

function rowsOf(table: CuttingTable, by: Grouping): readonly Row[] {
  const start = { Section: '', Combination: combinationText(table) };
  const rows: Row[] = [];
  for (const section of sectionsOf(table, by)) {
    for (const cells of section.rows) {
      rows.push({ ...start, Section: section.heading, ...Object.fromEntries(section.columns.map((column, index) => [column, cells[index] ?? ''])) });
    }
  }
  const text = (heading: string, notes: readonly string[]): readonly Row[] => notes.map((note) => ({ ...start, Section: heading, Notes: note }));
  return [...rows, ...text('Notes', table.notes), ...text('Care', table.cautions), { ...start, Section: 'Pattern', Piece: table.title, Notes: stampText(table) }];
}
