import * as generated from './generated/parser.js';

/** Where a text can't be read on, and what would be right there; undefined where it can be read. */
export function failureOf(text: string, startRule: string): { readonly offset: number; readonly expected: readonly generated.Expectation[] } | 'too deep' | undefined {
  try {
    generated.parse(text, { startRule });
    return undefined;
  } catch (error) {
    if (error instanceof RangeError) return 'too deep';
    if (error instanceof generated.SyntaxError) return { offset: error.location.start.offset, expected: error.expected ?? [] };
    throw error;
  }
}
