import { wholeMessage, type ReportedProblem } from '../formats/problems/problem-list.ts';
import { plain, styled } from './terminal.ts';

/** `path:line:column severity code message`, and below it what belongs to it. */
export function pretty(problem: ReportedProblem, stream: NodeJS.WriteStream): string {
  const colour = { error: 'red', warning: 'yellow', note: 'cyan' } as const;
  const first = `${plain(problem.file)}:${problem.start.line}:${problem.start.column} ${styled(colour[problem.severity], problem.severity, stream)} ${styled('dim', problem.code, stream)} ${plain(wholeMessage(problem))}`;
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
