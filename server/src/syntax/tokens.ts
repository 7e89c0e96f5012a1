/**
 * The words, numbers, texts and signs of a text, for what must look at text that can't be read yet. The grammar reads
 * the same; a test holds them together.
 */

/** What a name may be. Words that the language keeps for itself are left to the place that asks. */
export const namePattern = String.raw`[\p{L}_][\p{L}\p{M}\p{N}_]*`;
/** Whether a name goes on at a character. */
export const nameCharacter = String.raw`[\p{L}\p{M}\p{N}_]`;
const vulgar = String.raw`[\u00BC-\u00BE\u2153-\u215E]`;
/** As written, without its unit: `7 1/2`, `7.5`, `½`. */
export const digitsPattern = String.raw`(?:[0-9]+(?: +(?:[0-9]+/[0-9]+|${vulgar})|/[0-9]+|\.[0-9]+|${vulgar})?|\.[0-9]+|${vulgar})`;
/** A text, up to its closing quote or the end of the line. */
const quotedPattern = String.raw`"(?:[^"\\\n\r]|\\[^\n\r])*(?:"|\\(?=[\n\r]|$))?`;
const commentPattern = String.raw`#[^\n\r]*`;

export interface Token {
  readonly kind: 'word' | 'number' | 'text' | 'comment' | 'sign';
  readonly text: string;
  readonly start: number;
  readonly end: number;
}

const lexeme = new RegExp(
  `(?<text>${quotedPattern})|(?<comment>${commentPattern})|(?<number>(?<!${nameCharacter})${digitsPattern}%?)|(?<word>${namePattern})|(?<sign><=|>=|!=|[^\\s])`,
  'gu',
);

/** The tokens of a text in their order; between them is nothing but space. */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  for (const match of text.matchAll(lexeme)) {
    const [own] = match;
    const kind = match.groups === undefined ? 'sign' : kindOf(match.groups);
    tokens.push({ kind, text: own, start: match.index, end: match.index + own.length });
  }
  return tokens;
}

const kinds = ['word', 'number', 'text', 'comment'] as const;
const kindOf = (groups: Readonly<Record<string, string | undefined>>): Token['kind'] => kinds.find((kind) => groups[kind] !== undefined) ?? 'sign';

/** Whether a text has its closing quote. */
export const isClosed = (text: string): boolean => /^"(?:[^"\\\n\r]|\\[^\n\r])*"$/.test(text);

const wholeName = new RegExp(`^${namePattern}$`, 'u');
export const isName = (text: string): boolean => wholeName.test(text);


const opening = new RegExp(`^(\\p{L}+)\\s+(${namePattern})`, 'u');
/** Whatever its first word was meant to be, a line like `lenth base …` was to name its second. */
export function openingOf(text: string): { readonly word: string; readonly name: string } | undefined {
  const match = opening.exec(text);
  return match === null ? undefined : { word: match[1] ?? '', name: match[2] ?? '' };
}
