import { nearestName } from '../../problems/near.ts';
import { reservedWords } from '../../syntax/statements/vocabulary.ts';
import { tokensOf } from '../../syntax/tokens.ts';

const listWords = ['sizes', 'choice'];

/**
 * The names that a line was to declare which can’t be read: its second word; its first where a value follows that, as in
 * `strap = 20`; all of a line that was to list sizes or options, and “size” of the former.
 */
export function unreadNames(text: string): readonly string[] {
  const tokens = tokensOf(text.split('{', 1)[0] ?? '');
  const [first, second] = tokens;
  if (first?.kind !== 'word') return [];
  const list = listWords.includes(first.text) ? first.text : nearestName(first.text, listWords);
  if (list !== undefined || second?.text === 'is') {
    const words = tokens.filter(({ kind, text: own }) => kind === 'word' && !reservedWords.has(own)).map(({ text: own }) => own);
    return list === 'sizes' ? [...words, 'size'] : words;
  }
  return [first, second].flatMap((one, index) => (one?.kind === 'word' && (index === 1 || /^[=:{]$/.test(second?.text ?? '') || second?.kind === 'number') ? [one.text] : []));
}
