import type { FoundProblem } from '../../model/query/variants.ts';
import type { Pattern } from '../../model/pattern.ts';
import type { Place } from '../../problems/place.ts';
import type { Severity } from '../../problems/problem.ts';
import { lineFinder, type LineColumn } from '../../syntax/lines.ts';
import { snapshotOf } from '../../workspace/snapshot.ts';

/** A problem as every report tells it: plain data, so that it can come from another thread. */
export interface ReportedProblem {
  /** The path of its file, with forward slashes. */
  readonly file: string;
  readonly start: LineColumn;
  /** Past its last character. */
  readonly end: LineColumn;
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  /** The combinations that it holds in; left out where it holds in all. */
  readonly when?: string;
  readonly related: readonly { readonly file: string; readonly start: LineColumn; readonly message: string }[];
}

/** The problems of one spec, those in the files that it uses included. */
export interface FileReport {
  readonly file: string;
  readonly problems: readonly ReportedProblem[];
}

/** What a report is written from. */
export interface ProblemList {
  /** The version of the program. */
  readonly version: string;
  /** The specs that were checked, in order of their paths. */
  readonly files: readonly string[];
  readonly problems: readonly ReportedProblem[];
  /** What could not be looked at, in sentences. */
  readonly unlisted: readonly string[];
}

/** @param inFolder turns a path of the pattern’s folder into the one that is told */
export function reportOf(pattern: Pattern, inFolder: (path: string) => string = (path) => path): FileReport {
  const { locate } = snapshotOf(pattern);
  const finders = new Map(pattern.world.files.map((file) => [file.path, lineFinder(file.text)]));
  const located = (place: Place): { file: string; start: LineColumn; end: LineColumn } | undefined => {
    const found = locate(place);
    const finder = found && finders.get(found.file);
    return found && finder && { file: inFolder(found.file), start: finder(found.start), end: finder(found.end) };
  };
  const problems = pattern.problems.flatMap((problem: FoundProblem): readonly ReportedProblem[] => {
    const place = located(problem.place);
    if (place === undefined) return [];
    return [{
      ...place,
      severity: problem.severity,
      code: problem.code,
      message: problem.message,
      ...(problem.when === undefined ? {} : { when: problem.when }),
      related: problem.related.flatMap((one) => {
        const at = located(one.place);
        return at === undefined ? [] : [{ file: at.file, start: at.start, message: one.message }];
      }),
    }];
  });
  return { file: inFolder(pattern.world.root.path), problems };
}

/** One problem said of one place by several patterns that share a file is said once. */
export function distinctProblems(reports: readonly FileReport[]): readonly ReportedProblem[] {
  const seen = new Map<string, ReportedProblem>();
  for (const problem of reports.flatMap((report) => report.problems)) {
    const key = JSON.stringify([problem.file, problem.start.line, problem.start.column, problem.code, problem.message, problem.when]);
    if (!seen.has(key)) seen.set(key, problem);
  }
  return [...seen.values()];
}

/** The message of a problem, with the combinations that it holds in. */
export const wholeMessage = ({ message, when }: ReportedProblem): string => `${message}${when === undefined ? '' : ` (only when ${when})`}`;
