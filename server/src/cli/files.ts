import { existsSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { dirname, isAbsolute, join, relative, resolve, sep } from 'node:path';
import { parseFile } from '../syntax/parse.ts';
import type { SourceFile } from '../syntax/tree.ts';
import type { Library } from '../model/names/files.ts';

/** A spec to work on: its working folder, and its path in it with forward slashes. */
export interface SpecPath {
  readonly folder: string;
  readonly path: string;
}

/** A fault of the command itself, told in one line, as against a problem in a spec. */
export class UsageError extends Error {}

/**
 * The specs that some files and folders stand for, in order of their paths: files that end in `.piece`. The working folder
 * is the current one, or, for what lies outside it, the file's own.
 */
export async function findSpecs(named: readonly string[], current: string): Promise<readonly SpecPath[]> {
  const found = new Set<string>();
  for (const name of named.length === 0 ? ['.'] : named) {
    const full = resolve(current, name);
    if (!existsSync(full)) throw new UsageError(`There is no file or folder “${name}”.`);
    if (!statSync(full).isDirectory()) {
      if (!full.endsWith('.piece')) throw new UsageError(`“${name}” is no spec: specs end in .piece.`);
      found.add(full);
      continue;
    }
    const inside = await specsIn(full);
    if (inside.length === 0) throw new UsageError(`There is no file that ends in .piece in “${name}”.`);
    for (const file of inside) found.add(file);
  }
  return [...found].sort().map((full) => specPath(full, current));
}

async function specsIn(folder: string): Promise<readonly string[]> {
  const files: string[] = [];
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
    const full = join(folder, entry.name);
    if (entry.isDirectory()) files.push(...(await specsIn(full)));
    else if (entry.isFile() && entry.name.endsWith('.piece')) files.push(full);
  }
  return files;
}

function specPath(full: string, current: string): SpecPath {
  const within = relative(current, full);
  const outside = within.startsWith('..') || isAbsolute(within);
  const folder = outside ? dirname(full) : current;
  return { folder, path: relative(folder, full).split(sep).join('/') };
}

export function readSpec(spec: SpecPath): SourceFile {
  return parseFile(spec.path, readText(join(spec.folder, spec.path)));
}

function readText(full: string): string {
  const text = readWhole(full);
  return text.startsWith('\uFEFF') ? text.slice(1) : text;
}

function readWhole(full: string): string {
  try {
    const bytes = readFileSync(full);
    // What other programs save as “Unicode” begins with one of these two marks.
    if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) throw new UsageError(`“${full}” is saved as UTF-16: save it as UTF-8.`);
    return bytes.toString('utf8');
  } catch (error) {
    if (isMissing(error) || error instanceof UsageError) throw error;
    throw new UsageError(`“${full}” can’t be read: ${error instanceof Error ? error.message : String(error)}`);
  }
}

/** The other files of a working folder, each read once. A link that leads out of the folder counts as no file. */
export function libraryIn(folder: string): Library {
  const read = new Map<string, SourceFile | undefined>();
  const real = realpathSync(folder);
  return (path) => {
    if (!read.has(path)) read.set(path, readInside(real, folder, path));
    return read.get(path);
  };
}

function readInside(real: string, folder: string, path: string): SourceFile | undefined {
  try {
    const full = realpathSync(join(folder, path));
    const within = relative(real, full);
    if (within.startsWith('..') || isAbsolute(within) || !statSync(full).isFile()) return undefined;
    return parseFile(path, readText(full));
  } catch (error) {
    if (isMissing(error)) return undefined;
    throw error;
  }
}

function isMissing(error: unknown): boolean {
  return error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ENOTDIR' || error.code === 'ELOOP');
}
