import { blockWords, openingWords, pieceWords, topWords } from './statements/table.ts';
import { namePattern } from './tokens.ts';

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
 * indented under a first line that forgot its brace belongs to it, and so do a path’s steps below one that forgot its own.
 */
export function splitDeclarations(text: string): readonly Slice[] {
  const slices: Slice[] = [];
  let start = 0;
  let depth = 0;
  let begun = false;
  let inPath = false;
  let position = 0;
  while (position < text.length) {
    const line = scanLine(text, position);
    if (depth > 0 && topWords.has(firstWord(text, position))) {
      slices.push({ start, end: position });
      start = position;
      depth = 0;
    }
    const word = firstWord(text, line.begin);
    if (inPath && depth === 2) depth = depthInPath(text, line.begin, word);
    const headless = depth === 0 && !begun && isHead(text, position, line);
    const mayHavePath = depth === 1 && pathWords.has(word);
    depth = Math.max(0, depth + line.braces);
    inPath = depth === 2 && (inPath || mayHavePath);
    begun ||= line.hasContent;
    position = line.end;
    if (headless) {
      if (beginsWith(text, position, openBrace)) continue;
      position = endOfHeadless(text, position);
    } else if (mayHavePath && depth === 1) position = endOfOutline(text, line);
    if (begun && depth === 0 && !line.continues) {
      slices.push({ start, end: position });
      start = position;
      begun = false;
    }
  }
  if (start < text.length) slices.push({ start, end: text.length });
  return slices;
}

/** Whether a line is the first of a block, and forgot its brace. */
const isHead = (text: string, position: number, { braces }: Line): boolean => braces === 0 && blockWords.has(firstWord(text, position));

/** A path left open ends where a line starts that only a piece has. */
const depthInPath = (text: string, begin: number, word: string): number => (isPieceLine(text, begin, word) ? 1 : 2);

/** Where a line of a piece ends that may hold a path: past the path's lines where it forgot its brace. */
const endOfOutline = (text: string, { begin, end }: Line): number => (/\bpath\b/.test(text.slice(begin, end)) ? endOfHeadlessPath(text, end) : end);

/** Where the lines end that stand indented below, with the closing brace after them. */
function endOfHeadless(text: string, from: number): number {
  let end = from;
  for (let position = from; position < text.length; ) {
    const line = scanLine(text, position);
    const first = text.charCodeAt(position);
    // A block between brackets ends with one.
    if (first === closeBrace || ((first === closeBracket || first === closeSquare) && end > from)) return end > from ? line.end : from;
    if (line.hasContent && first !== 32 && first !== 9) return end;
    if (line.hasContent) end = line.end;
    position = line.end;
  }
  return end;
}

/** Words that begin a line with a path in it. */
const pathWords: ReadonlySet<string> = new Set(['outline', 'line', 'placement', 'foldline', 'window']);

/** Whether a line begins as those of a piece do and a path's steps don't. */
const isPieceLine = (text: string, begin: number, word: string): boolean =>
  word === 'line' ? namedLine.test(text.slice(begin, endOfLine(text, begin))) : pieceWords.has(word);

const namedLine = new RegExp(`^line[ \\t]+${namePattern}[ \\t]*(?:"[^"]*"[ \\t]*)?=`, 'u');

/** Where a path's steps end that stand below a line without a brace, with the brace that closes them. */
function endOfHeadlessPath(text: string, from: number): number {
  let end = from;
  for (let position = from; position < text.length; ) {
    const line = scanLine(text, position);
    if (line.hasContent) {
      const isStep = stepLine.test(text.slice(line.begin, line.begin + 20)) && line.braces === 0;
      if (!isStep) return end > from && text.charCodeAt(line.begin) === closeBrace && goesOn(text, line.end) ? line.end : end;
      end = line.end;
    }
    position = line.end;
  }
  return end;
}

/** Words that begin a line of a piece and no line at the left margin. */
const onlyInPieces: ReadonlySet<string> = new Set([...pieceWords].filter((word) => !openingWords('file').includes(word)));

const stepLine = /^(?:line[ \t]+to|arc|curve|close)(?![\p{L}\p{M}\p{N}_])/u;

/** Whether a piece goes on after a brace, which then was not its own. */
function goesOn(text: string, from: number): boolean {
  for (let position = from; position < text.length; ) {
    const line = scanLine(text, position);
    if (line.hasContent) return line.begin > position || text.charCodeAt(position) === closeBrace || onlyInPieces.has(firstWord(text, position));
    position = line.end;
  }
  return false;
}

/** Whether the next line that isn't empty begins with a character. */
function beginsWith(text: string, from: number, code: number): boolean {
  for (let position = from; position < text.length; ) {
    const line = scanLine(text, position);
    if (line.hasContent) return text.charCodeAt(line.begin) === code;
    position = line.end;
  }
  return false;
}

interface Line {
  /** Of the first character that is no space. */
  readonly begin: number;
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
const closeBracket = 41;
const closeSquare = 93;
const openBrace = 123;
const closeBrace = 125;

function scanLine(text: string, from: number): Line {
  let braces = 0;
  let last = 0;
  let begin = from;
  while (text.charCodeAt(begin) === 32 || text.charCodeAt(begin) === 9) begin++;
  let index = begin;
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
  return { begin, end: afterNewLine(text, index), braces, hasContent: last !== 0, continues: last === comma };
}

/**
 * The offset of the closing quote. Where it is missing, of the last character of the line or before a comment, braces
 * and all, or of the one before a brace that ends the line: that opens a block, as after a title.
 */
function endOfQuoted(text: string, from: number): number {
  let index = from + 1;
  for (; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === quote) return index;
    if (code === newLine || code === carriageReturn) break;
    if (code === backslash && text.charCodeAt(index + 1) !== newLine && text.charCodeAt(index + 1) !== carriageReturn) index++;
  }
  const [rest = ''] = text.slice(from, index).split('#', 1);
  return from + (/\{[ \t]*$/.exec(rest)?.index ?? rest.length) - 1;
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
