import type { BlockKind } from '../statements/elements.ts';
import { tokensOf, type Token } from '../tokens.ts';
import type { Mend } from '../tree.ts';

/** A line that can't be read on. */
export interface Misread {
  /** From its first word, without its comment. */
  readonly line: string;
  /** Where reading stopped. */
  readonly offset: number;
  /** Where the line stands. */
  readonly block: BlockKind;
  /** What would be right there. */
  readonly expected: readonly string[];
}

/** The same with its words, numbers and signs. */
export interface Reading extends Misread {
  readonly tokens: readonly Token[];
  /** The number of the token that doesn't fit; one more than there are where the line stops too early. */
  readonly at: number;
}

/** A usual slip: what to write instead. Offsets count from the line’s start. */
export interface Slip {
  readonly hint: string;
  readonly start: number;
  readonly end: number;
  readonly mend?: Mend;
  /** Whether its place is another than where reading stopped. */
  readonly moved: boolean;
}

/** Sees one kind of slip, or several that are alike. */
export type Recogniser = (of: Reading) => Slip | undefined;

export function readingOf(misread: Misread): Reading {
  const { offset } = misread;
  const rest = misread.line.slice(offset);
  const line = misread.line.slice(0, offset) + (/^[^\n\r]*/.exec(rest)?.[0] ?? '');
  const tokens = tokensOf(line);
  const at = tokens.findIndex(({ end }) => end > offset);
  return { ...misread, line, tokens, at: at < 0 ? tokens.length : at };
}

export const textAt = ({ tokens }: Reading, index: number): string => tokens[index]?.text ?? '';
export const firstWord = (of: Reading): string => textAt(of, 0);
/** The text from one token to another. */
export const textOf = ({ line, tokens }: Reading, from: number, to = from): string => line.slice(tokens[from]?.start ?? 0, tokens[to]?.end ?? 0);
export const expects = ({ expected }: Reading, ...words: readonly string[]): boolean => words.some((word) => expected.includes(word));
export const isNumber = (token: Token | undefined): boolean => token?.kind === 'number';
export const isWord = (token: Token | undefined): boolean => token?.kind === 'word';

/** What stands from one token to another doesn't fit. */
export function slip(of: Reading, hint: string, from = of.at, to = from): Slip {
  const last = of.tokens.length - 1;
  const start = of.tokens[Math.min(from, last)]?.start ?? 0;
  const end = of.tokens[Math.min(to, last)]?.end ?? of.line.length;
  return { hint, start, end, moved: from < of.tokens.length && (from !== of.at || to !== from) };
}

/** … and is changed to something else. */
export function change(of: Reading, hint: string, newText: string, from = of.at, to = from): Slip {
  const own = slip(of, hint, from, to);
  return { ...own, mend: { title: `Change to “${newText}”`, start: own.start, end: own.end, newText } };
}

/** … and is left out, with the space before it. */
export function remove(of: Reading, hint: string): Slip {
  const own = slip(of, hint);
  const start = of.line.slice(0, own.start).trimEnd().length;
  return { ...own, mend: { title: `Remove “${textAt(of, of.at)}”`, start, end: own.end, newText: '' } };
}

/** … and something is missing before it. */
export function insert(of: Reading, hint: string, newText: string, title = `Add “${newText.trim()}”`): Slip {
  const own = slip(of, hint);
  return { ...own, mend: { title, start: own.start, end: own.start, newText } };
}
