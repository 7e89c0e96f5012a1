import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { pattern } from '../support/spec.ts';
import { compared, edited, pointOf, tasksOf, type Edit } from './edited.ts';

/** An invented bag for marbles: a half that lies on the fold, uneven tabs, a lining that may be left out. */
const spec = `choice lined is yes or no
piece half "Half" {
  outline path from 0, 0 {
    line to 4, 0
    line to 3, 7
    close as middle
  }
  on fold middle
  grain up
  this way up
  cut 1 cloth on fold
  cut 1 lining when lined is yes
}
piece tab "Tab" {
  outline polygon from 0, 0 to 3, 0 to 3, 1 to 0, 2
  grain up
  cut 2 cloth
}
`;
const to = (...edits: readonly Edit[]): Comparison => compared(pattern(spec).pattern, pattern(edited(spec, ...edits)).pattern);
const headings = (comparison: Comparison): readonly string[] => Object.keys(tasksOf(errataOf(comparison)));
const cutAgain = 'Cut these pieces again';

describe('what was cut serves, and is not to be cut again,', () => {
  it.each([
    ['where it is no longer cut on the fold', ['cut 1 cloth on fold', 'cut 1 cloth'], 'Half (Cloth: on the fold): yes → no'],
    ['where its grain no longer matters', ['  grain up\n  cut 2 cloth', '  grain none\n  cut 2 cloth'], 'Tab (Cloth: grain): along its height → any'],
    ['where its grain may also run across', ['  grain up\n  cut 2 cloth', '  grain up or across\n  cut 2 cloth'], 'Tab (Cloth: grain): along its height → along its height or its width'],
    ['where either end may be up', ['  this way up\n', ''], 'Half (Cloth: way of the print): this way up → either end up'],
  ] as const)('%s', (_, change, item) => {
    const comparison = to(change);
    expect(comparison.same).toBe(false);
    expect(pointOf(comparison, 'Recut')).toEqual([]);
    expect(pointOf(comparison, 'No longer cut')).toEqual([]);
    expect(pointOf(comparison, 'Cut otherwise, and what is cut serves')).toContain(item);
    expect(headings(comparison)).not.toContain(cutAgain);
    expect(headings(comparison)).not.toContain('Don’t cut these any more');
  });

  it.each([
    ['where its grain runs another way', ['  grain up\n  cut 2 cloth', '  grain across\n  cut 2 cloth'], 'Tab'],
    ['where it is cut as a pair', ['cut 2 cloth', 'cut 2 cloth twins'], 'Tab'],
    ['where it is of another material', ['cut 2 cloth', 'cut 2 cork'], 'Tab'],
  ] as const)('but not %s', (_, change, item) => {
    const comparison = to(change);
    expect(pointOf(comparison, 'Recut')).toEqual([item]);
    expect(pointOf(comparison, 'No longer cut')).toEqual([]);
    expect(headings(comparison)).toContain(cutAgain);
  });
});

describe('a template without an arrow along the grain', () => {
  const leaf = (cuts: string): string => `piece leaf "Leaf" {\n  outline polygon from 0, 0 to 3, 0 to 3, 1 to 0, 2\n  grain up\n${cuts}}\n`;
  const turned = (cuts: string): readonly string[] => compared(pattern(leaf(cuts)).pattern, pattern(edited(leaf(cuts), ['grain up', 'grain across'])).pattern).changes.map(({ group, what }) => `${group} ${what}`);

  it('serves where the grain is turned', () => {
    expect(turned('  cut 1 cork\n')).toEqual([]);
  });

  it('is another one where cloth with a grain is cut by it, too, in whatever order', () => {
    expect(turned('  cut 1 cork\n  cut 1 cloth\n')).toEqual(['cut Cloth: grain', 'template cutting line']);
    expect(turned('  cut 1 cloth\n  cut 1 cork\n')).toEqual(['cut Cloth: grain', 'template cutting line']);
  });
});

describe('a template that two materials are cut by', () => {
  it('is still needed where only one of them is, and new only where it was not', () => {
    const without = to(['  cut 1 lining when lined is yes\n', '']);
    const written = { group: 'template', kind: 'changed', subject: 'Half', now: 'the same outline; what to cut by it, as it is written there, has changed', when: 'lined is yes', causes: [{ side: 'old', text: 'cut 1 lining when lined is yes' }] };
    expect(without.changes.filter(({ group }) => group === 'template')).toMatchObject([written]);
    expect(headings(without)).not.toContain('These templates are not needed any more');
    const always = to(['cut 1 lining when lined is yes', 'cut 1 lining']);
    expect(always.changes.filter(({ group }) => group === 'template')).toMatchObject([{ ...written, when: 'lined is no', causes: [{ side: 'new', text: 'cut 1 lining' }] }]);
  });

  it('is told once where both are cut to another outline', () => {
    expect(to(['line to 3, 7', 'line to 3, 8']).changes.filter(({ group }) => group === 'template').map(({ now, when }) => [now, when])).toEqual([['another outline', undefined]]);
  });
});

describe('the page of a plain rectangle, by which it may be cut,', () => {
  /** An invented pocket: a plain rectangle with a pleat, which is cut to measure or by its page. */
  const pocket = (size: string, at = '4', more = ''): string => `piece pocket "Pocket" {\n  outline rectangle ${size}\n  pleat fold "Fold" on top at ${at} deep 1/2 towards start\n  cut 1 cloth\n}\n${more}`;
  const reprinted = (was: string, now: string): readonly string[] => pointOf(compared(pattern(was).pattern, pattern(now).pattern), 'Reprint');

  it.each([
    ['where its size is another', pocket('9 by 6')],
    ['where what is drawn on it is elsewhere', pocket('8 by 6', '5')],
    ['where another number is cut by it', pocket('8 by 6').replace('cut 1', 'cut 2')],
  ])('is asked for again %s', (_, now) => {
    const comparison = compared(pattern(pocket('8 by 6')).pattern, pattern(now).pattern);
    expect(pointOf(comparison, 'Reprint')).toEqual(['Pocket (cutting line, unless cut to measure)']);
    expect(tasksOf(errataOf(comparison))['Print these templates again']).toEqual(['Pocket, cutting line, unless cut to measure']);
  });

  it('is not asked for where it is as before, or the piece is new or gone, since its size is told', () => {
    const patch = 'piece patch "Patch" {\n  outline rectangle 3 by 3\n  cut 1 cloth\n}\n';
    expect(reprinted(pocket('8 by 6'), pocket('8 by 6', '4', patch))).toEqual([]);
    expect(reprinted(pocket('8 by 6', '4', patch), pocket('8 by 6'))).toEqual([]);
    expect(headings(compared(pattern(pocket('8 by 6', '4', patch)).pattern, pattern(pocket('8 by 6')).pattern))).not.toContain('These templates are not needed any more');
  });

  it('is asked for without another way to cut it where it needs a template now', () => {
    expect(reprinted(pocket('8 by 6'), pocket('8 by 6').replace('8 by 6', '8 by 6\n  corner bottom round 1'))).toEqual(['Pocket (cutting line)']);
  });
});
