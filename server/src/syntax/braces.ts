import { failureOf } from './failure.ts';

/** A brace of a text that opens no formula: one that nothing closes, or with something else up to the one that does. */
export interface UnreadBrace {
  /** In the text, from its opening quote. */
  readonly start: number;
  readonly end: number;
  readonly why: 'open' | 'empty' | 'no formula';
}

/** The first brace of a text that opens no formula; undefined where all do. One after a backslash is a letter. */
export function unreadBrace(text: string): UnreadBrace | undefined {
  for (const { 0: own, index: start } of text.matchAll(/\\.|\{[^{}]*\}?/gu)) {
    if (own.startsWith('\\')) continue;
    const end = start + own.length;
    if (!own.endsWith('}')) return { start, end: start + 1, why: 'open' };
    if (own.slice(1, -1).trim() === '') return { start, end, why: 'empty' };
    if (failureOf(own, 'MeasuredStrict') !== undefined) return { start, end, why: 'no formula' };
  }
  return undefined;
}
