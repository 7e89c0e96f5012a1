import { limits } from '../../problems/limits.ts';
import { problem, type Problem } from '../../problems/problem.ts';
import { parseFile } from '../../syntax/parse.ts';
import type { Declaration, Quoted, SourceFile } from '../../syntax/tree.ts';
import { placeOf } from '../settings.ts';
import { canBeName, resolvePath } from './paths.ts';

/** Gives the text of another file of the working folder, already read; undefined where there is none. */
export type Library = (path: string) => SourceFile | undefined;

/** A library that reads from plain texts by path. */
export function libraryOf(texts: ReadonlyMap<string, string>): Library {
  const read = new Map<string, SourceFile>();
  return (path) => {
    const text = texts.get(path);
    if (text === undefined) return undefined;
    let file = read.get(path);
    if (file === undefined) read.set(path, (file = parseFile(path, text)));
    return file;
  };
}

/** A file whose uses are being followed. */
interface Visit {
  readonly file: SourceFile;
  /** The number of its next declaration to look at. */
  next: number;
}

/**
 * A pattern's file and all that it uses, itself or by way of others, in the order met. At most so many as
 * {@link limits} allow: what is beyond is a problem, as is a file that is missing or uses itself.
 */
export function collectFiles(root: SourceFile, library: Library, problems: Problem[]): readonly SourceFile[] {
  const files = new Map([[root.path, root]]);
  const way: Visit[] = [{ file: root, next: 0 }];
  // Kept off the call stack, since files may use one another in a long row.
  for (let top = way.at(-1); top !== undefined; top = way.at(-1)) {
    const one = top.file.declarations[top.next++];
    if (one === undefined) {
      way.pop();
      continue;
    }
    const { declaration } = one;
    if (declaration.tree.kind !== 'use') continue;
    const used = usedFile(declaration, declaration.tree.path, way, files, library, problems);
    if (used !== undefined && !files.has(used.path)) {
      files.set(used.path, used);
      way.push({ file: used, next: 0 });
    }
  }
  return [...files.values()];
}

/** The file that a `use` names; undefined, and a problem, where there is none to go on with. */
function usedFile(declaration: Declaration, written: Quoted, way: readonly Visit[], files: ReadonlyMap<string, SourceFile>, library: Library, problems: Problem[]): SourceFile | undefined {
  const place = placeOf(declaration, written);
  const path = resolvePath(declaration.file, written.value);
  if (path === undefined) {
    problems.push(canBeName(written.value) ? problem('file-outside', place, { path: written.value }) : problem('missing-file', place, { path: written.value }));
    return undefined;
  }
  const onWay = way.findIndex(({ file }) => file.path === path);
  if (onWay >= 0) {
    problems.push(problem('file-cycle', place, { files: path === declaration.file ? [path] : [...way.slice(onWay).map(({ file }) => file.path), path] }));
    return undefined;
  }
  if (files.size >= limits.files && !files.has(path)) {
    problems.push(problem('too-much', place, { of: 'files' }));
    return undefined;
  }
  const used = files.get(path) ?? library(path);
  if (used === undefined) problems.push(problem('missing-file', place, { path: written.value }));
  else if (used.declarations.some((one) => ['piece', 'supply', 'check'].includes(one.declaration.tree.kind))) {
    problems.push(problem('pieces-not-shared', place, { path: written.value }));
  }
  return used;
}
