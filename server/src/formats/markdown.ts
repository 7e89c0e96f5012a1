import { combinationText, sectionsOf, stampText, type Grouping, type Section } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';

/** A table in Markdown, with tables as GitHub Flavored Markdown has them. */
export function toMarkdown(tables: readonly CuttingTable[], by: Grouping): string {
  return `${tables.map((table) => one(table, by)).join('\n\n')}\n`;
}

function one(table: CuttingTable, by: Grouping): string {
  const combination = combinationText(table);
  const parts = [
    `# ${escape(table.title)}${combination === '' ? '' : ` (${escape(combination)})`}`,
    ...list(table.notes),
    ...sectionsOf(table, by).map(section),
    '## Care',
    ...list(table.cautions),
    `_${escape(stampText(table))}_`,
  ];
  return parts.join('\n\n');
}

const list = (texts: readonly string[]): readonly string[] => (texts.length === 0 ? [] : [texts.map((text) => `- ${escape(text)}`).join('\n')]);

function section({ heading, columns, rows }: Section): string {
  const line = (cells: readonly string[]): string => `| ${cells.map(escape).join(' | ')} |`;
  return [`## ${heading}`, '', line(columns), `|${columns.map(() => ' --- |').join('')}`, ...rows.map(line)].join('\n');
}

/** Signs that mean something in Markdown or HTML stand for themselves; so does what would start a list in a list. */
function escape(text: string): string {
  return text
    .replace(/[\\`*_{}[\]<>#|~&]/g, (sign) => (sign === '<' ? '&lt;' : sign === '>' ? '&gt;' : sign === '&' ? '&amp;' : `\\${sign}`))
    .replace(/[\s\p{Cc}]+/gu, ' ')
    .replace(/^( ?\d*)([-+.)])(?= |$)/, '$1\\$2');
}
