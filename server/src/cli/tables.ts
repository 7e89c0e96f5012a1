import { join } from 'node:path';
import { distinctProblems } from '../formats/problems/problem-list.ts';
import { extensions } from '../formats/format.ts';
import { specsBelow } from './files.ts';
import { keptOutcomes } from './kept-results.ts';
import { progressOn } from './progress.ts';
import { pretty, summary } from './report.ts';
import { resultCache, type CacheOptions } from './result-cache.ts';
import { tableJob, type TableManner } from './table-job.ts';
import { tell } from './terminal.ts';
import { Writing } from './writing.ts';

/**
 * The tables of all specs of a folder, each in a file that stands in the output folder as its spec does in its own; 1 where
 * one of them has errors or could not be worked out.
 *
 * @throws UsageError where one can't be written
 */
export async function tables(named: string, output: string, manner: TableManner, options: CacheOptions): Promise<number> {
  const specs = await specsBelow(named);
  const progress = progressOn(process.stderr, 'Writing tables', specs.length);
  const writing = new Writing();
  const outcomes = await keptOutcomes(tableJob(), specs.map(({ spec }) => ({ spec, manner })), resultCache(options, specs.length), (done, at, outcome) => {
    progress.show(done);
    const [table, path] = ['result' in outcome ? outcome.result.table : undefined, specs[at]?.path];
    if (table !== undefined && path !== undefined) writing.add(join(output, path.replace(/piece$/, extensions[manner.format])), table.text);
  });
  progress.end();
  const reports = outcomes.flatMap((one) => ('result' in one ? [one.result.report] : []));
  const problems = distinctProblems(reports).filter(({ severity }) => severity !== 'note');
  for (const problem of problems) process.stderr.write(`${pretty(problem, process.stderr)}\n`);
  outcomes.forEach((one, index) => {
    if ('fault' in one) tell(`There is no table of “${specs[index]?.spec.path ?? ''}”: ${one.fault}`);
  });
  const count = await writing.end();
  const refused = reports.filter((report) => report.problems.some(({ severity }) => severity === 'error')).length;
  tell(`Wrote ${count === 1 ? 'one table' : `${count} tables`} to ${output}: ${summary(problems)}.${refused === 0 ? '' : ` None is written of ${refused === 1 ? 'a spec' : `${refused} specs`} with errors.`}`);
  return refused === 0 && outcomes.every((one) => 'result' in one) ? 0 : 1;
}
