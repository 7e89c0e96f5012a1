// The colours of an editor before the server has read a file, from the table of statements. What a name stands for only
// the server knows; here words of the language, names that are declared, numbers and texts are told apart.
import { innerWords } from '../server/src/syntax/statements/inner-words.ts';
import type { Element, StatementForm } from '../server/src/syntax/statements/elements.ts';
import { elementsIn, statements } from '../server/src/syntax/statements/table.ts';
import { reservedWords } from '../server/src/syntax/statements/vocabulary.ts';
import { digitsPattern, nameCharacter, namePattern } from '../server/src/syntax/tokens.ts';
import { lengthUnits } from '../server/src/syntax/tree.ts';

interface Pattern {
  readonly name?: string;
  readonly match?: string;
  readonly include?: string;
  readonly begin?: string;
  readonly end?: string;
  readonly beginCaptures?: Readonly<Record<string, { readonly name: string }>>;
  readonly captures?: Readonly<Record<string, { readonly name: string }>>;
  readonly patterns?: readonly Pattern[];
}

const letters = nameCharacter.slice(1, -1);
const before = `(?<![.${letters}])`;
const after = `(?![.${letters}])`;
const nameEnd = `(?!${nameCharacter})`;
/** A word that may also be a name: not where one is declared or called. */
const afterWord = `(?!${nameCharacter}|\\s*[=.(])`;

/** One of some words, the longest first, so that `on fold` is seen before `on`. */
const anyOf = (words: Iterable<string>): string =>
  `(?:${[...new Set(words)].sort((a, b) => b.length - a.length || (a < b ? -1 : 1)).map((text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(' ', '\\s+')).join('|')})`;

/** A name that is given: none of the words that the language keeps. */
const given = `(?!${anyOf(reservedWords)}${nameEnd})${namePattern}`;

const isWord = (text: string): boolean => /^[a-z ]+$/.test(text);

/** The words that an element may begin with, where it begins with words. */
function wordsAt(element: Element | undefined): readonly string[] {
  switch (element?.is) {
    case 'words':
      return [element.words];
    case 'one of':
      return Object.values(element.among).map(({ words }) => words);
    case 'either':
      return element.ways.flatMap(({ parts }) => wordsAt(parts[0]));
    case 'optional':
    case 'inside':
    case 'head':
      return wordsAt(element.parts[0]);
    default:
      return [];
  }
}

// ------------------------------------------------------------------------------------------------ what begins a line

const named = { block: 'keyword.control.declaration.piece', kind: 'storage.type.piece', line: 'keyword.control.piece' };
const nameScopes = { type: 'entity.name.type.piece', variable: 'variable.other.definition.piece', part: 'entity.name.function.piece' };

/** A line that names something after its first word. */
function declaration({ blocks, parts }: StatementForm): readonly Pattern[] {
  const [first, name, ...rest] = parts;
  if (name?.is !== 'name' || !name.declares) return [];
  const hasTitle = rest[0]?.is === 'optional' && rest[0].parts[0]?.is === 'quoted';
  const next = rest[hasTitle ? 1 : 0];
  const inFile = blocks.includes('file');
  const isKind = inFile && first?.is === 'one of';
  const sign = next?.is === 'words' ? `(?=\\s*(?:${hasTitle ? '"|' : ''}${anyOf([next.words])}))` : '';
  return [{
    match: `^\\s*(${anyOf(wordsAt(first))})\\s+(${given})${sign}`,
    captures: {
      1: { name: isKind ? named.kind : inFile ? named.block : named.line },
      2: { name: isKind ? nameScopes.variable : inFile ? nameScopes.type : nameScopes.part },
    },
  }];
}

/** A word between a line's first word and something else, which may be a name in other places: `grain up`, `corner top box`. */
function heading({ parts }: StatementForm): readonly Pattern[] {
  const [first, second, third] = parts;
  const words = wordsAt(first);
  if (words.length === 0) return [];
  if (second?.is === 'name' && !second.declares && third?.is === 'either') return [wordThen(words, `\\s+(${namePattern})`, wordsAt(third))];
  return second?.is === 'one of' || second?.is === 'either' ? [wordThen(words, '', wordsAt(second))] : [];
}

const wordThen = (words: readonly string[], name: string, then: readonly string[]): Pattern => ({
  match: `^\\s*(${anyOf(words)})${name}\\s+(${anyOf(then)})${after}`,
  captures: name === ''
    ? { 1: { name: named.line }, 2: { name: 'keyword.other.piece' } }
    : { 1: { name: named.line }, 2: { name: 'variable.other.piece' }, 3: { name: 'keyword.other.piece' } },
});

/** A line whose text holds formulas between braces. */
function measured({ parts: [first, second] }: StatementForm): readonly Pattern[] {
  if (second?.is !== 'sentence') return [];
  return [{ begin: `^\\s*(${anyOf(wordsAt(first))})\\s*(?=")`, beginCaptures: { 1: { name: named.line } }, end: '$', patterns: [{ include: '#sentence' }, { include: '#formula' }] }];
}

/** Words after which such a text stands further on in a line: the note of a cut line, what a check says. */
const beforeSentences = ['else', ...statements.flatMap(({ parts }) => [...placed(parts)].flatMap(({ element, previous }) =>
  (element.is !== 'sentence' || previous === undefined || previous === parts[0] ? [] : wordsAt(previous.is === 'optional' ? previous.parts[0] : previous))))];

const beginnings = statements.flatMap(({ parts }) => wordsAt(parts[0]));

// ------------------------------------------------------------------------------------------------ what stands further on

/** Words before a part's name that is given there: `as` of `edge top as hem`. */
const givers = statements.flatMap(({ parts }) => [...placed(parts)].flatMap(({ element, previous }) =>
  (element !== parts[1] && element.is === 'name' && element.declares && element.role !== 'declared' && previous?.is === 'words' ? [previous.words] : [])));

/** Words that follow one another, as one: `from start`, `mitred limit`. */
function phrases(): readonly string[] {
  const all = statements.flatMap(({ parts }) => [...placed(parts)].flatMap(({ element, previous }) => {
    const own = isFixed(element) ? wordsAt(element) : [];
    return [...own, ...(previous !== undefined && previous !== parts[0] && isFixed(previous) ? wordsAt(previous).flatMap((word) => own.map((more) => `${word} ${more}`)) : [])];
  }));
  return all.filter((phrase) => isWord(phrase) && phrase.includes(' '));
}

/** Words that stand alone within a line; what always follows other words is part of a phrase, and may else be a name. */
function singles(): readonly string[] {
  const within = statements.flatMap(({ parts }) => [...placed(parts)]).flatMap(({ element, previous }) => (previous === undefined || isFixed(previous) ? [] : ownWords(element)));
  return [...within, ...reservedWords].filter((word) => isWord(word) && !word.includes(' ') && !units.includes(word));
}

const isFixed = ({ is }: Element): boolean => is === 'words' || is === 'one of';
/** Its words, but for those without a meaning of their own that one of is taken: they say more of what stands before them. */
const ownWords = (element: Element): readonly string[] =>
  (element.is === 'words' ? [element.words] : element.is === 'one of' ? Object.values(element.among).filter(({ meaning }) => meaning !== undefined).map(({ words }) => words) : []);

/** Every element with the one that stands before it; undefined for what begins a line. */
function* placed(parts: readonly Element[], previous?: Element): Generator<{ readonly element: Element; readonly previous: Element | undefined }> {
  let last = previous;
  for (const element of parts) {
    yield { element, previous: last };
    if ('parts' in element) yield* placed(element.parts, last);
    if ('ways' in element) for (const { parts: own } of element.ways) yield* placed(own, last);
    if (element.is === 'list') yield* placed(element.item, last);
    last = element;
  }
}

const units = [...lengthUnits, 'deg'].filter((unit) => unit !== 'in');
const shapes = statements.flatMap(({ parts }) => [...elementsIn(parts)]).flatMap((element) =>
  (element.is === 'inside' && element.field === 'shape' ? wordsAt(element.parts[0]) : [])).filter((text) => !reservedWords.has(text));

// ------------------------------------------------------------------------------------------------ the grammar

/** A TextMate grammar: an object to be written as JSON. */
export function highlighting(): object {
  const declarations: readonly Pattern[] = [
    ...statements.flatMap(declaration),
    { match: `${before}(${anyOf(givers)})\\s+(${given})`, captures: { 1: { name: 'keyword.other.piece' }, 2: { name: nameScopes.part } } },
  ];
  const headings: readonly Pattern[] = [...statements.flatMap(measured), ...statements.flatMap(heading), { name: named.line, match: `^\\s*${anyOf(beginnings.filter(isWord))}${afterWord}` }];
  const words: readonly Pattern[] = [
    { name: 'support.type.shape.piece', match: `${before}${anyOf(shapes)}${after}` },
    { name: 'keyword.other.piece', match: `${before}${anyOf(phrases())}${after}` },
    { name: 'keyword.other.piece', match: `${before}${anyOf([...Object.keys(innerWords), 'else'])}${after}` },
    { name: 'keyword.other.piece', match: `${before}${anyOf(singles())}(?![.${letters}]|\\s*[=(])` },
  ];
  const signs: readonly Pattern[] = [
    { name: 'support.function.piece', match: `${before}${namePattern}(?=\\()` },
    { match: `(\\.)(${namePattern})`, captures: { 1: { name: 'punctuation.accessor.piece' }, 2: { name: 'variable.other.property.piece' } } },
    { name: 'variable.other.piece', match: `${before}${namePattern}` },
    { name: 'keyword.operator.piece', match: '<=|>=|!=|[<>=+*/-]' },
    { name: 'punctuation.separator.piece', match: ',' },
    { name: 'punctuation.section.block.piece', match: '[{}]' },
  ];
  const escape: Pattern = { name: 'constant.character.escape.piece', match: '\\\\["\\\\n]' };
  return {
    name: 'Piecewright',
    scopeName: 'source.piece',
    patterns: ['comment', 'declaration', 'heading', 'formula'].map((name) => ({ include: `#${name}` })),
    repository: {
      comment: { name: 'comment.line.number-sign.piece', match: '#.*$' },
      string: { name: 'string.quoted.double.piece', begin: '"', end: '"|$', patterns: [escape] },
      sentence: { name: 'string.quoted.double.piece', begin: '"', end: '"|$', patterns: [escape, { begin: '\\{', end: '\\}|(?=")|$', patterns: [{ include: '#formula' }] }] },
      declaration: { patterns: declarations },
      heading: { patterns: headings },
      told: { begin: `${before}((?:else\\s+)?${anyOf([...new Set(beforeSentences)])})\\s*(?=")`, beginCaptures: { 1: { name: 'keyword.other.piece' } }, end: '(?<=")|$', patterns: [{ include: '#sentence' }] },
      formula: { patterns: [...['comment', 'told', 'string', 'declaration', 'number'].map((name) => ({ include: `#${name}` })), ...words, ...signs] },
      number: {
        match: `${before}(${digitsPattern.replaceAll(/\\u([0-9A-F]{4})/g, (_, code: string) => String.fromCharCode(parseInt(code, 16)))})(?:\\s*((?:${lengthUnits.join('|')}|deg)(?!${nameCharacter})|%))?`,
        captures: { 1: { name: 'constant.numeric.piece' }, 2: { name: 'keyword.other.unit.piece' } },
      },
    },
  };
}
