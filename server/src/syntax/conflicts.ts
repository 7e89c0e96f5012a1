import type { Conflict, Span } from './tree.ts';

/** The lines that a merge leaves where two versions differ: seven signs or more, and what stands after them. */
const openingLine = /^<{7,}(?: (.*))?$/;
const baseLine = /^\|{7,}(?: .*)?$/;
const middleLine = /^={7,}$/;
const closingLine = /^>{7,}(?: (.*))?$/;

interface Opened {
  readonly start: number;
  readonly from: number;
  readonly label: string;
  readonly base?: number;
  /** The end of the first version, and the start of the second. */
  readonly middle?: readonly [number, number];
}

/** The places of a text where a merge has left two versions, in order; marks that don’t belong together are none. */
export function conflictsIn(text: string): readonly Conflict[] {
  if (!text.includes('<<<<<<<')) return [];
  const conflicts: Conflict[] = [];
  let open: Opened | undefined;
  for (const { 0: line, index: start } of text.matchAll(/[^\n\r]*(?:\r\n|\r|\n)|[^\n\r]+$/g)) {
    const [words, end] = [line.replace(/[\n\r]+$/, ''), start + line.length];
    const opening = openingLine.exec(words);
    if (opening !== null) open = { start, from: end, label: opening[1] ?? '' };
    else if (open === undefined) continue;
    else if (open.middle === undefined && baseLine.test(words)) open = { ...open, base: start };
    else if (open.middle === undefined && middleLine.test(words)) open = { ...open, middle: [start, end] };
    else if (open.middle !== undefined) {
      const closing = closingLine.exec(words);
      if (closing === null) continue;
      conflicts.push({ start: open.start, end, first: { start: open.from, end: open.base ?? open.middle[0], label: open.label }, second: { start: open.middle[1], end: start, label: closing[1] ?? '' } });
      open = undefined;
    }
  }
  return conflicts;
}

/** A text with the first version of each conflict alone, and space in the place of all else, so that every place stays where it is. */
export function withFirst(text: string, conflicts: readonly Conflict[]): string {
  let result = '';
  let end = 0;
  for (const { start, first, end: after } of conflicts) {
    result += text.slice(end, start) + blank(text, { start, end: first.start }) + text.slice(first.start, first.end) + blank(text, { start: first.end, end: after });
    end = after;
  }
  return result + text.slice(end);
}

const blank = (text: string, { start, end }: Span): string => text.slice(start, end).replace(/[^\n\r]/g, ' ');
