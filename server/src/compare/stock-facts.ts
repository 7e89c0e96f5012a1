import { exactIn, sellingUnit } from '../buying/purchase.ts';
import type { Resolved } from '../model/pattern.ts';
import type { Material } from '../model/stock/material.ts';
import type { Price, Purchase } from '../model/stock/purchase.ts';
import type { Supply } from '../model/stock/supply.ts';
import { casingNotes } from '../table/casings.ts';
import { supplyRows } from '../table/supply-rows.ts';
import { decimalNumber, type Display } from '../units/length.ts';
import type { Rational } from '../units/rational.ts';
import { bothUnits, inBothUnits } from './lengths.ts';
import { notesIn } from './said.ts';

/** Facts by what they are called, in words. */
export type Facts = ReadonlyMap<string, string>;

/** What is true of a material, in words; lengths in both units. */
export function factsOfMaterial(material: Material, resolved: Resolved, display: Display): Facts {
  const { role, weight, width, usable, faces, direction, shrinkage, spare, fold, treatment: { wash, iron, steam, fuse, hold } } = material;
  const length = (one: Rational | undefined): string => (one === undefined ? '' : inBothUnits(one, display));
  const permitted = (one: boolean | undefined): string => (one === undefined ? '' : one ? 'yes' : 'no');
  return new Map([
    ['role', role], ['weight', weight ?? ''], ['width', length(width)], ['usable width', length(usable)], ['faces', faces], ['direction', direction],
    ['sold in', purchaseText(material.purchase, display)], ['shrinks along', percent(shrinkage.along)], ['shrinks across', percent(shrinkage.across)],
    ['spare', length(spare)], ['fold', fold === undefined ? '' : fold.way === 'partial' ? `partial, ${length(fold.depth)} double` : fold.way], ['wash', permitted(wash)], ['iron', iron ?? ''], ['steam', permitted(steam)], ['fuse', permitted(fuse)], ['hold', hold ?? ''],
    ['price', priceText(material.price)], ['notes', notesIn(material.notes, resolved, display).join(' ')],
  ]);
}

/**
 * What is true of a supply for one article, in words; lengths in both units.
 *
 * @param placeText what a place that it is set at is called
 */
export function factsOfSupply(supply: Supply, resolved: Resolved, display: Display, placeText = (place: string): string => place): Facts {
  const [row] = supplyRows({ ...resolved, supplies: [supply] }, bothUnits(display), 1);
  return new Map([
    ['kind', supply.kind], ['count', supply.count.toFraction()], ['size', row?.size ?? ''], ['set at', (row?.at ?? []).map(placeText).sort().join(', ')], ['casing', casingNotes(supply, resolved, bothUnits(display)).join(', ')],
    ['sold in', supply.purchase === undefined ? '' : purchaseText(supply.purchase, display)], ['pack of', supply.pack?.toFraction() ?? ''],
    ['for articles', supply.serves.toFraction()], ['price', priceText(supply.price)], ['notes', notesIn(supply.notes, resolved, display).join(' ')],
  ]);
}

const textOf = (facts: Facts): string => JSON.stringify([...facts]);
export const materialFacts = (material: Material, resolved: Resolved, display: Display): string => textOf(factsOfMaterial(material, resolved, display));
export const supplyFacts = (supply: Supply, resolved: Resolved, display: Display): string => textOf(factsOfSupply(supply, resolved, display));

function purchaseText(purchase: Purchase, display: Display): string {
  if (purchase.form === 'lengths') return `lengths of ${exactIn(purchase.step, sellingUnit(purchase.step, display))}`;
  return `${purchase.form} of ${inBothUnits(purchase.width, display)} × ${inBothUnits(purchase.height, display)}`;
}

const priceText = (price: Price | undefined): string => (price === undefined ? '' : `${decimalNumber(price.amount)} per ${price.per}`);
const percent = (share: Rational): string => (share.n === 0n ? '' : `${decimalNumber(share.mul(100))} %`);
