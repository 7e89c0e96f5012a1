import { nearestName } from '../../problems/near.ts';
import { reservedWords } from '../statements/vocabulary.ts';
import { change, firstWord, isNumber, isWord, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';

const inCut = (recognise: Recogniser): Recogniser => (of) => (of.block === 'piece' && firstWord(of) === 'cut' ? recognise(of) : undefined);

/** Lines that say what is cut, and those that were to. */
export const cutSlips: readonly Recogniser[] = [inCut(count), inCut(material), inCut(needless), inCut(inTwo), inCut(second), inCut(otherwise), inCut(compared), cutLast];

const says = 'say how many first, as in';

/** No count, or one after the material. */
function count(of: Reading): Slip | undefined {
  const [, name, number] = of.tokens;
  if (name === undefined || !isWord(name) || of.at > 3) return undefined;
  if (number !== undefined && isNumber(number)) return of.at > 2 ? undefined : swapped(of, `cut ${number.text} ${name.text}`, 0, 2, 2);
  return number === undefined || reservedWords.has(number.text) ? swapped(of, `cut 1 ${name.text}`, 0, 1, 1) : undefined;
}

/** A part of the line that is to be another, with the token that is marked. */
function swapped(of: Reading, text: string, from: number, to: number, marked: number): Slip {
  const { mend } = change(of, '', text, from, to);
  return { ...slip(of, `${says} ${text}`, marked), ...(mend === undefined ? {} : { mend }), moved: true };
}

function material(of: Reading): Slip | undefined {
  return of.at === of.tokens.length && of.at === 2 && isNumber(of.tokens[1]) ? slip(of, 'say what it is cut from, as in cut 2 canvas') : undefined;
}

/** A word between the count and the material. */
function needless(of: Reading): Slip | undefined {
  const own = textAt(of, 2);
  if (/^pairs?$/.test(own) && isWord(of.tokens[3]) && of.at === 3) return { ...slip(of, `a pair is two twins, as in cut 2 ${textAt(of, 3)} twins`, 2), moved: true };
  if (!/^(?:[xX×]|of|pieces?|pcs|times)$/u.test(own) || !isWord(of.tokens[3]) || of.at > 3 || !isNumber(of.tokens[1])) return undefined;
  const at = slip(of, `leave “${own}” out, as in ${textOf(of, 0, 1)} ${textAt(of, 3)}`, 2);
  return { ...at, moved: true, mend: { title: `Remove “${own}”`, start: at.start, end: of.tokens[3]?.start ?? at.end, newText: '' } };
}

/** A word right after the material that is nothing like a clause. */
function inTwo(of: Reading): Slip | undefined {
  const own = of.tokens[3];
  if (of.at !== 3 || own === undefined || !isWord(own) || !isNumber(of.tokens[1]) || !isWord(of.tokens[2]) || own.text.length < 3 || reservedWords.has(own.text) || clauseLike.test(own.text) || nearestName(own.text, of.expected) !== undefined) return undefined;
  return slip(of, `a material’s name is one word, as in ${textAt(of, 2)}_${own.text}, and after it come words such as “along”, “on fold”, “twins”, “when” or “note”`);
}

/** Words that other slips know. */
const clauseLike = /^(?:if|where|only|unless|else|pairs?|paired|flipped|reversed|fold(?:ed)?|wrong|right|the|larger|bigger)$/i;

function second(of: Reading): Slip | undefined {
  return /^(?:,|and|\+|&)$/.test(textAt(of, of.at)) && isNumber(of.tokens[of.at + 1]) ? slip(of, 'each material has a cut line of its own') : undefined;
}

function otherwise(of: Reading): Slip | undefined {
  if (textAt(of, of.at) !== 'else' && textAt(of, of.at) !== 'otherwise') return undefined;
  const when = of.tokens.findIndex(({ text }) => text === 'when');
  const condition = /^(\S+) is (\S+)\s*$/.exec(when < 0 ? '' : textOf(of, when + 1, of.at - 1));
  return slip(of, `give the other case a cut line of its own, with ${condition === null ? '“is not”' : `when ${condition[1] ?? ''} is not ${condition[2] ?? ''}`}`);
}

/** Two equals signs, in a condition. */
function compared(of: Reading): Slip | undefined {
  const first = of.tokens.findIndex(({ text, end }, index) => text === '=' && of.tokens[index + 1]?.text === '=' && of.tokens[index + 1]?.start === end);
  if (first < 0 || of.at < first || of.at > first + 1) return undefined;
  const isOption = isWord(of.tokens[first - 1]) && isWord(of.tokens[first + 2]);
  return change(of, 'an option is asked for with “is”, and sizes are compared with one “=”', isOption ? 'is' : '=', first, first + 1);
}

/** `2 canvas cut`, and `2 canvas`. */
function cutLast(of: Reading): Slip | undefined {
  if (of.block !== 'piece' || of.at !== 0 || !isNumber(of.tokens[0]) || !isWord(of.tokens[1])) return undefined;
  const text = `cut ${textOf(of, 0, 1)}`;
  const to = textAt(of, 2) === 'cut' ? 2 : 1;
  const { mend } = change(of, '', text, 0, to);
  return { ...slip(of, `the line begins with “cut”, as in ${text}`), ...(mend === undefined ? {} : { mend }) };
}
