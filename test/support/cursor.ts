import { expect } from 'vitest';
import { Workspace } from '../../server/src/workspace/workspace.ts';
import type { Snapshot } from '../../server/src/workspace/snapshot.ts';

/** A pattern with a cursor in it. */
export interface AtCursor {
  readonly snapshot: Snapshot;
  readonly offset: number;
  /** The text without the mark. */
  readonly text: string;
  readonly workspace: Workspace;
}

/** Reads a pattern whose text has one `|` where the cursor is, beside other files by path. */
export function atCursor(marked: string, others: Readonly<Record<string, string>> = {}, path = 'main.piece'): AtCursor {
  const offset = marked.indexOf('|');
  expect(offset, 'the fixture has a cursor').toBeGreaterThanOrEqual(0);
  const text = marked.slice(0, offset) + marked.slice(offset + 1);
  const workspace = new Workspace();
  for (const [other, content] of Object.entries(others)) workspace.setDisk(other, content);
  workspace.open(path, text);
  const snapshot = workspace.snapshot(path);
  if (snapshot === undefined) throw new Error('The fixture has no snapshot');
  return { snapshot, offset, text, workspace };
}

/** A text with each range put in brackets, to compare places at a glance. */
export function bracketed(text: string, ranges: readonly { readonly start: number; readonly end: number }[]): string {
  let result = '';
  let at = 0;
  for (const { start, end } of [...ranges].sort((a, b) => a.start - b.start)) {
    result += `${text.slice(at, start)}[${text.slice(start, end)}]`;
    at = end;
  }
  return result + text.slice(at);
}
