import { blockWords, topWords } from './statements/table.ts';

/** A declaration's text within a file, in UTF-16 offsets, from the end of the declaration before it. */
export interface Slice {
  readonly start: number;
  readonly end: number;
}

/**
 * Cuts a file into declarations by its braces and line ends alone, without reading what they say, so that an edit
 * leaves the slices of all other declarations as they were. Every character belongs to exactly one slice; the last one
 * may hold only comments and blank lines.
 *
 * A block left open ends where a line starts, unindented, with a word that only begins declarations. What stands
 * indented under a first line that forgot its brace belongs to it.
 */
export function splitDeclarations(text: string): readonly Slice[] {
  const slices: Slice[] = [];
  let start = 0;
  let depth = 0;
  let begun = false;
  let position = 0;
  while (position < text.length) {
    const line = scanLine(text, position);
    if (depth > 0 && topWords.has(firstWord(text, position))) {
      slices.push({ start, end: position });
      start = position;
      depth = 0;
    }
    const headless = depth === 0 && !begun && line.braces === 0 && blockWords.has(firstWord(text, position));
    depth = Math.max(0, depth + line.braces);
    begun ||= line.hasContent;
    position = headless ? endOfHeadless(text, line.end) : line.end;
    if (begun && depth === 0 && !line.continues) {
      slices.push({ start, end: position });
      start = position;
      begun = false;
    }
  }
  if (start < text.length) slices.push({ start, end: text.length });
  return slices;
}

/** Where the lines end that stand indented below, with the closing brace after them. */
function endOfHeadless(text: string, from: number): number {
  let end = from;
  for (let position = from; position < text.length; ) {
    const line = scanLine(text, position);
    const first = text.charCodeAt(position);
    if (first === closeBrace) return end > from ? line.end : from;
    if (line.hasContent && first !== 32 && first !== 9) return end;
    if (line.hasContent) end = line.end;
    position = line.end;
  }
  return end;
}

interface Line {
  /** Past the line's end mark. */
  readonly end: number;
  /** Opening less closing braces. */
  readonly braces: number;
  /** Whether anything but space and comment stands on it. */
  readonly hasContent: boolean;
  /** Whether its last character is a comma, so that the next line goes on. */
  readonly continues: boolean;
}

const newLine = 10;
const carriageReturn = 13;
const quote = 34;
const hash = 35;
const comma = 44;
const backslash = 92;
const openBrace = 123;
const closeBrace = 125;

function scanLine(text: string, from: number): Line {
  let braces = 0;
  let last = 0;
  let index = from;
  for (; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === newLine || code === carriageReturn) break;
    if (code === hash) {
      index = endOfLine(text, index);
      break;
    }
    if (code === quote) index = endOfQuoted(text, index);
    else if (code === openBrace) braces++;
    else if (code === closeBrace) braces--;
    if (code !== 32 && code !== 9) last = code;
  }
  return { end: afterNewLine(text, index), braces, hasContent: last !== 0, continues: last === comma };
}

/** The offset of the closing quote, or of the last character before the line's end where it is missing. */
function endOfQuoted(text: string, from: number): number {
  for (let index = from + 1; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === quote) return index;
    if (code === newLine || code === carriageReturn) break;
    if (code === backslash && text.charCodeAt(index + 1) !== newLine && text.charCodeAt(index + 1) !== carriageReturn) index++;
  }
  return from;
}

function endOfLine(text: string, from: number): number {
  let index = from;
  while (index < text.length && text.charCodeAt(index) !== newLine && text.charCodeAt(index) !== carriageReturn) index++;
  return index;
}

function afterNewLine(text: string, index: number): number {
  if (text.charCodeAt(index) === carriageReturn) return text.charCodeAt(index + 1) === newLine ? index + 2 : index + 1;
  return index < text.length ? index + 1 : index;
}

/** The word that a line starts with, if it may be a word of the language; a longer name only begins like one. */
function firstWord(text: string, from: number): string {
  let index = from;
  for (let code = text.charCodeAt(index); code >= 97 && code <= 122; code = text.charCodeAt(index)) index++;
  return /^[\p{L}\p{M}\p{N}_]/u.test(text.slice(index, index + 2)) ? '' : text.slice(from, index);
}
