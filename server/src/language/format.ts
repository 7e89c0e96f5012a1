import { printSegments } from '../syntax/print.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import type { TextEdit, TextRange } from './results.ts';

/**
 * The edits that bring a file to its canonical text, each of as few whole lines as can be.
 *
 * @param range only what stands on these lines, statement by statement; the whole file without it
 */
export function format(snapshot: Snapshot, range?: TextRange): readonly TextEdit[] {
  const { text } = snapshot.file;
  const edits: TextEdit[] = [];
  for (const segment of printSegments(snapshot.file)) {
    if (range !== undefined && (segment.start > range.end || segment.end <= range.start)) continue;
    const edit = lineEdit(text.slice(segment.start, segment.end), segment.text, segment.start);
    if (edit !== undefined) edits.push(edit);
  }
  return edits;
}

/** The one run of lines that differs between two texts, as an edit of the first; undefined where they are the same. */
export function lineEdit(before: string, after: string, offset: number): TextEdit | undefined {
  if (before === after) return undefined;
  const old = linesOf(before);
  const fresh = linesOf(after);
  const least = Math.min(old.length, fresh.length);
  let first = 0;
  while (first < least && old[first] === fresh[first]) first++;
  let last = 0;
  while (last < least - first && old[old.length - 1 - last] === fresh[fresh.length - 1 - last]) last++;
  const start = offset + old.slice(0, first).join('').length;
  return {
    start,
    end: start + old.slice(first, old.length - last).join('').length,
    newText: fresh.slice(first, fresh.length - last).join(''),
  };
}

/** Lines with their line ends. */
const linesOf = (text: string): readonly string[] => text.match(/[^\n\r]*(?:\r\n|\r|\n)|[^\n\r]+$/g) ?? [];
