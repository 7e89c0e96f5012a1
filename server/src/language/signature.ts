import { functions } from '../model/formulas/evaluate.ts';
import { armParts, type Expectation, type Expected, type Item } from '../syntax/statements/expected.ts';
import { meaningOf, type EitherElement, type Element, type ListElement, type OptionalElement, type StatementForm, type Way, type Word } from '../syntax/statements/elements.ts';
import { follow, type Followed } from '../syntax/statements/follow.ts';
import type { Token } from '../syntax/tokens.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { contextAt, type TextContext } from './context.ts';

export interface Signature {
  readonly label: string;
  readonly documentation: string;
  /** Each a range of the label. */
  readonly parameters: readonly { readonly start: number; readonly end: number; readonly documentation: string }[];
  /** The parameter that the cursor is at; undefined beyond the last. */
  readonly active: number | undefined;
}

/** The form of the function or statement that is being written at an offset. */
export function signature(snapshot: Snapshot, offset: number): Signature | undefined {
  const context = contextAt(snapshot, offset);
  if (context.within === 'comment') return undefined;
  return callSignature(context.tokens) ?? statementSignature(context);
}

// ------------------------------------------------------------------------------------------------ functions

function callSignature(tokens: readonly Token[]): Signature | undefined {
  let depth = 0;
  let commas = 0;
  for (let index = tokens.length - 1; index >= 0; index--) {
    const text = tokens[index]?.text;
    if (text === ')') depth++;
    else if (text === ',' && depth === 0) commas++;
    else if (text === '(' && depth-- === 0) {
      const before = tokens[index - 1];
      const known = before?.kind === 'word' && before.end === tokens[index]?.start && Object.hasOwn(functions, before.text) ? functions[before.text] : undefined;
      if (known === undefined) {
        // Brackets that only group: the call may be further out.
        depth = 0;
        commas = 0;
        continue;
      }
      const parameters = [...known.usage.matchAll(/(?<=[(\s])[^,()\s]+(?=[,)])/g)].map((match) => ({ start: match.index, end: match.index + match[0].length, documentation: '' }));
      // What may be repeated stays at its last parameter.
      const active = known.usage.includes('…') ? Math.min(commas, parameters.length - 1) : commas;
      return { label: known.usage, documentation: known.doc, parameters, active: active < parameters.length ? active : undefined };
    }
  }
  return undefined;
}

// ------------------------------------------------------------------------------------------------ statements

function statementSignature({ block, before, tokens, word, within }: TextContext): Signature | undefined {
  const last = tokens.at(-1);
  // A text, or a number, that the cursor stands at is still being written; a word is none of the tokens yet.
  const written = word === '' && last !== undefined && (within === 'text' || (last.kind === 'number' && before.endsWith(last.text)));
  const done = written ? tokens.slice(0, -1) : tokens;
  if (done.length === 0) return undefined;
  const [followed] = follow(block, done);
  if (followed === undefined) return undefined;
  const begun = word === '' ? (written ? last.text : '') : word;
  return shown(followed, placesOf(followed, begun));
}

/** What the cursor may be at: of all that is expected, what the word that is begun may be. */
function placesOf({ expected }: Followed, begun: string): readonly Expected[] {
  const begins = expected.filter(({ expectation }) => expectation.is === 'words' && begun !== '' && expectation.words.startsWith(begun));
  const fits = begins.length > 0 ? begins : expected.filter(({ expectation }) => begun === '' || mayBegin(expectation, begun));
  const fresh = fits.filter(({ goesOn }) => !goesOn);
  return fresh.length > 0 ? fresh : fits;
}

function mayBegin({ is }: Expectation, begun: string): boolean {
  if (begun.startsWith('"')) return is === 'quoted';
  if (/^[\p{N}.]/u.test(begun)) return is === 'formula' || is === 'number' || is === 'condition';
  return is !== 'words' && is !== 'quoted' && is !== 'number' && is !== 'unit' && is !== 'block';
}

// ------------------------------------------------------------------------------------------------ labels

/** A piece of a label; one with a meaning is a parameter, whose places are those that hold one of `keys`. */
interface Piece {
  readonly text: string;
  readonly meaning?: string;
  readonly keys: readonly (Element | Way | Item)[];
}

function shown(followed: Followed, places: readonly Expected[]): Signature {
  let label = '';
  let active: number | undefined;
  const parameters: { start: number; end: number; documentation: string }[] = [];
  for (const { text, meaning, keys } of pieces(followed.form.parts, followed.taken)) {
    if (label !== '' && !/^\[?,/.test(text)) label += ' ';
    if (meaning !== undefined) {
      if (active === undefined && places.some(({ trail }) => trail.some((one) => keys.some((key) => isSame(one, key))))) active = parameters.length;
      parameters.push({ start: label.length, end: label.length + text.length, documentation: meaning });
    }
    label += text;
  }
  return { label, documentation: documentationOf(followed), parameters, active };
}

const isItem = (one: Element | Way | Item): one is Item => 'item' in one && typeof one.item === 'number';
const isSame = (one: Element | Way | Item, key: Element | Way | Item): boolean => one === key || (isItem(one) && isItem(key) && one.of === key.of && one.item === key.item);

/** What the statement, or the word that it begins with, does. */
function documentationOf({ form, taken }: Followed): string {
  const [first] = form.parts;
  const word = first === undefined ? undefined : taken.get(first);
  return word !== undefined && 'words' in word ? (word.meaning ?? '') : meaningOf(form.parts);
}

function pieces(parts: StatementForm['parts'], taken: Followed['taken']): readonly Piece[] {
  return parts.flatMap((part) => piecesOf(part, taken));
}

function piecesOf(element: Element, taken: Followed['taken']): readonly Piece[] {
  switch (element.is) {
    case 'words':
      return [{ text: element.words, keys: [] }];
    case 'block':
      return [{ text: '{', keys: [] }];
    case 'one of': {
      const word = taken.get(element) as Word | undefined;
      // A word that says what the statement is stands for itself.
      return word?.meaning === undefined ? [{ text: textOf(element), meaning: element.meaning, keys: [element] }] : [{ text: word.words, keys: [] }];
    }
    case 'inside':
    case 'head':
      return pieces(element.parts, taken);
    case 'either': {
      const way = taken.get(element) as Way | undefined;
      return way === undefined ? [{ text: textOf(element), meaning: element.meaning, keys: [element] }] : pieces(way.parts, taken);
    }
    case 'optional':
      return optionalPieces(element);
    case 'many':
      return element.ways.map((way) => ({ text: `[${textOfAll(way.parts)}]`, meaning: meaningOf(way.parts), keys: [way] }));
    case 'list':
      return listPieces(element);
    case 'formula':
      return element.arms ? armPieces(element) : [{ text: element.label, meaning: element.meaning, keys: [element] }];
    default:
      return [{ text: textOf(element), meaning: element.meaning, keys: [element] }];
  }
}

/** What may be left out is one piece; of what ends with any of several ways, each way is one. */
function optionalPieces(element: OptionalElement): readonly Piece[] {
  const parts = element.parts.flatMap((part) => (part.is === 'inside' ? part.parts : [part]));
  const last = parts.at(-1);
  if (last?.is !== 'many') return [{ text: textOf(element), meaning: meaningOf(element.parts), keys: [element] }];
  const before = parts.slice(0, -1);
  return [{ text: `[${textOfAll(before)}]`, meaning: meaningOf(before), keys: before }, ...piecesOf(last, new Map())];
}

function listPieces(list: ListElement): readonly Piece[] {
  const item = (index: number): Piece => ({ text: textOfAll(list.item), meaning: meaningOf(list.item), keys: [{ of: list, item: index }] });
  const from = list.least;
  const rest: Piece = { text: list.rest.label, meaning: list.rest.meaning, keys: [0, 1, 2, 3, 4, 5, 6, 7].map((more) => ({ of: list, item: from + more })) };
  return from === 1 ? [item(0), rest] : [item(0), { text: list.between, keys: [] }, item(1), rest];
}

function armPieces(formula: Element & { readonly is: 'formula' }): readonly Piece[] {
  const piece = (text: string, meaning: string, item: number): Piece => ({ text, meaning, keys: [{ of: formula, item }] });
  return [
    piece(formula.label, formula.meaning, armParts.value),
    piece('[for OPTION]', 'the size or option that has this value', armParts.option),
    piece(`[, ${formula.label} for OPTION …]`, 'the other options with their values', armParts.more),
    piece(`[, ${formula.label} otherwise]`, 'the value of all others', armParts.otherwise),
  ];
}

// ------------------------------------------------------------------------------------------------ texts of parts

const textOfAll = (parts: readonly Element[]): string => parts.map(textOf).join(' ').replace(/ (?=\[?,)/g, '');

function textOf(element: Element): string {
  switch (element.is) {
    case 'words':
      return element.words;
    case 'block':
      return '{';
    case 'one of':
      return Object.values(element.among).map(({ words }) => words).join(' | ');
    case 'inside':
    case 'head':
      return textOfAll(element.parts);
    case 'either':
      return eitherText(element);
    case 'optional':
      return `[${textOfAll(element.parts)}]`;
    case 'many':
      return element.ways.map((way) => `[${textOfAll(way.parts)}]`).join(' ');
    case 'list':
      return listPieces(element).map(({ text }) => text).join(' ').replace(/ (?=\[?,)/g, '');
    default:
      return element.label;
  }
}

/** The ways: many by the words that each begins with, long ones without what may be left out. */
function eitherText({ ways }: EitherElement): string {
  const usual = ways.filter(({ unusual }) => unusual !== true).map(({ parts }) => parts);
  const short = usual.length > 3 && usual.every(([first]) => first?.is === 'words');
  return usual.map((parts) => textOfAll(short ? parts.slice(0, 1) : parts.length > 3 ? parts.filter(({ is }) => is !== 'optional') : parts)).join(' | ');
}
