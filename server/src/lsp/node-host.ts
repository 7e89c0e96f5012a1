import { readdir, realpath } from 'node:fs/promises';
import { join, sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { codeOf, readText } from '../platform/read-text.ts';
import type { ReadText } from '../platform/decode.ts';
import type { Host } from './host.ts';

/** Reads files from the disk. Other kinds of addresses are left to `other`. */
export function nodeHost(other: Pick<Host, 'read' | 'list'>, openPlanner?: Host['openPlanner']): Host {
  return {
    ...(openPlanner === undefined ? {} : { openPlanner }),
    read: (uri, folder) => (isFile(uri) && isFile(folder) ? readInside(fileURLToPath(uri), fileURLToPath(folder)) : other.read(uri, folder)),
    list: (folder) => (isFile(folder) ? list(fileURLToPath(folder)) : other.list(folder)),
    soon: (run) => void setImmediate(run),
  };
}

const isFile = (uri: string): boolean => uri.startsWith('file:');

/** Links are followed first, so that none leads out of the folder. */
async function readInside(path: string, folder: string): Promise<ReadText | undefined> {
  try {
    const [real, realFolder] = await Promise.all([realpath(path), realpath(folder)]);
    if (!real.startsWith(realFolder.endsWith(sep) ? realFolder : realFolder + sep)) return undefined;
    return await readText(real);
  } catch (error) {
    if (codeOf(error) !== undefined) return undefined;
    throw error;
  }
}

const skipped = /^(?:\.|node_modules$)/;

async function list(folder: string): Promise<readonly string[]> {
  const found: string[] = [];
  const walk = async (path: string): Promise<void> => {
    const entries = await readdir(path, { withFileTypes: true }).catch(() => []);
    for (const entry of entries) {
      if (skipped.test(entry.name)) continue;
      const own = join(path, entry.name);
      if (entry.isDirectory()) await walk(own);
      else if ((entry.isFile() || entry.isSymbolicLink()) && entry.name.endsWith('.piece')) found.push(pathToFileURL(own).href);
    }
  };
  await walk(folder);
  return found.sort();
}
