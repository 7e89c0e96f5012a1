import { Analyst, type Pattern } from '../model/pattern.ts';
import { parseFile } from '../syntax/parse.ts';
import type { SourceFile } from '../syntax/tree.ts';
import { unreadableFile } from '../syntax/unreadable.ts';
import type { RevisionFiles } from './git.ts';

/** What a spec means in a revision, with the files that it uses as they were then. */
export function patternAt(files: Pick<RevisionFiles, 'read'>, root: SourceFile): Pattern {
  const read = new Map<string, SourceFile | undefined>();
  return new Analyst().analyse(root, (path) => {
    if (!read.has(path)) read.set(path, sourceAt(files, path));
    return read.get(path);
  });
}

export function sourceAt(files: Pick<RevisionFiles, 'read'>, path: string): SourceFile | undefined {
  const read = files.read(path);
  return read && ('text' in read ? parseFile(path, read.text) : unreadableFile(path, read.unread));
}
