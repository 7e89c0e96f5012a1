import { figure, limits } from '../../problems/limits.ts';
import { priceUnits } from '../../syntax/statements/vocabulary.ts';
import type { BoughtStatement, PriceStatement } from '../../syntax/tree.ts';
import { millimetresIn } from '../../units/length.ts';
import { rational, type Rational } from '../../units/rational.ts';
import { notNegative, positiveLength } from '../formulas/evaluate.ts';
import { report, type Scope } from '../query/scope.ts';
import { oneOf } from '../words.ts';

/** How something is sold. Lengths in millimetres. */
export type Purchase =
  | { readonly form: 'lengths'; readonly step: Rational }
  | { readonly form: 'panels' | 'sheets'; readonly width: Rational; readonly height: Rational };

export interface Price {
  readonly amount: Rational;
  readonly per: PriceUnit;
}

export type PriceUnit = (typeof priceUnits)[number];

export function readPurchase(scope: Scope, statement: BoughtStatement): Purchase | undefined {
  const size = positiveLength(scope, statement.size, 'What it is bought in');
  if (size === undefined) return undefined;
  if (statement.form === 'lengths' || statement.height === undefined) return { form: 'lengths', step: size.amount };
  const height = positiveLength(scope, statement.height, 'What it is bought in');
  return height && { form: statement.form, width: size.amount, height: height.amount };
}

/** The seller's usual step: an eighth of a yard or a tenth of a metre (seen on public pages; a default only). */
export function usualPurchase(scope: Scope): Purchase {
  return { form: 'lengths', step: scope.settings.display.unit === 'in' ? millimetresIn.yd.div(8) : rational(100) };
}

/** What squaring and fraying take of a length unless the spec says otherwise: 1 in or 3 cm (from memory). */
export const usualSpare = (scope: Scope): Rational => (scope.settings.display.unit === 'in' ? millimetresIn.in : rational(30));

export function readPrice(scope: Scope, statement: PriceStatement): Price | undefined {
  const amount = notNegative(scope, statement.amount, 'A price', 'number');
  const per = oneOf(scope, statement.per, priceUnits);
  if (amount === undefined || per === undefined) return undefined;
  if (amount.amount.compare(limits.price) <= 0) return { amount: amount.amount, per };
  report(scope, 'wrong-kind', statement.amount, { got: `a price of more than ${figure(limits.price)}`, wanted: 'a smaller one' });
  return undefined;
}
