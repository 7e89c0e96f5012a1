import { heldTogether } from '../pages/letters/words-of.ts';
import { documentsOf, type Cell, type Section, type TableDocument } from '../table/document.ts';
import type { Grouping } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';
import { headings, stepsDrawn } from '../table/words.ts';
import { escapeMarkup } from './escape.ts';
import { htmlList, htmlPage } from './html-page.ts';
import { layPictures, stepPictures, templatePictures, type Picture } from './pictures.ts';
import { unbrokenColumns } from './unbroken.ts';

/** A table as one HTML page that needs nothing else, reads well on a screen and prints well in black and white. */
export function toHtml(tables: readonly CuttingTable[], by: Grouping): string {
  return htmlPage(`${tables[0]?.title ?? ''}: cutting table`, documentsOf(tables, by, 'drawn').map(one).join('\n'));
}

function one(document: TableDocument, index: number): string {
  const { title, combination, notes, sections, cautions, stamp } = document;
  const anchor = `table-${index + 1}`;
  const parts = [
    `<h1>${escapeMarkup(title)}</h1>`,
    combination === '' ? '' : `<p class="combination">${escapeMarkup(combination)}</p>`,
    htmlList(notes),
    ...sections.filter(({ key }) => key !== 'templates').flatMap((part) => [
      section(part, anchor),
      ...(part.key === 'steps' ? [pictures(headings.stepDrawings, 'pictures steps', stepPictures(document), anchor, { said: stepsDrawn })] : []),
    ]),
    // What the table of templates says stands below each drawing.
    pictures(headings.templates, 'pictures', templatePictures(document), anchor, { below: sections.find(({ key }) => key === 'templates')?.below }),
    pictures('Lays', 'pictures lays', layPictures(document), anchor),
    `<section class="safety">\n<h2>${headings.safety}</h2>\n${htmlList(cautions)}\n</section>`,
    `<footer>${escapeMarkup(stamp)}</footer>`,
  ];
  return `<article>\n${parts.filter((part) => part !== '').join('\n')}\n</article>`;
}

/** Headings of so many letters are not broken either, as `How many`. */
const shortHeading = 9;

function section({ heading, said, columns, rows, below }: Section, anchor: string): string {
  const unbroken = unbrokenColumns(columns.map(({ heading: name }, index) => [...(name.length <= shortHeading ? [name] : []), ...rows.map((cells) => cells[index]?.text ?? '')]));
  const classes = columns.map(({ numeric }, index) => [...(numeric ? ['number'] : []), ...(unbroken[index] === true ? ['fact'] : [])].join(' '));
  return `<section>
<table>
<caption>${escapeMarkup(heading)}${said.length === 0 ? '' : `<p class="said">${escapeMarkup(said.join(' '))}</p>`}</caption>
<thead><tr>${columns.map((column, index) => `<th scope="col"${column.heading.length <= shortHeading && unbroken[index] === true ? ' class="fact"' : ''}>${escapeMarkup(column.heading)}</th>`).join('')}</tr></thead>
<tbody>
${rows.map((cells) => row(cells, classes, anchor)).join('\n')}
</tbody>
</table>${below.length === 0 ? '' : `\n${htmlList(below)}`}
</section>`;
}

/** A row that names a template leads to its drawing. */
function row(cells: readonly Cell[], classes: readonly string[], anchor: string): string {
  const texts = cells.map((cell, index) => {
    const words = escapeMarkup(heldTogether(cell.text));
    const text = cell.template === undefined ? words : `<a href="#${anchor}-template-${cell.template}">${words}</a>`;
    const named = (classes[index] ?? '') === '' ? '' : ` class="${classes[index] ?? ''}"`;
    return index === 0 ? `<th scope="row"${named}>${text}</th>` : `<td${named}>${text}</td>`;
  });
  return `<tr>${texts.join('')}</tr>`;
}

function pictures(heading: string, names: string, drawn: readonly Picture[], anchor: string, { said = '', below = [] }: { readonly said?: string; readonly below?: readonly string[] | undefined } = {}): string {
  if (drawn.length === 0) return '';
  const figures = drawn.map(({ svg, caption, number }) => `<figure${number === undefined ? '' : ` id="${anchor}-template-${number}"`}>\n${svg}\n<figcaption>${caption.map((line) => escapeMarkup(heldTogether(line))).join('<br>')}</figcaption>\n</figure>`);
  return `<section aria-label="${heading}" id="${anchor}-${heading.split(' ')[0]?.toLowerCase() ?? ''}">\n<h2>${heading}</h2>\n${said === '' ? '' : `<p class="said">${escapeMarkup(said)}</p>\n`}<div class="${names}">\n${figures.join('\n')}\n</div>${below.length === 0 ? '' : `\n${htmlList(below)}`}\n</section>`;
}
