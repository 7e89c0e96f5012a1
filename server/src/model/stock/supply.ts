import type { Place } from '../../problems/place.ts';
import { supplyKinds } from '../../syntax/statements/vocabulary.ts';
import type { Expression, MeasureStatement, Reference, SupplyDeclaration, SupplyStatement } from '../../syntax/tree.ts';
import { one, type Rational } from '../../units/rational.ts';
import { inCycle, positiveLength, wholeNumber } from '../formulas/evaluate.ts';
import { factsOnce } from '../facts.ts';
import type { Note } from '../notes.ts';
import type { Context, Query } from '../query/query.ts';
import { readFact, type FactReaders } from '../read-facts.ts';
import { readPrice, readPurchase, type Price, type Purchase } from './purchase.ts';
import { lengthText, placeIn, report, scopeOf, type Scope } from '../query/scope.ts';
import type { Value } from '../formulas/value.ts';
import { titleText } from '../titles.ts';
import { oneOf } from '../words.ts';
import type { NamedDeclaration } from '../names/world.ts';
import { countOf, placesSetAt } from './set-at.ts';

export type SupplyKind = (typeof supplyKinds)[number];

export const supplyMeasures = ['count', 'finished', 'across', 'length'] as const;
export type SupplyMeasure = (typeof supplyMeasures)[number];

/** Something to buy that is not cut from cloth. Lengths in millimetres. */
export interface Supply {
  readonly name: string;
  readonly title: string;
  readonly place: Place;
  readonly kind: SupplyKind;
  /** As given, else one for each place that it is set at, and one where no marks are named. */
  readonly count: Rational;
  /** Of a zip, from stop to stop once made up. */
  readonly finished: Rational | undefined;
  /** A snap's diameter, the inner width of a ring or buckle, the width of webbing or of finished binding. */
  readonly across: Rational | undefined;
  /** Of one. */
  readonly length: Rational | undefined;
  /** What a zip is made from: a closed one at least so long, or a length of zip tape. */
  readonly from: { readonly source: 'closed' | 'tape'; readonly length: Rational; readonly place: Place } | undefined;
  readonly marks: readonly Reference[];
  readonly fits: Reference | undefined;
  readonly purchase: Purchase | undefined;
  /** How many are sold together. */
  readonly pack: Rational | undefined;
  /** For how many articles its count is enough. */
  readonly serves: Rational;
  readonly price: Price | undefined;
  readonly notes: readonly Note[];
}

/** Width of the strip that double-fold binding is cut from, in finished widths (from memory, to be verified). */
export const bindingWidths = 4;

const wordsOf: Readonly<Record<SupplyMeasure, string>> = { count: 'A number of supplies', finished: 'A finished length', across: 'A width', length: 'A length' };

/** What the lines of a supply say, as far as they can be read. */
type Said = Pick<Supply, 'kind' | 'from' | 'fits' | 'purchase' | 'pack' | 'serves' | 'price' | 'marks' | 'notes'> & {
  readonly measures: Partial<Record<SupplyMeasure, Rational>>;
};

const nothingSaid: Said = { kind: 'other', measures: {}, from: undefined, fits: undefined, purchase: undefined, pack: undefined, serves: one, price: undefined, marks: [], notes: [] };

const readers: FactReaders<SupplyStatement, Scope, Said> = {
  'supply kind': (scope, { word }) => ({ kind: oneOf(scope, word, supplyKinds) ?? nothingSaid.kind }),
  count: readMeasure,
  finished: readMeasure,
  across: readMeasure,
  length: readMeasure,
  from: (scope, statement) => {
    const length = positiveLength(scope, statement.length, 'A length');
    return { from: length && { source: statement.source, length: length.amount, place: placeIn(scope, statement) } };
  },
  at: (_, statement, { marks }) => ({ marks: [...marks, ...statement.marks] }),
  fits: (_, { strap }) => ({ fits: strap }),
  packs: (scope, { count }) => ({ pack: wholeNumber(scope, count, 'A number in a pack', 1)?.amount }),
  serves: (scope, { articles }) => ({ serves: wholeNumber(scope, articles, 'A number of articles', 1)?.amount ?? nothingSaid.serves }),
  bought: (scope, statement) => ({ purchase: readPurchase(scope, statement) }),
  price: (scope, statement) => ({ price: readPrice(scope, statement) }),
  note: ({ declaration }, { text: sentence }, { notes }) => ({ notes: [...notes, { declaration, sentence }] }),
};

function readMeasure(scope: Scope, { kind, value }: MeasureStatement, { measures }: Said): Partial<Said> {
  const size = measure(scope, kind, value);
  return size === undefined ? {} : { measures: { ...measures, [kind]: size.amount } };
}

export const supplyOf: Query<NamedDeclaration, Supply | undefined> = {
  name: 'supply',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'supply') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    const { measures, ...said } = factsOnce(scope, tree.body.statements).reduce((before, statement) => readFact(readers, scope, statement, before), nothingSaid);
    requireFacts(scope, tree, said.kind);
    requireLongEnough(scope, tree, said.from, measures.finished);
    return {
      ...said,
      name: tree.name.text,
      title: titleText(tree.title, tree.name),
      place: placeIn(scope, tree.name),
      count: measures.count ?? countAt(scope, said.kind, said.marks),
      finished: measures.finished,
      across: measures.across,
      length: measures.length,
    };
  },
};

/** Reports a zip that is made from less than its finished length. */
function requireLongEnough(scope: Scope, tree: SupplyDeclaration, from: Supply['from'], finished: Rational | undefined): void {
  if (from === undefined || finished === undefined || from.length.compare(finished) >= 0) return;
  const statement = tree.body.statements.find((one) => one.kind === 'from');
  const show = (length: Rational): string => lengthText(scope, length);
  if (statement === undefined) return;
  report(scope, 'zip-too-short', statement, { finished: show(finished), from: from.source === 'tape' ? `${show(from.length)} of tape` : `one of ${show(from.length)}` });
}

function countAt({ context }: Scope, kind: SupplyKind, marks: readonly Reference[]): Rational {
  const places = marks.length === 0 ? undefined : placesSetAt(context, marks);
  return places === undefined ? one : countOf(kind, places);
}

const needed: Partial<Record<SupplyKind, SupplyMeasure>> = { zip: 'finished', snap: 'across', ring: 'across', buckle: 'across', webbing: 'length', binding: 'length' };

function requireFacts(scope: Scope, tree: SupplyDeclaration, kind: SupplyKind): void {
  const fact = needed[kind];
  if (fact !== undefined && !tree.body.statements.some((statement) => statement.kind === fact || statement.kind === 'broken')) report(scope, 'missing-fact', tree.name, { what: kind, fact });
}

function measure(scope: Scope, kind: SupplyMeasure, expression: Expression): Value | undefined {
  return kind === 'count' ? wholeNumber(scope, expression, wordsOf.count, 0) : positiveLength(scope, expression, wordsOf[kind]);
}

/** One measure of a supply with its trail, for formulas that ask for it. */
export function supplyMeasure(context: Context, declaration: NamedDeclaration, kind: SupplyMeasure): Value | undefined {
  const statement = declaration.tree.kind === 'supply' ? declaration.tree.body.statements.find((one: SupplyStatement) => one.kind === kind) : undefined;
  return statement !== undefined && 'value' in statement ? measure(scopeOf(context, declaration), kind, statement.value) : undefined;
}
