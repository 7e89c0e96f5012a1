import type { Token } from '../tokens.ts';
import { lengthUnits } from '../tree.ts';
import type { Dimension } from './elements.ts';
import type { Expectation } from './expected.ts';
import { innerWords } from './inner-words.ts';
import { reservedWords } from './vocabulary.ts';

/** Brackets nested deeper than this are not followed. */
const deepest = 100;
const unitWords: ReadonlySet<string> = new Set([...lengthUnits, 'deg']);
const comparisons: ReadonlySet<string> = new Set(['<', '<=', '>', '>=', '=', '!=']);

/** Told of what may be written at the end of the tokens. `part` is that of a formula's arms, where it is in one. */
export type Expect = (expectation: Expectation, goesOn: boolean, part?: 'value' | 'option' | 'more' | 'otherwise') => void;

/**
 * Follows formulas and conditions through tokens, as the grammar reads them. Each method is given the place to start at
 * and gives the place after what it read; undefined where that can't be read, or where the tokens end in it.
 */
export class FormulaReader {
  readonly #tokens: readonly Token[];
  readonly #expect: Expect;
  readonly #dimension: Dimension | undefined;
  #depth = 0;

  constructor(tokens: readonly Token[], expect: Expect, dimension?: Dimension) {
    this.#tokens = tokens;
    this.#expect = expect;
    this.#dimension = dimension;
  }

  // ---------------------------------------------------------------------------------------------- formulas

  sum(from: number, samples: readonly string[] = []): number | undefined {
    return this.#chain(from, '+-', (at) => this.#chain(at, '*/', (factor) => this.#factor(factor, from, samples)));
  }

  /** A formula that may say a value for each option. */
  full(from: number): number | undefined {
    const first = this.sum(from);
    if (first === undefined) return undefined;
    let at = this.#tail(first, false);
    while (at !== undefined && this.#is(at, ',')) {
      const value = this.#atEnd(at + 1, { is: 'formula', dimension: this.#dimension, samples: [] }, false, 'more') ? undefined : this.sum(at + 1);
      at = value === undefined ? undefined : this.#tail(value, true);
      if (at === value) return undefined;
    }
    return at;
  }

  /** `for S`, `for closing tab` or `otherwise`; the same place where there is none. */
  #tail(at: number, otherwise: boolean): number | undefined {
    if (this.#tokens[at] === undefined) {
      this.#expect({ is: 'words', words: 'for', word: innerWords.for }, !otherwise, otherwise ? 'more' : 'option');
      if (otherwise) this.#expect({ is: 'words', words: 'otherwise', word: innerWords.otherwise }, false, 'otherwise');
      return at;
    }
    if (otherwise && this.#is(at, 'otherwise')) return at + 1;
    if (!this.#is(at, 'for')) return at;
    const part = otherwise ? 'more' : 'option';
    if (this.#atEnd(at + 1, { is: 'option', choice: undefined }, false, part)) {
      this.#expect({ is: 'choice' }, false, part);
      return undefined;
    }
    if (!this.#isName(at + 1)) return undefined;
    const choice = this.#tokens[at + 1]?.text;
    if (this.#atEnd(at + 2, { is: 'option', choice }, true, part)) return at + 2;
    return this.#isName(at + 2) ? at + 3 : at + 2;
  }

  #chain(from: number, operators: string, part: (at: number) => number | undefined): number | undefined {
    let at = part(from);
    while (at !== undefined) {
      const sign = this.#tokens[at];
      const next = sign?.kind === 'sign' && operators.includes(sign.text) ? part(at + 1) : undefined;
      if (next === undefined) return at;
      at = next;
    }
    return undefined;
  }

  #factor(at: number, start: number, samples: readonly string[]): number | undefined {
    const token = this.#tokens[at];
    if (token === undefined) {
      // The lower half of a fraction is a number, and nobody else's to write.
      if (!this.#inFraction(at)) this.#expect({ is: 'formula', dimension: at === start ? this.#dimension : undefined, samples: at === start ? samples : [] }, false);
      return undefined;
    }
    if (token.kind === 'number') return this.#unit(at, at === start ? this.#dimension : undefined);
    if (token.text === '-') return this.#factor(at + 1, start, samples);
    if (token.text === '(') return this.#nested(() => this.#closed(this.full(at + 1)));
    if (!this.#isName(at)) return undefined;
    return this.#touches(at + 1, '(') ? this.#nested(() => this.#arguments(at + 2)) : this.reference(at);
  }

  #unit(at: number, dimension: Dimension | undefined): number {
    const next = this.#tokens[at + 1];
    if (next === undefined && this.#tokens[at]?.text.endsWith('%') === false) this.#expect({ is: 'unit', dimension }, true);
    return next !== undefined && unitWords.has(next.text) ? at + 2 : at + 1;
  }

  #arguments(from: number): number | undefined {
    let at: number | undefined = from - 1;
    do {
      const value: number | undefined = this.sum(at + 1);
      at = value === undefined ? undefined : this.#is(value, 'otherwise') ? value + 1 : this.#tail(value, false);
    } while (at !== undefined && this.#is(at, ','));
    return this.#closed(at);
  }

  /** `cover`, `cover.core.area`. */
  reference(from: number): number | undefined {
    if (!this.#isName(from)) return undefined;
    let at = from + 1;
    while (this.#touches(at, '.')) {
      if (this.#atEnd(at + 1, { is: 'formula', dimension: undefined, samples: [] }) || this.#tokens[at + 1]?.kind !== 'word') return undefined;
      at += 2;
    }
    return at;
  }

  // ---------------------------------------------------------------------------------------------- conditions

  condition(from: number): number | undefined {
    const at = this.#logical(from, 'or', (part) => this.#logical(part, 'and', (one) => this.#single(one)));
    if (at !== undefined && this.#tokens[at] === undefined) for (const word of [innerWords.and, innerWords.or]) this.#expect({ is: 'words', words: word.words, word }, true);
    return at;
  }

  #logical(from: number, operator: 'and' | 'or', part: (at: number) => number | undefined): number | undefined {
    let at = part(from);
    while (at !== undefined && this.#is(at, operator)) at = part(at + 1);
    return at;
  }

  #single(at: number): number | undefined {
    if (this.#atEnd(at, { is: 'condition' })) {
      this.#expect({ is: 'words', words: 'not', word: innerWords.not }, false);
      return undefined;
    }
    if (this.#is(at, 'not')) return this.#single(at + 1);
    if (this.#isName(at) && this.#is(at + 1, 'is')) return this.#option(at);
    if (this.#isName(at) && this.#tokens[at + 1] === undefined) this.#expect({ is: 'words', words: 'is', word: innerWords.is }, false);
    const group = this.#is(at, '(') ? this.#nested(() => this.#closed(this.condition(at + 1))) : undefined;
    // What has a sign after its bracket was a formula.
    if (group !== undefined && !this.#goesOnAsFormula(group)) return group;
    const left = this.sum(at);
    if (left === undefined || this.#atEnd(left, { is: 'comparison' })) return undefined;
    return comparisons.has(this.#tokens[left]?.text ?? '') ? this.sum(left + 1) : undefined;
  }

  /** `tab is not cork or felt`. */
  #option(from: number): number | undefined {
    const choice = this.#tokens[from]?.text;
    let at = from + 2;
    if (this.#tokens[at] === undefined) {
      this.#expect({ is: 'option', choice }, false);
      this.#expect({ is: 'words', words: 'not', word: innerWords.not }, false);
      return undefined;
    }
    if (this.#is(at, 'not')) at++;
    for (;;) {
      if (this.#atEnd(at, { is: 'option', choice })) return undefined;
      if (!this.#isName(at)) return undefined;
      at++;
      if (!this.#is(at, 'or') || this.#goesOnAsFormula(at + 2) || this.#is(at + 2, 'is') || !(this.#isName(at + 1) || this.#tokens[at + 1] === undefined)) return at;
      at++;
    }
  }

  #goesOnAsFormula(at: number): boolean {
    const token = this.#tokens[at];
    return token?.kind === 'sign' && /^[.+*/<>=!(-]/.test(token.text);
  }

  // ---------------------------------------------------------------------------------------------- tokens

  #is(at: number, text: string): boolean {
    return this.#tokens[at]?.text === text;
  }

  #isName(at: number): boolean {
    const token = this.#tokens[at];
    return token?.kind === 'word' && !reservedWords.has(token.text);
  }

  /** Whether a sign follows with no space before it. */
  #touches(at: number, sign: string): boolean {
    return this.#is(at, sign) && this.#tokens[at]?.start === this.#tokens[at - 1]?.end;
  }

  #inFraction(at: number): boolean {
    return this.#touches(at - 1, '/') && this.#tokens[at - 2]?.kind === 'number';
  }

  #atEnd(at: number, expectation: Expectation, goesOn = false, part?: 'value' | 'option' | 'more' | 'otherwise'): boolean {
    const ends = this.#tokens[at] === undefined;
    if (ends) this.#expect(expectation, goesOn, part);
    return ends;
  }

  #closed(at: number | undefined): number | undefined {
    return at !== undefined && this.#is(at, ')') ? at + 1 : undefined;
  }

  #nested<T>(read: () => T | undefined): T | undefined {
    if (this.#depth >= deepest) return undefined;
    this.#depth++;
    const result = read();
    this.#depth--;
    return result;
  }
}
