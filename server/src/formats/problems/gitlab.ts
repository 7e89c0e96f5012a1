import { visibleText } from '../escape.ts';
import { fingerprints } from './fingerprint.ts';
import { wholeMessage, type ProblemList } from './problem-list.ts';

const severities = { error: 'major', warning: 'minor', note: 'info' } as const;

/** Problems as GitLab reads them for its report of code quality (fields and severities from memory of its documentation, “Code Quality report format”). */
export function toGitlab({ problems }: ProblemList): string {
  const marks = fingerprints(problems);
  const found = problems.map((problem, index) => ({
    description: visibleText(wholeMessage(problem)),
    check_name: problem.code,
    fingerprint: marks[index],
    severity: severities[problem.severity],
    location: { path: problem.file, lines: { begin: problem.start.line, end: problem.end.line } },
  }));
  return `${JSON.stringify(found, null, 2)}\n`;
}
