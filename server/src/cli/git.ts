import { execFileSync } from 'node:child_process';
import { posix } from 'node:path';
import { decoded, mostBytes, type ReadText } from '../platform/decode.ts';
import { codeOf } from '../platform/read-text.ts';
import { UsageError } from './files.ts';

/** The files of one revision of a git repository, read through the git program; nothing is checked out. */
export interface RevisionFiles {
  /** What a file of the working folder said then; undefined where there was none. */
  readonly read: (path: string) => ReadText | undefined;
  /** The specs that there were in a folder of the working folder, or that file itself; in order of their paths. */
  readonly specs: (within: string) => readonly string[];
}

/**
 * The commits of `OLD..NEW`; of `OLD...NEW` the first is where both parted, as in git's own `diff`.
 *
 * @throws UsageError where it isn't such a range, where git isn't there, or where there is no such revision
 */
export function revisionsOf(range: string, folder: string): { readonly old: string; readonly fresh: string } {
  const [, from = '', dots = '', to = ''] = /^([^\s-]\S*?)(\.{2,3})(\S*)$/.exec(range) ?? [];
  if (from === '' || to.startsWith('-')) throw new UsageError(`“${range}” is no range of revisions: write it as in main..HEAD.`);
  const later = commitOf(to === '' ? 'HEAD' : to, folder);
  const first = commitOf(from, folder);
  const parted = dots === '...' ? git(['merge-base', first, later], folder)?.toString().trim() : first;
  if (parted === undefined) throw new UsageError(`“${from}” and “${to}” have no revision in common: write two dots.`);
  return { old: parted, fresh: later };
}

/** @throws UsageError where there is no such revision, or no repository */
export function commitOf(revision: string, folder: string): string {
  const commit = git(['rev-parse', '--verify', '--quiet', `${revision}^{commit}`], folder)?.toString().trim();
  if (commit === undefined) throw new UsageError(`There is no revision “${revision}” in a git repository of this folder.`);
  return commit;
}

/** @param commit a commit, or nothing for what is staged */
export function filesAt(commit: string, folder: string): RevisionFiles {
  return {
    read: (path) => {
      const at = posix.normalize(path);
      if (at.startsWith('..') || posix.isAbsolute(at)) return undefined;
      const blob = git(['cat-file', 'blob', `${commit}:./${at}`], folder);
      return blob === 'too long' ? { unread: 'too long' } : blob && decoded(blob);
    },
    specs: (within) => {
      const listed = git(['ls-tree', '-r', '-z', '--name-only', commit, '--', within === '' ? '.' : within], folder);
      if (listed === 'too long') throw new UsageError('There are too many files in this folder: name those to compare.');
      return (listed ?? '').toString().split('\0').filter((path) => path.endsWith('.piece')).sort();
    },
  };
}

/** Bytes of specs that are read at once; those of a larger revision are read one by one. */
const mostAtOnce = 64 * 1024 * 1024;

/** Reads the files of a revision, all specs at once: asking git for each takes longer than working it out. */
export function revisionReader(commit: string, folder: string): (path: string) => ReadText | undefined {
  const files = filesAt(commit, folder);
  const known = new Map<string, ReadText | undefined>();
  let isRead = false;
  return (path) => {
    if (!isRead) for (const [name, text] of specTexts(commit, folder)) known.set(name, text);
    isRead = true;
    const at = posix.normalize(path);
    if (!known.has(at)) known.set(at, files.read(at));
    return known.get(at);
  };
}

/** Every spec of a revision in a folder; none where they are too many to be read at once. */
function specTexts(commit: string, folder: string): ReadonlyMap<string, ReadText> {
  const listed = git(['ls-tree', '-r', '-z', '-l', commit, '--', '.'], folder);
  if (!Buffer.isBuffer(listed)) return new Map();
  const blobs = listed.toString().split('\0').flatMap((line) => {
    const [, id = '', size = '', path = ''] = /^\d+ blob ([0-9a-f]+) +(\d+)\t([^]+)$/.exec(line) ?? [];
    return path.endsWith('.piece') && Number(size) <= mostBytes ? [{ id, path, size: Number(size) }] : [];
  });
  const room = blobs.reduce((sum, { size }) => sum + size + 200, 0);
  if (blobs.length === 0 || room > mostAtOnce) return new Map();
  const answer = git(['cat-file', '--batch'], folder, { input: blobs.map(({ id }) => `${id}\n`).join(''), most: room });
  if (!Buffer.isBuffer(answer)) return new Map();
  const texts = new Map<string, ReadText>();
  let at = 0;
  for (const { path, size } of blobs) {
    // Each is told as `id blob size`, its bytes on the lines below.
    const begin = answer.indexOf(10, at) + 1;
    texts.set(path, decoded(answer.subarray(begin, begin + size)));
    at = begin + size + 1;
  }
  return texts;
}

/**
 * What git says, by itself and without a shell; undefined where it ends with a fault of its own.
 *
 * @throws UsageError where the git program isn't there
 */
export function git(args: readonly string[], folder: string, asked?: { readonly input: string; readonly most: number }): Buffer | undefined | 'too long' {
  try {
    return execFileSync('git', args, { cwd: folder, maxBuffer: asked?.most ?? mostBytes + 1, ...(asked === undefined ? {} : { input: asked.input }), stdio: [asked === undefined ? 'ignore' : 'pipe', 'pipe', 'ignore'], windowsHide: true });
  } catch (error) {
    if (codeOf(error) === 'ENOENT') throw new UsageError('The git program is not there: --git reads revisions through it.');
    return codeOf(error) === 'ENOBUFS' ? 'too long' : undefined;
  }
}
