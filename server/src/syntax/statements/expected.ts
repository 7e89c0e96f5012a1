import type { Dimension, Element, NameElement, ReferenceElement, Way, Word, WordElement } from './elements.ts';

/** The elements that something stands in, the outermost first. */
export type Trail = readonly (Element | Way | Item)[];

/** An item of a list, counted from 0, or a part of a formula that says a value for each option. */
export interface Item {
  readonly of: Element;
  readonly item: number;
}

/** The parts of a formula that says a value for each option. */
export const armParts = { value: 0, option: 1, more: 2, otherwise: 3 } as const;

/** What may be written at a place. */
export type Expectation =
  /** Fixed words, or the rest of them where some are written. */
  | { readonly is: 'words'; readonly words: string; readonly word: Word }
  | { readonly is: 'name'; readonly element: NameElement; readonly owner: string | undefined }
  | { readonly is: 'word'; readonly element: WordElement }
  | { readonly is: 'reference'; readonly to: ReferenceElement['to'] }
  | { readonly is: 'formula'; readonly dimension: Dimension | undefined; readonly samples: readonly string[] }
  /** Of a dimension where the formula is that number alone. */
  | { readonly is: 'unit'; readonly dimension: Dimension | undefined }
  | { readonly is: 'condition' }
  | { readonly is: 'comparison' }
  /** An option of a choice, or of any. */
  | { readonly is: 'option'; readonly choice: string | undefined }
  | { readonly is: 'choice' }
  /** What is made up, or ends the line. */
  | { readonly is: 'quoted' | 'number' | 'block' };

/** An expectation with its place. */
export interface Expected {
  readonly expectation: Expectation;
  readonly trail: Trail;
  /** Whether it would go on with what is whole as it is. */
  readonly goesOn: boolean;
}
