import { realpathSync, statSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import type { ReadText } from '../platform/decode.ts';
import { codeOf, isMissing, readTextSync } from '../platform/read-text.ts';
import { RecentKeys } from '../workspace/recent-keys.ts';
import { textsOf, type SpecTexts, type TextReader } from './spec-texts.ts';

/** A spec to work on: its working folder, and its path in it with forward slashes. */
export interface SpecPath {
  readonly folder: string;
  readonly path: string;
  /** What it says, where that was read already; a file of that path is then left alone. */
  readonly read?: ReadText;
}

/** A fault of the command itself, told in one line, as against a problem in a spec. */
export class UsageError extends Error {}

/**
 * The specs that some files and folders stand for, in order of their paths: files that end in `.piece`. The working folder
 * is the current one, or, for what lies outside it, the file's own.
 *
 * @param unlisted is told of folders that can’t be listed, and so left out
 * @throws UsageError for a name that stands for no spec
 */
export async function findSpecs(named: readonly string[], current: string, unlisted: (message: string) => void = refuse): Promise<readonly SpecPath[]> {
  const paths = new Set<string>();
  for (const name of named.length === 0 ? ['.'] : named) {
    const full = resolve(current, name);
    const there = stateOf(full);
    if (there === undefined) throw new UsageError(`There is no file or folder “${name}”.`);
    if (!there.isDirectory()) {
      if (!full.endsWith('.piece')) throw new UsageError(`“${name}” is no spec: specs end in .piece.`);
      paths.add(full);
      continue;
    }
    const inside = await specsIn(full, unlisted);
    if (inside.length === 0) throw new UsageError(`There is no file that ends in .piece in “${name}”.`);
    for (const file of inside) paths.add(file);
  }
  return [...paths].sort().map((full) => specPath(full, current));
}

const refuse = (message: string): never => {
  throw new UsageError(message);
};

function stateOf(full: string): ReturnType<typeof statSync> | undefined {
  try {
    return statSync(full);
  } catch (error) {
    if (isMissing(error)) return undefined;
    throw new UsageError(`“${full}” can’t be looked at: ${reasonOf(error)}.`);
  }
}

async function specsIn(folder: string, unlisted: (message: string) => void): Promise<readonly string[]> {
  const files: string[] = [];
  const entries = await readdir(folder, { withFileTypes: true }).catch((error: unknown) => {
    unlisted(`“${folder}” can’t be listed: ${reasonOf(error)}.`);
    return [];
  });
  for (const entry of entries) {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
    const full = join(folder, entry.name);
    if (entry.isDirectory()) files.push(...(await specsIn(full, unlisted)));
    else if (entry.isFile() && entry.name.endsWith('.piece')) files.push(full);
  }
  return files;
}

/** The specs of a folder, each with its path in it. What they use is looked for in the current folder, or, outside of it, in that folder. */
export async function specsBelow(named: string): Promise<readonly { readonly spec: SpecPath; readonly path: string; readonly within: string }[]> {
  const current = process.cwd();
  const folder = resolve(current, named);
  const way = relative(current, folder);
  const root = way.startsWith('..') || isAbsolute(way) ? folder : current;
  const within = relative(root, folder).split(sep).join('/');
  return (await findSpecs([folder], root)).map((spec) => ({ spec, path: within === '' ? spec.path : spec.path.slice(within.length + 1), within: within === '' ? '' : `${within}/` }));
}

/** A spec by its whole path. */
export function specPath(full: string, current: string): SpecPath {
  const within = relative(current, full);
  const outside = within.startsWith('..') || isAbsolute(within);
  const folder = outside ? dirname(full) : current;
  return { folder, path: relative(folder, full).split(sep).join('/') };
}

/**
 * How the files of a spec’s folder are told, with forward slashes: from the current folder, so that a path leads there from
 * it, whichever folder the spec was found in.
 */
export function toldPath({ folder }: SpecPath): (path: string) => string {
  const way = relative(process.cwd(), folder).split(sep).join('/');
  return (path) => (way === '' ? path : `${way}/${path}`);
}

/** So many files of one folder are held at most, the latest used last: a list is used by many specs, one after another. */
const mostHeld = 64;

/** The other files of a working folder, each read once. A link that leads out of the folder counts as no file. */
export function readerIn(folder: string): TextReader {
  const files = new Map<string, ReadText | undefined>();
  const recent = new RecentKeys(mostHeld, (path) => files.delete(path));
  const real = realpathSync(folder);
  return (path) => {
    if (!files.has(path)) files.set(path, readInside(real, folder, path));
    recent.use(path);
    return files.get(path);
  };
}

function readInside(real: string, folder: string, path: string): ReadText | undefined {
  try {
    const full = realpathSync(join(folder, path));
    const within = relative(real, full);
    if (within.startsWith('..') || isAbsolute(within) || statSync(full).isDirectory()) return undefined;
    return readTextSync(full);
  } catch (error) {
    if (isMissing(error)) return undefined;
    if (codeOf(error) === undefined) throw error;
    return { unread: 'failed' };
  }
}

/**
 * A spec with all that it uses, as read.
 *
 * @param read the other files of its folder
 * @throws UsageError where it has gone
 */
export function readSpec({ folder, path, read: known }: SpecPath, read: TextReader = readerIn(folder)): SpecTexts {
  const own = known ?? readTextSync(join(folder, path));
  if (own === undefined) throw new UsageError(`There is no file “${path}” any more.`);
  return textsOf(path, own, read);
}

/** The system’s own words may name a file that is there only while writing. */
const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such folder', ENOTDIR: 'a part of the path is no folder', EACCES: 'permission is missing', EPERM: 'permission is missing',
  EEXIST: 'a part of the path is no folder', ENAMETOOLONG: 'its name is too long', EROFS: 'the disk can only be read', ENOSPC: 'the disk is full',
  EIO: 'the disk gives an error', EMFILE: 'too many files are open', ENFILE: 'too many files are open', ELOOP: 'links lead in a circle',
  EBUSY: 'another program is using it', EDQUOT: 'the disk is full', EISDIR: 'it is a folder',
};

/** Why the system refuses something, in words. */
export function reasonOf(error: unknown): string {
  const code = codeOf(error);
  return code === undefined ? (error instanceof Error ? error.message : String(error)) : (reasons[code] ?? `the system says ${code}`);
}
