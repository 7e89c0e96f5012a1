import { change, expects, firstWord, insert, isNumber, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';

/** Outlines, paths and corners. */
export const shapeSlips: readonly Recogniser[] = [square, circle, widthAndHeight, noShape, turn, cornerOfNone, cornerHow, cornerInTwo, step, from, rounded, across, edgeLast, otherShape, inBrackets];

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
  const [, glued] = /^[xX×](\d.*)$/u.exec(textAt(of, of.at + 1)) ?? [];
  if (glued !== undefined) return change(of, `say which shape it is, as in rectangle ${textAt(of, of.at)} by ${glued}`, `rectangle ${textAt(of, of.at)} by ${glued}`, of.at, of.at + 1);
  const [, sizes] = /^([^"{}]+? by [^"{} ]+(?: \d+\/\d+)?)/.exec(of.line.slice(of.tokens[of.at]?.start)) ?? [];
  return sizes === undefined ? undefined : insert(of, `say which shape it is, as in rectangle ${sizes}`, 'rectangle ');
}

function turn(of: Reading): Slip | undefined {
  if (!expects(of, 'left') || firstWord(of) !== 'arc') return undefined;
  return slip(of, 'say which way it turns as you go, “left” or “right”, after the radius');
}

/** Corners without the word before the first, or with commas between them; a path that doesn’t say where it begins. */
function from(of: Reading): Slip | undefined {
  const before = textAt(of, of.at - 1);
  if (expects(of, 'from') && before === 'polygon' && isNumber(of.tokens[of.at])) return insert(of, 'write “from” before the first corner', 'from ');
  if (expects(of, 'from') && before === 'path') return textAt(of, of.at) === '{' ? insert(of, 'say where the path begins, as in path from 0, 0 {', 'from 0, 0 ', 'Add “from 0, 0”') : insert(of, 'write “from” before the position', 'from ');
  return expects(of, 'to') && textAt(of, of.at) === ',' && isNumber(of.tokens[of.at - 1]) ? slip(of, 'write “to” between two positions, as in from 0, 0 to 6, 0') : undefined;
}

function rounded(of: Reading): Slip | undefined {
  return /^(?:round(?:ed)?|chamfer(?:ed)?)$/.test(textAt(of, of.at)) && expects(of, 'centred') ? slip(of, 'corners have a line of their own, as in corner all round 1/2') : undefined;
}

/** A line right across the piece, without its word. */
function across(of: Reading): Slip | undefined {
  if (firstWord(of) === 'outline' || of.block !== 'piece') return undefined;
  if (expects(of, 'level') && isNumber(of.tokens[of.at])) return slip(of, `say which way it runs, as in level at ${textAt(of, of.at)} or upright at ${textAt(of, of.at)}`);
  return expects(of, '=') && textAt(of, of.at) === 'at' ? slip(of, 'say which way it runs, as in = level at 3 or = upright at 3') : undefined;
}

/** `allowance 1/2 top`. */
function edgeLast(of: Reading): Slip | undefined {
  if (of.block !== 'piece' || firstWord(of) !== 'allowance' || of.at !== 2 || of.tokens.length !== 3 || !isNumber(of.tokens[1])) return undefined;
  const { mend } = change(of, '', `${textAt(of, 2)} ${textAt(of, 1)}`, 1, 2);
  return { ...slip(of, `the edge stands first, as in allowance ${textAt(of, 2)} ${textAt(of, 1)}`), ...(mend === undefined ? {} : { mend }) };
}

function otherShape(of: Reading): Slip | undefined {
  return expects(of, 'polygon') && /^(?:triangle|trapezoid|trapezium|hexagon|octagon|pentagon|points|shape)$/.test(textAt(of, of.at)) ? slip(of, 'draw it by its corners, as in polygon from 0, 0 to 6, 0 to 3, 5') : undefined;
}

/** `rectangle (9, 7)`. */
function inBrackets(of: Reading): Slip | undefined {
  const [open, a, comma, b, close] = of.tokens.slice(of.at, of.at + 5);
  if (!/^(?:rectangle|ellipse|sized)$/.test(textAt(of, of.at - 1)) || open?.text !== '(' || comma?.text !== ',' || close?.text !== ')' || !isNumber(a) || !isNumber(b)) return undefined;
  const text = `${a?.text ?? ''} by ${b?.text ?? ''}`;
  return change(of, `write the two sizes as ${text}`, text, of.at, of.at + 4);
}

const sides = ['top', 'bottom', 'left', 'right'];

function cornerOfNone(of: Reading): Slip | undefined {
  const how = textAt(of, 1);
  if (firstWord(of) !== 'corner' || of.at !== 2 || !/^(?:round(?:ed)?|chamfer|box)$/.test(how)) return undefined;
  const way = how === 'rounded' ? 'round' : how;
  return change(of, `say which corners first, as in corner all ${way}${isNumber(of.tokens[2]) ? ` ${textAt(of, 2)}` : ''}`, `all ${way}`, 1);
}

/** `corner all 1/2`, which may be rounded, cut off or boxed out; `corner 1/2`. */
function cornerHow(of: Reading): Slip | undefined {
  if (firstWord(of) !== 'corner' || (of.at !== 1 && of.at !== 2) || !isNumber(of.tokens[of.at])) return undefined;
  const own = textAt(of, of.at);
  if (of.at === 1) return slip(of, `say which corners first and how they are made, as in corner all round ${own}`);
  return expects(of, 'round') ? insert(of, `say how the corner is made, “round”, “chamfer” or “box”, as in corner ${textAt(of, 1)} round ${own}`, 'round ') : undefined;
}

function cornerInTwo(of: Reading): Slip | undefined {
  const last = textAt(of, 2) === '-' ? 3 : 2;
  const two = [textAt(of, 1), textAt(of, last)];
  if (firstWord(of) !== 'corner' || of.at !== 2 || !two.every((one) => sides.includes(one))) return undefined;
  const name = two.sort((a, b) => sides.indexOf(a) - sides.indexOf(b)).join('_');
  const { mend } = change(of, '', name, 1, last);
  return { ...slip(of, `that corner is called ${name}`), ...(mend === undefined ? {} : { mend }) };
}

/** A step of a path without `to`. */
function step(of: Reading): Slip | undefined {
  return of.block === 'path' && of.at === 1 && expects(of, 'to') && isNumber(of.tokens[1]) ? insert(of, 'write “to” before the position', 'to ') : undefined;
}
