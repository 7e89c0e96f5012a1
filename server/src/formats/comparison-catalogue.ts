import { catalogueHeadline, cataloguePoints, isUnchanged, type CatalogueComparison, type CataloguePoint } from '../compare/catalogue.ts';
import type { Comparison } from '../compare/comparison.ts';
import { comparisonArticle } from './comparison-html.ts';
import { comparisonMarkdown, comparisonText } from './comparison-markdown.ts';
import { escapeMarkdown, escapeMarkup } from './escape.ts';
import { htmlList, htmlPage } from './html-page.ts';

/*
 * Comparisons of many specs in one report: what is to be minded over all of them, then each that has changed. One by itself is
 * written as it always is.
 */

/** Longer lists are cut short in the lead; what is cut off stands below, spec by spec. */
const mostSpecs = 12;
const mostItems = 4;

const alone = ({ comparisons, lone, moved, faults }: CatalogueComparison): Comparison | undefined => (comparisons.length === 1 && lone.length + moved.length + faults.length === 0 ? comparisons[0] : undefined);
const changed = ({ comparisons }: CatalogueComparison): readonly Comparison[] => comparisons.filter((one) => !isUnchanged(one));

/** @param each writes one comparison, where drawings of it are to be written too */
export function catalogueMarkdown(catalogue: CatalogueComparison, each: (comparison: Comparison) => string = (comparison) => comparisonMarkdown(comparison)): string {
  const one = alone(catalogue);
  if (one !== undefined) return each(one);
  const lead = cataloguePoints(catalogue).map(({ what, ...point }) => `- **${what}:** ${leadText(point).map(escapeMarkdown).join('; ')}`);
  return [`# ${escapeMarkdown(catalogueHeadline(catalogue))}\n`, ...(lead.length === 0 ? [] : [`${lead.join('\n')}\n`]), ...changed(catalogue).map(each)].join('\n');
}

export function catalogueText(catalogue: CatalogueComparison): string {
  const one = alone(catalogue);
  if (one !== undefined) return `${comparisonText(one)}\n`;
  const lead = [catalogueHeadline(catalogue), ...cataloguePoints(catalogue).map(({ what, ...point }) => `${what}: ${leadText(point).join('; ')}`)];
  return [lead.join('\n'), ...changed(catalogue).map((each) => `${each.new.file}\n${comparisonText(each)}`)].map((text) => `${text}\n`).join('\n');
}

export function catalogueHtml(catalogue: CatalogueComparison): string {
  const one = alone(catalogue);
  if (one !== undefined) return htmlPage(`${one.new.title}: what changed`, comparisonArticle(one));
  const lead = `<article>\n<h1>${escapeMarkup(catalogueHeadline(catalogue))}</h1>\n${htmlList(cataloguePoints(catalogue).map(({ what, ...point }) => `${what}: ${leadText(point).join('; ')}`))}\n</article>`;
  return htmlPage('What changed', [lead, ...changed(catalogue).map(comparisonArticle)].join('\n'));
}

/** Specs with what is to be minded in each, both lists cut short. */
function leadText({ of }: Pick<CataloguePoint, 'of'>): readonly string[] {
  const texts = of.slice(0, mostSpecs).map(({ spec, items }) => (items.length === 0 ? spec : `${spec}: ${items.slice(0, mostItems).join(', ')}${items.length > mostItems ? ` and ${items.length - mostItems} more` : ''}`));
  return of.length > mostSpecs ? [...texts, `and ${of.length - mostSpecs} more specs`] : texts;
}
