import { documentsOf, type Cell, type Section, type TableDocument } from '../table/document.ts';
import type { Grouping } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';
import { headings } from '../table/words.ts';
import { escapeMarkup } from './escape.ts';
import { layPictures, templatePictures, type Picture } from './pictures.ts';

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
${documentsOf(tables, by).map(one).join('\n')}
</body>
</html>
`;
}

const style = `
:root { color-scheme: light dark; }
body { font: 15px/1.4 system-ui, sans-serif; margin: 2rem auto; max-width: 70rem; padding: 0 1rem; }
h1 { font-size: 1.4rem; margin: 0; }
h2 { break-after: avoid; }
h2, caption { font-size: 1.05rem; font-weight: 600; text-align: left; margin: 0; padding: .2rem 0; }
.combination, .said { margin: 0; }
.said { font-weight: 400; font-size: .95em; }
ul { margin: .25rem 0; padding-left: 1.2rem; }
section { margin: 1.1rem 0; }
table { border-collapse: collapse; width: 100%; }
th, td { border: 1px solid; border-color: color-mix(in srgb, currentColor 35%, transparent); padding: .15rem .4rem; text-align: left; vertical-align: top; }
thead th { border-bottom-width: 2px; }
tbody th { font-weight: 500; }
td.number { text-align: right; font-variant-numeric: tabular-nums; }
.pictures { display: flex; flex-wrap: wrap; gap: .75rem 1.25rem; }
figure { margin: 0; break-inside: avoid; }
figure svg { display: block; max-width: 100%; height: auto; background: #fff; }
figcaption { font-size: .9em; max-width: 14rem; }
.lays { display: grid; grid-template-columns: repeat(auto-fill, minmax(26rem, 1fr)); }
.lays figcaption { max-width: none; }
.safety { border: 2px solid; padding: .25rem 1rem; }
footer { margin-top: 1rem; font-size: .9rem; }
@media print {
  @page { margin: 10mm; }
  :root { color-scheme: light; }
  body { margin: 0; padding: 0; max-width: none; font-size: 8pt; line-height: 1.2; }
  h1 { font-size: 13pt; }
  h2, caption { font-size: 9.5pt; padding: .1rem 0; }
  th, td { padding: .05rem .25rem; }
  section { margin: .4rem 0; }
  figure svg { max-height: 45mm; width: auto; }
  .lays { grid-template-columns: 1fr 1fr; gap: .3rem 1rem; }
  .safety { padding: .1rem .6rem; }
  thead { display: table-header-group; }
  tr, .safety { break-inside: avoid; }
  caption { break-after: avoid; }
  article + article { break-before: page; }
  a { color: inherit; text-decoration: none; }
}`.trim();

function one(document: TableDocument, index: number): string {
  const { title, combination, notes, sections, cautions, stamp } = document;
  const anchor = `table-${index + 1}`;
  const written = sections.map((part) => [section(part, anchor), ...(part.key === 'templates' ? [pictures('Drawings', 'pictures', templatePictures(document), anchor)] : [])].join('\n'));
  const parts = [
    `<h1>${escapeMarkup(title)}</h1>`,
    combination === '' ? '' : `<p class="combination">${escapeMarkup(combination)}</p>`,
    list(notes),
    ...written,
    pictures('Lays', 'pictures lays', layPictures(document), anchor),
    `<section class="safety">\n<h2>${headings.safety}</h2>\n${list(cautions)}\n</section>`,
    `<footer>${escapeMarkup(stamp)}</footer>`,
  ];
  return `<article>\n${parts.filter((part) => part !== '').join('\n')}\n</article>`;
}

const list = (texts: readonly string[]): string => (texts.length === 0 ? '' : `<ul>\n${texts.map((text) => `<li>${escapeMarkup(text)}</li>`).join('\n')}\n</ul>`);

function section({ key, heading, said, columns, rows, below }: Section, anchor: string): string {
  const numeric = columns.map((column) => column.numeric);
  return `<section>
<table>
<caption>${escapeMarkup(heading)}${said.length === 0 ? '' : `<p class="said">${escapeMarkup(said.join(' '))}</p>`}</caption>
<thead><tr>${columns.map((column) => `<th scope="col">${escapeMarkup(column.heading)}</th>`).join('')}</tr></thead>
<tbody>
${rows.map((cells) => row(cells, numeric, anchor, key === 'templates')).join('\n')}
</tbody>
</table>${below.length === 0 ? '' : `\n${list(below)}`}
</section>`;
}

/** A row that names a template leads to its row and its drawing; the templates' own rows are where that leads. */
function row(cells: readonly Cell[], numeric: readonly boolean[], anchor: string, isTemplate: boolean): string {
  const number = isTemplate ? cells.find((cell) => cell.template !== undefined)?.template : undefined;
  const texts = cells.map((cell, index) => {
    const text = isTemplate || cell.template === undefined ? escapeMarkup(cell.text) : `<a href="#${anchor}-template-${cell.template}">${escapeMarkup(cell.text)}</a>`;
    return index === 0 ? `<th scope="row">${text}</th>` : `<td${numeric[index] === true ? ' class="number"' : ''}>${text}</td>`;
  });
  return `<tr${number === undefined ? '' : ` id="${anchor}-template-${number}"`}>${texts.join('')}</tr>`;
}

function pictures(heading: string, names: string, drawn: readonly Picture[], anchor: string): string {
  if (drawn.length === 0) return '';
  const figures = drawn.map(({ svg, caption }) => `<figure>\n${svg}\n<figcaption>${caption.map(escapeMarkup).join('<br>')}</figcaption>\n</figure>`);
  return `<section aria-label="${heading}" id="${anchor}-${heading.toLowerCase()}">\n<h2>${heading}</h2>\n<div class="${names}">\n${figures.join('\n')}\n</div>\n</section>`;
}
