import { existsSync, realpathSync, statSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { reasonOf, UsageError } from './files.ts';

/**
 * Writes a text, or bytes, to a file, whole or not at all, making its folder where there is none; or to standard output where no file is named.
 *
 * @throws UsageError where it can’t be written, or where a spec stands there
 */
export async function writeOutput(text: string | Uint8Array, file: string | undefined): Promise<void> {
  if (file === undefined) {
    process.stdout.write(text);
    return;
  }
  try {
    const there = file === '' ? undefined : statSync(file, { throwIfNoEntry: false });
    if (file === '' || there?.isDirectory() === true) throw new UsageError(`“${file}” is a folder: name a file to write.`);
    // By whatever link it is reached.
    if ((there === undefined ? file : realpathSync.native(file)).toLowerCase().endsWith('.piece')) throw new UsageError(`“${file}” is a spec, or would look like one: name another file to write.`);
    if (there === undefined && !existsSync(dirname(file))) await mkdir(dirname(file), { recursive: true });
    // A device or a pipe such as /dev/stdout is written to; a file put in its place would break it.
    if (there === undefined || there.isFile()) await writeFileAtomic(file, typeof text === 'string' ? text : Buffer.from(text), 'utf8');
    else await writeFile(file, text, 'utf8');
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`“${file}” can’t be written: ${reasonOf(error)}.`);
  }
}
