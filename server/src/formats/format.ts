import { toCsv } from './csv.ts';
import { toHtml } from './html.ts';
import { toJson } from './json.ts';
import { toMarkdown } from './markdown.ts';
import type { Grouping, SectionKey } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';

export const tableFormats = ['markdown', 'csv', 'html', 'json'] as const;
export type TableFormat = (typeof tableFormats)[number];

/** The usual file name ending of each format. */
export const extensions: Readonly<Record<TableFormat, string>> = { markdown: 'md', csv: 'csv', html: 'html', json: 'json' };

/**
 * Writes tables, one for each combination, in one format.
 *
 * @param section the part that CSV is written of; the other formats have all
 */
export function renderTable(tables: readonly CuttingTable[], format: TableFormat, by: Grouping, section: SectionKey = 'cuts'): string {
  switch (format) {
    case 'markdown':
      return toMarkdown(tables, by);
    case 'csv':
      return toCsv(tables, by, section);
    case 'html':
      return toHtml(tables, by);
    case 'json':
      return toJson(tables);
  }
}
