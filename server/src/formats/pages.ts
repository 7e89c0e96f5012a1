import { KeptLays, type LayCache } from '../buying/lay-out.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import { contentsOf } from '../pages/contents.ts';
import { missingLetters } from '../pages/letters/letters.ts';
import type { PageOptions } from '../pages/options.ts';
import { layersOf, makingPages, templateSet, type Pages, type TemplateSet } from '../pages/pages.ts';
import { projectorSheet } from '../pages/projector.ts';
import { groupItem, type Item } from '../pages/sheet.ts';
import { figure } from '../problems/limits.ts';
import { drawTemplate, templateFacts, templateTitle } from '../pages/template-item.ts';
import { toDxf } from './dxf/dxf.ts';
import { longestText as longestInDxf } from './dxf/records.ts';
import { visibleText } from './escape.ts';
import { fileName } from './file-name.ts';
import { toPatternJson } from './pattern-json.ts';
import { toPdf } from './pdf/pdf.ts';
import { toSvg } from './svg/svg.ts';
import { toXlsx } from './xlsx/tables.ts';
import { longestText as longestInCell } from './xlsx/workbook.ts';

/** What one file may hold, told by its ending. */
export const fileFormats = ['pdf', 'dxf', 'xlsx', 'json'] as const;
/** All that a pattern may be handed over as: also a page for projectors, and a folder of drawings. */
export const pageFormats = [...fileFormats, 'projector', 'svg'] as const;
export type PageFormat = (typeof pageFormats)[number];

/** What is to be handed over: a pattern in one combination, in all its sizes or some. */
export interface Order {
  readonly pattern: Pattern;
  readonly combination: Combination;
  readonly options: PageOptions;
}

export interface HandedOver {
  /** One, or of drawings one for each template. */
  readonly files: readonly MadeFile[];
  /** Sentences for whoever asked: letters that can’t be set. */
  readonly notes: readonly string[];
}

export interface MadeFile {
  /** What tells a drawing from the others, safe on every file system: `03-card_pocket.svg`; empty where there is one file. */
  readonly name: string;
  readonly content: Uint8Array;
}

/** A pattern in one format, made step by step. */
export function* handingOver({ pattern, combination, options }: Order, format: PageFormat, lays: LayCache = new KeptLays()): Generator<undefined, HandedOver> {
  const one = (content: Uint8Array | string, notes: readonly string[] = []): HandedOver => ({ files: [{ name: '', content: typeof content === 'string' ? bytes(content) : content }], notes });
  const drawn = (pages: Pages): HandedOver => one(toPdf(pages), [...unset(pattern), ...cutOnTemplates(pages)]);
  if (format === 'pdf') return drawn(yield* makingPages(pattern, combination, options, lays));
  const set = templateSet(pattern, combination, options);
  yield undefined;
  switch (format) {
    case 'projector': {
      const { templates, headline } = set;
      const sheet = projectorSheet(templates, headline, pattern.display.unit);
      return drawn({ title: headline.title, revision: headline.revision, digest: pattern.digest, sheets: [sheet], layers: layersOf(templates), outline: [{ title: sheet.name, sheet: 0 }] });
    }
    case 'svg':
      return { files: drawings(set, pattern.digest), notes: [] };
    case 'dxf':
      return one(toDxf(set), cutIn(pattern, 'A cutter file', longestInDxf));
    case 'xlsx':
      return one(toXlsx(yield* contentsOf(pattern, set.combinations, lays), pattern.display, pattern.world.facts.currency), cutIn(pattern, 'A cell of a spreadsheet', longestInCell));
    case 'json':
      return one(toPatternJson(pattern, yield* contentsOf(pattern, set.combinations, lays)));
  }
}

/** The same in one go. */
export function handOver(order: Order, format: PageFormat, lays?: LayCache): HandedOver {
  const making = handingOver(order, format, lays);
  for (;;) {
    const { done, value } = making.next();
    if (done === true) return value;
  }
}

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** The texts that a spec and what it uses say, as they are written there. */
const textsOf = (pattern: Pattern): readonly string[] => pattern.world.files.flatMap(({ text }) => [...text.matchAll(/"([^"\n]*)"/g)].map(([, words = '']) => words));

/** The first words of a text, to tell which one is meant. */
function shortened(text: string): string {
  const letters = Array.from(visibleText(text));
  return letters.length <= 30 ? letters.join('') : `${letters.slice(0, 30).join('')}…`;
}

/** Which texts a format has no room for all of. */
function cutIn(pattern: Pattern, what: string, most: number): readonly string[] {
  const long = [...new Set(textsOf(pattern).filter((text) => text.length > most).map(shortened))];
  if (long.length === 0) return [];
  return [`${what} holds ${figure(most)} letters of a text: ${long.slice(0, 3).map((text) => `“${text}”`).join(', ')}${long.length > 3 ? ` and ${long.length - 3} more` : ''} ${long.length === 1 ? 'is' : 'are'} cut.`];
}

/** Which templates had no room for all that is written on them. */
function cutOnTemplates({ sheets }: Pages): readonly string[] {
  const cut = (items: readonly Item[], template: string): readonly string[] => items.flatMap((item) =>
    (item.kind === 'group' ? cut(item.items, item.figure === undefined ? template : item.name) : item.kind === 'text' && template !== '' && item.words.endsWith('…') ? [template] : []));
  const long = [...new Set(sheets.flatMap(({ kind, items }) => (kind === 'booklet' ? [] : cut(items, ''))))];
  if (long.length === 0) return [];
  return [`Not all of the words have room on ${long.slice(0, 3).map((name) => `“${shortened(name)}”`).join(', ')}${long.length > 3 ? ` and ${long.length - 3} more` : ''}: they end with “…” there.`];
}

/** Which letters of the spec’s own texts the pages’ typeface lacks. */
function unset(pattern: Pattern): readonly string[] {
  const missing = missingLetters(textsOf(pattern).join(' '));
  if (missing.length === 0) return [];
  const shown = missing.slice(0, 12).map((letter) => `“${letter}”`).join(', ');
  return [`The pages’ typeface has no ${shown}${missing.length > 12 ? ` and ${missing.length - 12} more` : ''}: a question mark stands in their place.`];
}

/** Every template as an SVG drawing of its own at true scale. */
function drawings({ templates, headline }: TemplateSet, digest: string): readonly MadeFile[] {
  return templates.map((template) => {
    const drawn = drawTemplate(template, headline);
    const number = String(template.number).padStart(String(templates.length).length, '0');
    // Half the thickest line lies outside its box.
    const border = 1;
    return {
      name: `${number}-${fileName(template.pieceName)}.svg`,
      content: bytes(toSvg({
        title: `${headline.title}: ${templateTitle(template, headline)}`,
        description: `At true scale, in millimetres. ${templateFacts(template)} Revision ${headline.revision ?? 'not given'}, fingerprint ${digest}.`,
        width: drawn.width + 2 * border, height: drawn.height + 2 * border,
        items: [groupItem('', drawn.items, { x: border, y: border })],
      })),
    };
  });
}
