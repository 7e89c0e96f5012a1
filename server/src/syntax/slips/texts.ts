import { unreadBrace, type UnreadBrace } from '../braces.ts';
import { isClosed } from '../tokens.ts';
import { expects, firstWord, insert, isNumber, remove, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Quotes that are missing, or others than are read; braces in texts; signs for inches and feet; spaces that can’t be seen. */
export const textSlips: readonly Recogniser[] = [otherSpace, inches, braces, otherQuotes, noOpeningQuote, noQuotes];

const isOtherSpace = /[\u00A0\u2000-\u200B\u202F\u3000\uFEFF]/gu;

function otherSpace({ line, offset }: Reading): Slip | undefined {
  const at = line.slice(offset).search(isOtherSpace);
  if (at < 0 || line.slice(offset, offset + at).trim() !== '') return undefined;
  const start = offset + at;
  return { hint: 'this is a space of another kind, as web pages have them, so type an ordinary one', start, end: start + 1, moved: true, mend: { title: 'Change to an ordinary space', start, end: line.length, newText: line.slice(start).replace(isOtherSpace, ' ') } };
}

const isInch = /^(?:["”“″]|''|’’)/u;
const isFoot = /^['’′]/u;

/** A sign right after a number. */
function inches(of: Reading): Slip | undefined {
  const quote = of.tokens.findIndex(({ text, start, kind }, index) => index > 0 && index <= of.at && /^["”“″'’′]/u.test(text) && kind !== 'number' && isNumber(of.tokens[index - 1]) && of.tokens[index - 1]?.end === start);
  const own = of.tokens[quote];
  if (own === undefined) return undefined;
  const rest = of.line.slice(own.start);
  const unit = isInch.test(rest) ? 'in' : isFoot.test(rest) ? 'ft' : 'in';
  const length = isInch.exec(rest)?.[0].length ?? 1;
  const newText = ` ${unit}${rest.slice(length).replace(/(?<=[\d\u00BC-\u00BE])(?:["”“″]|'')/gu, ' in').replace(/^(?=\S)/, ' ')}`;
  return {
    hint: unit === 'in' ? 'for inches write “in” after the number, or nothing where inches are the file’s unit' : 'for feet write “ft” after the number',
    start: own.start, end: own.start + length, moved: true, mend: { title: `Change to “${unit}”`, start: own.start, end: of.line.length, newText },
  };
}

const quotesOf = /^(?:[“”„‟«»]([^“”„‟«»"]*)[“”„‟«»"]?|[‘’‚']([^‘’']*)[‘’']?)/u;

function otherQuotes(of: Reading): Slip | undefined {
  const start = of.tokens[of.at]?.start;
  const match = start === undefined ? null : quotesOf.exec(of.line.slice(start));
  if (match === null || start === undefined) return undefined;
  const newText = `"${(match[1] ?? match[2] ?? '').trim()}"`;
  const end = start + match[0].length;
  return { hint: `a text stands in straight quotes: ${newText}`, start, end, moved: true, mend: { title: 'Use straight quotes', start, end, newText } };
}

/** Of a line that holds nothing but a text. */
function noQuotes(of: Reading): Slip | undefined {
  if (of.at !== 1 || !expects(of, 'a text in quotes') || !['pattern', 'note', 'currency', 'use'].includes(firstWord(of)) || textAt(of, 1).startsWith('"')) return undefined;
  const own = textOf(of, 1, of.tokens.length - 1);
  if (own === '' || own.includes('"')) return undefined;
  return { ...slip(of, `put it in quotes: ${firstWord(of)} "${own}"`), mend: { title: 'Put it in quotes', start: of.tokens[1]?.start ?? 0, end: of.line.trimEnd().length, newText: `"${own}"` } };
}

/** `pattern Tote bag"`, and `role main"`, where there is no text. */
function noOpeningQuote(of: Reading): Slip | undefined {
  // A word behind “step” is read as a value, so that reading stops later.
  const from = firstWord(of) === 'step' ? 1 : of.at;
  const quote = of.tokens.findIndex(({ kind }, index) => index >= from && kind === 'text');
  const [before, own] = of.tokens.slice(Math.max(0, quote - 1), quote + 1);
  if (own === undefined || isClosed(own.text) || (isNumber(before) && before?.end === own.start)) return undefined;
  if (from < of.at || expects(of, 'a text in quotes')) return quote === from ? undefined : noQuoteBefore({ ...of, at: from }, own.start);
  return quote === of.at && own.text === '"' ? remove(of, 'no quote is needed') : undefined;
}

const noQuoteBefore = (of: Reading, end: number): Slip =>
  ({ ...insert(of, `a quote is missing before it: "${of.line.slice(of.tokens[of.at]?.start, end).trim()}"`, '"', 'Add the opening quote'), moved: true });

const braceHints: Readonly<Record<UnreadBrace['why'], string>> = {
  open: 'it has no “}” in this text. Close it after its formula, as in {hem_turn}',
  empty: 'a formula stands between braces, as in {hem_turn}',
  'no formula': 'what stands between braces is a formula, as in {hem_turn}, and this can’t be read as one',
};

/** `note "Wide {3 cm"`, of a text that may hold formulas. */
function braces(of: Reading): Slip | undefined {
  const own = of.tokens[of.at];
  const brace = own?.kind === 'text' && isClosed(own.text) && expects(of, 'a text in quotes') ? unreadBrace(own.text) : undefined;
  if (own === undefined || brace === undefined) return undefined;
  const start = own.start + brace.start;
  return { hint: `${braceHints[brace.why]}. A brace that is meant as such is written \\{`, start, end: own.start + brace.end, moved: true, mend: { title: 'Change to “\\{”', start, end: start + 1, newText: '\\{' } };
}
