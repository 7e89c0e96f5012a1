import type { FoundProblem } from '../model/query/variants.ts';
import type { Fix } from '../problems/problem.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { ownFixes } from './own-fixes.ts';
import type { Action, FileEdit, TextRange } from './results.ts';

/** A way to be rid of a problem. */
export interface FixAction extends Action {
  readonly problem: FoundProblem;
  /** Whether it can be applied unseen: it changes no size and no count. */
  readonly safe: boolean;
}

/** The fixes of the problems that touch a range of the snapshot's own file. */
export function fixes(snapshot: Snapshot, range: TextRange): readonly FixAction[] {
  return problemsOfFile(snapshot)
    .filter(({ start, end }) => start <= range.end && end >= range.start)
    .flatMap(({ problem }) => fixesOf(snapshot, problem));
}

/** The fixes of one problem: those it came with, and those that need to know more of the file. */
export function fixesOf(snapshot: Snapshot, problem: FoundProblem): readonly FixAction[] {
  return [...problem.fixes, ...ownFixes(snapshot, problem)].flatMap((fix) => {
    const edits = located(snapshot, fix);
    return edits === undefined ? [] : [{ title: fix.title, kind: 'fix', edits, problem, safe: fix.safe } satisfies FixAction];
  });
}

/** The problems that stand in the snapshot's own file, with where. */
export function problemsOfFile(snapshot: Snapshot): readonly (TextRange & { readonly problem: FoundProblem })[] {
  return snapshot.pattern.problems.flatMap((problem) => {
    const place = snapshot.locate(problem.place);
    return place?.file === snapshot.path ? [{ problem, start: place.start, end: place.end }] : [];
  });
}

function located(snapshot: Snapshot, fix: Fix): readonly FileEdit[] | undefined {
  const edits = fix.edits.map((edit) => {
    const place = snapshot.locate(edit.place);
    return place && { file: place.file, start: place.start, end: place.end, newText: edit.newText };
  });
  return edits.every((edit) => edit !== undefined) ? edits : undefined;
}
