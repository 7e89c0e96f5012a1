import { Workspace } from '../../server/src/workspace/workspace.ts';
import type { Snapshot } from '../../server/src/workspace/snapshot.ts';
import { edited, type TextEdit, type TextRange } from '../../server/src/language/results.ts';
import { sample } from './samples.ts';

/** The one way to mark a place in a text of a test: `|` is where the cursor is, `«` and `»` stand around a range. */
export interface Marked {
  readonly workspace: Workspace;
  readonly snapshot: Snapshot;
  /** Without the marks. */
  readonly text: string;
  /** Of the cursor, or where the range begins. */
  readonly offset: number;
  readonly range: TextRange;
}

const shared = 'studio/materials.piece';

/**
 * Reads a pattern with at most one mark; without any, the range is the whole text.
 *
 * @param others files beside it, by their paths
 */
export function marked(fixture: string, others: Readonly<Record<string, string>> = { [shared]: sample(shared) }, path = 'main.piece'): Marked {
  const text = fixture.replace(/[|«»]/gu, '');
  const range = rangeOf(fixture, text.length);
  const workspace = new Workspace();
  for (const [other, content] of Object.entries(others)) workspace.setDisk(other, content);
  workspace.open(path, text);
  const snapshot = workspace.snapshot(path);
  if (snapshot === undefined) throw new Error('The text has no snapshot');
  return { workspace, snapshot, text, offset: range.start, range };
}

function rangeOf(fixture: string, whole: number): TextRange {
  const marks = [...fixture.matchAll(/[|«»]/gu)].map(({ 0: mark, index }, before) => ({ mark, at: index - before }));
  const [first, second] = marks;
  switch (marks.map(({ mark }) => mark).join('')) {
    case '':
      return { start: 0, end: whole };
    case '|':
      return { start: first?.at ?? 0, end: first?.at ?? 0 };
    case '«»':
      return { start: first?.at ?? 0, end: second?.at ?? 0 };
    default:
      throw new Error(`More than one place is marked: ${fixture}`);
  }
}

/** What stands in each of some ranges. */
export const textsIn = (text: string, ranges: readonly TextRange[]): readonly string[] => ranges.map((range) => text.slice(range.start, range.end));

/** A text with each range put in brackets, to compare places at a glance. */
export function bracketed(text: string, ranges: readonly TextRange[]): string {
  let result = '';
  let at = 0;
  for (const { start, end } of [...ranges].sort((a, b) => a.start - b.start)) {
    result += `${text.slice(at, start)}[${text.slice(start, end)}]`;
    at = end;
  }
  return result + text.slice(at);
}

export const after = (one: Marked, edits: readonly TextEdit[]): string => edited(one.text, edits);
