import { statSync } from 'node:fs';
import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { UsageError } from './files.ts';

/** Writes a text, or bytes, to a file, whole or not at all, making its folder where there is none; or to standard output where no file is named. */
export async function writeOutput(text: string | Uint8Array, file: string | undefined): Promise<void> {
  if (file === undefined) {
    process.stdout.write(text);
    return;
  }
  try {
    const there = file === '' ? undefined : statSync(file, { throwIfNoEntry: false });
    if (file === '' || there?.isDirectory() === true) throw new UsageError(`“${file}” is a folder: name a file to write.`);
    await mkdir(dirname(file), { recursive: true });
    // A device or a pipe such as /dev/stdout is written to; a file put in its place would break it.
    if (there === undefined || there.isFile()) await writeFileAtomic(file, typeof text === 'string' ? text : Buffer.from(text), 'utf8');
    else await writeFile(file, text, 'utf8');
  } catch (error) {
    if (error instanceof UsageError) throw error;
    throw new UsageError(`“${file}” can’t be written: ${reasonOf(error)}.`);
  }
}

/** The system's own words name a file that is there only while writing. */
const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder', ENOTDIR: 'a part of the path is no folder', EACCES: 'permission is missing', EPERM: 'permission is missing',
  EEXIST: 'a part of the path is no folder',
  EROFS: 'the disk can only be read', ENOSPC: 'the disk is full',
};

function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return reasons[code] ?? (error instanceof Error ? error.message : String(error));
}
