import type { ValueKind } from '../tree.ts';

/**
 * What a statement is made of, one element after the other. Names of fields are those of the tree. All that must know the
 * shape of a statement (printing, names and their roles, what a bare number means, completion, signatures, the words
 * that hover explains, the colours of an editor) follows these elements; the grammar alone says the same once more.
 */
export type Element =
  | Words | OneOf | NameElement | WordElement | FormulaElement | NumberElement | QuotedElement | SentenceElement | ReferenceElement
  | ConditionElement | PositionElement | OptionalElement | EitherElement | ManyElement | ListElement | InsideElement
  | HeadElement | BlockElement;

/** What a name in the text points to, as far as its place in a sentence tells. */
export type Role = 'declared' | 'any' | 'material' | 'piece' | 'supply' | 'thing' | 'choice' | 'option' | 'edge' | 'line' | 'mark' | 'function';

/** What a formula gives; on an edge, a ratio is a share of it and anything else a length along it. */
export type Dimension = ValueKind | 'length or share';

/** Fixed words, with what is said of them where they are asked about. */
export interface Word {
  readonly words: string;
  /** One sentence. */
  readonly meaning?: string;
  readonly example?: string;
  /** What completion writes, with `${1:…}` for what is to be filled in; the words alone where it is left out. */
  readonly snippet?: string;
}
export interface Words extends Word {
  readonly is: 'words';
}
/** One of several fixed words; the field holds the key of the one that is written. */
export interface OneOf {
  readonly is: 'one of';
  readonly field: string;
  readonly among: Readonly<Record<string, Word>>;
  readonly meaning: string;
}

/** How an element is shown in a signature. */
interface Shown {
  /** `SIZE`. */
  readonly label: string;
  /** What it means there, in a few words. */
  readonly meaning: string;
}
export interface NameElement extends Shown {
  readonly is: 'name';
  readonly field: string;
  readonly role: Role;
  /** Whether it gets its name here. */
  readonly declares: boolean;
  /** The field of the name that it belongs to, in the nearest node around that has one. */
  readonly of?: string;
  /** All that it may be, or that it may be beside names of its role. */
  readonly among?: readonly string[];
  /** Of lines, those for one use. */
  readonly use?: string;
  /** Words that are none of its names, since something else begins with them there. */
  readonly but?: readonly string[];
}
/** A word that the model knows the meaning of. */
export interface WordElement extends Shown {
  readonly is: 'word';
  readonly field: string;
  readonly among: readonly string[];
}
export interface FormulaElement extends Shown {
  readonly is: 'formula';
  readonly field: string;
  /** What it gives, which a bare number is here; a field's where it says so. */
  readonly dimension: Dimension | { readonly field: string };
  /** Whether it may say a value for each size or option. */
  readonly arms: boolean;
  /** What is usually written. */
  readonly samples: readonly string[];
  /** Words that it can't begin with, since something else does there. */
  readonly but: readonly string[];
}
/** A whole number and nothing else. */
export interface NumberElement extends Shown {
  readonly is: 'number';
  readonly field: string;
}
export interface QuotedElement extends Shown {
  readonly is: 'quoted';
  readonly field: string;
}
/** A text with formulas in braces. */
export interface SentenceElement extends Shown {
  readonly is: 'sentence';
  readonly field: string;
}
/** A name with what it belongs to before it: `cover.core`. */
export interface ReferenceElement extends Shown {
  readonly is: 'reference';
  readonly field: string;
  readonly to: 'piece' | 'line' | 'mark' | 'edge' | 'work' | 'strap';
}
export interface ConditionElement extends Shown {
  readonly is: 'condition';
  readonly field: string;
}
/** Two lengths: from the left, and from below. */
export interface PositionElement extends Shown {
  readonly is: 'position';
  readonly field: string;
}
/** What may be left out. */
export interface OptionalElement {
  readonly is: 'optional';
  readonly parts: readonly Element[];
  readonly where: Where;
}
/** One of several ways to go on. */
export interface EitherElement {
  readonly is: 'either';
  readonly ways: readonly Way[];
  readonly meaning: string;
}
/** Any of several ways, as often as is said, in any order; the field lists them. */
export interface ManyElement {
  readonly is: 'many';
  readonly field: string;
  readonly ways: readonly Way[];
}
export interface Way {
  readonly where: Where;
  readonly parts: readonly Element[];
  /** Whether it may be said more than once. */
  readonly again?: boolean;
  /** Whether it can be read but never makes sense, so that it is not offered. */
  readonly unusual?: boolean;
}
/** The same parts for each item of a field's list. */
export interface ListElement {
  readonly is: 'list';
  readonly field: string;
  readonly item: readonly Element[];
  readonly between: ',' | 'and' | 'to';
  /** What may stand before the last in place of `between`. */
  readonly last?: 'or';
  readonly least: 1 | 2;
  /** How all but the first are shown in a signature, and what they mean. */
  readonly rest: Shown;
}
/** Parts whose fields are those of another node. */
export interface InsideElement {
  readonly is: 'inside';
  readonly field: string;
  readonly parts: readonly Element[];
}
/** The rest of a block's first line; where it can't be read, it is printed as it is. */
export interface HeadElement {
  readonly is: 'head';
  readonly parts: readonly Element[];
}
/** Lines between braces. */
export interface BlockElement {
  readonly is: 'block';
  readonly field: string;
  readonly of: BlockKind;
}

export type BlockKind = 'file' | 'piece' | 'material' | 'supply' | 'path';

/** What fields must be: `true` for there, `false` for absent, or a text. */
export type Where = Readonly<Record<string, string | boolean>>;

/** A kind of statement. */
export interface StatementForm {
  readonly kind: string;
  /** Where it may stand. */
  readonly blocks: readonly BlockKind[];
  readonly where: Where;
  readonly parts: readonly Element[];
  /** Whether a block, or a file, says it at most once. */
  readonly once: boolean;
}

// ------------------------------------------------------------------------------------------------ making them

/** The field that stands for the node itself, for lists of names. */
export const self = '';

export const word = (words: string, meaning: string, example: string, snippet?: string): Word => ({ words, meaning, example, ...(snippet === undefined ? {} : { snippet }) });
export const words = (text: string, meaning?: string, example?: string, snippet?: string): Words => ({
  is: 'words', words: text,
  ...(meaning === undefined ? {} : { meaning }), ...(example === undefined ? {} : { example }), ...(snippet === undefined ? {} : { snippet }),
});
export const oneOf = (field: string, among: readonly string[] | Readonly<Record<string, Word>>, meaning = ''): OneOf => ({
  is: 'one of', field, meaning, among: isList(among) ? Object.fromEntries(among.map((text) => [text, { words: text }])) : among,
});
const isList = (value: readonly string[] | Readonly<Record<string, Word>>): value is readonly string[] => Array.isArray(value);

/** A name that refers to something. */
export const name = (field: string, role: Role, label: string, meaning: string, more: Partial<NameElement> = {}): NameElement => ({ is: 'name', field, role, label, meaning, declares: false, ...more });
/** A name that is given here. */
export const declares = (field: string, role: 'declared' | 'edge' | 'line' | 'mark', label: string, meaning: string, more: Partial<NameElement> = {}): NameElement => ({ is: 'name', field, role, label, meaning, declares: true, ...more });
export const wordAmong = (field: string, among: readonly string[], meaning: string): WordElement => ({ is: 'word', field, among, label: among.join(' | '), meaning });
export const formula = (field: string, dimension: FormulaElement['dimension'], label: string, meaning: string, more: Partial<FormulaElement> = {}): FormulaElement => ({
  is: 'formula', field, dimension, label, meaning, arms: false, samples: [], but: [], ...more,
});
export const length = (field: string, label: string, meaning: string, more?: Partial<FormulaElement>): FormulaElement => formula(field, 'length', label, meaning, more);
export const number = (field: string, label: string, meaning: string): NumberElement => ({ is: 'number', field, label, meaning });
export const quoted = (field: string, label: string, meaning: string): QuotedElement => ({ is: 'quoted', field, label, meaning });
export const sentence = (field: string, label: string, meaning: string): SentenceElement => ({ is: 'sentence', field, label, meaning });
export const reference = (field: string, to: ReferenceElement['to'], label: string, meaning: string): ReferenceElement => ({ is: 'reference', field, to, label, meaning });
export const condition = (field: string, label: string, meaning: string): ConditionElement => ({ is: 'condition', field, label, meaning });
export const position = (field: string, meaning: string): PositionElement => ({ is: 'position', field, label: 'x, y', meaning });

/** What may be left out; it is written when the first field in it is there. */
export const optional = (...parts: readonly Element[]): OptionalElement => ({ is: 'optional', parts, where: { [firstField(parts)]: true } });
/** What may be left out, and is written for certain fields. */
export const optionalWhere = (where: Where, ...parts: readonly Element[]): OptionalElement => ({ is: 'optional', parts, where });
export const either = (meaning: string, ...ways: readonly Way[]): EitherElement => ({ is: 'either', meaning, ways });
export const many = (field: string, ...ways: readonly Way[]): ManyElement => ({ is: 'many', field, ways });
export const way = (where: Where, ...parts: readonly Element[]): Way => ({ where, parts });
export const list = (field: string, item: readonly Element[], between: ListElement['between'], rest: Shown, more: Partial<ListElement> = {}): ListElement => ({ is: 'list', field, item, between, rest, least: 1, ...more });
export const inside = (field: string, ...parts: readonly Element[]): InsideElement => ({ is: 'inside', field, parts });
export const head = (...parts: readonly Element[]): HeadElement => ({ is: 'head', parts });
export const block = (field: string, of: BlockKind): BlockElement => ({ is: 'block', field, of });

export const statement = (kind: string, blocks: readonly BlockKind[], parts: readonly Element[], more: Partial<StatementForm> = {}): StatementForm => ({
  kind, blocks, parts, where: {}, once: false, ...more,
});

function firstField(parts: readonly Element[]): string {
  for (const part of parts) if ('field' in part) return part.field;
  throw new Error('What is optional has no field: say where it is written');
}

/** What the first of some parts that has a meaning means. */
export function meaningOf(parts: readonly Element[]): string {
  for (const part of parts) {
    const meaning = 'parts' in part ? meaningOf(part.parts) : 'meaning' in part ? part.meaning : '';
    if (meaning !== '') return meaning;
  }
  return '';
}
