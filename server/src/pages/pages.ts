import { KeptLays, type LayCache } from '../buying/lay-out.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import { bookletOf } from './booklet/booklet.ts';
import { contentsOf } from './contents.ts';
import type { PageOptions } from './options.ts';
import type { Sheet } from './sheet.ts';
import type { Headline } from './template-item.ts';
import { templateSheets, type TemplateSheet } from './template-sheets.ts';
import { sizedCombinations, templatesOf, type Sized, type Template } from './templates.ts';

/** A booklet as plain data, whatever it is written as. */
export interface Pages {
  readonly title: string;
  readonly revision: string | undefined;
  readonly digest: string;
  readonly sheets: readonly Sheet[];
  /** Layers that can be switched off, one for each size or group of sizes that has lines of its own. */
  readonly layers: readonly string[];
  /** Where a reader may want to go: names of parts with the index of their first sheet. */
  readonly outline: readonly { readonly title: string; readonly sheet: number }[];
}

/** The templates of a pattern, with what is written on all of them. */
export interface TemplateSet {
  readonly combinations: readonly Sized[];
  readonly templates: readonly Template[];
  readonly headline: Headline;
}

export function templateSet(pattern: Pattern, combination: Combination, options: Pick<PageOptions, 'sizes' | 'templates'>): TemplateSet {
  const combinations = sizedCombinations(pattern, combination, options.sizes);
  const templates = templatesOf(pattern, combinations, options.templates);
  const { facts } = pattern.world;
  const sizes = combinations.flatMap(({ size }) => (size === undefined ? [] : [size]));
  return { combinations, templates, headline: { title: facts.title ?? pattern.world.root.path, revision: facts.revision, templates: templates.length, sizes } };
}

export const layersOf = (templates: readonly Template[]): readonly string[] =>
  [...new Set(templates.flatMap(({ variants }) => variants.flatMap((variant) => (variant.sizes.length === 0 ? [] : [variant.sizes.join(', ')]))))];

/**
 * Everything that is printed of a pattern, step by step, so that whoever asks may stop in between.
 */
export function* makingPages(pattern: Pattern, combination: Combination, options: PageOptions, lays: LayCache = new KeptLays()): Generator<undefined, Pages> {
  const { combinations, templates, headline } = templateSet(pattern, combination, options);
  yield undefined;
  const printed: readonly TemplateSheet[] = templateSheets(templates, headline, options);
  yield undefined;
  const contents = yield* contentsOf(pattern, combinations, lays);
  const booklet = bookletOf(pattern, contents, templates, printed, options);
  const sheets = [...booklet.sheets, ...printed.map(({ sheet }) => sheet)];
  return {
    title: headline.title, revision: headline.revision, digest: pattern.digest, sheets, layers: layersOf(templates),
    outline: [...booklet.outline, ...printed.map(({ sheet }, index) => ({ title: sheet.name, sheet: booklet.sheets.length + index }))],
  };
}

/** Everything that is printed of a pattern, in one go. */
export function pagesOf(pattern: Pattern, combination: Combination, options: PageOptions, lays?: LayCache): Pages {
  const making = makingPages(pattern, combination, options, lays);
  for (;;) {
    const { done, value } = making.next();
    if (done === true) return value;
  }
}
