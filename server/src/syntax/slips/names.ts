import { isName } from '../tokens.ts';
import { change, expects, firstWord, insert, isNumber, isWord, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Names that can’t be ones, and what stands right after a name. */
export const nameSlips: readonly Recogniser[] = [inParts, missing, comma, digit, equals, noKind];

/** What ends the name that a line gives. */
const ends: Readonly<Record<string, RegExp>> = {
  length: /^=$/, count: /^=$/, ratio: /^=$/, angle: /^=$/, area: /^=$/, thing: /^[="]/, line: /^[="]/, placement: /^[="]/, foldline: /^[="]/, window: /^[="]/,
  choice: /^is$/, piece: /^(?:["{]|from$|when$)/, material: /^["{]/, supply: /^(?:["{]|when$)/, mark: /^(?:"|at$|for$)/, drill: /^(?:"|at$|for$)/,
};

/** A name of several words, or with a hyphen. */
function inParts(of: Reading): Slip | undefined {
  const end = Object.hasOwn(ends, firstWord(of)) ? ends[firstWord(of)] : undefined;
  if (end === undefined || of.at !== 2 || !isWord(of.tokens[1]) || (of.block === 'path')) return undefined;
  const stop = of.tokens.findIndex(({ text }, index) => index > 1 && end.test(text));
  const parts = of.tokens.slice(1, stop).filter(({ text }) => text !== '-');
  if (stop < 3 || stop > 8 || !parts.every((part) => isWord(part) || /^\d+$/.test(part.text))) return undefined;
  const name = parts.map(({ text }) => text).join('_');
  if (!isName(name)) return undefined;
  const { mend } = change(of, '', name, 1, stop - 1);
  const why = textAt(of, 2) === '-' ? 'a hyphen would be a minus, so write the name as' : 'a name has no spaces, so write it as';
  return { ...slip(of, `${why} ${name}`), ...(mend === undefined ? {} : { mend }) };
}

/** A title, and no name. */
function missing(of: Reading): Slip | undefined {
  const own = of.tokens[1];
  if (of.at !== 1 || own?.kind !== 'text' || !['piece', 'material', 'supply', 'thing'].includes(firstWord(of))) return undefined;
  const name = own.text.slice(1, -1).toLowerCase().replace(/[^\p{L}\p{N}]+/gu, '_').replace(/^_|_$/g, '');
  if (!isName(name)) return slip(of, 'a name stands before the title');
  return { ...insert(of, `a name stands before the title: ${firstWord(of)} ${name} ${own.text}`, `${name} `, `Add the name “${name}”`), moved: true };
}

function digit(of: Reading): Slip | undefined {
  if (!of.expected.some((one) => one.startsWith('a name')) || expects(of, 'a size or a formula') || !isNumber(of.tokens[of.at])) return undefined;
  const [own = ''] = /^[\p{L}\p{M}\p{N}_]+/u.exec(of.line.slice(of.offset)) ?? [];
  const at = slip(of, `a name begins with a letter, as in ${firstWord(of) === 'sizes' ? 's' : 'n'}${own}`);
  return { ...at, end: at.start + own.length, moved: true };
}

/** Another sign or word, or none, where one is needed after a name. */
function equals(of: Reading): Slip | undefined {
  const own = textAt(of, of.at);
  if (expects(of, '=') && of.at < of.tokens.length) {
    if (/^(?:is|:|equals|:=)$/.test(own) && of.tokens.length > of.at + 1) return spaced(change(of, 'write “=” after the name', '='), of);
    if (isNumber(of.tokens[of.at]) || own === '(') return insert(of, 'write “=” before it', '= ');
    return undefined;
  }
  if (own === '=' && textAt(of, of.at - 1) === '=' && of.tokens[of.at - 1]?.end === of.tokens[of.at]?.start) return change(of, 'one “=” is enough', '=', of.at - 1, of.at);
  return expects(of, 'is') && /^(?:=|:|are|or)$/.test(own) && firstWord(of) === 'choice' ? spaced(change(of, 'write “is” before the options', 'is'), of) : undefined;
}

/** A sign that stood right at its name gets a space before it. */
function spaced(own: Slip, of: Reading): Slip {
  return own.mend === undefined || /\s/.test(of.line.charAt(own.start - 1)) ? own : { ...own, mend: { ...own.mend, newText: ` ${own.mend.newText}` } };
}

/** Sizes, options, or the values of sizes without commas between them. */
function comma(of: Reading): Slip | undefined {
  if (!expects(of, 'a comma')) return undefined;
  if (['sizes', 'choice'].includes(firstWord(of)) && isWord(of.tokens[of.at])) {
    const rest = of.line.slice(of.offset);
    return { ...slip(of, 'a comma stands between two of them'), mend: { title: 'Add commas', start: of.tokens[of.at - 1]?.end ?? 0, end: of.line.length, newText: `, ${rest.trim().replace(/(?<=[\p{L}\p{N}_])\s+(?=[\p{L}_])/gu, ', ')}` } };
  }
  const before = of.tokens[of.at - 1]?.end;
  if (before === undefined || of.at >= of.tokens.length || !(isNumber(of.tokens[of.at]) && /\b(?:for|otherwise)\b/.test(textOf(of, 0, of.at)))) return undefined;
  return { ...slip(of, 'a comma stands before the next value'), mend: { title: 'Add a comma', start: before, end: before, newText: ',' } };
}

/** `strap = 20`: a value that doesn’t say what it is. */
function noKind(of: Reading): Slip | undefined {
  if (of.block !== 'file' || of.at !== 0 || textAt(of, 1) !== '=' || !isName(firstWord(of))) return undefined;
  return change(of, `say first what it is, as in length ${firstWord(of)} = …`, `length ${firstWord(of)}`);
}
