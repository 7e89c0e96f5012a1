import { drawn, note, sold } from './common.ts';
import type { BlockKind, Element, StatementForm, Where, Word } from './elements.ts';
import { check, choices, facts, rareFacts, seam, thing, use, usualAllowance, value, workStep } from './file.ts';
import { innerWords } from './inner-words.ts';
import { piece, pieceLines } from './pieces.ts';
import { pathSteps } from './shapes.ts';
import { material, materialLines, supply, supplyLines } from './stock.ts';

/** Every kind of statement; of those of one place, those in most use first. */
export const statements: readonly StatementForm[] = [
  ...facts, piece, value, material, supply, seam, workStep, check, use, ...choices, usualAllowance, thing,
  ...pieceLines, ...pathSteps, ...materialLines, ...supplyLines, ...sold, drawn, note, ...rareFacts,
];

export const statementsOf = (block: BlockKind): readonly StatementForm[] => statements.filter(({ blocks }) => blocks.includes(block));

const byKind = new Map<string, readonly StatementForm[]>();
for (const form of statements) byKind.set(form.kind, [...(byKind.get(form.kind) ?? []), form]);

/** The form that a statement of a tree is written in; undefined for a line that could not be read. */
export function formOf(statement: { readonly kind: string }): StatementForm | undefined {
  return byKind.get(statement.kind)?.find(({ where }) => fits(statement, where));
}

/** Whether a node's fields are as a form or a way says. */
export function fits(node: object, where: Where): boolean {
  for (const field in where) {
    const must = where[field];
    const value = fieldOf(node, field);
    if ((typeof must === 'boolean' ? isThere(value) : value) !== must) return false;
  }
  return true;
}

const isThere = (value: unknown): boolean => value !== undefined && value !== false && !(Array.isArray(value) && value.length === 0);

/** A field of a node by its name in the table; the node itself for {@link self}. */
export const fieldOf = (node: object, field: string): unknown => (field === '' ? node : (node as Readonly<Record<string, unknown>>)[field]);

// ------------------------------------------------------------------------------------------------ first words

/** The words that some parts may begin with. */
function beginnings(parts: readonly Element[]): readonly string[] {
  const [first, ...rest] = parts;
  switch (first?.is) {
    case 'words':
      return [first.words];
    case 'one of':
      return Object.values(first.among).map(({ words }) => words);
    case 'inside':
    case 'head':
      return beginnings(first.parts);
    case 'either':
      return first.ways.flatMap(({ parts: own }) => beginnings(own));
    case 'optional':
      return [...beginnings(first.parts), ...beginnings(rest)];
    default:
      return [];
  }
}

const firstWords = (forms: readonly StatementForm[]): readonly string[] => forms.flatMap(({ parts }) => beginnings(parts)).map((text) => text.split(' ')[0] ?? '');
const hasBlock = ({ parts }: StatementForm): boolean => parts.some(({ is }) => is === 'block');

/** Words that begin a declaration with a block. */
export const blockWords: ReadonlySet<string> = new Set(firstWords(statements.filter(hasBlock)));
const wordsInBlocks = new Set(firstWords(statements.filter(({ blocks }) => blocks.some((block) => block !== 'file'))));
/** Words that begin a declaration and nothing inside a block: at the start of a line they end a block left open. */
export const topWords: ReadonlySet<string> = new Set(firstWords(statementsOf('file')).filter((word) => !wordsInBlocks.has(word)));
const stepWords = new Set(firstWords(statementsOf('path')));
/** Words that begin a line of a piece and no step of a path: they end a path left open. */
export const pieceWords: ReadonlySet<string> = new Set(firstWords(statementsOf('piece')).filter((word) => !stepWords.has(word)));

/** The words that the lines of a place begin with, those in most use first. */
export const openingWords = (block: BlockKind): readonly string[] => [...new Set(firstWords(statementsOf(block)))];

// ------------------------------------------------------------------------------------------------ all words

/** Everything in some parts, each element before what it holds. */
export function* elementsIn(parts: readonly Element[]): Generator<Element> {
  for (const part of parts) {
    yield part;
    if ('parts' in part) yield* elementsIn(part.parts);
    if ('ways' in part) for (const { parts: own } of part.ways) yield* elementsIn(own);
    if (part.is === 'list') yield* elementsIn(part.item);
  }
}

/** The fixed words in some parts. */
export const wordsIn = (parts: readonly Element[]): readonly Word[] =>
  [...elementsIn(parts)].flatMap((element) => (element.is === 'words' ? [element] : element.is === 'one of' ? Object.values(element.among) : []));

/** Every word that the language fixes anywhere. */
export const languageWords: ReadonlySet<string> = new Set([
  ...statements.flatMap(({ parts }) => wordsIn(parts)).flatMap(({ words }) => words.split(' ')), ...Object.keys(innerWords),
]);
