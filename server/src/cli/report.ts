import type { FoundProblem } from '../model/query/variants.ts';
import type { Pattern } from '../model/pattern.ts';
import type { Place } from '../problems/place.ts';
import type { Severity } from '../problems/problem.ts';
import { lineFinder, type LineColumn } from '../syntax/lines.ts';
import { snapshotOf } from '../workspace/snapshot.ts';
import { plain, styled } from './terminal.ts';

/** A problem as the command line tells it: plain data, so that it can come from another thread. */
export interface ReportedProblem {
  readonly file: string;
  readonly start: LineColumn;
  readonly end: LineColumn;
  readonly severity: Severity;
  readonly code: string;
  readonly message: string;
  readonly when?: string;
  readonly related: readonly { readonly file: string; readonly start: LineColumn; readonly message: string }[];
}

export interface FileReport {
  readonly file: string;
  readonly problems: readonly ReportedProblem[];
}

export function reportOf(pattern: Pattern): FileReport {
  const { locate } = snapshotOf(pattern);
  const finders = new Map(pattern.world.files.map((file) => [file.path, lineFinder(file.text)]));
  const located = (place: Place): { file: string; start: LineColumn; end: LineColumn } | undefined => {
    const found = locate(place);
    const finder = found && finders.get(found.file);
    return found && finder && { file: found.file, start: finder(found.start), end: finder(found.end) };
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
  return { file: pattern.world.root.path, problems };
}

/** One problem said of one place by several patterns that share a file is said once. */
export function distinctProblems(reports: readonly FileReport[]): readonly ReportedProblem[] {
  const seen = new Map<string, ReportedProblem>();
  for (const problem of reports.flatMap((report) => report.problems)) {
    const key = [problem.file, problem.start.line, problem.start.column, problem.code, problem.message, problem.when ?? ''].join('\n');
    if (!seen.has(key)) seen.set(key, problem);
  }
  return [...seen.values()];
}

/** `path:line:column severity code message`, and below it what belongs to it. */
export function pretty(problem: ReportedProblem, stream: NodeJS.WriteStream): string {
  const colour = { error: 'red', warning: 'yellow', note: 'cyan' } as const;
  const when = problem.when === undefined ? '' : ` (only when ${problem.when})`;
  const first = `${plain(problem.file)}:${problem.start.line}:${problem.start.column} ${styled(colour[problem.severity], problem.severity, stream)} ${styled('dim', problem.code, stream)} ${plain(problem.message)}${when}`;
  return [first, ...problem.related.map((one) => `    ${plain(one.file)}:${one.start.line}:${one.start.column} ${plain(one.message)}`)].join('\n');
}

/** `2 errors, 1 warning`; `nothing to report` where there is neither. */
export function summary(problems: readonly ReportedProblem[]): string {
  const counted = (['error', 'warning', 'note'] as const).map((severity) => {
    const count = problems.filter((problem) => problem.severity === severity).length;
    return count === 0 ? '' : `${count} ${severity}${count === 1 ? '' : 's'}`;
  });
  return counted.filter((text) => text !== '').join(', ') || 'nothing to report';
}
