import { statSync } from 'node:fs';
import { extname, join } from 'node:path';
import { usualOptions } from '../buying/plan.ts';
import { extensions, renderTable, tableFormats, type TableFormat } from '../formats/format.ts';
import { sectionKeys, sectionKinds, type Grouping, type SectionKey } from '../table/sections.ts';
import type { CuttingTable } from '../table/table.ts';
import { wholeTables } from '../table/whole-table.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { effortOf } from './lay-options.ts';
import { isRefused, openSpec, tellWarnings } from './open.ts';
import { writeOutput } from './output.ts';
import type { CacheOptions } from './result-cache.ts';
import { isMade } from './table-job.ts';
import { tables } from './tables.ts';
import { tell } from './terminal.ts';
import { wholeNumber } from './whole-number.ts';

export interface TableOptions extends CacheOptions {
  readonly format?: TableFormat;
  readonly by: Grouping;
  readonly choose: readonly string[];
  readonly all: boolean;
  readonly output?: string;
  readonly articles: string;
  readonly effort: string;
  /** The part that CSV is written of, or all of them. */
  readonly section?: SectionKey | 'all';
}

export const sectionChoices = [...sectionKeys, 'all'] as const;

/** `piecewright table`: writes the cutting table of one spec, or of all those in a folder; or 1 and the errors where there are any. */
export async function table(named: string, options: TableOptions): Promise<number> {
  if (statSync(named, { throwIfNoEntry: false })?.isDirectory() === true) return ofFolder(named, options);
  const opened = await openSpec(named);
  const { pattern } = opened;
  const combinations = chosenCombinations(pattern, options.choose, options.all);
  const articles = wholeNumber(options.articles, '--articles');
  const effort = effortOf(options.effort);
  const format = options.format ?? (options.section === undefined ? formatOf(options.output) : 'csv');
  if (options.section !== undefined && format !== 'csv') throw new UsageError('Only CSV is written part by part: leave out --section, or say --format csv.');
  if (options.section === 'all' && options.output === undefined) throw new UsageError('All parts need a folder to be written to: name it with --output.');
  if (isRefused(opened, 'No table is written while the spec has errors: a wrong one would cost cloth.')) return 1;
  if (!isMade(pattern)) {
    tell(`“${named}” has no piece and nothing to buy, so there is no table of it.`);
    return 1;
  }
  tellWarnings(opened);
  const tables = [...wholeTables(pattern, combinations, articles, { ...usualOptions, effort })];
  if (options.section === 'all') await writeParts(tables, options.by, options.output ?? '');
  else await writeOutput(renderTable(tables, format, options.by, options.section), options.output);
  if (options.output !== undefined) tell(`Wrote ${options.output}.`);
  else if (!options.all && options.choose.length < pattern.choices.size && process.stderr.isTTY) {
    process.stderr.write('This is one of several: choose with --choose, or write all with --all.\n');
  }
  return 0;
}

async function ofFolder(named: string, { output, section, format = 'markdown', by, choose, all, articles, effort, cache }: TableOptions): Promise<number> {
  if (output === undefined) throw new UsageError(`“${named}” is a folder: name one to write its tables to with --output.`);
  if (section !== undefined) throw new UsageError('The tables of a folder are written whole: leave out --section.');
  return tables(named, output, { format, by, choose, all, articles: wholeNumber(articles, '--articles'), effort: effortOf(effort) }, { cache });
}

/** Every part that there is, in a file of its own. */
async function writeParts(tables: readonly CuttingTable[], by: Grouping, folder: string): Promise<void> {
  const there = sectionKinds(by).filter((kind) => tables.some((one) => kind.rows(one).length > 0)).map((kind) => kind.key);
  for (const key of [...there, 'safety'] as const) await writeOutput(renderTable(tables, 'csv', by, key), join(folder, `${key}.csv`));
}

/** The format that a file's name asks for; Markdown on standard output and where the name has no ending. */
function formatOf(output: string | undefined): TableFormat {
  const ending = output === undefined ? '' : extname(output).slice(1).toLowerCase();
  if (ending === '') return 'markdown';
  const format = tableFormats.find((one) => extensions[one] === ending);
  if (format === undefined) throw new UsageError(`No table can be written as “.${ending}”: use ${tableFormats.map((one) => `.${extensions[one]}`).join(', ')}, or say --format.`);
  return format;
}
