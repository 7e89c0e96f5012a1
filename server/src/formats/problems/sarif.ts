import { catalogue } from '../../problems/catalogue.ts';
import type { LineColumn } from '../../syntax/lines.ts';
import { visibleText } from '../escape.ts';
import { fingerprints } from './fingerprint.ts';
import { uriOfPath } from './path-uri.ts';
import { wholeMessage, type ProblemList, type ReportedProblem } from './problem-list.ts';

/**
 * Problems in the Static Analysis Results Interchange Format, version 2.1.0 (OASIS Standard). Columns count UTF-16 code
 * units, and the end of a region lies past its last character, as there.
 */
export function toSarif({ version, files, problems, unlisted }: ProblemList): string {
  const codes = [...new Set(problems.map(({ code }) => code))].sort();
  const marks = fingerprints(problems);
  const run = {
    tool: { driver: { name: 'Piecewright', version, rules: codes.map(rule) } },
    invocations: [{
      executionSuccessful: unlisted.length === 0,
      ...(unlisted.length === 0 ? {} : { toolExecutionNotifications: unlisted.map((text) => ({ level: 'error', message: message(text) })) }),
    }],
    columnKind: 'utf16CodeUnits',
    newlineSequences: ['\r\n', '\n', '\r'],
    artifacts: files.map((file) => ({ location: { uri: uriOfPath(file) } })),
    results: problems.map((problem, index) => result(problem, codes.indexOf(problem.code), marks[index])),
  };
  return `${JSON.stringify({ version: '2.1.0', $schema: 'https://json.schemastore.org/sarif-2.1.0.json', runs: [run] }, null, 2)}\n`;
}

const entries: Readonly<Record<string, { readonly severity: string }>> = catalogue;

function rule(code: string): unknown {
  const words = code.replaceAll('-', ' ');
  const text = `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
  return {
    id: code,
    shortDescription: { text },
    help: { text: `The language reference (grammar/reference.md) tells of “${code}” with an example.` },
    defaultConfiguration: { level: entries[code]?.severity ?? 'warning' },
  };
}

function result(problem: ReportedProblem, ruleIndex: number, mark: string | undefined): unknown {
  return {
    ruleId: problem.code,
    ruleIndex,
    level: problem.severity,
    message: message(wholeMessage(problem)),
    locations: [location(problem.file, problem.start, problem.end)],
    ...(problem.related.length === 0 ? {} : { relatedLocations: problem.related.map((one, id) => ({ id, ...location(one.file, one.start), message: message(one.message) })) }),
    partialFingerprints: { 'piecewright/v1': mark },
  };
}

const location = (file: string, start: LineColumn, end?: LineColumn) => ({
  physicalLocation: {
    artifactLocation: { uri: uriOfPath(file) },
    region: { startLine: start.line, startColumn: start.column, ...(end === undefined ? {} : { endLine: end.line, endColumn: end.column }) },
  },
});

/** Braces stand for themselves where doubled (section 3.11.5), and what would be a link (3.11.6) is parted. */
const message = (text: string): { readonly text: string } => ({ text: visibleText(text).replace(/[{}]/g, '$&$&').replaceAll('](', '] (') });
