import { Analyst } from '../model/pattern.ts';
import type { ReadText } from '../platform/decode.ts';
import type { FileReport } from '../formats/problems/problem-list.ts';
import { printBare } from '../syntax/print.ts';
import type { DeclarationTree, SourceFile } from '../syntax/tree.ts';
import { parseNumber } from '../units/number-text.ts';
import type { Rational } from '../units/rational.ts';
import { contentOf, sha256, stateOf, toldWithin as told, treeOf, type SpecTexts } from './spec-texts.ts';

/** What of a plain list counts, where it is named: what it says, with or without plain numbers that are prices; or all that stands there, and on which lines. */
type Reading = 'as said' | 'without prices' | 'with places';

/**
 * What the texts say as far as the spec can tell: of a plain list that it uses, what it names there, by way of others too. No
 * two that lead to another result have the same, but for the fingerprint of the pattern, which all of a list’s words go into,
 * and for {@link pricesOf} its lists, where they are left out.
 *
 * @param within a folder, as in `old/`, that paths are told from, where it makes no difference
 * @param beside what it is told with: what that names counts here too, as a line of one is told with how it stood in the other
 */
export function readContentOf(texts: SpecTexts, reading: Reading = 'as said', within = '', beside?: SpecTexts): string {
  const { path, own } = texts;
  // What was given out is held against the fingerprint.
  if (!('text' in own) || own.text.includes('issued')) return contentOf(texts, within);
  const lists = listsOf(texts);
  const all = beside === undefined ? lists : [...lists, ...listsOf(beside)];
  const besides = beside !== undefined && 'text' in beside.own ? [beside.own.text] : [];
  const others = all.flatMap(({ text, list }) => (list === undefined && text !== undefined && 'text' in text ? [text.text] : []));
  const read = namedIn([own.text, ...besides, ...others], all.flatMap(({ list }) => list?.named ?? []));
  const said = ({ text, unpriced, placed }: Named): string => (reading === 'as said' ? text : reading === 'without prices' ? unpriced : placed);
  const files = lists.map(({ name, text, list }): readonly string[] => (list === undefined ? [told(name, within), stateOf(text)] : [told(name, within), reading === 'with places' ? list.placed : list.frame, ...list.named.filter((one) => read.has(one)).map(said)]));
  return sha256(JSON.stringify([reading, told(path, within), stateOf(own), ...files.sort(([a = ''], [b = '']) => (a < b ? -1 : 1))]));
}

const listsOf = ({ used }: SpecTexts): readonly { readonly name: string; readonly text: ReadText | undefined; readonly list: PlainList | undefined }[] => [...used].map(([name, text]) => ({ name, text, list: text && listIn(name, text) }));

/** Whether a report tells of a place in a plain list, or names one: what stands above it there counts then, too. */
export function tellsOfList({ problems }: FileReport, { used }: SpecTexts, told: (path: string) => string): boolean {
  const lists = new Set([...used].flatMap(([name, text]) => (text !== undefined && listIn(name, text) !== undefined ? [told(name)] : [])));
  return problems.some(({ file, related }) => lists.has(file) || related.some((one) => lists.has(one.file)));
}

/** A file of which each declaration can be used without the others. */
interface PlainList {
  /** In few letters, all that is there, in its order: of what has a name the name alone, else what it says. */
  readonly frame: string;
  /** The same, where it stands as it is written of what has no name. */
  readonly placed: string;
  readonly named: readonly Named[];
  readonly prices: ReadonlyMap<string, Rational>;
}

interface Named {
  readonly name: string;
  /** Without comments, all of it in the one form. */
  readonly text: string;
  /** The same whatever number stands as its price. */
  readonly unpriced: string;
  /** As it is written, and on which line it begins. */
  readonly placed: string;
  /** That number, where it is a plain one. */
  readonly price: Rational | undefined;
}

/** What the plain lists that a spec uses say as prices in plain numbers: by the list’s path and the material’s name. */
export type ListPrices = ReadonlyMap<string, ReadonlyMap<string, Rational>>;

export const pricesOf = ({ used }: SpecTexts): ListPrices => new Map([...used].map(([path, text]) => [path, (text && listIn(path, text)?.prices) ?? new Map<string, Rational>()]));

/** What may stand in a plain list: nothing that makes choices, uses other files, or counts in a pattern’s own file alone. */
const withName: ReadonlySet<string> = new Set(['material', 'thing', 'value']);
const withoutName: ReadonlySet<string> = new Set(['unit', 'step', 'currency', 'drawn', 'note']);

const lists = new WeakMap<ReadText, { readonly path: string; readonly list: PlainList | undefined }>();

function listIn(path: string, text: ReadText): PlainList | undefined {
  const known = lists.get(text);
  if (known?.path === path) return known.list;
  const list = 'text' in text ? plainList(path, text) : undefined;
  lists.set(text, { path, list });
  return list;
}

/** Undefined where there is anything else in it, or any problem: that may be told with every spec that uses it. */
function plainList(path: string, text: ReadText): PlainList | undefined {
  const tree = treeOf(path, text);
  const declarations = tree.declarations.map(({ declaration }) => declaration);
  const placed = placesOf(tree);
  if (!declarations.every(({ tree: { kind } }) => withName.has(kind) || withoutName.has(kind))) return undefined;
  if (new Analyst().analyse(tree, () => undefined).problems.length > 0) return undefined;
  const said = declarations.map(({ tree: one }, index) => ({ kind: one.kind, name: withName.has(one.kind) && 'name' in one ? one.name.text : undefined, text: printBare(one), placed: placed[index] ?? '', ...withoutPrice(one) }));
  const named = said.flatMap(({ name, text: whole, placed: there, unpriced = whole, price }) => (name === undefined ? [] : [{ name, text: whole, placed: there, unpriced, price }]));
  return {
    frame: sha256(JSON.stringify(said.map(({ kind, name, text: whole }) => [kind, name ?? whole]))),
    placed: sha256(JSON.stringify(said.map(({ kind, name, placed: there }) => [kind, name ?? there]))),
    named,
    prices: new Map(named.flatMap(({ name, price }) => (price === undefined ? [] : [[name, price]]))),
  };
}

/** Of each declaration the number of its first line, and how it is written. */
function placesOf({ text, declarations }: SourceFile): readonly string[] {
  let [line, from] = [1, 0];
  return declarations.map(({ declaration, offset }) => {
    line += text.slice(from, offset).split(/\r\n|\r|\n/).length - 1;
    from = offset;
    return `${line} ${declaration.text}`;
  });
}

/** A material without the number that is its price, and that number. Whatever else a price may be is a formula like any other. */
function withoutPrice(tree: DeclarationTree): Partial<Pick<Named, 'unpriced' | 'price'>> {
  if (tree.kind !== 'material') return {};
  const { body } = tree;
  const prices = body.statements.flatMap((statement) => (statement.kind === 'price' && statement.amount.kind === 'number' && statement.amount.unit === undefined ? [statement] : []));
  const [only, ...more] = prices;
  if (only === undefined || more.length > 0 || only.amount.kind !== 'number') return {};
  const open = { ...only, amount: { ...only.amount, digits: '0' } };
  return { unpriced: printBare({ ...tree, body: { ...body, statements: body.statements.map((statement) => (statement === only ? open : statement)) } }), price: parseNumber(only.amount.digits) };
}

/** Of what has a name, that which some texts name, or which is named by what they do; it may be some more, named in comments or at the end of longer names. */
function namedIn(texts: readonly string[], named: readonly Named[]): ReadonlySet<Named> {
  const found = new Set<Named>();
  const waiting = [...texts];
  for (let text = waiting.pop(); text !== undefined; text = waiting.pop()) {
    for (const one of named) {
      if (found.has(one) || !isNamedIn(text, one.name)) continue;
      found.add(one);
      waiting.push(one.text);
    }
  }
  return found;
}

/** What a name goes on with; whoever reads one takes as much of it as there is. */
const nameCharacter = /[\p{L}\p{M}\p{N}_]/uy;

/** Whether a name stands in a text and ends there: `felt1` does not in `felt10`. */
function isNamedIn(text: string, name: string): boolean {
  for (let at = text.indexOf(name); at >= 0; at = text.indexOf(name, at + 1)) {
    nameCharacter.lastIndex = at + name.length;
    if (!nameCharacter.test(text)) return true;
  }
  return false;
}
