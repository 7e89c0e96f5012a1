import { join } from 'node:path';
import { readTextSync } from '../platform/read-text.ts';
import type { ReadText } from '../platform/decode.ts';
import { unreadWords } from '../problems/unread.ts';
import { parseFile } from '../syntax/parse.ts';
import { printFile } from '../syntax/print.ts';
import { findSpecs, UsageError } from './files.ts';
import { replaceText } from './replace-text.ts';
import { standardInput } from './standard-input.ts';
import { say, tell } from './terminal.ts';

export interface FormatOptions {
  /** Whether to write nothing, and only say what would change. */
  readonly check: boolean;
}

/**
 * `piecewright format`: brings specs to the text that the editor's formatting gives, and names those that changed. With
 * `--check` 1 where one would change, else 0. Lines that can’t be read stay as they are.
 *
 * @throws UsageError where a file can't be read or written
 */
export async function formatSpecs(named: readonly string[], { check }: FormatOptions): Promise<number> {
  if (named.includes('-')) {
    if (named.length > 1) throw new UsageError('Standard input is formatted by itself: name no file beside “-”.');
    const text = textOf((await standardInput('-')).read, 'Standard input');
    const canonical = printFile(parseFile('-', text));
    if (!check) process.stdout.write(canonical);
    return check && canonical !== text ? 1 : 0;
  }
  let changed = 0;
  for (const spec of await findSpecs(named, process.cwd())) {
    const full = join(spec.folder, spec.path);
    const text = textOf(readTextSync(full), spec.path);
    const canonical = printFile(parseFile(spec.path, text));
    if (canonical === text) continue;
    changed++;
    if (!check) await replaceText(full, spec.path, text, canonical, 'format it again');
    say(check ? `${spec.path} would change.` : `Formatted ${spec.path}.`);
  }
  if (changed === 0) tell('Nothing to change.');
  return check && changed > 0 ? 1 : 0;
}

function textOf(read: ReadText | undefined, path: string): string {
  if (read === undefined) throw new UsageError(`There is no file “${path}” any more.`);
  if ('text' in read) return read.text;
  throw new UsageError(`“${path}” can’t be read, so nothing is written there. ${read.unread === 'too long' ? 'It is too long for a spec' : unreadWords[read.unread]}.`);
}
