import { expects, remove, slip, textAt, type Recogniser } from './slip.ts';
import { openingWords } from '../statements/table.ts';

/** Signs that aren’t needed, and lines that nothing can be made of. */
export const signSlips: readonly Recogniser[] = [
  (of) => (textAt(of, of.at) === ';' ? remove(of, 'no “;” is needed') : undefined),
  (of) => (textAt(of, of.at) === ':' ? remove(of, 'no colon is needed') : undefined),
  (of) => (textAt(of, of.at) === ',' && of.at === of.tokens.length - 1 && expects(of, 'the end of the line') ? remove(of, 'no comma is needed') : undefined),
  (of) => {
    if (!/^\/[/*]/.test(of.line.slice(of.offset))) return undefined;
    const own = slip(of, 'a comment starts with #');
    return { ...own, mend: { title: 'Change to “#”', start: own.start, end: own.start + 2, newText: '#' } };
  },
  (of) => {
    const words = openingWords(of.block);
    const own = textAt(of, 0);
    if (of.at !== 0 || own === '' || words.some((word) => near(own, word))) return undefined;
    const usual = words.slice(0, of.block === 'path' ? 4 : 6).map((word) => `“${word}”`);
    return slip(of, `a line here begins with a word such as ${usual.slice(0, -1).join(', ')} or ${usual.at(-1) ?? ''}`);
  },
];

const near = (own: string, word: string): boolean => own.toLowerCase().slice(0, 2) === word.slice(0, 2);
