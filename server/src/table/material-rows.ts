import type { Resolved } from '../model/pattern.ts';
import type { Iron, Material } from '../model/stock/material.ts';
import type { Place } from '../problems/place.ts';
import { decimalNumber, type Display } from '../units/length.ts';
import { nearestMultiple, rational, type Rational } from '../units/rational.ts';
import { noteTexts } from './said-text.ts';
import { sameEndUp } from './words.ts';

/** How a material is to be treated, before it is cut and afterwards. */
export interface MaterialRow {
  readonly material: string;
  readonly care: readonly string[];
  readonly notes: readonly string[];
  readonly place: Place;
}

/** Of every material that is cut and of which there is anything to say. */
export const materialRows = (resolved: Resolved, display: Display): readonly MaterialRow[] =>
  materialsCut(resolved).map((material) => materialRow(material, noteTexts(material.notes, resolved, display))).filter((row) => row.care.length > 0 || row.notes.length > 0);

function materialRow(material: Material, notes: readonly string[]): MaterialRow {
  return { material: material.title, care: careOf(material), notes, place: material.place };
}

/**
 * The hottest sole plate by the dots of the care symbol: 110, 150 and 200 °C (ISO 3758, Textiles: care labelling code using
 * symbols; the figures from memory).
 */
const ironWords: Readonly<Record<Iron, string>> = {
  none: 'keep the iron off it',
  low: 'iron at low heat at most (one dot, 110 °C)',
  medium: 'iron at medium heat at most (two dots, 150 °C)',
  high: 'iron at high heat at most (three dots, 200 °C)',
};

function careOf({ direction, shrinkage: { along, across }, treatment: { wash, iron, steam, fuse, hold } }: Material): readonly string[] {
  const shares = [...(along.n > 0n ? [`${percent(along)} along`] : []), ...(across.n > 0n ? [`${percent(across)} across`] : [])];
  return [
    ...(direction === 'one way' ? [`runs one way: ${sameEndUp}`] : []),
    ...(shares.length === 0 ? [] : [`shrinks ${shares.join(', ')}${wash === false ? '' : ': pre-shrink as its maker says'}`]),
    ...(wash === undefined ? [] : [wash ? 'may be washed' : 'do not wash']),
    ...(iron === undefined ? [] : [ironWords[iron]]),
    ...(steam === false ? ['no steam'] : []),
    ...(fuse === false ? ['fuse nothing to it'] : []),
    ...(hold === 'clips' ? ['hold it with clips: pins leave holes'] : []),
  ];
}

/** A share as people read it: `3 %`. */
export const percent = (share: Rational): string => `${decimalNumber(nearestMultiple(share.mul(100), rational(1, 10)))} %`;

/** Sizes are those of the finished cloth, so what shrinks must have done so before it is cut. */
export function shrinkageNotes(resolved: Resolved): readonly string[] {
  const shrinking = materialsCut(resolved).filter(({ shrinkage, treatment }) => treatment.wash !== false && (shrinkage.along.n > 0n || shrinkage.across.n > 0n)).map(({ title }) => title);
  return shrinking.length === 0 ? [] : [`Pre-shrink before you cut, as the maker of the cloth says: ${shrinking.join('; ')}. What to buy allows for it.`];
}

/** Materials in the order of the text that something is cut from. */
export function materialsCut(resolved: Resolved): readonly Material[] {
  const used = new Set(resolved.pieces.flatMap((piece) => piece.cuts.map((line) => line.material.name)));
  return resolved.materials.filter((material) => used.has(material.name));
}
