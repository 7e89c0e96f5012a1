import { resolve } from 'node:path';
import { reportOf, wholeMessage, type ReportedProblem } from '../formats/problems/problem-list.ts';
import type { Pattern } from '../model/pattern.ts';
import { readTextSync } from '../platform/read-text.ts';
import { unreadWords } from '../problems/unread.ts';
import { mergeSpecs } from '../syntax/merge/merge.ts';
import { specPath, UsageError } from './files.ts';
import { patternOf } from './open.ts';
import { replaceText } from './replace-text.ts';
import { tell } from './terminal.ts';
import { wholeNumber } from './whole-number.ts';

export interface MergeOptions {
  /** The path of the spec in its repository, that what it uses is looked for from. */
  readonly path?: string;
  readonly markerSize: string;
}

/**
 * `piecewright merge`, as git calls it: what two sides have made of one spec is written over ours. 0 where that is whole; 1
 * where there is something to choose, or where what is merged has an error that neither side had.
 *
 * @throws UsageError where a file can't be read or written
 */
export async function merge(base: string, ours: string, theirs: string, options: MergeOptions): Promise<number> {
  const [before, left, right] = [textOf(base), textOf(ours), textOf(theirs)];
  const { text, conflicts } = mergeSpecs(before, left, right, { ours: 'ours', theirs: 'theirs', size: wholeNumber(options.markerSize, '--marker-size') });
  if (text !== left) await replaceText(resolve(ours), ours, left, text, 'merge it again');
  const name = options.path ?? ours;
  if (conflicts > 0) {
    tell(`${name}: ${conflicts === 1 ? 'one place' : `${conflicts} places`} to choose between both sides.`);
    return 1;
  }
  const [old, first, second, now] = [before, left, right, text].map((one) => meaningOf(one, name)) as [Pattern, Pattern, Pattern, Pattern];
  const [was, one, other] = [old, first, second].map(({ world: { facts: { revision } } }) => revision);
  if (one !== was && one === other && text !== left && text !== right) tell(`${name}: both sides are revision ${one ?? ''}, and what is merged is neither: raise its revision.`);
  const known = new Set([...errorsOf(first), ...errorsOf(second)].map(keyOf));
  const arisen = errorsOf(now).filter((error) => !known.has(keyOf(error)));
  for (const error of arisen) tell(`${name}:${error.start.line}:${error.start.column} ${error.code} ${wholeMessage(error)}`);
  if (arisen.length > 0) tell(`${name}: merged, but with ${arisen.length === 1 ? 'an error' : `${arisen.length} errors`} that neither side had.`);
  return arisen.length > 0 ? 1 : 0;
}

function textOf(named: string): string {
  const read = readTextSync(named);
  if (read === undefined) throw new UsageError(`There is no file “${named}”.`);
  if ('text' in read) return read.text;
  throw new UsageError(`“${named}” can’t be read, so nothing is merged. ${read.unread === 'too long' ? 'It is too long for a spec' : unreadWords[read.unread]}.`);
}

const meaningOf = (text: string, name: string): Pattern => patternOf({ ...specPath(resolve(name), process.cwd()), read: { text } });

const errorsOf = (pattern: Pattern): readonly ReportedProblem[] => reportOf(pattern).problems.filter(({ severity }) => severity === 'error');

/** Wherever it stands. */
const keyOf = ({ code, message, when }: ReportedProblem): string => JSON.stringify([code, message, when]);
