import type { Word } from '../syntax/statements/elements.ts';

export type CompletionKind = 'keyword' | 'value' | 'material' | 'piece' | 'seam' | 'supply' | 'thing' | 'edge' | 'line' | 'mark' | 'measure' | 'choice' | 'option' | 'function' | 'unit' | 'word' | 'file';

export interface Completion {
  readonly label: string;
  readonly kind: CompletionKind;
  /** What is written in place of `start` to the cursor; with `${1:…}` where `isSnippet`. */
  readonly insert: string;
  readonly isSnippet: boolean;
  readonly detail: string;
  /** In Markdown. */
  readonly documentation: string;
  readonly start: number;
  readonly end: number;
  /** Letters that take it and go on. */
  readonly commit: readonly string[];
}

/** A completion, wherever it is put. */
export type Item = Omit<Completion, 'start' | 'end'>;

export const simple = (label: string, kind: CompletionKind, detail = '', documentation = '', commit: readonly string[] = []): Item => ({
  label, kind, insert: label, isSnippet: false, detail, documentation, commit,
});
export const wordsOf = (labels: readonly string[], kind: CompletionKind = 'word'): readonly Item[] => labels.map((label) => simple(label, kind));

/** Fixed words, or the rest of them where some are written, with what is said of them. */
export function keyword(rest: string, word: Word): Item {
  const { words, snippet } = word;
  const written = words.length - rest.length;
  const own = snippet?.startsWith(words) === true ? snippet.slice(written) : written === 0 ? snippet : undefined;
  return { label: rest, kind: 'keyword', insert: own ?? rest, isSnippet: own !== undefined, detail: '', commit: [], documentation: explained(word) };
}

/** What fixed words mean, with an example, in Markdown. */
export const explained = ({ meaning = '', example }: Word): string => `${meaning}${example === undefined ? '' : `\n\n\`\`\`piecewright\n${example}\n\`\`\``}`;
