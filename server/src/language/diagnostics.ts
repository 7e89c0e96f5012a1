import type { FoundProblem } from '../model/query/variants.ts';
import { resolvePath } from '../model/names/paths.ts';
import { placeOf } from '../model/settings.ts';
import { problem, type Related } from '../problems/problem.ts';
import type { SourceFile } from '../syntax/tree.ts';
import type { Located, Snapshot } from '../workspace/snapshot.ts';
import { usesOf } from '../workspace/workspace.ts';

/** A problem where it stands in its file now. */
export interface Diagnosis {
  readonly found: FoundProblem;
  /** In whole sentences, with the combinations in which it arises. */
  readonly message: string;
  readonly start: number;
  readonly end: number;
  readonly related: readonly (Located & { readonly message: string })[];
}

/** At most so many faults of another file are pointed at from the line that uses it. */
const mostRelated = 5;

/**
 * The problems of the snapshot's own file, in the order of the text. Errors in a file that it uses are told once, at the
 * line that uses it.
 */
export function diagnose(snapshot: Snapshot): readonly Diagnosis[] {
  const own: Diagnosis[] = [];
  const elsewhere = new Map<string, FoundProblem[]>();
  const add = (found: FoundProblem): void => {
    const place = snapshot.locate(found.place);
    if (place === undefined) return;
    if (place.file !== snapshot.path) {
      if (found.severity === 'error') elsewhere.set(place.file, [...(elsewhere.get(place.file) ?? []), found]);
      return;
    }
    own.push({ found, message: messageOf(found), start: place.start, end: place.end, related: relatedOf(snapshot, found.related) });
  };
  for (const found of snapshot.pattern.problems) add(found);
  for (const [path, faults] of [...elsewhere]) {
    const told = faultsInFile(snapshot, path, faults);
    if (told !== undefined) add(told);
  }
  return own.sort((a, b) => a.start - b.start || a.end - b.end);
}

function messageOf(found: FoundProblem): string {
  return found.when === undefined ? found.message : `${found.message} (only when ${found.when})`;
}

function relatedOf(snapshot: Snapshot, related: readonly Related[]): Diagnosis['related'] {
  return related.flatMap(({ place, message }) => {
    const located = snapshot.locate(place);
    return located === undefined ? [] : [{ ...located, message }];
  });
}

function faultsInFile(snapshot: Snapshot, path: string, faults: readonly FoundProblem[]): FoundProblem | undefined {
  const { files } = snapshot.pattern.world;
  for (const { declaration } of snapshot.file.declarations) {
    const { tree } = declaration;
    if (tree.kind !== 'use') continue;
    const used = resolvePath(snapshot.path, tree.path.value);
    if (used === undefined || !leadsTo(used, path, files)) continue;
    const related = faults.slice(0, mostRelated).map((fault) => ({ place: fault.place, message: messageOf(fault) }));
    return { ...problem('faults-in-file', placeOf(declaration, tree.path), { path, count: faults.length }, { related }), when: undefined };
  }
  return undefined;
}

function leadsTo(from: string, to: string, files: readonly SourceFile[]): boolean {
  const met = new Set([from]);
  for (const next of met) for (const used of usesOf(files.find((file) => file.path === next))) met.add(used);
  return met.has(to);
}
