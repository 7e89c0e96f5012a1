import type { Resolved } from '../model/pattern.ts';
import { bindingWidths, type Supply } from '../model/stock/supply.ts';
import type { Place } from '../problems/place.ts';
import { mixedNumber, showLength, type Display } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import { casingNotes } from './casings.ts';
import { figure, measure, type Measure } from './figures.ts';
import { placesSet } from './mark-supplies.ts';
import { noteTexts } from './said-text.ts';

export interface SupplyRow {
  readonly supply: string;
  readonly kind: string;
  readonly count: number;
  /** Sizes in words: `finished 4 in, from a closed zip of at least 6 in`. */
  readonly size: string;
  /** The same one by one, as numbers. */
  readonly measures: readonly { readonly of: 'across' | 'finished' | 'from' | 'length' | 'in all'; readonly length: Measure }[];
  /** Where it goes: the marks that it is set at, in titles. */
  readonly at: readonly string[];
  readonly notes: readonly string[];
  readonly place: Place;
}

export const supplyRows = (resolved: Resolved, display: Display, articles: number): readonly SupplyRow[] =>
  resolved.supplies.filter((supply) => supply.count.n > 0n).map((supply) => supplyRow(supply, resolved, display, articles));

function supplyRow(supply: Supply, resolved: Resolved, display: Display, articles: number): SupplyRow {
  const count = supply.count.mul(articles).div(supply.serves).ceil();
  const { across, finished, from, length } = supply;
  const show = (one: Rational): string => figure(one, display);
  const sizes: string[] = [];
  const measures: SupplyRow['measures'][number][] = [];
  const add = (of: SupplyRow['measures'][number]['of'], one: Rational, words: string): void => {
    sizes.push(words);
    measures.push({ of, length: measure(one, display) });
  };
  if (across !== undefined) add('across', across, `${acrossText(across, display)}${supply.kind === 'ring' || supply.kind === 'buckle' ? ' inside' : supply.kind === 'snap' ? ' across' : ' wide'}`);
  if (finished !== undefined) add('finished', finished, `finished ${show(finished)}`);
  if (from !== undefined) add('from', from.length, from.source === 'closed' ? `from a closed zip of at least ${show(from.length)}` : `from ${show(from.length)} of zip tape`);
  if (length !== undefined) add('length', length, `${show(length)} long`);
  if (length !== undefined && count.compare(1) > 0) add('in all', length.mul(count), `${show(length.mul(count))} in all`);
  if (supply.kind === 'binding' && across !== undefined) sizes.push(`from a strip ${show(across.mul(bindingWidths))} wide if cut double-fold`);
  return {
    supply: supply.title,
    kind: supply.kind,
    count: Number(count.n),
    size: sizes.join(', '),
    measures,
    at: placesSet(supply, resolved),
    notes: [...noteTexts(supply.notes, resolved, display), ...casingNotes(supply, resolved, display)],
    place: supply.place,
  };
}

/** Findings are sold in whole millimetres, so a width that is one is shown as one; a pattern in inches says beside it about how wide that is, to be measured with its own tape. */
function acrossText(across: Rational, display: Display): string {
  if (across.d !== 1n) return figure(across, display);
  const millimetres = `${mixedNumber(across)} mm`;
  return display.unit === 'in' ? `${millimetres} (about ${showLength(across, display)})` : millimetres;
}
