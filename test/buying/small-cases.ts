import type { HandCount, Requirement } from '../../server/src/buying/requirements.ts';
import type { CutLine } from '../../server/src/model/piece/cut-line.ts';
import { needOf, specOf } from './support.ts';

// What tests that try all small lays draw their cases from: sizes in inches of cloth.

export const inch = 25.4;

/** Numbers that look drawn by lot, the same every time (a linear congruence; the constants are those of Numerical Recipes). */
export function lots(seed: number): (most: number) => number {
  let state = seed;
  return (most) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
}

export const outlineOf = (corners: readonly (readonly [number, number])[]): Requirement['outline'] => corners.map(([x, y]) => ({ x: x * inch, y: y * inch }));
export const boxOutline = (along: number, across: number): Requirement['outline'] => outlineOf([[0, 0], [along, 0], [along, across], [0, across]]);
export const none: HandCount = { asDrawn: 0, mirrored: 0, either: 0 };
/** A requirement without a shape and a count. */
export const bare = { title: 'Part', line: {} as CutLine, holes: [], anyTurn: false, lastTurns: [], half: undefined, halfAcross: undefined };

/** Cloth that is bought in steps of 3 in, with 1 in to spare; how wide it is, each case says. */
export const { material } = needOf(specOf('  role main\n  width 100 usable 100\n  bought in lengths of 3 in', 'piece p "P" {\n  outline rectangle 1 by 1\n  grain up\n  cut 1 cloth\n}'));

/** One to three cases of any kind, halves as often as both others, as long as they are not too many pieces to try all lays of. */
export function drawnOf<Cloth, Case extends { readonly pieces: number }>(
  lot: (most: number) => number, cloth: Cloth, most: number,
  [half, plain, handed]: readonly [Draw<Cloth, Case>, Draw<Cloth, Case>, Draw<Cloth, Case>],
): readonly Case[] {
  const kinds = [half, half, plain, handed];
  const cases: Case[] = [];
  for (let more = 1 + lot(3); more > 0; more--) {
    const next = kinds[lot(kinds.length)]!(lot, cloth);
    if (cases.reduce((sum, { pieces }) => sum + pieces, next.pieces) <= most) cases.push(next);
  }
  return cases;
}

export type Draw<Cloth, Case> = (lot: (most: number) => number, cloth: Cloth) => Case;
