import { change, expects, firstWord, insert, isNumber, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Outlines, paths and corners. */
export const shapeSlips: readonly Recogniser[] = [square, circle, widthAndHeight, noShape, turn, cornerOfNone, cornerInTwo, step];

function square(of: Reading): Slip | undefined {
  if (textAt(of, of.at) !== 'square' || !expects(of, 'rectangle') || !isNumber(of.tokens[of.at + 1])) return undefined;
  const side = textAt(of, of.at + 1);
  const text = `rectangle ${side} by ${side}`;
  const own = change(of, `write ${text}`, text, of.at, of.at + 1);
  return { ...own, end: of.tokens[of.at]?.end ?? own.end };
}

function circle(of: Reading): Slip | undefined {
  if (!expects(of, 'across')) return undefined;
  const own = textAt(of, of.at);
  if (/^r(?:adius)?$/.test(own)) return slip(of, 'write “across” and the diameter, which is twice the radius, as in circle across 6');
  if (/^(?:diameter|dia|diam|of|width|wide)$/.test(own)) return change(of, 'write “across” before the diameter', 'across');
  return isNumber(of.tokens[of.at]) ? insert(of, 'write “across” before the diameter', 'across ') : undefined;
}

/** `rectangle width 9 height 7`. */
function widthAndHeight(of: Reading): Slip | undefined {
  const from = of.tokens.findIndex(({ text }) => text === 'rectangle' || text === 'ellipse') + 1;
  if (from === 0 || (of.at !== from && of.at !== from + 1)) return undefined;
  const [, first, a, second, b] = /^(width|height)\s+([\d ./]*\d)\s*(?:,|by|x)?\s*(width|height)\s+([\d ./]*\d)\s*$/.exec(textOf(of, from, of.tokens.length - 1)) ?? [];
  if (a === undefined || b === undefined || first === second) return undefined;
  const text = first === 'width' ? `${a} by ${b}` : `${b} by ${a}`;
  const own = change(of, `write the width first and then the height: ${textAt(of, from - 1)} ${text}`, text, from, of.tokens.length - 1);
  return { ...own, end: of.tokens[from]?.end ?? own.end, moved: true };
}

/** Sizes right after `outline`. */
function noShape(of: Reading): Slip | undefined {
  if (!expects(of, 'rectangle') || !isNumber(of.tokens[of.at])) return undefined;
  const [, sizes] = /^([^"{}]+? by [^"{} ]+(?: \d+\/\d+)?)/.exec(of.line.slice(of.tokens[of.at]?.start)) ?? [];
  return sizes === undefined ? undefined : insert(of, `say which shape it is, as in rectangle ${sizes}`, 'rectangle ');
}

function turn(of: Reading): Slip | undefined {
  if (!expects(of, 'left') || firstWord(of) !== 'arc') return undefined;
  return slip(of, 'say which way it turns as you go, “left” or “right”, after the radius');
}

const sides = ['top', 'bottom', 'left', 'right'];

function cornerOfNone(of: Reading): Slip | undefined {
  const how = textAt(of, 1);
  if (firstWord(of) !== 'corner' || of.at !== 2 || !/^(?:round(?:ed)?|chamfer|box)$/.test(how)) return undefined;
  const way = how === 'rounded' ? 'round' : how;
  return change(of, `say which corners first, as in corner all ${way}${isNumber(of.tokens[2]) ? ` ${textAt(of, 2)}` : ''}`, `all ${way}`, 1);
}

function cornerInTwo(of: Reading): Slip | undefined {
  const two = [textAt(of, 1), textAt(of, 2)];
  if (firstWord(of) !== 'corner' || of.at !== 2 || !two.every((one) => sides.includes(one))) return undefined;
  const name = two.sort((a, b) => sides.indexOf(a) - sides.indexOf(b)).join('_');
  const { mend } = change(of, '', name, 1, 2);
  return { ...slip(of, `that corner is called ${name}`), ...(mend === undefined ? {} : { mend }) };
}

/** A step of a path without `to`. */
function step(of: Reading): Slip | undefined {
  return of.block === 'path' && of.at === 1 && expects(of, 'to') && isNumber(of.tokens[1]) ? insert(of, 'write “to” before the position', 'to ') : undefined;
}
