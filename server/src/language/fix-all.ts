import type { Snapshot } from '../workspace/snapshot.ts';
import { fixesOf, problemsOfFile } from './fixes.ts';
import { lineEdit } from './format.ts';
import { edited, type FileEdit, type TextEdit } from './results.ts';
import { factsOf, tried } from './trial.ts';

/** One fix may lay bare the next (a value that only an unused one used); so many turns are more than any file needs. */
const mostTurns = 50;
/** UTF-16 code units read in all turns together: of a very long file fewer turns are taken, and the next call takes more. */
const mostRead = 150_000;

/**
 * Applies every fix that can be applied unseen, until there is none left. A fix that would change what is made after
 * all is left out.
 */
export function fixAll(snapshot: Snapshot): readonly TextEdit[] {
  const before = factsOf(snapshot.pattern);
  const refused = new Set<string>();
  let now = snapshot;
  const turns = Math.min(mostTurns, Math.max(1, Math.floor(mostRead / Math.max(1, snapshot.file.text.length))));
  for (let turn = 0; turn < turns; turn++) {
    const next = tried(now, edited(now.file.text, withoutOverlaps(safeEdits(now, refused))));
    if (next.file.text === now.file.text) break;
    if (factsOf(next.pattern) === before) now = next;
    else now = oneByOne(now, before, refused);
  }
  const edit = lineEdit(snapshot.file.text, now.file.text, 0);
  return edit === undefined ? [] : [edit];
}

interface Change {
  readonly key: string;
  readonly edits: readonly FileEdit[];
}

function safeEdits(snapshot: Snapshot, refused: ReadonlySet<string>): readonly Change[] {
  return problemsOfFile(snapshot).flatMap(({ problem }) => {
    const fix = fixesOf(snapshot, problem).find((one) => one.safe && one.edits.every((edit) => edit.file === snapshot.path));
    const key = `${problem.code} ${problem.message} ${fix?.title ?? ''}`;
    return fix === undefined || refused.has(key) ? [] : [{ key, edits: fix.edits }];
  });
}

/** Edits that leave each other alone: of two that touch, the first in the text goes in now and the other in the next turn. */
function withoutOverlaps(changes: readonly Change[]): readonly TextEdit[] {
  const kept: TextEdit[] = [];
  for (const { edits } of changes) {
    if (edits.every((edit) => kept.every((other) => edit.end < other.start || edit.start > other.end || (edit.start === edit.end ? false : edit.end === other.start || edit.start === other.end)))) kept.push(...edits);
  }
  return kept;
}

/** Where all at once would change what is made, each is tried alone, and those that do are refused. */
function oneByOne(start: Snapshot, before: string, refused: Set<string>): Snapshot {
  let now = start;
  for (const change of safeEdits(start, refused)) {
    const current = safeEdits(now, refused).find((one) => one.key === change.key);
    if (current === undefined) continue;
    const next = tried(now, edited(now.file.text, current.edits));
    if (factsOf(next.pattern) === before) now = next;
    else refused.add(change.key);
  }
  return now;
}
