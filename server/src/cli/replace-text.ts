import { readFileSync } from 'node:fs';
import writeFileAtomic from 'write-file-atomic';
import { decoded } from '../platform/decode.ts';
import { reasonOf, UsageError } from './files.ts';

/**
 * Puts a text in the place of the one that was worked on, whole or not at all.
 *
 * @param again what to do where nothing is written
 * @throws UsageError where another has been saved meanwhile, or where it can’t be written
 */
export async function replaceText(full: string, named: string, before: string, text: string, again: string): Promise<void> {
  try {
    const bytes = readFileSync(full);
    const now = decoded(bytes);
    if (!('text' in now) || now.text !== before) throw new UsageError(`“${named}” has been changed meanwhile, so nothing is written: ${again}.`);
    const mark = bytes[0] === 0xef ? '\uFEFF' : '';
    await writeFileAtomic(full, mark + text, 'utf8');
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`“${named}” can’t be written: ${reasonOf(error)}.`);
  }
}
