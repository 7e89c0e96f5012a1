import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

/** An invented shoe bag: two pieces of 10 by 14 in, each with a casing at its top. */
const bag = (supply: string, more = '') => pattern(`piece side "Side" {
  outline rectangle 10 by 14
  allowance top 1
  edge top hemmed 3/4 with cord
  edge all raw
  cut 2 cloth
}
supply cord "Cord" {
${supply}
}
${more}`);
const told = (supply: string, more?: string): readonly string[] => bag(supply, more).table().supplies.find((row) => row.supply === 'Cord')?.notes ?? [];

describe('what runs through a casing', () => {
  it('is told against it: two casings of 10 in are 20 in together', () => {
    expect(told('  kind elastic\n  across 1/2\n  length 12\n  note "Soft."')).toEqual(['Soft.', 'gathers its casing from 20 in to 12 in: 1.67 times as long before']);
    expect(told('  kind other\n  across 1/4\n  length 36')).toEqual(['runs through a casing 20 in long, 16 in of it comes out']);
    expect(told('  kind other\n  across 1/4\n  length 20')).toEqual(['runs through a casing 20 in long, as long as it is']);
    expect(told('  kind other\n  across 1/4\n  length 18')).toEqual(['runs through a casing 20 in long, 2 in longer than it is']);
    expect(told('  kind other\n  across 1/4')).toEqual(['runs through a casing 20 in long']);
  });
  it('is not told of a hem in an option that has none', () => {
    const found = pattern('choice mouth is plain or drawn\npiece side "Side" {\n  outline rectangle 10 by 14\n  allowance top 1\n  edge top hemmed 3/4 with cord\n  edge all raw\n  cut 2 cloth\n}\nsupply cord "Cord" when mouth is drawn {\n  kind other\n}');
    const hems = (mouth: string): readonly string[] => found.table({ mouth }).finishes.map(({ finish }) => finish).filter((text) => text.startsWith('hemmed'));
    expect(hems('drawn')).toEqual(['hemmed, 3/4 in wide, with Cord in it']);
    expect(hems('plain')).toEqual(['hemmed, 3/4 in wide']);
  });
  it('is told of each, where there are several', () => {
    expect(told('  kind elastic\n  across 1/2\n  length 8\n  count 2')).toEqual(['gathers its casing from 10 in to 8 in: 1.25 times as long before']);
  });
  it('is told by what no seam takes of the edge', () => {
    expect(told('  kind elastic\n  across 1/2\n  length 9', 'seam s = side.top from 0 to 4 with side.bottom from 0 to 4')).toEqual(['gathers its casing from 12 in to 9 in: 1.33 times as long before']);
  });
  it('is nothing where none does', () => {
    expect(bag('  kind other\n  length 3').table().supplies.map(({ notes }) => notes.length)).toEqual([1]);
    expect(pattern('supply cord {\n  kind other\n  length 3\n}').table().supplies.map(({ notes }) => notes)).toEqual([[]]);
  });
});

it('a stiff layer that is to go into the seams says so', () => {
  const notes = (clause: string): readonly string[] => pattern(`piece a "A" {\n  outline rectangle 8 by 6\n  cut 2 cloth\n  cut 2 board${clause}\n}`, 'unit in\nallowance 1/2').table().cuts.at(-1)?.notes ?? [];
  expect(notes(' into the seam')).toEqual(['goes into the seams: sew it in with the cloth']);
  expect(notes('')).toEqual([]);
});
