import type { Snapshot } from '../workspace/snapshot.ts';

/** Where a cursor stands, told from the text before it alone, so that it works on lines that can't be read yet. */
export interface TextContext {
  /** What the line belongs to; `head` is the first line of a block, and any other line outside of blocks is `file`. */
  readonly block: 'file' | 'piece' | 'material' | 'supply' | 'path';
  /** The name of the piece, material or supply that the cursor is in. */
  readonly owner: string | undefined;
  /** The statement from its start to the word being written, the lines above it joined where it goes on. */
  readonly before: string;
  /** The word being written, as far as the cursor. */
  readonly word: string;
  readonly wordStart: number;
  readonly within: 'code' | 'text' | 'comment';
}

export function contextAt(snapshot: Snapshot, offset: number): TextContext {
  const { text } = snapshot.file;
  const start = startOfDeclaration(snapshot, offset);
  const own = text.slice(start, offset);
  let depth = 0;
  let within: TextContext['within'] = 'code';
  let lineStart = 0;
  let lastCode = '';
  for (let index = 0; index < own.length; index++) {
    const letter = own.charAt(index);
    if (letter === '\n' || letter === '\r') {
      within = 'code';
      if (lastCode !== ',') lineStart = index + 1;
      continue;
    }
    if (within === 'comment') continue;
    if (within === 'text') {
      if (letter === '\\') index++;
      else if (letter === '"') within = 'code';
      continue;
    }
    if (letter === '"') within = 'text';
    else if (letter === '#') within = 'comment';
    else if (letter === '{') {
      depth++;
      lineStart = index + 1;
    } else if (letter === '}') {
      depth = Math.max(0, depth - 1);
      lineStart = index + 1;
    }
    if (within !== 'comment' && letter !== ' ' && letter !== '\t') lastCode = letter;
  }
  const word = within === 'code' ? (/[\p{L}_][\p{L}\p{M}\p{N}_]*$/u.exec(own)?.[0] ?? '') : '';
  // The unit of `3in` is a word of its own, the exponent-like `x2` is not.
  const head = /^(?:[ \t]*(?:#[^\n\r]*)?[\n\r])*[ \t]*(piece|material|supply)\s+([\p{L}_][\p{L}\p{M}\p{N}_]*)?/u.exec(own);
  const kind = head?.[1] as 'piece' | 'material' | 'supply' | undefined;
  return {
    block: depth === 0 || kind === undefined ? 'file' : depth > 1 && kind === 'piece' ? 'path' : kind,
    owner: head?.[2],
    before: own.slice(lineStart, own.length - word.length).replace(/^\s+/, '').replace(/\s*[\n\r]+\s*/g, ' '),
    word,
    wordStart: offset - word.length,
    within,
  };
}

/** A cursor right after a declaration that is whole belongs to what comes next. */
function startOfDeclaration(snapshot: Snapshot, offset: number): number {
  const at = snapshot.declarationAt(offset);
  if (at !== undefined) return at.offset === offset && offset > 0 ? startBefore(snapshot, offset) : at.offset;
  return startBefore(snapshot, offset);
}

function startBefore(snapshot: Snapshot, offset: number): number {
  const before = snapshot.declarationAt(offset - 1);
  if (before === undefined) return lineStartOf(snapshot.file.text, offset);
  const { text } = snapshot.file;
  const ended = /[\n\r]$/.test(text.slice(before.offset, offset));
  return ended && offset === before.offset + before.declaration.text.length ? offset : before.offset;
}

function lineStartOf(text: string, offset: number): number {
  return Math.max(text.lastIndexOf('\n', offset - 1), text.lastIndexOf('\r', offset - 1)) + 1;
}
