import { realpathSync } from 'node:fs';
import { basename, relative, resolve, sep } from 'node:path';
import { renderTable } from '../formats/format.ts';
import { reportOf, wholeMessage } from '../formats/problems/problem-list.ts';
import type { Pattern } from '../model/pattern.ts';
import { readTextSync } from '../platform/read-text.ts';
import { unreadWords } from '../problems/unread.ts';
import { parseFile } from '../syntax/parse.ts';
import { combinationCount, tooManyCombinations } from '../table/combinations.ts';
import { wholeTables } from '../table/whole-table.ts';
import { UsageError } from './files.ts';
import { git } from './git.ts';
import { originOf, type Origin } from './git-origin.ts';
import { patternOf } from './open.ts';
import { patternAt } from './revision-pattern.ts';
import { plain } from './terminal.ts';

/**
 * `piecewright textconv`: what git compares in place of a spec's own text, which is its cutting table. Git stops at any other
 * exit status than 0, so whatever is wrong is said in the text.
 */
export function textconv(named: string): number {
  process.stdout.write(textFor(resolve(named)));
  return 0;
}

function textFor(full: string): string {
  const read = readTextSync(full);
  if (read === undefined) return 'There is no such file.\n';
  if (!('text' in read)) return `${read.unread === 'too long' ? 'It is too long for a spec' : unreadWords[read.unread]}.\n`;
  const { pattern, origin } = workedOut(full, read.text);
  const errors = reportOf(pattern).problems.filter(({ severity }) => severity === 'error');
  const from = origin?.commit === undefined || pattern.world.files.length < 2 ? '' : `Files that it uses are as of commit ${origin.commit}.\n\n`;
  // Without their lines, which an edit elsewhere would move.
  if (errors.length > 0) return `${from}No table, for there are errors:\n\n${errors.map((error) => `- ${plain(`${error.code}: ${wholeMessage(error)}`)}\n`).join('')}\n${read.text}`;
  if (![...pattern.world.names.values()].some(({ tree }) => tree.kind === 'piece' || tree.kind === 'supply')) return read.text;
  const tooMany = tooManyCombinations(combinationCount(pattern.choices.values()));
  return `${from}${tooMany === undefined ? '' : 'With the first option of each choice.\n\n'}${renderTable([...wholeTables(pattern, tooMany === undefined ? pattern.combinations() : [new Map()])], 'markdown', 'piece')}`;
}

/** In its own folder; or, of a copy that git has laid out elsewhere, among the files that stood beside it then. */
function workedOut(full: string, text: string): { readonly pattern: Pattern; readonly origin?: Origin } {
  const top = topFolder();
  const within = top === undefined ? '..' : relative(top, realpathSync(full)).split(sep).join('/');
  if (top === undefined || within.startsWith('..')) {
    const origin = top === undefined ? undefined : originOf(full, top);
    return origin === undefined
      ? { pattern: patternOf({ folder: resolve(full, '..'), path: basename(full), read: { text } }) }
      : { pattern: patternAt(origin.files, parseFile(origin.path, text)), origin };
  }
  return { pattern: patternOf({ folder: top, path: within, read: { text } }) };
}

/** The topmost folder of the working tree; undefined where there is none. */
function topFolder(): string | undefined {
  try {
    const answer = git(['rev-parse', '--show-toplevel'], process.cwd());
    const top = Buffer.isBuffer(answer) ? answer.toString().replace(/\n$/, '') : '';
    return top === '' ? undefined : realpathSync(top);
  } catch (error) {
    if (error instanceof UsageError) return undefined;
    throw error;
  }
}
