import type { Pattern } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import type { PageOptions } from './options.ts';
import type { Sheet } from './sheet.ts';
import { templateSheets } from './template-sheets.ts';
import { sizedCombinations, templatesOf } from './templates.ts';

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

/** Everything that is printed of a pattern. */
export function pagesOf(pattern: Pattern, combination: Combination, options: PageOptions): Pages {
  const combinations = sizedCombinations(pattern, combination, options.sizes);
  const templates = templatesOf(pattern, combinations, options.templates);
  const { facts } = pattern.world;
  const title = facts.title ?? pattern.world.root.path;
  const sizes = combinations.flatMap(({ size }) => (size === undefined ? [] : [size]));
  const printed = templateSheets(templates, { title, revision: facts.revision, templates: templates.length, sizes }, options);
  const sheets = printed.map(({ sheet }) => sheet);
  return {
    title, revision: facts.revision, digest: pattern.digest, sheets,
    layers: [...new Set(templates.flatMap(({ variants }) => variants.flatMap((variant) => (variant.sizes.length === 0 ? [] : [variant.sizes.join(', ')]))))],
    outline: sheets.map(({ name }, sheet) => ({ title: name, sheet })),
  };
}
