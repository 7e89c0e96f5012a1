import type { Token } from '../tokens.ts';
import { armParts, type Expectation, type Expected, type Trail } from './expected.ts';
import { FormulaReader } from './formula-reader.ts';
import type { BlockKind, Dimension, EitherElement, Element, FormulaElement, ListElement, ManyElement, NameElement, OneOf, ReferenceElement, StatementForm, Way, Word, WordElement } from './elements.ts';
import { statementsOf } from './table.ts';
import { reservedWords } from './vocabulary.ts';

/** How the beginning of a line goes on in one form. */
export interface Followed {
  readonly form: StatementForm;
  readonly expected: readonly Expected[];
  /** Of each set of words or ways, what was taken, where all that is expected agrees on it. */
  readonly taken: ReadonlyMap<Element, Word | Way>;
}

/**
 * What may be written after the beginning of a statement, by each form that begins like it; nothing where it is longer
 * than anyone writes.
 *
 * @param tokens of the statement, without comments
 */
export function follow(block: BlockKind, tokens: readonly Token[], forms: readonly StatementForm[] = statementsOf(block)): readonly Followed[] {
  if (tokens.length > mostTokens) return [];
  return forms.map((form) => new Follower(tokens).follow(form)).filter(({ expected }) => expected.length > 0);
}

/** How far a reading has come. */
interface State {
  readonly at: number;
  readonly trail: Trail;
  /** Names and words that were read, by their fields. */
  readonly read: Readonly<Record<string, string>>;
  readonly taken: ReadonlyMap<Element, Word | Way>;
}
type Then = (state: State) => void;

/** No line that anyone writes takes so many steps. */
const mostSteps = 20_000;
/** Nor has one so many words and signs; each item of a list is followed by a call within a call, and calls run out. */
const mostTokens = 1_000;

class Follower {
  readonly #tokens: readonly Token[];
  readonly #expected: Expected[] = [];
  #taken: Map<Element, Word | Way> | undefined;
  #steps = 0;

  constructor(tokens: readonly Token[]) {
    this.#tokens = tokens;
  }

  follow(form: StatementForm): Followed {
    this.#parts(form.parts, { at: 0, trail: [], read: {}, taken: new Map() }, (state) => {
      if (state.at === this.#tokens.length) this.#agree(state);
    });
    return { form, expected: this.#expected, taken: this.#taken ?? new Map() };
  }

  #parts(parts: readonly Element[], state: State, then: Then): void {
    const [first, ...rest] = parts;
    if (first === undefined) return then(state);
    if (this.#steps++ > mostSteps) return;
    const { trail } = state;
    this.#element(first, { ...state, trail: [...trail, first] }, (after) => this.#parts(rest, { ...after, trail }, then));
  }

  #element(element: Element, state: State, then: Then): void {
    switch (element.is) {
      case 'words':
        return this.#words(element, state, then);
      case 'one of':
        return this.#oneOf(element, state, then);
      case 'name':
        return this.#name(element, state, then);
      case 'word':
        return this.#word(element, state, then);
      case 'formula':
        return this.#formula(element, state, then);
      case 'position':
        return this.#formulas(state, then, undefined, (reader) => comma(this.#tokens, reader.sum(state.at)), (reader, at) => reader.sum(at));
      case 'condition':
        return this.#formulas(state, then, undefined, (reader) => reader.condition(state.at));
      case 'reference':
        return this.#reference(element, state, then);
      case 'quoted':
      case 'sentence':
        return this.#token('text', 'quoted', state, then);
      case 'number':
        return this.#token('number', 'number', state, then);
      case 'block':
        return this.#token('sign', 'block', state, then);
      case 'optional':
        this.#parts(element.parts, state, then);
        return then(state);
      case 'either':
        return this.#either(element, state, then);
      case 'inside':
      case 'head':
        return this.#parts(element.parts, state, then);
      case 'many':
        return this.#many(element, state, then, new Set());
      case 'list':
        return this.#item(element, state, then, 0);
    }
  }

  // ---------------------------------------------------------------------------------------------- words and names

  #words(word: Word, state: State, then: Then): void {
    const parts = word.words.split(' ');
    for (const [index, part] of parts.entries()) {
      const token = this.#tokens[state.at + index];
      if (token === undefined) return this.#expect(state, { is: 'words', words: parts.slice(index).join(' '), word });
      if (token.text !== part) return;
    }
    then({ ...state, at: state.at + parts.length });
  }

  #oneOf(element: OneOf, state: State, then: Then): void {
    for (const [key, word] of Object.entries(element.among)) {
      this.#words(word, state, (after) => then({ ...after, read: { ...after.read, [element.field]: key }, taken: new Map(after.taken).set(element, word) }));
    }
  }

  #name(element: NameElement, state: State, then: Then): void {
    const token = this.#tokens[state.at];
    if (token === undefined) return this.#expect(state, { is: 'name', element, owner: element.of === undefined ? undefined : state.read[element.of] });
    if (token.kind === 'word' && !reservedWords.has(token.text) && element.but?.includes(token.text) !== true) then({ ...state, at: state.at + 1, read: { ...state.read, [element.field]: token.text } });
  }

  #word(element: WordElement, state: State, then: Then): void {
    const token = this.#tokens[state.at];
    if (token === undefined) return this.#expect(state, { is: 'word', element });
    // Words may be parted by a space or by a dash.
    const lengths = element.among.map((one) => one.match(/[a-z]+|-/g) ?? []).filter((parts) => parts.every((part, index) => this.#tokens[state.at + index]?.text === part)).map(({ length }) => length);
    if (token.kind === 'word') then({ ...state, at: state.at + Math.max(1, ...lengths) });
  }

  #token(kind: Token['kind'], expectation: 'quoted' | 'number' | 'block', state: State, then: Then): void {
    const token = this.#tokens[state.at];
    if (token === undefined) return this.#expect(state, { is: expectation });
    if (token.kind === kind) then({ ...state, at: state.at + 1 });
  }

  // ---------------------------------------------------------------------------------------------- formulas

  #formula(element: FormulaElement, state: State, then: Then): void {
    if (element.but.includes(this.#tokens[state.at]?.text ?? '')) return;
    const dimension = typeof element.dimension === 'object' ? (state.read[element.dimension.field] as Dimension | undefined) : element.dimension;
    this.#formulas(state, then, dimension, (reader) => (element.arms ? reader.full(state.at) : reader.sum(state.at, element.samples)));
  }

  #reference({ to }: ReferenceElement, state: State, then: Then): void {
    if (this.#tokens[state.at] === undefined) this.#expect(state, { is: 'reference', to });
    else this.#formulas(state, then, undefined, (reader) => reader.reference(state.at));
  }

  /** Formulas one after the other, each from the end of the one before. */
  #formulas(state: State, then: Then, dimension: Dimension | undefined, ...reads: readonly ((reader: FormulaReader, at: number) => number | undefined)[]): void {
    const element = state.trail.at(-1);
    const reader = new FormulaReader(this.#tokens, (expectation, goesOn, part = 'value') => {
      const trail = element !== undefined && 'is' in element && element.is === 'formula' ? [...state.trail, { of: element, item: armParts[part] }] : state.trail;
      this.#expect({ ...state, trail }, expectation, goesOn);
    }, dimension);
    let at: number | undefined = state.at;
    for (const read of reads) at = at === undefined ? undefined : read(reader, at);
    if (at !== undefined) then({ ...state, at });
  }

  // ---------------------------------------------------------------------------------------------- ways and lists

  #either(element: EitherElement, state: State, then: Then): void {
    for (const way of element.ways) {
      if (way.unusual === true && this.#tokens[state.at] === undefined) continue;
      this.#parts(way.parts, { ...state, trail: [...state.trail, way], taken: new Map(state.taken).set(element, way) }, then);
    }
  }

  #many(element: ManyElement, state: State, then: Then, said: ReadonlySet<Way>): void {
    then(state);
    for (const way of element.ways) {
      if (said.has(way) && way.again !== true) continue;
      this.#parts(way.parts, { ...state, trail: [...state.trail, way] }, (after) => {
        if (after.at > state.at) this.#many(element, { ...after, trail: state.trail }, then, new Set([...said, way]));
      });
    }
  }

  #item(element: ListElement, state: State, then: Then, index: number): void {
    const trail = [...state.trail, { of: element, item: index }];
    this.#parts(element.item, { ...state, trail }, (after) => {
      const next = { of: element, item: index + 1 };
      for (const sign of element.last === undefined ? [element.between] : [element.between, element.last]) {
        const token = this.#tokens[after.at];
        if (token?.text === sign) this.#item(element, { ...after, at: after.at + 1, trail: state.trail }, then, index + 1);
        else if (token === undefined) this.#expect({ ...after, trail: [...state.trail, next] }, { is: 'words', words: sign, word: { words: sign } }, index + 1 >= element.least);
      }
      if (index + 1 >= element.least) then({ ...after, trail: state.trail });
    });
  }

  // ---------------------------------------------------------------------------------------------- what is expected

  #expect(state: State, expectation: Expectation, goesOn = false): void {
    this.#agree(state);
    this.#expected.push({ expectation, trail: state.trail, goesOn });
  }

  /** Keeps what was taken in all readings. */
  #agree({ taken }: State): void {
    this.#taken = this.#taken === undefined ? new Map(taken) : new Map([...this.#taken].filter(([element, one]) => taken.get(element) === one));
  }
}

const comma = (tokens: readonly Token[], at: number | undefined): number | undefined => (at !== undefined && tokens[at]?.text === ',' ? at + 1 : undefined);
