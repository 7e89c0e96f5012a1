import { blockWords, openingWords, pieceWords } from '../statements/table.ts';
import { firstWord, isWord, remove, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Lines that stand in the wrong block, and braces without a partner. */
export const blockSlips: readonly Recogniser[] = [
  (of) => (of.block === 'file' && of.line === '}' ? remove(of, 'nothing is open here that it could close, so leave it out') : undefined),
  (of) => (of.at > 0 && textAt(of, of.at - 1) === '{' ? slip(of, 'begin a new line after “{”') : undefined),
  noBlock,
  (of) => {
    const word = firstWord(of);
    if (of.at !== 0 || of.block === 'file' || openingWords(of.block).includes(word)) return undefined;
    if (blockWords.has(word)) return slip(of, `a ${word} can’t stand inside another block, so close that one above it with “}”`);
    return openingWords('file').includes(word) ? slip(of, `a line with “${word}” stands by itself, outside of every block, so move it above this one`) : undefined;
  },
  (of) => {
    const word = firstWord(of);
    if (of.at !== 0 || of.block === 'piece' || openingWords(of.block).includes(word) || !pieceWords.has(word)) return undefined;
    return slip(of, `a line with “${word}” stands inside a piece, between its “{” and “}”`);
  },
];

/** `material shell is felt`, or a first line with nothing below. */
function noBlock(of: Reading): Slip | undefined {
  const word = firstWord(of);
  if (of.block !== 'file' || of.at < of.tokens.length || !blockWords.has(word) || !isWord(of.tokens[1]) || of.line.includes('{')) return undefined;
  const title = of.tokens[2]?.kind === 'text' ? 3 : 2;
  const last = of.tokens.length - 1;
  const hint = `what is said of a ${word} stands on lines of its own below ${textOf(of, 0, Math.min(title, last + 1) - 1)} {, and “}” below those`;
  return title > last ? slip(of, hint) : { ...slip(of, hint, title, last), moved: true };
}
