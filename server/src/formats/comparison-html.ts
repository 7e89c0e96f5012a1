import type { Cause, Change } from '../compare/change.ts';
import type { Comparison } from '../compare/comparison.ts';
import { causePlace, groupNames, headline, nothingMade, pointsOf } from '../compare/summary.ts';
import { headings } from '../table/words.ts';
import { columnsOf } from './comparison-columns.ts';
import { comparisonPictures, drawingKey } from './comparison-drawings.ts';
import { errorNotes } from './comparison-markdown.ts';
import { escapeMarkup } from './escape.ts';
import { htmlList } from './html-page.ts';

/** A comparison as a part of a page: what a maker must do first, then the outlines over one another, then each change with its cause. */
export function comparisonArticle(comparison: Comparison): string {
  const { changes, same, new: fresh, old, discipline, renamed, cautions } = comparison;
  const parts = [
    `<h1>${escapeMarkup(same ? `${fresh.title}: no change` : headline(comparison))}</h1>`,
    discipline === undefined ? '' : `<p><strong>${discipline.severity === 'error' ? 'Error' : 'Note'}:</strong> ${escapeMarkup(discipline.message)}</p>`,
    ...[...errorNotes(comparison), ...nothingMade(comparison)].map((text) => `<p>${escapeMarkup(text)}</p>`),
    htmlList(pointsOf(comparison).map(({ what, items }) => `${what}: ${items.join('; ')}`)),
    outlines(comparison),
    ...[...new Set(changes.map(({ group }) => group))].map((group) => table(groupNames[group], changes.filter((change) => change.group === group))),
    renamed.length === 0 ? '' : `<section>\n<h2>Named otherwise</h2>\n${htmlList(renamed.map(({ kind, was, now }) => `${kind} ${was} → ${now}`))}\n</section>`,
    same ? '' : `<section class="safety">\n<h2>${headings.safety}</h2>\n${htmlList(cautions)}\n</section>`,
    `<footer>${escapeMarkup(`Compared: ${old.file} (${old.digest}) with ${fresh.file} (${fresh.digest}).`)}</footer>`,
  ];
  return `<article>\n${parts.filter((part) => part !== '').join('\n')}\n</article>`;
}

function outlines({ outlines: changed }: Comparison): string {
  if (changed.length === 0) return '';
  const figures = comparisonPictures(changed).map(({ svg, caption }) => `<figure>\n${svg}\n<figcaption>${caption.map(escapeMarkup).join('<br>')}</figcaption>\n</figure>`);
  return `<section>\n<h2>Outlines</h2>\n<p class="said">${drawingKey}</p>\n<div class="pictures">\n${figures.join('\n')}\n</div>\n</section>`;
}

function table(heading: string, changes: readonly Change[]): string {
  const { heads, cells } = columnsOf(changes);
  const row = (change: Change): string => {
    const [subject = '', ...others] = cells(change);
    return `<tr><th scope="row">${escapeMarkup(subject)}</th>${others.map((text) => `<td>${escapeMarkup(text)}</td>`).join('')}<td>${change.causes.map(cause).join('<br>')}</td></tr>`;
  };
  return `<section>\n<table>\n<caption>${escapeMarkup(heading)}</caption>\n<thead><tr>${[...heads, 'Why'].map((head) => `<th scope="col">${head}</th>`).join('')}</tr></thead>\n<tbody>\n${changes.map(row).join('\n')}\n</tbody>\n</table>\n</section>`;
}

const cause = (one: Cause): string => escapeMarkup(`${one.text}${one.before === undefined ? '' : ` (was ${one.before})`}, ${causePlace(one)}`);
