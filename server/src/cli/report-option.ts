import { reportFormats, type ReportFormat } from '../formats/problems/report.ts';
import { UsageError } from './files.ts';

/** A report that was asked for: its format, and the file to write; standard output where none is named. */
export interface WantedReport {
  readonly format: ReportFormat;
  readonly file?: string;
}

/**
 * The reports that were asked for, as typed: `sarif`, or `sarif=problems.sarif`.
 *
 * @throws UsageError for a format that there is none of, or where two would be written to one place
 */
export function wantedReports(typed: readonly string[], json: boolean): readonly WantedReport[] {
  const wanted = [...(json ? ['json'] : []), ...typed].map((text): WantedReport => {
    const at = text.indexOf('=');
    const name = at < 0 ? text : text.slice(0, at);
    const format = reportFormats.find((one) => one === name);
    if (format === undefined) throw new UsageError(`“${name}” is no format of a report: there are ${reportFormats.join(', ')}.`);
    if (at === text.length - 1) throw new UsageError(`“${text}” names no file: write it as in --report ${name}=problems.txt, or without “=”.`);
    return at < 0 ? { format } : { format, file: text.slice(at + 1) };
  });
  wanted.forEach(({ file }, index) => {
    if (wanted.findIndex((one) => one.file === file) < index) throw new UsageError(`${file === undefined ? 'Standard output' : `“${file}”`} takes one report: name another file for the second.`);
  });
  return wanted;
}
