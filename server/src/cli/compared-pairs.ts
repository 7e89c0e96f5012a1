import { realpathSync, statSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { movedSpecs, type CatalogueComparison, type Movable } from '../compare/catalogue.ts';
import { readTextSync } from '../platform/read-text.ts';
import type { ReadText } from '../platform/decode.ts';
import { parseFile } from '../syntax/parse.ts';
import type { Side } from './compare-job.ts';
import { findSpecs, specsBelow, UsageError } from './files.ts';
import { filesAt, revisionReader, revisionsOf } from './git.ts';

/** The specs of two states, side by side. */
export interface ComparedPairs extends Pick<CatalogueComparison, 'lone' | 'moved'> {
  readonly pairs: readonly { readonly old: Side; readonly fresh: Side; readonly file: string }[];
}

/** A spec of one state, by the path that it has in both. */
interface Found {
  readonly path: string;
  readonly side: Side;
  /** The path that is told. */
  readonly told: string;
  readonly read: () => ReadText | undefined;
}

/**
 * The two specs that are named, or those of the two folders.
 *
 * @throws UsageError where there are no two, or not of one kind
 */
export async function namedPairs(named: readonly string[]): Promise<ComparedPairs> {
  const [before, after, ...more] = named;
  if (before === undefined || after === undefined || more.length > 0) throw new UsageError('Name two specs or two folders, the earlier one first; or one with --git, as in --git main..HEAD bag.piece.');
  const areFolders = [before, after].map((name) => statSync(name, { throwIfNoEntry: false })?.isDirectory() === true);
  if (areFolders[0] !== areFolders[1]) throw new UsageError(`“${areFolders[0] ? before : after}” is a folder and “${areFolders[0] ? after : before}” is not: name two specs, or two folders.`);
  if (areFolders[0] === true) return paired(await folderSpecs(before), await folderSpecs(after));
  const [[old], [fresh]] = [await findSpecs([before], process.cwd()), await findSpecs([after], process.cwd())];
  if (old === undefined || fresh === undefined) throw new UsageError('Name two specs.');
  return { pairs: [{ old: { spec: old, within: '' }, fresh: { spec: fresh, within: '' }, file: fresh.path }], lone: [], moved: [] };
}

async function folderSpecs(named: string): Promise<readonly Found[]> {
  return (await specsBelow(named)).map(({ spec, path, within }) => ({ path, told: spec.path, side: { spec, within }, read: () => readTextSync(join(spec.folder, spec.path)) }));
}

/**
 * The specs named, or all below the current folder, in two revisions.
 *
 * @throws UsageError where there is none in either
 */
export function revisionPairs(named: readonly string[], range: string): ComparedPairs {
  const folder = process.cwd();
  const { old, fresh } = revisionsOf(range, folder);
  const within = named.length === 0 ? [''] : named.map((name) => pathWithin(folder, name));
  const specs = (commit: string): readonly Found[] => {
    const read = revisionReader(commit, folder);
    return [...new Set(within.flatMap(filesAt(commit, folder).specs))].sort().map((path) => ({ path, side: { commit, folder, path }, told: path, read: () => read(path) }));
  };
  const [before, after] = [specs(old), specs(fresh)];
  if (before.length + after.length === 0) throw new UsageError(`There is no spec ${named.length === 0 ? 'in this folder' : `“${named.join('”, “')}”`} in either revision.`);
  return paired(before, after);
}

function paired(old: readonly Found[], fresh: readonly Found[]): ComparedPairs {
  const earlier = new Map(old.map((one) => [one.path, one]));
  const later = new Set(fresh.map(({ path }) => path));
  const movable = (one: Found): Found & Movable => {
    const read = one.read();
    const text = read !== undefined && 'text' in read ? read.text : '';
    return { ...one, text, title: titleIn(one.path, text) };
  };
  const { both, gone, come } = movedSpecs(old.filter(({ path }) => !later.has(path)).map(movable), fresh.filter(({ path }) => !earlier.has(path)).map(movable));
  const moved = new Map(both.map(([was, now]) => [now.path, was]));
  return {
    pairs: fresh.flatMap((now) => {
      const was = earlier.get(now.path) ?? moved.get(now.path);
      return was === undefined ? [] : [{ old: was.side, fresh: now.side, file: now.told }];
    }),
    moved: both.map(([was, now]) => ({ was: was.told, now: now.told })),
    lone: [...gone.map(({ told, path }) => ({ path, file: told, is: 'removed' as const })), ...come.map(({ told, path }) => ({ path, file: told, is: 'added' as const }))]
      .sort((a, b) => (a.path < b.path ? -1 : 1)).map(({ file, is }) => ({ file, is })),
  };
}

/** What a spec calls itself. */
function titleIn(path: string, text: string): string | undefined {
  for (const { declaration: { tree } } of parseFile(path, text).declarations) if (tree.kind === 'pattern') return tree.title.value;
  return undefined;
}

/** By the folder's own path, with forward slashes. */
function pathWithin(folder: string, name: string): string {
  const full = resolve(folder, name);
  const real = statSync(full, { throwIfNoEntry: false }) === undefined ? full : realpathSync(full);
  const path = relative(full.startsWith(folder) ? folder : realpathSync(folder), full.startsWith(folder) ? full : real).split(sep).join('/');
  if (path.startsWith('..')) throw new UsageError(`“${name}” lies outside this folder: run it there.`);
  return path;
}
