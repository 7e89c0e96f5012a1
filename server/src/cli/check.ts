import { inParallel } from './crew.ts';
import { findSpecs, type SpecPath } from './files.ts';
import { patternOf } from './open.ts';
import { progressOn } from './progress.ts';
import { distinctProblems, pretty, reportOf, summary, type FileReport } from './report.ts';

/** Checks one spec. */
export function checkSpec(spec: SpecPath): FileReport {
  return reportOf(patternOf(spec));
}

export interface CheckOptions {
  readonly json: boolean;
}

/** `piecewright check`: 0 where no spec has an error, else 1. */
export async function check(named: readonly string[], options: CheckOptions): Promise<number> {
  const specs = await findSpecs(named, process.cwd());
  const progress = progressOn(process.stderr, 'Checking', specs.length);
  const reports = await inParallel(specs, checkSpec, progress.show);
  progress.end();
  const problems = distinctProblems(reports);
  if (options.json) {
    process.stdout.write(`${JSON.stringify({ format: 'piecewright check', version: 1, files: reports.map((report) => report.file), problems }, null, 2)}\n`);
  } else {
    for (const problem of problems) process.stdout.write(`${pretty(problem)}\n`);
    process.stdout.write(`${specs.length === 1 ? (specs[0]?.path ?? '') : `${specs.length} files`}: ${summary(problems)}.\n`);
  }
  return problems.some((problem) => problem.severity === 'error') ? 1 : 0;
}
