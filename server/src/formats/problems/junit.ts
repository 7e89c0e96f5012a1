import { escapeMarkup } from '../escape.ts';
import { wholeMessage, type ProblemList, type ReportedProblem } from './problem-list.ts';

/**
 * Problems as a report of tests in the XML that JUnit’s task for Ant began and that build servers read: each file is a test,
 * which fails where the file has errors. Warnings and notes are its output.
 */
export function toJunit({ files, problems, unlisted }: ProblemList): string {
  const names = [...new Set([...files, ...problems.map(({ file }) => file)])].sort();
  const tests = [
    ...names.map((name) => testOf(name, problems.filter(({ file }) => file === name))),
    ...unlisted.map((text) => ({ failed: true, lines: [`    <testcase classname="piecewright check" name="${attribute(text)}" time="0">`, `      <failure message="${attribute(text)}" type="unlisted"/>`, '    </testcase>'] })),
  ];
  const counts = `tests="${tests.length}" failures="${tests.filter(({ failed }) => failed).length}" errors="0"`;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<testsuites name="piecewright check" ${counts} time="0">`,
    `  <testsuite name="piecewright check" ${counts} skipped="0" time="0">`,
    ...tests.flatMap(({ lines }) => lines),
    '  </testsuite>',
    '</testsuites>',
    '',
  ].join('\n');
}

function testOf(name: string, problems: readonly ReportedProblem[]): { readonly failed: boolean; readonly lines: readonly string[] } {
  const errors = problems.filter(({ severity }) => severity === 'error');
  const others = problems.filter(({ severity }) => severity !== 'error');
  const [first] = errors;
  const inside = [
    ...(first === undefined ? [] : [`      <failure message="${attribute(`${wholeMessage(first)}${errors.length > 1 ? ` And ${errors.length - 1} more.` : ''}`)}" type="${attribute(first.code)}">${lines(errors)}</failure>`]),
    ...(others.length === 0 ? [] : [`      <system-out>${lines(others)}</system-out>`]),
  ];
  const head = `    <testcase classname="piecewright check" name="${attribute(name)}" time="0"`;
  return { failed: first !== undefined, lines: inside.length === 0 ? [`${head}/>`] : [`${head}>`, ...inside, '    </testcase>'] };
}

const lines = (problems: readonly ReportedProblem[]): string =>
  problems.map((problem) => escapeMarkup(`${problem.file}:${problem.start.line}:${problem.start.column} ${problem.severity} ${problem.code} ${wholeMessage(problem)}`.replace(/\s+/g, ' '))).join('\n');

/** A text in quotes: line ends and tabs would be read as spaces (XML 1.0, section 3.3.3). */
const attribute = (text: string): string => escapeMarkup(text).replace(/[\t\n\r]/g, (sign) => `&#${sign.charCodeAt(0)};`);
