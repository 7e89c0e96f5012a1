import { relativePath, resolvePath } from '../model/names/paths.ts';
import { printQuoted } from '../syntax/print-words.ts';
import type { SourceFile } from '../syntax/tree.ts';
import type { FileEdit } from './results.ts';

/** A file or a folder that is to be called something else; paths relative to the working folder. */
export interface Move {
  readonly from: string;
  /** Undefined where it leaves the working folder. */
  readonly to: string | undefined;
}

/** What `use` lines must say once files have moved: those that name them, and those of files that move themselves. */
export function movedUses(files: readonly SourceFile[], moves: readonly Move[]): readonly FileEdit[] {
  const after = (path: string): string | undefined => {
    const move = moves.find(({ from }) => path === from || path.startsWith(`${from}/`));
    if (move === undefined) return path;
    return move.to === undefined ? undefined : move.to + path.slice(move.from.length);
  };
  return files.flatMap((file) => file.declarations.flatMap(({ declaration: { tree }, offset }): readonly FileEdit[] => {
    if (tree.kind !== 'use') return [];
    const used = resolvePath(file.path, tree.path.value);
    const [from, to] = [after(file.path), used === undefined ? undefined : after(used)];
    // What leaves the folder, on either side, can’t be named any more.
    if (from === undefined || to === undefined || resolvePath(from, tree.path.value) === to) return [];
    const newText = printQuoted({ ...tree.path, value: relativePath(from, to) });
    return [{ file: file.path, start: offset + tree.path.start, end: offset + tree.path.end, newText }];
  }));
}
