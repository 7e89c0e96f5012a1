import type { Word } from '../syntax/statements/elements.ts';
import { follow } from '../syntax/statements/follow.ts';
import { tokensOf, type Token } from '../syntax/tokens.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { contextAt, type TextContext } from './context.ts';
import { explained } from './completion-items.ts';
import type { Hover } from './hover.ts';

/** No fixed words of the language are more than this many. */
const mostWords = 4;

/** What the word of the language at an offset means in its statement. */
export function aboutWord(snapshot: Snapshot, offset: number): Hover | undefined {
  const { text } = snapshot.file;
  const { block, tokens, wordStart, within } = contextAt(snapshot, offset);
  if (within !== 'code') return undefined;
  const line = /^[^\n\r]*/.exec(text.slice(wordStart))?.[0] ?? '';
  const all = [...tokens, ...tokensOf(line).map((token) => ({ ...token, start: token.start + wordStart, end: token.end + wordStart }))];
  for (let from = Math.max(0, tokens.length - mostWords + 1); from <= tokens.length; from++) {
    const word = wordAt(block, all, from);
    const [first, last] = [all[from], all[from + (word?.words.split(' ').length ?? 0) - 1]];
    if (word === undefined || first === undefined || last === undefined || offset < first.start || offset > last.end) continue;
    return { start: first.start, end: last.end, markdown: `**${word.words}**\n\n${explained(word)}` };
  }
  return undefined;
}

/** The fixed words with a meaning that begin at a token; of several the longest. */
function wordAt(block: TextContext['block'], all: readonly Token[], from: number): Word | undefined {
  const words = follow(block, all.slice(0, from)).flatMap(({ expected }) => expected.flatMap(({ expectation }) => (expectation.is === 'words' ? [expectation.word] : [])));
  return words
    .filter(({ words: own, meaning }) => meaning !== undefined && own.split(' ').every((part, index) => all[from + index]?.text === part))
    .sort((a, b) => b.words.length - a.words.length)[0];
}
