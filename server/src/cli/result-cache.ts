import { lstatSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, type Stats } from 'node:fs';
import { homedir } from 'node:os';
import { join, resolve } from 'node:path';
import writeFileAtomic from 'write-file-atomic';
import { readTextSync } from '../platform/read-text.ts';
import { writeNewFile } from '../platform/whole-file.ts';
import { limits } from '../problems/limits.ts';
import { sha256 } from './spec-texts.ts';
import { tell } from './terminal.ts';

/** Where results are looked for, as typed. */
export interface CacheOptions {
  /** A folder; false for none; true for the usual one. */
  readonly cache: string | boolean;
}

/** What is known of a shape that was read from somewhere else. */
export type IsShape<Value> = (value: unknown) => value is Value;

/** Results of earlier runs, by what they follow from. It may be gone, or hold anything at all: then it holds nothing. */
export interface ResultCache {
  /** What this program makes of something else may be another: a part of every key. */
  readonly program: string;
  readonly get: <Value>(key: string, isValue: IsShape<Value>) => Value | undefined;
  /** @param body the value as JSON */
  readonly put: (key: string, body: string) => Promise<void>;
  /** To be called at the end: lets go of what is too much. */
  readonly end: () => void;
}

/** Without so many specs, nothing is kept unasked: working a few out takes no longer than looking for them. */
const worthKeeping = 16;

/** Bytes that a cache may take up before the results that are longest there go, down to half of it. */
const mostBytesHeld = 256 * 1024 * 1024;

/**
 * The cache that was asked for; undefined where none is to be used.
 *
 * @param count how many specs it would be for
 */
export function resultCache({ cache }: CacheOptions, count: number): ResultCache | undefined {
  if (cache === false || (cache === true && count < worthKeeping)) return undefined;
  const parent = cache === true ? usualFolder() : resolve(cache);
  const program = process.argv[1] === undefined ? undefined : programKey(process.argv[1]);
  if (parent === undefined || program === undefined) return undefined;
  // One that others can write to would let them say what is told of a spec.
  const folder = join(parent, 'results');
  const why = refusalOf(folder);
  if (why !== undefined) {
    if (cache !== true) tell(`“${folder}” is not used as a cache: ${why}.`);
    return undefined;
  }
  return cacheIn(folder, program);
}

/** The folder for such things that the system gives each user. */
export function usualFolder(env: NodeJS.ProcessEnv = process.env, platform: string = process.platform, home: string = homedir()): string | undefined {
  const base = platform === 'win32' ? env['LOCALAPPDATA'] : platform === 'darwin' ? join(home, 'Library', 'Caches') : env['XDG_CACHE_HOME'] || join(home, '.cache');
  return base === undefined || base === '' ? undefined : platform === 'win32' ? join(base, 'piecewright', 'Cache') : join(base, 'piecewright');
}

/** The program’s own bytes and what runs it: a version alone would not tell two states of it apart. */
function programKey(program: string): string | undefined {
  try {
    return sha256(`${sha256(readFileSync(program))} ${process.version} ${process.arch}`);
  } catch {
    return undefined;
  }
}

/** Makes the folder where there is none; why it is not to be trusted, in words. */
function refusalOf(folder: string): string | undefined {
  let there: Stats;
  try {
    mkdirSync(folder, { recursive: true, mode: 0o700 });
    there = lstatSync(folder);
  } catch {
    return 'it can’t be made';
  }
  if (!there.isDirectory()) return 'it is no folder';
  // Windows gives neither; there the folder lies in the user's own.
  if (process.getuid === undefined) return undefined;
  if (there.uid !== process.getuid()) return 'it is somebody else’s';
  return (there.mode & 0o022) === 0 ? undefined : 'others can write to it';
}

function cacheIn(folder: string, program: string): ResultCache {
  let isWritten = false;
  // The folder of a key's first letters, since some systems are slow with many files in one.
  const fileOf = (key: string): string => join(folder, key.slice(0, 2), key.slice(2));
  return {
    program,
    get: (key, isValue) => {
      try {
        const value = openedFrom(readTextSync(fileOf(key)));
        return isValue(value) ? value : undefined;
      } catch {
        return undefined;
      }
    },
    put: async (key, body) => {
      // One that is longer is not read.
      if (body.length > limits.textLength - 65) return;
      try {
        mkdirSync(join(folder, key.slice(0, 2)), { recursive: true, mode: 0o700 });
        const kept = `${sha256(body)}\n${body}`;
        // Should the machine stop, half a file is seen to be one.
        if (!writeNewFile(fileOf(key), kept, 0o600)) await writeFileAtomic(fileOf(key), kept, { encoding: 'utf8', mode: 0o600, fsync: false });
        isWritten = true;
      } catch {
        // A result that isn't kept is worked out again.
      }
    },
    end: () => {
      if (isWritten) pruned(folder);
    },
  };
}

/** The value in a file as {@link ResultCache.put} writes it; undefined where it is not whole. */
function openedFrom(read: ReturnType<typeof readTextSync>): unknown {
  if (read === undefined || !('text' in read)) return undefined;
  const body = read.text.slice(65);
  return read.text[64] === '\n' && sha256(body) === read.text.slice(0, 64) ? (JSON.parse(body) as unknown) : undefined;
}

/** Lets go of the oldest files where all take up too much. */
export function pruned(folder: string, most: number = mostBytesHeld): void {
  try {
    const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => join(folder, name)).flatMap((file) => {
      const there = statSync(file, { throwIfNoEntry: false });
      return there?.isFile() === true ? [{ file, size: there.size, time: there.mtimeMs }] : [];
    });
    let size = files.reduce((sum, one) => sum + one.size, 0);
    if (size <= most) return;
    for (const one of files.sort((a, b) => a.time - b.time)) {
      if (size <= most / 2) return;
      rmSync(one.file, { force: true });
      size -= one.size;
    }
  } catch {
    // Another run may be at the same; what is too much goes next time.
  }
}
