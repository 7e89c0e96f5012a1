import { basename } from 'node:path';
import { filesAt, git, type RevisionFiles } from './git.ts';

/** Where in a repository a text stood, and the files that stood beside it then. */
export interface Origin {
  readonly path: string;
  readonly files: Pick<RevisionFiles, 'read'>;
  /** The commit that was looked up, shortened; undefined of the current one and of what is staged. */
  readonly commit?: string;
}

/**
 * The place in its history of a file that git has laid out elsewhere, found by what it says: in the current commit, else
 * staged, else in the last commit that had it. Git tells neither its path nor its revision to whom it asks for a text.
 *
 * @param file its whole path
 * @param top the topmost folder of the working tree
 */
export function originOf(file: string, top: string): Origin | undefined {
  const name = basename(file);
  // As it would be stored, whatever line ends were given to it on its way out.
  const blob = said(git(['hash-object', '--path', name, '--', file], top))?.trim();
  if (blob === undefined || !/^[0-9a-f]{40,64}$/.test(blob)) return undefined;
  const of = (entries: readonly Entry[]): string | undefined => pathOf(entries, blob, name);
  const current = of(listed(git(['ls-tree', '-r', '-z', '--full-name', 'HEAD'], top)));
  if (current !== undefined) return { path: current, files: filesAt('HEAD', top) };
  const staged = of(listed(git(['ls-files', '--stage', '-z', '--full-name'], top)));
  return staged === undefined ? lastWith(blob, name, top) : { path: staged, files: filesAt('', top) };
}

interface Entry {
  readonly path: string;
  readonly blob: string;
}

/** Lines of `ls-tree`, `100644 blob HASH⇥path`, and of `ls-files`, `100644 HASH 0⇥path`. */
const listed = (answer: ReturnType<typeof git>): readonly Entry[] => (said(answer) ?? '').split('\0').flatMap((line) => {
  const [, blob, path] = /^\d+ (?:blob )?([0-9a-f]{40,64})(?: \d)?\t([^]+)$/.exec(line) ?? [];
  return blob === undefined || path === undefined ? [] : [{ blob, path }];
});

/** The same text may stand at several paths; git keeps the name of a file that it lays out, with or without something before it. */
function pathOf(entries: readonly Entry[], blob: string, name: string): string | undefined {
  const paths = entries.filter((entry) => entry.blob === blob && entry.path.endsWith('.piece')).map(({ path }) => path);
  return paths.find((path) => name.endsWith(basename(path))) ?? paths[0];
}

/** In the commit that brought it, where that is the last that touched it; else in the one before it went. */
function lastWith(blob: string, name: string, top: string): Origin | undefined {
  const history = said(git(['log', '--all', '--no-renames', '--raw', '--no-abbrev', '-z', '--format=%H', `--find-object=${blob}`, '--max-count=20'], top)) ?? '';
  const touched = [...history.matchAll(/(?<=^|\0)([0-9a-f]{40,64})\0|:\d+ \d+ ([0-9a-f]{40,64}) ([0-9a-f]{40,64}) [A-Z]\0([^\0]+)/g)];
  let commit = '';
  for (const [, at, before, after, path = ''] of touched) {
    if (at !== undefined) commit = at;
    else if ((before === blob || after === blob) && path !== '' && pathOf([{ blob, path }], blob, name) !== undefined) {
      const revision = after === blob ? commit : `${commit}^`;
      return { path, files: filesAt(revision, top), commit: `${commit.slice(0, 8)}${after === blob ? '' : '^'}` };
    }
  }
  return undefined;
}

const said = (answer: ReturnType<typeof git>): string | undefined => (Buffer.isBuffer(answer) ? answer.toString() : undefined);
