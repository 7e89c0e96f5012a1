import { nearestName } from '../../problems/near.ts';
import { languageWords, openingWords } from '../statements/table.ts';
import { reservedWords } from '../statements/vocabulary.ts';
import { isName } from '../tokens.ts';
import { change, expects, firstWord, insert, isNumber, isWord, remove, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';
import { meant } from './words.ts';

/** Names that can’t be ones, and what stands right after a name. */
export const nameSlips: readonly Recogniser[] = [inParts, edgeInParts, missing, comma, digit, equals, noKind, placed, inFormula];

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
  if (stop < 3 || stop > 8 || !parts.every((part) => (isWord(part) && !reservedWords.has(part.text)) || /^\d+$/.test(part.text))) return undefined;
  const name = parts.map(({ text }) => text).join('_');
  if (!isName(name)) return undefined;
  const { mend } = change(of, '', name, 1, stop - 1);
  const why = textAt(of, 2) === '-' ? 'a hyphen would be a minus, so write the name as' : 'a name has no spaces, so write it as';
  return { ...slip(of, `${why} ${name}`), ...(mend === undefined ? {} : { mend }) };
}

/** The name of an edge, in two words. */
function edgeInParts(of: Reading): Slip | undefined {
  if (of.block !== 'path' || textAt(of, of.at - 2) !== 'as' || !isWord(of.tokens[of.at])) return undefined;
  const name = `${textAt(of, of.at - 1)}_${textAt(of, of.at)}`;
  const { mend } = change(of, '', name, of.at - 1, of.at);
  return { ...slip(of, `a name has no spaces, so write it as ${name}`), ...(mend === undefined ? {} : { mend }) };
}

/** A title, and no name. */
function missing(of: Reading): Slip | undefined {
  const own = of.tokens[1];
  const first = firstWord(of);
  if (of.at === 1 && of.expected.some((one) => one.startsWith('a name')) && own !== undefined && /^(?:=|\{|at|for)$/.test(own.text)) {
    if (first === 'sizes' && own.text === '=') return remove(of, 'no “=” is needed');
    const name = first === 'notch' ? 'the edge stands' : 'a name stands';
    const example = { notch: 'notch top at 50%', mark: 'mark clasp at 2, 3', piece: 'piece front {', material: 'material canvas {', supply: 'supply zip {' }[first];
    return slip(of, `${name} right after “${first}”${example === undefined ? '' : `, as in ${example}`}`);
  }
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
  if (expects(of, '=') && of.at < of.tokens.length) return missingEquals(of);
  return (textAt(of, of.at) === '=' ? needlessEquals(of) : undefined) ?? missingIs(of);
}

function missingEquals(of: Reading): Slip | undefined {
  const own = textAt(of, of.at);
  if (/^(?:is|:|equals|:=)$/.test(own) && of.tokens.length > of.at + 1) return spaced(change(of, 'write “=” after the name', '='), of);
  return isNumber(of.tokens[of.at]) || own === '(' || languageWords.has(own) ? insert(of, 'write “=” before it', '= ') : undefined;
}

function needlessEquals(of: Reading): Slip | undefined {
  if (textAt(of, of.at - 1) === '=' && of.tokens[of.at - 1]?.end === of.tokens[of.at]?.start) return change(of, 'one “=” is enough', '=', of.at - 1, of.at);
  if (expects(of, 'as')) return spaced(change(of, 'write “as” between the two names', 'as'), of);
  return of.tokens.length > of.at + 1 && of.at > 0 && !expects(of, 'is') ? remove(of, 'no “=” is needed') : undefined;
}

/** `choice tab fabric or cork`, `choice tab: fabric or cork`. */
function missingIs(of: Reading): Slip | undefined {
  if (!expects(of, 'is') || firstWord(of) !== 'choice') return undefined;
  if (of.at === 2 && isWord(of.tokens[2])) return insert(of, 'write “is” before the options', 'is ');
  return /^(?:=|:|are|or)$/.test(textAt(of, of.at)) ? spaced(change(of, 'write “is” before the options', 'is'), of) : undefined;
}

/** A sign that stood right at its name gets a space before it. */
function spaced(own: Slip, of: Reading): Slip {
  return own.mend === undefined || /\s/.test(of.line.charAt(own.start - 1)) ? own : { ...own, mend: { ...own.mend, newText: ` ${own.mend.newText}` } };
}

/** Sizes, options, or the values of sizes without commas between them. */
function comma(of: Reading): Slip | undefined {
  if (!expects(of, 'a comma')) return undefined;
  if (firstWord(of) === 'choice' && textAt(of, of.at) === 'and') return change(of, 'write “or” between two options', 'or');
  if (['sizes', 'choice'].includes(firstWord(of)) && /^(?:and|[/|;&+])$/.test(textAt(of, of.at))) return slip(of, 'a comma stands between two of them');
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
  if (of.block !== 'file' || of.at !== 0 || !isName(firstWord(of))) return undefined;
  if (textAt(of, 1) === '{') return change(of, `say first what it is, as in piece ${firstWord(of)} {`, `piece ${firstWord(of)}`);
  if (textAt(of, 1) === ':' && isNumber(of.tokens[2])) return change(of, `say first what it is, as in length ${firstWord(of)} = …`, `length ${firstWord(of)} =`, 0, 1);
  if (textAt(of, 1) === 'is') return noKindOfChoice(of);
  if (isNumber(of.tokens[1]) && of.tokens.length === 2) return isNearOpening(of) ? undefined : change(of, `say first what it is, as in length ${firstWord(of)} = ${textAt(of, 1)}`, `length ${firstWord(of)} =`);
  return textAt(of, 1) !== '=' ? undefined : change(of, `say first what it is, as in length ${firstWord(of)} = …`, `length ${firstWord(of)}`);
}

/** Of a fact of the file, such as `version 1` or `alowance 1/4`, more is known than that it is no value. */
const isNearOpening = (of: Reading): boolean => meant(of) !== undefined || nearestName(firstWord(of), openingWords('file')) !== undefined;

/** `base is soft or cork`, and `shell is canvas`. */
function noKindOfChoice(of: Reading): Slip {
  const name = firstWord(of);
  if (of.tokens.some(({ text }) => text === 'or' || text === ',')) return change(of, `say first what it is, as in choice ${name} is …`, `choice ${name}`);
  return slip(of, `say first what it is: a cloth has facts between braces, material ${name} {, and what a maker may choose is a choice, choice ${name} is … or …`);
}

/** A place without the word before it. */
function placed(of: Reading): Slip | undefined {
  if (expects(of, 'at') && isNumber(of.tokens[of.at]) && ['notch', 'mark', 'drill'].includes(firstWord(of))) return insert(of, 'write “at” before the place', 'at ');
  return expects(of, 'to') && firstWord(of) === 'drawn' && isWord(of.tokens[of.at]) ? insert(of, 'write “to” before it', 'to ') : undefined;
}

/** Two names side by side in a formula. */
function inFormula(of: Reading): Slip | undefined {
  const [before, own] = of.tokens.slice(Math.max(0, of.at - 1), of.at + 1);
  if (!['length', 'count', 'ratio', 'angle', 'area'].includes(firstWord(of)) || of.block !== 'file' || before === undefined || own === undefined || !isWord(before) || !isWord(own) || !expects(of, 'the end of the line') || reservedWords.has(own.text)) return undefined;
  return slip(of, `a name is one word, as in ${before.text}_${own.text}, and a size of a piece has a point, as in ${before.text}.${own.text}`);
}
