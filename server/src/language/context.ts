import { blockWords } from '../syntax/statements/table.ts';
import { isClosed, tokensOf, type Token } from '../syntax/tokens.ts';
import type { Snapshot } from '../workspace/snapshot.ts';

/** Where a cursor stands, told from the text before it alone, so that it works on lines that can't be read yet. */
export interface TextContext {
  /** What the line belongs to; `head` is the first line of a block, and any other line outside of blocks is `file`. */
  readonly block: 'file' | 'piece' | 'material' | 'supply' | 'path';
  /** The name of the piece, material or supply that the cursor is in. */
  readonly owner: string | undefined;
  /** The statement from its start to the word being written, the lines above it where it goes on with them. */
  readonly before: string;
  /** The tokens of `before`, their places in the file. */
  readonly tokens: readonly Token[];
  /** The word being written, as far as the cursor. */
  readonly word: string;
  readonly wordStart: number;
  readonly within: 'code' | 'text' | 'comment';
}

export function contextAt(snapshot: Snapshot, offset: number): TextContext {
  const { text } = snapshot.file;
  const from = startOfDeclaration(snapshot, offset);
  const own = text.slice(from, offset);
  const all = tokensOf(own);
  const last = all.at(-1);
  const touched = last?.end === own.length ? last : undefined;
  const word = touched?.kind === 'word' ? touched.text : '';
  const code = all.filter(({ kind }) => kind !== 'comment');
  const { depth, start } = statementOf(own, code);
  const tokens = code.filter((token) => token.start >= start && token.end <= own.length - word.length);
  const [first, second] = code;
  const kind = first !== undefined && blockWords.has(first.text) ? (first.text as 'piece' | 'material' | 'supply') : undefined;
  return {
    block: depth === 0 || kind === undefined ? 'file' : depth > 1 && kind === 'piece' ? 'path' : kind,
    owner: kind !== undefined && second?.kind === 'word' ? second.text : undefined,
    before: own.slice(tokens[0]?.start ?? own.length - word.length, own.length - word.length),
    tokens: tokens.map((token) => ({ ...token, start: from + token.start, end: from + token.end })),
    word,
    wordStart: offset - word.length,
    within: within(touched),
  };
}

function within(touched: Token | undefined): TextContext['within'] {
  if (touched?.kind === 'comment') return 'comment';
  return touched?.kind === 'text' && !isClosed(touched.text) ? 'text' : 'code';
}

/** How many blocks are open at the end of a text, and where the statement begins that it ends in. */
function statementOf(text: string, tokens: readonly Token[]): { readonly depth: number; readonly start: number } {
  let depth = 0;
  let start = 0;
  let past = 0;
  let continues = false;
  for (const token of [...tokens, { kind: 'sign', text: '', start: text.length, end: text.length } as const]) {
    if (!continues && /[\n\r]/.test(text.slice(past, token.start))) start = token.start;
    if (token.text === '{') depth++;
    else if (token.text === '}') depth = Math.max(0, depth - 1);
    past = token.end;
    if (token.text === '{' || token.text === '}') start = past;
    continues = token.text === ',';
  }
  return { depth, start };
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
