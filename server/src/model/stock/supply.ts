import type { Place } from '../../problems/place.ts';
import { supplyKinds } from '../../syntax/statements/vocabulary.ts';
import type { Expression, Name, Reference, SupplyDeclaration, SupplyStatement } from '../../syntax/tree.ts';
import { one, type Rational } from '../../units/rational.ts';
import { inCycle, positiveLength, wholeNumber } from '../formulas/evaluate.ts';
import { factsOnce } from '../facts.ts';
import type { Context, Query } from '../query/query.ts';
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
  /** A snap's diameter, a ring's inner width, the width of webbing or of finished binding. */
  readonly across: Rational | undefined;
  /** Of one. */
  readonly length: Rational | undefined;
  /** What a zip is made from: a closed one at least so long, or a length of zip tape. */
  readonly from: { readonly source: 'closed' | 'tape'; readonly length: Rational; readonly place: Place } | undefined;
  readonly marks: readonly Reference[];
  readonly fits: Name | undefined;
  readonly purchase: Purchase | undefined;
  /** How many are sold together. */
  readonly pack: Rational | undefined;
  /** For how many articles its count is enough. */
  readonly serves: Rational;
  readonly price: Price | undefined;
  readonly notes: readonly string[];
}

/** Width of the strip that double-fold binding is cut from, in finished widths (from memory, to be verified). */
export const bindingWidths = 4;

const wordsOf: Readonly<Record<SupplyMeasure, string>> = { count: 'A number of supplies', finished: 'A finished length', across: 'A width', length: 'A length' };

export const supplyOf: Query<NamedDeclaration, Supply | undefined> = {
  name: 'supply',
  input: false,
  compute: (context, declaration) => {
    const { tree } = declaration;
    if (tree.kind !== 'supply') return undefined;
    const scope = scopeOf(context, declaration);
    if (inCycle(scope, tree.name)) return undefined;
    const measures: Partial<Record<SupplyMeasure, Rational>> = {};
    let kind: SupplyKind = 'other';
    let from: Supply['from'];
    let fits: Name | undefined;
    let purchase: Purchase | undefined;
    let pack: Rational | undefined;
    let serves = one;
    let price: Price | undefined;
    const marks: Reference[] = [];
    const notes: string[] = [];
    for (const statement of factsOnce(scope, tree.body.statements)) {
      switch (statement.kind) {
        case 'supply kind':
          kind = oneOf(scope, statement.word, supplyKinds) ?? kind;
          break;
        case 'count':
        case 'finished':
        case 'across':
        case 'length': {
          const value = measure(scope, statement.kind, statement.value);
          if (value !== undefined) measures[statement.kind] = value.amount;
          break;
        }
        case 'from': {
          const length = positiveLength(scope, statement.length, 'A length');
          if (length !== undefined) from = { source: statement.source, length: length.amount, place: placeIn(scope, statement) };
          break;
        }
        case 'at':
          marks.push(...statement.marks);
          break;
        case 'fits':
          fits = statement.supply;
          break;
        case 'packs':
          pack = wholeNumber(scope, statement.count, 'A number in a pack', 1)?.amount;
          break;
        case 'serves':
          serves = wholeNumber(scope, statement.articles, 'A number of articles', 1)?.amount ?? one;
          break;
        case 'bought':
          purchase = readPurchase(scope, statement);
          break;
        case 'price':
          price = readPrice(scope, statement);
          break;
        case 'note':
          notes.push(statement.text.value);
      }
    }
    requireFacts(scope, tree, kind);
    if (from !== undefined && measures.finished !== undefined && from.length.compare(measures.finished) < 0) {
      const fromStatement = tree.body.statements.find((statement) => statement.kind === 'from');
      const show = (length: Rational): string => lengthText(scope, length);
      if (fromStatement !== undefined) {
        report(scope, 'zip-too-short', fromStatement, { finished: show(measures.finished), from: from.source === 'tape' ? `${show(from.length)} of tape` : `one of ${show(from.length)}` });
      }
    }
    return {
      name: tree.name.text,
      title: titleText(tree.title, tree.name),
      place: placeIn(scope, tree.name),
      kind, from, fits, marks, purchase, pack, serves, price, notes,
      count: measures.count ?? countAt(scope, kind, marks),
      finished: measures.finished,
      across: measures.across,
      length: measures.length,
    };
  },
};

function countAt({ context }: Scope, kind: SupplyKind, marks: readonly Reference[]): Rational {
  const places = marks.length === 0 ? undefined : placesSetAt(context, marks);
  return places === undefined ? one : countOf(kind, places);
}

const needed: Partial<Record<SupplyKind, SupplyMeasure>> = { zip: 'finished', snap: 'across', ring: 'across', webbing: 'length', binding: 'length' };

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
