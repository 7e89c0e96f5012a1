import { escapeMarkup } from './escape.ts';
import { combinationText, sectionsOf, stampText, type Grouping, type Section } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';

/** A table as one HTML page that needs nothing else, reads well on a screen and prints well in black and white. */
export function toHtml(tables: readonly CuttingTable[], by: Grouping): string {
  const title = escapeMarkup(tables[0]?.title ?? '');
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}: cutting table</title>
<style>
${style}
</style>
</head>
<body>
${tables.map((table) => one(table, by)).join('\n')}
</body>
</html>
`;
}

const style = `
:root { color-scheme: light dark; }
body { font: 15px/1.45 system-ui, sans-serif; margin: 2rem auto; max-width: 70rem; padding: 0 1rem; }
h1 { font-size: 1.5rem; margin-bottom: .25rem; }
.combination { margin-top: 0; }
section { margin: 1.75rem 0; }
table { border-collapse: collapse; width: 100%; }
caption { font-weight: 600; font-size: 1.1rem; text-align: left; padding: .25rem 0; }
th, td { border: 1px solid; border-color: color-mix(in srgb, currentColor 35%, transparent); padding: .3rem .5rem; text-align: left; vertical-align: top; }
thead th { border-bottom-width: 2px; }
td.number { text-align: right; font-variant-numeric: tabular-nums; }
.care { border: 2px solid; padding: .25rem 1rem; }
footer { margin-top: 2rem; font-size: .9rem; }
@media print {
  :root { color-scheme: light; }
  body { margin: 0; max-width: none; font-size: 10pt; }
  thead { display: table-header-group; }
  tr, .care { break-inside: avoid; }
  article + article { break-before: page; }
}`.trim();

function one(table: CuttingTable, by: Grouping): string {
  const combination = combinationText(table);
  return `<article>
<h1>${escapeMarkup(table.title)}</h1>
${combination === '' ? '' : `<p class="combination">${escapeMarkup(combination)}</p>\n`}${list(table.notes)}${sectionsOf(table, by).map(section).join('\n')}
<section class="care">
<h2>Care</h2>
${list(table.cautions)}</section>
<footer>${escapeMarkup(stampText(table))}</footer>
</article>`;
}

const list = (texts: readonly string[]): string => (texts.length === 0 ? '' : `<ul>\n${texts.map((text) => `<li>${escapeMarkup(text)}</li>`).join('\n')}\n</ul>\n`);

function section({ heading, columns, rows }: Section): string {
  const cell = (text: string, index: number): string =>
    index === 0 ? `<th scope="row">${escapeMarkup(text)}</th>` : `<td${/^\d+$/.test(text) ? ' class="number"' : ''}>${escapeMarkup(text)}</td>`;
  return `<section>
<table>
<caption>${escapeMarkup(heading)}</caption>
<thead><tr>${columns.map((column) => `<th scope="col">${escapeMarkup(column)}</th>`).join('')}</tr></thead>
<tbody>
${rows.map((cells) => `<tr>${cells.map(cell).join('')}</tr>`).join('\n')}
</tbody>
</table>
</section>`;
}
