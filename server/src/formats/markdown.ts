import { escapeMarkdown } from './escape.ts';
import { documentsOf, type Section, type TableDocument } from '../table/document.ts';
import type { Grouping } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';
import { headings } from '../table/words.ts';

/** A table in Markdown, with tables as GitHub Flavored Markdown has them. */
export const toMarkdown = (tables: readonly CuttingTable[], by: Grouping): string => documentsToMarkdown(documentsOf(tables, by));

export const documentsToMarkdown = (documents: readonly TableDocument[]): string => `${documents.map(one).join('\n\n')}\n`;

function one({ title, combination, notes, sections, cautions, stamp }: TableDocument): string {
  const parts = [
    `# ${escapeMarkdown(title)}${combination === '' ? '' : ` (${escapeMarkdown(combination)})`}`,
    ...list(notes),
    ...sections.map(sectionToMarkdown),
    `## ${headings.safety}`,
    ...list(cautions),
    `_${escapeMarkdown(stamp)}_`,
  ];
  return parts.join('\n\n');
}

const list = (texts: readonly string[]): readonly string[] => (texts.length === 0 ? [] : [texts.map((text) => `- ${escapeMarkdown(text)}`).join('\n')]);

/** One part, as it stands between two empty lines. */
export function sectionToMarkdown({ heading, said, columns, rows, below }: Section): string {
  const line = (cells: readonly string[]): string => `| ${cells.map(escapeMarkdown).join(' | ')} |`;
  return [
    `## ${escapeMarkdown(heading)}`,
    ...(said.length === 0 ? [] : [escapeMarkdown(said.join(' '))]),
    [line(columns.map((column) => column.heading)), `|${columns.map(() => ' --- |').join('')}`, ...rows.map((row) => line(row.map((cell) => cell.text)))].join('\n'),
    ...list(below),
  ].join('\n\n');
}
