import { nearestName } from '../../problems/near.ts';
import { follow } from '../statements/follow.ts';
import { openingWords } from '../statements/table.ts';
import { change, expects, firstWord, remove, slip, textAt, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Signs that aren’t needed, and lines that nothing can be made of. */
export const signSlips: readonly Recogniser[] = [
  (of) => (/^(?:the|an?)$/.test(textAt(of, of.at)) && of.at > 0 && of.at < of.tokens.length - 1 ? remove(of, `leave “${textAt(of, of.at)}” out`) : undefined),
  (of) => (textAt(of, of.at) === '.' && of.at === of.tokens.length - 1 ? remove(of, 'no point is needed') : undefined),
  (of) => (textAt(of, of.at) === ',' && expects(of, 'and') && firstWord(of) === 'unit' ? change(of, 'write “and” between the two units', ' and') : undefined),
  missingName, condition,
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
    if (of.at !== 0 || own === '' || nearestName(own, words) !== undefined) return undefined;
    const usual = words.slice(0, of.block === 'path' ? 4 : 6).map((word) => `“${word}”`);
    return slip(of, `a line here begins with a word such as ${usual.slice(0, -1).join(', ')} or ${usual.at(-1) ?? ''}`);
  },
];

/** What the last word of a line was to be followed by. */
function missingName(of: Reading): Slip | undefined {
  if (of.at < of.tokens.length || !of.expected.some((one) => one.startsWith('a name'))) return undefined;
  const meanings = new Set(follow(of.block, of.tokens).flatMap(({ expected }) => expected.map(({ expectation }) => (expectation.is === 'name' ? expectation.element.meaning : ''))));
  const [meaning = ''] = meanings;
  return meanings.size === 1 && meaning !== '' ? slip(of, `a name is missing: ${meaning}`) : undefined;
}

/** A condition that asks nothing yet, or a check that compares lengths in other words. */
function condition(of: Reading): Slip | undefined {
  if (expects(of, 'matches') && /^(?:is|equals|same|match|fits)$/.test(textAt(of, of.at))) return slip(of, 'two lengths are compared with “matches”, and room is asked for with “holds”');
  return expects(of, 'is') && expects(of, '<=') && of.at >= of.tokens.length ? slip(of, `ask for an option with “is”, as in ${textAt(of, of.at - 1)} is …, or compare a size with “=”, “<” or “>”`) : undefined;
}
