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
 * Both revisions of `OLD..NEW`; of `OLD...NEW` the first is where both parted, as in git's own `diff`.
 *
 * @throws UsageError where it isn't such a range, where git isn't there, or where there is no such revision
 */
export function revisionsOf(range: string, folder: string): { readonly old: RevisionFiles; readonly fresh: RevisionFiles } {
  const [, from = '', dots = '', to = ''] = /^([^\s-]\S*?)(\.{2,3})(\S*)$/.exec(range) ?? [];
  if (from === '' || to.startsWith('-')) throw new UsageError(`“${range}” is no range of revisions: write it as in main..HEAD.`);
  const later = commitOf(to === '' ? 'HEAD' : to, folder);
  const first = commitOf(from, folder);
  const parted = dots === '...' ? git(['merge-base', first, later], folder)?.toString().trim() : first;
  if (parted === undefined) throw new UsageError(`“${from}” and “${to}” have no revision in common: write two dots.`);
  return { old: filesAt(parted, folder), fresh: filesAt(later, folder) };
}

function commitOf(revision: string, folder: string): string {
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

/**
 * What git says, by itself and without a shell; undefined where it ends with a fault of its own.
 *
 * @throws UsageError where the git program isn't there
 */
export function git(args: readonly string[], folder: string): Buffer | undefined | 'too long' {
  try {
    return execFileSync('git', args, { cwd: folder, maxBuffer: mostBytes + 1, stdio: ['ignore', 'pipe', 'ignore'], windowsHide: true });
  } catch (error) {
    if (codeOf(error) === 'ENOENT') throw new UsageError('The git program is not there: --git reads revisions through it.');
    return codeOf(error) === 'ENOBUFS' ? 'too long' : undefined;
  }
}
