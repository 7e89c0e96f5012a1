import type { FileReport, ReportedProblem } from '../formats/problems/problem-list.ts';
import { arrayOf, isCount, isText, oneOf, optional, record } from './shapes.ts';

const isPlace = record({ line: isCount, column: isCount });
const isProblem = record<ReportedProblem>({
  file: isText, start: isPlace, end: isPlace, severity: oneOf('error', 'warning', 'note'), code: isText, message: isText, when: optional(isText),
  related: arrayOf(record({ file: isText, start: isPlace, message: isText })),
});

/** Whether something that an earlier run has left is a report of a spec. */
export const isFileReport = record<FileReport>({ file: isText, problems: arrayOf(isProblem) });
