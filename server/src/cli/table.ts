import { extname } from 'node:path';
import { extensions, renderTable, tableFormats, type TableFormat } from '../formats/format.ts';
import type { Grouping } from '../table/sections.ts';
import { wholeTables } from '../table/whole-table.ts';
import { chosenCombinations } from './combinations.ts';
import { UsageError } from './files.ts';
import { isRefused, openSpec, tellWarnings } from './open.ts';
import { writeOutput } from './output.ts';

export interface TableOptions {
  readonly format?: TableFormat;
  readonly by: Grouping;
  readonly choose: readonly string[];
  readonly all: boolean;
  readonly output?: string;
}

/** `piecewright table`: writes the cutting table of one spec, or 1 and its errors where it has any. */
export async function table(named: string, options: TableOptions): Promise<number> {
  const opened = await openSpec(named);
  const { pattern } = opened;
  const combinations = chosenCombinations(pattern, options.choose, options.all);
  const format = options.format ?? formatOf(options.output);
  if (isRefused(opened, 'No table is written while the spec has errors: a wrong one would cost cloth.')) return 1;
  if (![...pattern.world.names.values()].some(({ tree }) => tree.kind === 'piece' || tree.kind === 'supply')) {
    process.stderr.write(`“${named}” has no piece and nothing to buy, so there is no table of it.\n`);
    return 1;
  }
  tellWarnings(opened);
  const tables = [...wholeTables(pattern, combinations)];
  await writeOutput(renderTable(tables, format, options.by), options.output);
  if (options.output !== undefined) process.stderr.write(`Wrote ${options.output}.\n`);
  else if (!options.all && options.choose.length < pattern.choices.size && process.stderr.isTTY) {
    process.stderr.write('This is one of several: choose with --choose, or write all with --all.\n');
  }
  return 0;
}

/** The format that a file's name asks for; Markdown on standard output and where the name has no ending. */
function formatOf(output: string | undefined): TableFormat {
  const ending = output === undefined ? '' : extname(output).slice(1).toLowerCase();
  if (ending === '') return 'markdown';
  const format = tableFormats.find((one) => extensions[one] === ending);
  if (format === undefined) throw new UsageError(`No table can be written as “.${ending}”: use ${tableFormats.map((one) => `.${extensions[one]}`).join(', ')}, or say --format.`);
  return format;
}
