import { visibleText } from '../escape.ts';
import { wholeMessage, type ProblemList, type ReportedProblem } from './problem-list.ts';

const ranks = { error: 0, warning: 1, note: 2 } as const;
const commands = { error: 'error', warning: 'warning', note: 'notice' } as const;

/**
 * Problems as the lines that GitHub’s runner turns into annotations (“Workflow commands for GitHub Actions”, from memory:
 * escapes as in its toolkit’s `command.ts`). Errors come first, since only the first ten of a kind are shown for a step.
 */
export function toGithub({ problems, unlisted }: ProblemList): string {
  const sorted = [...problems].sort((one, other) => ranks[one.severity] - ranks[other.severity]);
  return [...sorted.map(annotation), ...unlisted.map((text) => `::error::${data(text)}`)].map((line) => `${line}\n`).join('');
}

function annotation(problem: ReportedProblem): string {
  const { file, start, end } = problem;
  // A column is of use only where all is on one line; the last one belongs to the place there.
  const columns = start.line === end.line ? [['col', start.column], ['endColumn', Math.max(start.column, end.column - 1)]] : [];
  const properties = [['file', file], ['line', start.line], ['endLine', end.line], ...columns, ['title', problem.code]];
  const text = [wholeMessage(problem), ...problem.related.map((one) => `${one.file}:${one.start.line}:${one.start.column} ${one.message}`)].join('\n');
  return `::${commands[problem.severity]} ${properties.map(([name, value]) => `${name ?? ''}=${property(String(value))}`).join(',')}::${data(text)}`;
}

const data = (text: string): string => visibleText(text).replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');
const property = (text: string): string => data(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
