import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { pointsOf } from '../../server/src/compare/summary.ts';
import type { Pattern } from '../../server/src/model/pattern.ts';
import { analyse, stock } from '../support/spec.ts';
import { compared, edited, tasksOf, type Edit } from './edited.ts';

/** An invented bookmark with a choice, glue and notes. */
const spec = `pattern "Reading mark"
revision 1
unit in
currency "EUR"
allowance none
use "stock.piece"
choice edge "Edging" is raw "Left raw" or bound "Bound all round"
note "Press it first, then cut it."
length tail = 4
length tall = 8 for raw, 7 for bound
piece mark "Mark" {
  outline rectangle 2 by tall
  note "A tail of {tail} is left."
  cut 1 cork note "Cut on the right side."
}
supply glue "Glue" {
  kind glue
}
`;
const read = (text: string): Pattern => analyse(text, { 'stock.piece': stock }).pattern;
const to = (...edits: readonly Edit[]): Comparison => compared(read(spec), read(edited(spec, ...edits)));
const told = ({ changes }: Comparison): readonly string[] => changes.map(({ subject, what, was, now, causes }) => `${subject}, ${what}: ${was} → ${now} < ${causes.map(({ side, line }) => `${side} ${line}`).join()}`);
const tasks = (comparison: Comparison): ReturnType<typeof tasksOf> => tasksOf(errataOf(comparison));

describe('words', () => {
  it.each([
    ['the title', ['"Reading mark"', '"Book mark"'], 'The pattern, title: Reading mark → Book mark < new 1'],
    ['a note of the pattern', ['Press it first', 'Press it well'], 'The pattern, note: Press it first, then cut it. → Press it well, then cut it. < new 8'],
    ['a note of a piece', ['is left', 'hangs out, it is left'], 'Mark, notes: A tail of 4 in (about 10.2 cm) is left. → A tail of 4 in (about 10.2 cm) hangs out, it is left. < new 13'],
    ['a measure in a note', ['tail = 4', 'tail = 5'], 'Mark, notes: A tail of 4 in (about 10.2 cm) is left. → A tail of 5 in (12.7 cm) is left. < new 9'],
    ['a note of a cut line', ['Cut on the right', 'Cut on the wrong'], 'Mark, Cork: notes: Cut on the right side. → Cut on the wrong side. < new 14'],
    ['a note that is gone', [/\nnote.*/, ''], 'The pattern, note: Press it first, then cut it. →  < old 8'],
  ] as const)('come with their line: %s', (_, change, text) => { expect(told(to(change))).toEqual([text]); });

  it('are the same, however wide the gaps between them are', () => {
    expect(to(['Press it first, then', 'Press  it first,  then'], ['Cut on', 'Cut   on'], ['is left.', 'is  left. ']).same).toBe(true);
  });

  it('of caution are not taken back from whoever has them', () => {
    const comparison = to([/supply glue[^}]*}\n/, '']);
    expect(told(comparison)).toContainEqual(expect.stringMatching(/caution: Glue: /));
    expect(tasks(comparison)).toEqual({ 'Buy these amounts in place of the earlier ones': ['Glue: none any more, in place of 1'] });
  });
});

describe('an option that is gone', () => {
  it('is told by its title, in a notice too', () => {
    const comparison = to([' or bound "Bound all round"', ''], ['8 for raw, 7 for bound', '8']);
    expect(pointsOf(comparison)).toEqual([{ what: 'Sizes and choices', items: ['Edging: no longer Bound all round'] }]);
    expect(tasks(comparison)).toEqual({ 'These can’t be chosen any more': ['Edging: Bound all round'] });
  });

  it('is told where another has come in its place', () => {
    const comparison = to([' or bound "Bound all round"', ' or felt'], ['7 for bound', '7 for felt']);
    expect(pointsOf(comparison)).toEqual([{ what: 'Sizes and choices', items: ['Edging: Left raw, Bound all round → Left raw, felt', 'Edging: no longer Bound all round'] }]);
  });

  it('keeps its title where the whole choice is gone', () => {
    const comparison = to([/choice.*\n/, ''], ['8 for raw, 7 for bound', '8']);
    expect(pointsOf(comparison)).toEqual([{ what: 'Sizes and choices', items: ['Edging: no longer Left raw, Bound all round'] }, { what: 'Recut', items: ['Mark, only when Edging is Bound all round'] }, { what: 'Reprint', items: ['Mark (cutting line, unless cut to measure), only when Edging is Bound all round'] }]);
    expect(tasks(comparison)).toMatchObject({ 'These can’t be chosen any more': ['Edging: Left raw, Bound all round'] });
  });
});

it('another currency is told at the head, with its line, and is nothing to buy otherwise', () => {
  const comparison = to(['currency "EUR"', 'currency "CHF"']);
  expect(told(comparison)).toEqual(['All prices, currency: EUR → CHF < new 4']);
  expect(pointsOf(comparison)).toEqual([{ what: 'Buy otherwise', items: ['All prices: EUR → CHF'] }]);
  expect(errataOf(comparison)).toBeUndefined();
});
