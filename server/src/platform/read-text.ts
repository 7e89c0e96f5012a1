import { closeSync, constants, fstatSync, openSync, readSync, statSync, type Stats } from 'node:fs';
import { open, stat } from 'node:fs/promises';
import type { Unread } from '../problems/unread.ts';
import { decoded, mostBytes, type ReadText } from './decode.ts';

/**
 * The text of a regular file. Nothing else is opened, since a pipe would be waited for and a device may have no end, and no
 * more is read than a spec can be long.
 *
 * @returns `undefined` where there is no such file
 */
export async function readText(path: string): Promise<ReadText | undefined> {
  try {
    const there = await stat(path);
    if (!there.isFile()) return noFile(there);
    const file = await open(path, flags);
    try {
      // Another may have been put in its place meanwhile.
      if (!(await file.stat()).isFile()) return { unread: 'no file' };
      const buffer = new Room();
      while (!buffer.isFull) {
        const { bytesRead } = await file.read(buffer.rest());
        if (bytesRead === 0) break;
        buffer.take(bytesRead);
      }
      return decoded(buffer.bytes);
    } finally {
      await file.close();
    }
  } catch (error) {
    return unreadFor(error);
  }
}

/** The same at once, for threads in which nobody else waits. */
export function readTextSync(path: string): ReadText | undefined {
  try {
    const there = statSync(path);
    if (!there.isFile()) return noFile(there);
    const file = openSync(path, flags);
    try {
      if (!fstatSync(file).isFile()) return { unread: 'no file' };
      const buffer = new Room();
      while (!buffer.isFull) {
        const read = readSync(file, buffer.rest());
        if (read === 0) break;
        buffer.take(read);
      }
      return decoded(buffer.bytes);
    } finally {
      closeSync(file);
    }
  } catch (error) {
    return unreadFor(error);
  }
}

/** A folder may have any name; anything else that is no file is told. */
const noFile = (there: Stats): ReadText | undefined => (there.isDirectory() ? undefined : { unread: 'no file' });

/** Without waiting for a writer, where a pipe has come in the file’s place; Windows has no such flag. */
const flags = constants.O_RDONLY | ((constants.O_NONBLOCK as number | undefined) ?? 0);

/** Room for what is read, which grows as far as a spec may, and by one: what fills it is too long. */
class Room {
  #buffer = new Uint8Array(1 << 16);
  #length = 0;

  get isFull(): boolean {
    return this.#length > mostBytes;
  }

  get bytes(): Uint8Array {
    return this.#buffer.subarray(0, this.#length);
  }

  rest(): Uint8Array {
    if (this.#length === this.#buffer.length) {
      const larger = new Uint8Array(Math.min(2 * this.#buffer.length, mostBytes + 1));
      larger.set(this.#buffer);
      this.#buffer = larger;
    }
    return this.#buffer.subarray(this.#length);
  }

  take(count: number): void {
    this.#length += count;
  }
}

/** Errors that say that there is no such file; a path may be one that no file can have. */
const missing = new Set(['ENOENT', 'ENOTDIR', 'ELOOP', 'ENAMETOOLONG', 'EINVAL', 'ERR_INVALID_ARG_VALUE']);
const denied = new Set(['EACCES', 'EPERM']);

function unreadFor(error: unknown): { readonly unread: Unread } | undefined {
  const code = codeOf(error);
  if (code === undefined) throw error;
  return missing.has(code) ? undefined : { unread: denied.has(code) ? 'denied' : 'failed' };
}

/** The system’s code of an error; undefined for what is no error of the system. */
export const codeOf = (error: unknown): string | undefined => (error instanceof Error && 'code' in error ? String(error.code) : undefined);

export const isMissing = (error: unknown): boolean => missing.has(codeOf(error) ?? '');
