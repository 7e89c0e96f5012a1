import { snapshotOfText } from './samples.ts';
import { edited, type TextEdit, type TextRange } from '../../server/src/language/results.ts';
import type { Snapshot } from '../../server/src/workspace/snapshot.ts';

export interface Marked {
  readonly snapshot: Snapshot;
  readonly text: string;
  /** The place of `‸`, or the start of what stands between `«` and `»`. */
  readonly offset: number;
  readonly range: TextRange;
}

/** Reads a fixture with one cursor `‸` or one range `« »`; without either, the range is the whole text. */
export function marked(fixture: string): Marked {
  const text = fixture.replace(/[‸«»]/gu, '');
  const cursor = fixture.indexOf('‸');
  const start = fixture.indexOf('«');
  const range = cursor >= 0 ? { start: cursor, end: cursor } : start >= 0 ? { start, end: fixture.indexOf('»') - 1 } : { start: 0, end: text.length };
  return { snapshot: snapshotOfText(text), text, offset: range.start, range };
}

/** What stands in each of some ranges. */
export function textsIn(text: string, ranges: readonly TextRange[]): readonly string[] {
  return ranges.map((range) => text.slice(range.start, range.end));
}

export const after = (one: Marked, edits: readonly TextEdit[]): string => edited(one.text, edits);
