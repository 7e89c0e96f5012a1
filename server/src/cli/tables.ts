import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { distinctProblems } from '../formats/problems/problem-list.ts';
import { extensions } from '../formats/format.ts';
import { specsBelow } from './files.ts';
import { keptOutcomes } from './kept-results.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { pretty, summary } from './report.ts';
import { resultCache, type CacheOptions } from './result-cache.ts';
import { tableJob, type TableManner } from './table-job.ts';
import { tell } from './terminal.ts';

/** So many files are written at a time. */
const written = 16;

/**
 * The tables of all specs of a folder, each in a file that stands in the output folder as its spec does in its own; 1 where
 * one of them has errors or could not be worked out.
 *
 * @throws UsageError where one can't be written
 */
export async function tables(named: string, output: string, manner: TableManner, options: CacheOptions): Promise<number> {
  const specs = await specsBelow(named);
  const progress = progressOn(process.stderr, 'Writing tables', specs.length);
  const outcomes = await keptOutcomes(tableJob(), specs.map(({ spec }) => ({ spec, manner })), resultCache(options, specs.length), progress.show);
  progress.end();
  const results = outcomes.flatMap((one, index) => ('result' in one ? [{ ...one.result, path: specs[index]?.path ?? '' }] : []));
  const problems = distinctProblems(results.map(({ report }) => report)).filter(({ severity }) => severity !== 'note');
  for (const problem of problems) process.stderr.write(`${pretty(problem, process.stderr)}\n`);
  outcomes.forEach((one, index) => {
    if ('fault' in one) tell(`There is no table of “${specs[index]?.spec.path ?? ''}”: ${one.fault}`);
  });
  const files = results.flatMap(({ path, table }) => (table === undefined ? [] : [{ file: join(output, path.replace(/piece$/, extensions[manner.format])), table: table.text }]));
  for (let at = 0; at < files.length; at += written) await Promise.all(files.slice(at, at + written).map(async ({ file, table }) => (isThere(file, table) ? undefined : writeOutput(table, file))));
  const refused = new Set(results.filter(({ report }) => report.problems.some(({ severity }) => severity === 'error')).map(({ path }) => path)).size;
  tell(`Wrote ${files.length === 1 ? 'one table' : `${files.length} tables`} to ${output}: ${summary(problems)}.${refused === 0 ? '' : ` None is written of ${refused === 1 ? 'a spec' : `${refused} specs`} with errors.`}`);
  return refused === 0 && outcomes.every((one) => 'result' in one) ? 0 : 1;
}

/** Whether a file says this already: then it keeps its time, for programs that go by that. */
function isThere(file: string, text: string): boolean {
  try {
    return readFileSync(file, 'utf8') === text;
  } catch {
    return false;
  }
}
