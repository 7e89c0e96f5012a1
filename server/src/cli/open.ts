import { reportOf, type ReportedProblem } from '../formats/problems/problem-list.ts';
import type { Pattern } from '../model/pattern.ts';
import { findSpecs, readSpec, toldPath, UsageError, type SpecPath } from './files.ts';
import { patternFrom } from './spec-texts.ts';
import { tell } from './terminal.ts';
import { pretty } from './report.ts';

/** A spec that was named on the command line, read and worked out. */
export interface OpenedSpec {
  /** As it was typed. */
  readonly named: string;
  readonly spec: SpecPath;
  readonly pattern: Pattern;
  readonly problems: readonly ReportedProblem[];
}

/**
 * Opens the one spec that a command works on.
 *
 * @throws UsageError where there is no such file, where it is a folder, or where it can’t be read
 */
export async function openSpec(named: string): Promise<OpenedSpec> {
  const [spec, ...more] = await findSpecs([named], process.cwd());
  if (spec === undefined || more.length > 0) throw new UsageError(`“${named}” is a folder: name one spec.`);
  const pattern = patternOf(spec);
  return { named, spec, pattern, problems: reportOf(pattern, toldPath(spec)).problems };
}

/**
 * What a spec means, with the files of its own folder that it uses.
 *
 * @throws UsageError where it can’t be read
 */
export const patternOf = (spec: SpecPath): Pattern => patternFrom(readSpec(spec)).pattern;

/**
 * Tells the errors of a spec on standard error, and whether they leave nothing to work on; then also why that is.
 *
 * @param why a sentence for whoever asked
 * @param bearable codes of errors that are told but don’t stand in the way
 */
export function isRefused({ problems }: OpenedSpec, why: string, bearable: readonly string[] = []): boolean {
  const errors = problems.filter(({ severity }) => severity === 'error');
  for (const error of errors) process.stderr.write(`${pretty(error, process.stderr)}\n`);
  if (errors.every(({ code }) => bearable.includes(code))) return false;
  tell(why);
  return true;
}

/** Tells the warnings of a spec on standard error. */
export function tellWarnings({ problems }: OpenedSpec): void {
  for (const warning of problems.filter(({ severity }) => severity === 'warning')) process.stderr.write(`${pretty(warning, process.stderr)}\n`);
}
