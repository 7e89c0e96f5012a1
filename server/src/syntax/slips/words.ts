import { openingWords } from '../statements/table.ts';
import { change, expects, firstWord, isNumber, isWord, remove, slip, textAt, textOf, type Reading, type Recogniser, type Slip } from './slip.ts';
import { tradeWords } from './trade-words.ts';

/** Words in place of those of the language. */
export const wordSlips: readonly Recogniser[] = [sizeTitle, needlessOf, doesAfterWhen, sizesOfFact, capital, meant, trade, condition];

/** `seam allowance 3/8`, which begins like a seam called “allowance”. */
export function seamAllowance(of: Reading): Slip | undefined {
  if (firstWord(of) !== 'seam' || !/^allowances?$/.test(textAt(of, 1)) || textAt(of, 2) === '=' || of.at > 2) return undefined;
  return { ...change(of, 'write “allowance”', 'allowance', 0, 1), end: of.tokens[0]?.end ?? 0 };
}

/** `sizes S "Small"`. */
function sizeTitle(of: Reading): Slip | undefined {
  if (firstWord(of) !== 'sizes' || !textAt(of, of.at).startsWith('"')) return undefined;
  const names = of.tokens.slice(1).filter(({ kind }) => kind !== 'text');
  const own = slip(of, 'sizes have no titles. Write their names alone, as in sizes small, large');
  const [first] = names;
  if (first === undefined || !names.every((one) => isWord(one) || one.text === ',')) return own;
  const newText = of.line.slice(first.start).replace(/\s*"[^"]*"/gu, '').trimEnd();
  return { ...own, mend: { title: 'Remove the titles', start: first.start, end: of.line.trimEnd().length, newText } };
}

/** `allowance of 1/4`, where “of” is read as a name. */
function needlessOf(of: Reading): Slip | undefined {
  return textAt(of, 1) === 'of' && of.at === 2 && isNumber(of.tokens[2]) ? { ...remove({ ...of, at: 1 }, 'leave “of” out'), moved: true } : undefined;
}

/** `step "…" when tab is cork does s`. */
function doesAfterWhen(of: Reading): Slip | undefined {
  if (firstWord(of) !== 'step' || textAt(of, of.at) !== 'does') return undefined;
  return slip(of, '“does” and what is done come before “when”');
}

/** `from closed 9 for S, 12 for L`, where a size stands that can't be one for each. */
function sizesOfFact(of: Reading): Slip | undefined {
  if (textAt(of, of.at) !== 'for' || of.at === 0 || expects(of, 'for', 'per') || of.block === 'file') return undefined;
  const size = textAt(of, of.at - 1);
  return slip(of, `give what changes a name outside, as in length wide = ${size} for S, ${size} for L, and write that name here`);
}

function capital(of: Reading): Slip | undefined {
  const own = textAt(of, of.at);
  const low = own.toLowerCase();
  if (own === low || !isWord(of.tokens[of.at])) return undefined;
  const fits = of.at === 0 ? openingWords(of.block).includes(low) : expects(of, low);
  return fits ? change(of, `write it in small letters: “${low}”`, low) : undefined;
}

/** A word of everyday, what to write for it where one of these words would be right, and why where that helps. */
interface Meant {
  readonly said: RegExp;
  readonly write: string;
  readonly why?: string;
}

/** Tried in their order: the first whose own first word would be right in the place. */
const everyday: readonly Meant[] = [
  { said: /^seams allowances?$/, write: 'allowance' },
  { said: /^sa$/, write: 'allowance' },
  { said: /^(?:rect|box|oblong)$/, write: 'rectangle' },
  { said: /^oval$/, write: 'ellipse' },
  { said: /^(?:if|where|only)$/, write: 'when' },
  { said: /^(?:pairs?|twin|paired)$/, write: 'twins', why: 'half of them are flipped, a left and a right' },
  { said: /^(?:flipped|reversed|mirror)$/, write: 'mirrored' },
  { said: /^fold line$/, write: 'foldline' },
  { said: /^fold(?:ed)?$/, write: 'on fold' },
  { said: /^wrong side$/, write: 'on wrong side' },
  { said: /^right side$/, write: 'on right side' },
  { said: /^no(?: seam)? allowance$/, write: 'allowance none' },
  { said: /^(?:larger|bigger)$/, write: 'large' },
  { said: /^radius$/, write: 'round' },
  { said: /^(?:a|an|each|for)$/, write: 'per' },
  { said: /^(?:else|default|others?|rest)$/, write: 'otherwise' },
  { said: /^horizontal(?:ly)?$/, write: 'level' },
  { said: /^vertical(?:ly)?$/, write: 'upright' },
  { said: /^vertical(?:ly)?$/, write: 'up' },
  { said: /^horizontal(?:ly)?$/, write: 'across' },
  { said: /^(?:in the )?(?:cent(?:re|er)|middle|half|halfway)$/, write: 'at 50%', why: 'the middle is half of the edge' },
  { said: /^(?:type|sort)$/, write: 'kind' },
  { said: /^(?:quantity|qty|number|amount)$/, write: 'count' },
  { said: /^(?:diameter|size)$/, write: 'across' },
  { said: /^(?:title|name)$/, write: 'pattern' },
  { said: /^(?:version|rev)$/, write: 'revision' },
  { said: /^(?:fabric|cloth)$/, write: 'material' },
  { said: /^(?:hardware|notion|notions|trim)$/, write: 'supply' },
  { said: /^(?:hole)$/, write: 'drill' },
  { said: /^(?:shape)$/, write: 'outline' },
  { said: /^(?:grainline)$/, write: 'grain' },
  { said: /^(?:import|include)$/, write: 'use' },
  { said: /^(?:variable|var|let|const|number|size|measure|measurement)$/, write: 'length' },
];

/** A word of everyday in place of one of the language. */
export function meant(of: Reading): Slip | undefined {
  const own = textAt(of, of.at).toLowerCase();
  const two = textOf(of, of.at, of.at + 1).toLowerCase();
  for (const { said, write, why } of everyday) {
    const [first = ''] = write.split(' ');
    const length = said.test(two) && of.at + 1 < of.tokens.length ? 2 : said.test(own) ? 1 : 0;
    const fits = of.at === 0 ? openingWords(of.block).includes(first) : expects(of, first);
    if (length === 0 || !fits || (own === 'size' && of.block === 'file')) continue;
    const changed = change(of, `write “${write}”${why === undefined ? '' : `, since ${why}`}`, write, of.at, of.at + length - 1);
    return { ...changed, end: of.tokens[of.at]?.end ?? changed.end };
  }
  return undefined;
}

/** A word of the trade that the language has no line for. */
function trade(of: Reading): Slip | undefined {
  const own = firstWord(of);
  if (of.at !== 0 || openingWords(of.block).includes(own)) return undefined;
  const hint = tradeWords.find(({ said }) => said.test(own.toLowerCase()))?.hint;
  return hint === undefined ? undefined : slip(of, hint);
}

/** A condition where none may stand. */
function condition(of: Reading): Slip | undefined {
  if (!/^(?:when|if)$/.test(textAt(of, of.at)) || of.at === 0 || expects(of, 'when')) return undefined;
  return slip(of, '“when” stands only after a piece, a supply, a cut line or a check. Draw this in a piece of its own, and give that the “when”');
}
