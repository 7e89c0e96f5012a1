import { availableParallelism } from 'node:os';
import { distinctProblems, reportOf, type FileReport } from '../formats/problems/problem-list.ts';
import { renderReport } from '../formats/problems/report.ts';
import { threadsOf } from '../platform/node-workers.ts';
import type { Work } from '../workers/job.ts';
import { WorkerPool } from '../workers/pool.ts';
import { findSpecs, toldPath, UsageError, type SpecPath } from './files.ts';
import { patternOf } from './open.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { standardInput } from './standard-input.ts';
import { say, tell } from './terminal.ts';
import { wantedReports } from './report-option.ts';
import { pretty, summary } from './report.ts';

/** The name of the threads that check. */
export const checkRole = 'piecewright check';

/** What becomes of one spec; an error would lose its kind on the way from another thread. */
type Checked = FileReport | { readonly fault: string };

/** Checks one spec. */
export const checkWork = (): Work<SpecPath, Checked> => function* (spec) {
  try {
    yield reportOf(patternOf(spec), toldPath(spec));
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    yield { fault: error.message };
  }
};

export interface CheckOptions {
  readonly json: boolean;
  /** Further reports, as in `sarif=problems.sarif`. */
  readonly report: readonly string[];
  /** The path that standard input is told as. */
  readonly name: string;
}

/**
 * `piecewright check`: 0 where no spec has an error, else 1.
 *
 * @param version of the program, as a report tells it
 */
export async function check(named: readonly string[], options: CheckOptions, version: string): Promise<number> {
  const wanted = wantedReports(options.report, options.json);
  const unlisted: string[] = [];
  const paths = named.filter((name) => name !== '-');
  const specs = [
    ...(paths.length === named.length ? [] : [await standardInput(options.name)]),
    ...(paths.length === 0 && named.length > 0 ? [] : await findSpecs(paths, process.cwd(), (message) => unlisted.push(message))),
  ];
  const progress = progressOn(process.stderr, 'Checking', specs.length);
  const reports = await checkAll(specs, progress.show);
  progress.end();
  const files = reports.map(({ file }) => file);
  const problems = distinctProblems(reports);
  for (const { format, file } of wanted) await writeOutput(renderReport({ version, files, problems, unlisted }, format), file);
  if (wanted.every(({ file }) => file !== undefined)) {
    for (const problem of problems) process.stdout.write(`${pretty(problem, process.stdout)}\n`);
    say(`${files.length === 1 ? (files[0] ?? '') : `${files.length} files`}: ${summary(problems)}.`);
  }
  for (const message of unlisted) tell(message);
  return unlisted.length === 0 && problems.every((problem) => problem.severity !== 'error') ? 0 : 1;
}

/** Threads cost about as much to start as a few specs take to check. */
const worthAThread = 8;

/** The reports of specs in their order, worked out in several threads where that pays. */
async function checkAll(specs: readonly SpecPath[], onDone: (done: number) => void): Promise<readonly FileReport[]> {
  const threads = Math.min(availableParallelism(), Math.floor(specs.length / worthAThread));
  const program = process.argv[1];
  const pool = new WorkerPool<SpecPath, Checked>({
    soon: (run) => void setImmediate(run), work: checkWork(), size: threads,
    open: threads < 2 || program === undefined ? undefined : threadsOf(program, checkRole),
    log: () => undefined,
  });
  let count = 0;
  const checked = (spec: SpecPath): Promise<FileReport> => new Promise((resolve, reject) => {
    let report: Checked | undefined;
    pool.add({
      rank: 0,
      request: () => spec,
      heard: (reply) => (report = reply ?? report),
      ended: (_, why) => {
        onDone(++count);
        if (report === undefined) reject(new Error(why ?? `“${spec.path}” could not be checked.`));
        else if ('fault' in report) reject(new UsageError(report.fault));
        else resolve(report);
      },
    });
  });
  try {
    return await Promise.all(specs.map(checked));
  } finally {
    pool.close();
  }
}
