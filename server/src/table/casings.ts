import type { Resolved } from '../model/pattern.ts';
import type { Supply } from '../model/stock/supply.ts';
import { decimalNumber, type Display } from '../units/length.ts';
import { measured, nearestMultiple, rational } from '../units/rational.ts';
import { figure } from './figures.ts';

/**
 * What a supply runs through and how long that is against it, for one of them: an elastic gathers, a drawstring comes out.
 * Lengths as they are cut; how much of an end is sewn down or overlaps is for the designer to say. Empty where it runs
 * through nothing.
 */
export function casingNotes({ name, kind, length, count }: Supply, { casings }: Resolved, display: Display): readonly string[] {
  const all = casings.get(name);
  if (all === undefined || count.n === 0n) return [];
  const along = all / count.valueOf();
  const show = (millimetres: number): string => figure(measured(millimetres), display);
  if (length === undefined) return [`runs through a casing ${show(along)} long`];
  const own = length.valueOf();
  if (kind === 'elastic') return [`gathers its casing from ${show(along)} to ${show(own)}: ${decimalNumber(nearestMultiple(measured(along / own), rational(1, 100)))} times as long before`];
  const off = own - along;
  const against = Math.abs(off) < least ? 'as long as it is' : off > 0 ? `${show(off)} of it comes out` : `${show(-off)} longer than it is`;
  return [`runs through a casing ${show(along)} long, ${against}`];
}

/** Nothing is cut as exactly as this, in millimetres. */
const least = 0.05;
