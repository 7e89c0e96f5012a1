import type { Pattern } from '../model/pattern.ts';
import type { Place } from '../problems/place.ts';
import { lineFinder } from '../syntax/lines.ts';
import { snapshotOf } from '../workspace/snapshot.ts';
import type { Cause } from './change.ts';

/** One of the two patterns, with the way from a place in it to the line that a reader finds. */
export interface Spec {
  readonly pattern: Pattern;
  readonly lineAt: (place: Place) => Pick<Cause, 'file' | 'line' | 'text'> | undefined;
}

export function specOf(pattern: Pattern): Spec {
  const { locate } = snapshotOf(pattern);
  const files = new Map(pattern.world.files.map((file) => [file.path, { text: file.text, find: lineFinder(file.text), lines: file.text.split(/\r\n|\r|\n/) }]));
  return {
    pattern,
    lineAt: (place) => {
      const located = locate(place);
      const file = located && files.get(located.file);
      if (located === undefined || file === undefined) return undefined;
      const { line } = file.find(located.start);
      return { file: located.file, line, text: withoutComment(file.lines[line - 1] ?? '') };
    },
  };
}

/** A line as it is told: without its comment, indent and what opens a block. A sign in quotes opens no comment. */
const withoutComment = (line: string): string => line.replace(/^((?:"(?:[^"\\]|\\.)*"|[^"#])*)#.*$/, '$1').trim().replace(/\{$/, '').trim().replace(/\s+/g, ' ');
