import { change, expects, firstWord, insert, isNumber, isWord, remove, slip, textAt, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Units, numbers, and the signs of formulas. */
export const numberSlips: readonly Recogniser[] = [unit, decimalComma, percent, between, position, multiplied, bracket, dangling, power, price];

/** Words that people write for the units of the language. */
const unitWords: Readonly<Record<string, string>> = {
  inch: 'in', inches: 'in', ins: 'in', millimetre: 'mm', millimetres: 'mm', millimeter: 'mm', millimeters: 'mm', mms: 'mm', cms: 'cm',
  centimetre: 'cm', centimetres: 'cm', centimeter: 'cm', centimeters: 'cm', metre: 'm', metres: 'm', meter: 'm', meters: 'm',
  yard: 'yd', yards: 'yd', yds: 'yd', foot: 'ft', feet: 'ft', degree: 'deg', degrees: 'deg', '°': 'deg',
};

function unit(of: Reading): Slip | undefined {
  const own = textAt(of, of.at).toLowerCase();
  const meant = Object.hasOwn(unitWords, own) ? unitWords[own] : undefined;
  return meant === undefined ? undefined : change(of, `write “${meant}”`, of.line.charAt(of.offset - 1) === ' ' || own !== '°' ? meant : ` ${meant}`);
}

function decimalComma(of: Reading): Slip | undefined {
  const [before, comma, after] = of.tokens.slice(Math.max(0, of.at - 1), of.at + 2);
  if (comma?.text !== ',' || !isNumber(before) || !isNumber(after) || before?.end !== comma.start || after?.start !== comma.end) return undefined;
  if (/^\d{3}$/.test(after.text)) return slip(of, `a number has no comma: write ${before.text}${after.text}, or a decimal with a point, ${before.text}.${after.text}`);
  const digits = `${before.text}.${after.text}`;
  return { ...slip(of, `write a decimal with a point: ${digits}`), mend: { title: `Change to “${digits}”`, start: before.start, end: after.end, newText: digits } };
}

function percent(of: Reading): Slip | undefined {
  const before = of.tokens[of.at - 1];
  if (!/^(?:%|percent|pct)$/.test(textAt(of, of.at)) || before === undefined || !isNumber(before)) return undefined;
  const own = slip(of, `write ${before.text}%`);
  return { ...own, mend: { title: `Change to “${before.text}%”`, start: before.start, end: own.end, newText: `${before.text}%` } };
}

/** What stands between width and height. */
function between(of: Reading): Slip | undefined {
  if (!expects(of, 'by')) return undefined;
  const own = textAt(of, of.at);
  const [, glued] = /^[xX](\d.*)$/.exec(own) ?? [];
  const before = of.tokens[of.at - 1];
  if (glued !== undefined && before !== undefined) {
    const both = `${before.text} by ${glued}`;
    const at = slip(of, `write “by” between the two sizes: ${both}`);
    return { ...at, mend: { title: `Change to “${both}”`, start: before.start, end: at.end, newText: both } };
  }
  if (of.at >= of.tokens.length) return firstWord(of) === 'curve' ? slip(of, 'a curve needs two points that it leans towards, as in by 1, 2 and 3, 2') : slip(of, 'write “by” and the second size');
  if (isNumber(of.tokens[of.at]) && isNumber(before)) return insert(of, 'write “by” between the two sizes', 'by ');
  if (!/^[xX×*,]$/u.test(own)) return undefined;
  const at = change(of, 'write “by” between the two sizes', 'by');
  const spaced = of.line.charAt(at.start - 1) === ' ' ? 'by' : ' by';
  return { ...at, mend: { title: 'Change to “by”', start: at.start, end: at.end, newText: /\s/.test(of.line.charAt(at.end)) ? spaced : `${spaced} ` } };
}

const positionEnds = ['as', 'to', 'through', 'by', 'and', 'radius', 'left', 'right'];

/** Two sizes side by side where a position is needed. */
function position(of: Reading): Slip | undefined {
  if (!of.expected.some((one) => one.startsWith('a position'))) return undefined;
  const end = of.tokens.findIndex(({ text }, index) => index >= of.at && positionEnds.includes(text));
  const last = (end < 0 ? of.tokens.length : end) - 1;
  const inner = [of.at, last];
  const bracketed = textAt(of, of.at) === '(' && textAt(of, last) === ')';
  if (bracketed) [inner[0], inner[1]] = [of.at + 1, last - 1];
  const [from = 0, to = 0] = inner;
  const sizes = withUnits(of, from, to);
  if (sizes === undefined) return undefined;
  const text = sizes.join(', ');
  return change(of, bracketed ? `a position stands without brackets: ${text}` : `a position has a comma between its two sizes: ${text}`, text, of.at, last);
}

/** Two simple sizes, with or without a comma; undefined where it is anything else. */
function withUnits(of: Reading, from: number, to: number): readonly [string, string] | undefined {
  const sizes: string[] = [];
  for (let index = from; index <= to; index++) {
    const token = of.tokens[index];
    if (token?.text === ',' && sizes.length === 1) continue;
    if (token === undefined || !(isNumber(token) || isWord(token))) return undefined;
    if (/^(?:in|cm|mm|m|yd|ft)$/.test(token.text) && sizes.length > 0) sizes.push(`${sizes.pop() ?? ''} ${token.text}`);
    else sizes.push(token.text);
  }
  const [x, y, ...more] = sizes;
  return x === undefined || y === undefined || more.length > 0 ? undefined : [x, y];
}

const signs: Readonly<Record<string, string>> = { '×': '*', '·': '*', x: '*', X: '*', '÷': '/', '∕': '/', '−': '-', '–': '-', '—': '-' };

function multiplied(of: Reading): Slip | undefined {
  const own = textAt(of, of.at);
  const sign = Object.hasOwn(signs, own) ? signs[own] : undefined;
  if (sign === undefined || of.at === 0 || of.at >= of.tokens.length - 1 || (isWord(of.tokens[of.at]) && !isNumber(of.tokens[of.at - 1]))) return undefined;
  return change(of, `write “${sign}”`, sign);
}

function bracket(of: Reading): Slip | undefined {
  const open: number[] = [];
  for (const [index, { text }] of of.tokens.entries()) {
    if (text === '(') open.push(index);
    else if (text === ')' && open.pop() === undefined) return index === of.at ? remove(of, 'there is no bracket for it to close, so leave it out') : undefined;
  }
  const first = open.at(-1);
  return first === undefined ? undefined : slip(of, 'this bracket has no closing “)”', first);
}

/** A formula that breaks off. */
function dangling(of: Reading): Slip | undefined {
  const last = of.tokens.at(-1);
  if (last === undefined || of.at < of.tokens.length - 1 || !/^[-+*/]$/.test(last.text) || of.at === 0) return undefined;
  return slip(of, `a size is missing after “${last.text}”`, of.tokens.length - 1);
}

function power(of: Reading): Slip | undefined {
  const own = textAt(of, of.at);
  return own === '^' || (own === '*' && textAt(of, of.at - 1) === '*') ? slip(of, 'there are no powers, so multiply, as in side * side') : undefined;
}

function price(of: Reading): Slip | undefined {
  return /^[€$£¥]/u.test(textAt(of, of.at)) ? slip(of, 'leave the sign out, and say currency "…" once for the whole pattern') : undefined;
}

