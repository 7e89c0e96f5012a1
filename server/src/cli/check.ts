import { distinctProblems, reportOf, type FileReport } from '../formats/problems/problem-list.ts';
import { renderReport } from '../formats/problems/report.ts';
import { Analyst } from '../model/pattern.ts';
import { findSpecs, readerIn, readSpec, toldPath, type SpecPath } from './files.ts';
import { keptOutcomes, type Job } from './kept-results.ts';
import { writeOutput } from './output.ts';
import { progressOn } from './progress.ts';
import { isFileReport } from './report-shape.ts';
import { resultCache, type CacheOptions } from './result-cache.ts';
import { readContentOf, tellsOfList } from './read-content.ts';
import { patternFrom, type TextReader } from './spec-texts.ts';
import { standardInput } from './standard-input.ts';
import { say, tell } from './terminal.ts';
import { wantedReports } from './report-option.ts';
import { pretty, summary } from './report.ts';

/** The name of the threads that check. */
export const checkRole = 'piecewright check';

/** Checks specs, and reads what several use once. What is told of one also depends on where it is told from. */
export function checkJob(): Job<SpecPath, FileReport> {
  const readers = new Map<string, TextReader>();
  const analyst = new Analyst();
  return {
    role: checkRole,
    read: (spec) => {
      const reader = readers.get(spec.folder) ?? readerIn(spec.folder);
      readers.set(spec.folder, reader);
      const texts = readSpec(spec, reader);
      const told = toldPath(spec);
      return {
        // No problem hangs on how much something costs.
        content: JSON.stringify([readContentOf(texts, 'without prices'), told('')]),
        compute: () => {
          const { pattern, isWhole } = patternFrom(texts, analyst);
          const result = reportOf(pattern, told);
          return { result, isWhole: isWhole && !tellsOfList(result, texts, told) };
        },
      };
    },
    isResult: isFileReport,
  };
}

export interface CheckOptions extends CacheOptions {
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
  const outcomes = await keptOutcomes(checkJob(), specs, resultCache(options, specs.length), progress.show);
  progress.end();
  const reports = outcomes.flatMap((one) => ('result' in one ? [one.result] : []));
  outcomes.forEach((one, index) => {
    if ('fault' in one) unlisted.push(`“${toldOf(specs[index])}” could not be checked: ${one.fault}`);
  });
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

const toldOf = (spec: SpecPath | undefined): string => (spec === undefined ? '' : toldPath(spec)(spec.path));
