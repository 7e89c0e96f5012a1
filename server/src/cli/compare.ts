import { unlink } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import type { CatalogueComparison } from '../compare/catalogue.ts';
import { catalogueHtml, catalogueMarkdown, catalogueText } from '../formats/comparison-catalogue.ts';
import { comparisonPictures, isComparisonPicture } from '../formats/comparison-drawings.ts';
import { comparisonJson } from '../formats/comparison-json.ts';
import { comparisonMarkdown } from '../formats/comparison-markdown.ts';
import { readTextSync } from '../platform/read-text.ts';
import { compareJob } from './compare-job.ts';
import { namedPairs, revisionPairs } from './compared-pairs.ts';
import { UsageError } from './files.ts';
import { keptOutcomes } from './kept-results.ts';
import { effortOf } from './lay-options.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { resultCache, type CacheOptions } from './result-cache.ts';
import { plain } from './terminal.ts';

export const comparisonFormats = ['terminal', 'markdown', 'html', 'json'] as const;
type ComparisonFormat = (typeof comparisonFormats)[number];

/** What is written by the ending of the file. */
const endings: Readonly<Record<string, ComparisonFormat>> = { '.md': 'markdown', '.html': 'html', '.json': 'json', '.txt': 'terminal', '': 'terminal' };

export interface CompareOptions extends CacheOptions {
  /** Whether a change is well, as long as the revision says that there is one. */
  readonly gate?: boolean;
  readonly format?: ComparisonFormat;
  readonly git?: string;
  readonly effort: string;
  readonly output?: string;
}

/** `piecewright compare`: 0 where nothing is different, 1 where something is, or where the revision says otherwise than what is made; as a gate 1 for that alone, and for what can’t be compared. */
export async function compareSpecs(named: readonly string[], options: CompareOptions): Promise<number> {
  const format = options.format ?? formatOf(options.output ?? '');
  const catalogue = await comparisonsOf(named, options);
  if (format === 'markdown' && options.output !== undefined) await writeMarkdown(catalogue, options.output);
  else await writeOutput(rendered(catalogue, format), options.output);
  const { comparisons, lone, faults } = catalogue;
  if (options.gate === true) return faults.length === 0 && comparisons.every(({ discipline }) => discipline?.severity !== 'error') ? 0 : 1;
  return lone.length + faults.length === 0 && comparisons.every((one) => one.same && one.discipline?.severity !== 'error') ? 0 : 1;
}

/**
 * The comparisons of what is named: two specs, two folders, or, with git, specs and folders in two revisions.
 *
 * @throws UsageError where one of two specs that were named can't be compared; of many, it is told among the rest
 */
export async function comparisonsOf(named: readonly string[], options: Pick<CompareOptions, 'git' | 'effort'> & CacheOptions): Promise<CatalogueComparison> {
  const effort = effortOf(options.effort);
  const { pairs, lone, moved } = options.git === undefined ? await namedPairs(named) : revisionPairs(named, options.git);
  const progress = progressOn(process.stderr, 'Comparing', pairs.length);
  const outcomes = await keptOutcomes(compareJob(), pairs.map(({ old, fresh }) => ({ old, fresh, effort })), resultCache(options, pairs.length), progress.show);
  progress.end();
  const faults = outcomes.flatMap((one, index) => ('fault' in one ? [{ file: pairs[index]?.file ?? '', why: one.fault }] : []));
  if (pairs.length === 1 && faults[0] !== undefined) throw new UsageError(faults[0].why);
  return { comparisons: outcomes.flatMap((one) => ('result' in one ? [one.result.comparison] : [])), lone, moved, faults };
}

function rendered(catalogue: CatalogueComparison, format: ComparisonFormat): string {
  if (format === 'json') return comparisonJson(catalogue);
  if (format === 'html') return catalogueHtml(catalogue);
  if (format === 'markdown') return catalogueMarkdown(catalogue);
  return catalogueText(catalogue).split('\n').map(plain).join('\n');
}

function formatOf(output: string): ComparisonFormat {
  const format = endings[extname(output).toLowerCase()];
  if (format === undefined) throw new UsageError(`Nothing is known to be written as “${extname(output)}”: use .html, .md, .json or .txt, or name a --format.`);
  return format;
}

/** Markdown with its drawings as files beside it: `report.md` has `report-1.svg` and so on. */
async function writeMarkdown(catalogue: CatalogueComparison, output: string): Promise<void> {
  const stem = basename(output, extname(output));
  const drawings: string[] = [];
  const text = catalogueMarkdown(catalogue, (comparison) => {
    const first = drawings.length + 1;
    drawings.push(...comparisonPictures(comparison.outlines).map(({ svg }) => svg));
    // Brackets would end the address (CommonMark 0.31.2, section 6.3).
    return comparisonMarkdown(comparison, (index) => `${encodeURIComponent(stem).replace(/[()]/g, (sign) => `%${sign.charCodeAt(0).toString(16)}`)}-${first + index}.svg`);
  });
  for (const [index, svg] of drawings.entries()) await writeOutput(`${svg}\n`, join(dirname(output), `${stem}-${index + 1}.svg`));
  await writeOutput(text, output);
  await removeDrawings((number) => join(dirname(output), `${stem}-${number}.svg`), drawings.length + 1);
}

/** Takes away the drawings of an earlier report that had more of them, and no file that is none. */
async function removeDrawings(at: (number: number) => string, first: number): Promise<void> {
  for (let number = first; ; number++) {
    const read = readTextSync(at(number));
    if (read === undefined || !('text' in read) || !isComparisonPicture(read.text)) return;
    await unlink(at(number));
  }
}
