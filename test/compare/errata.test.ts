import { describe, expect, it } from 'vitest';
import { errataOf } from '../../server/src/compare/errata.ts';
import { errataText } from '../../server/src/formats/errata.ts';
import { patternOf } from '../support/samples.ts';
import { materials, spec } from './changes.ts';
import { compared, tasksOf } from './edited.ts';

const notice = (change: (text: string) => string, stock = (text: string): string => text): ReturnType<typeof errataOf> =>
  errataOf(compared(patternOf(spec, { 'stock.piece': materials }), patternOf(change(spec), { 'stock.piece': stock(materials) })));
const raised = (text: string): string => text.replace('revision 1', 'revision 2');

describe('a notice to those who have the earlier revision', () => {
  it('says what to print, cut, buy and sew otherwise, and for which sizes', () => {
    const one = notice((text) => raised(text).replace('3 1/2 for S', '3 3/4 for S').replace('cut 2 foam', 'cut 12 foam'));
    expect(one?.title).toBe('Glasses case: what changed since revision 1');
    expect(tasksOf(one)).toMatchObject({
      'Cut another number of these': ['Body, from Foam: count 12, in place of 2'],
      'Buy these amounts in place of the earlier ones': [expect.stringMatching(/^Foam: \S+ yd, in place of 1\/8 yd/), expect.stringMatching(/^Zip: finished 3 3\/4 in .*, in place of finished 3 1\/2 in .* \(only where lid is zip, size is S\)$/)],
    });
    expect(tasksOf(one)['Print these templates again']).toContain('Body, cutting line (only where size is S)');
    expect(tasksOf(one)['Cut these pieces again']).toContain('Inside, from Lining: size 4 1/2 in (about 11.4 cm) × 7 3/4 in (about 19.7 cm), in place of 4 1/4 in (about 10.8 cm) × 7 3/4 in (about 19.7 cm) (only where size is S)');
  });

  it('calls choices and options by their titles', () => {
    const titled = (text: string): string => text.replace('choice lid is flap or zip', 'choice lid "Closing" is flap or zip "A zip"');
    const one = notice((text) => titled(raised(text)).replace('3 1/2 for S', '3 3/4 for S'));
    expect(tasksOf(one)['Buy these amounts in place of the earlier ones']).toContainEqual(expect.stringMatching(/\(only where Closing is A zip, size is S\)$/));
  });

  it('names a template once where it is another in all sizes', () => {
    const one = notice((text) => raised(text).replace('case_h = 7', 'case_h = 8'));
    expect(tasksOf(one)['Print these templates again']).toEqual(['Body, cutting line', 'Body, padding', 'Inside, cutting line, unless cut to measure']);
  });

  it('has no names of the spec, no paths and no lines', () => {
    const one = notice((text) => raised(text).replace('3 1/2 for S', '3 3/4 for S').replace('case_h = 7', 'case_h = 8'));
    expect(one === undefined ? '' : errataText(one, 'text')).not.toMatch(/case_[wh]|\.piece|_/);
  });

  it.each([
    ['a revision alone', raised, undefined],
    ['another order of words', (text: string) => text.replace('case_h = 7', 'case_h = 14/2'), undefined],
    ['another price', raised, (text: string) => text.replace('price 12', 'price 14')],
    ['a title', (text: string) => raised(text).replace('"Glasses case"', '"Case"'), undefined],
    ['a size that was added', (text: string) => raised(text).replace('sizes S, L', 'sizes S, L, XL').replace('4 for L', '4 for L, 5 for XL'), undefined],
  ])('is none for %s', (_, change, stock) => { expect(notice(change, stock)).toBeUndefined(); });

  it('tells other titles beside what is to be done, and no other names', () => {
    const change = (text: string): string => text.replace('"Inside"', '"Pocket"').replaceAll('case_h', 'tall').replaceAll('piece flap', 'piece lappet');
    expect(notice(change)).toBeUndefined();
    expect(tasksOf(notice((text) => change(raised(text).replace('cut 2 foam', 'cut 4 foam'))))['These have another title']).toEqual(['Pocket, which was Inside']);
  });

  it('tells what is bought otherwise, whatever its price', () => {
    const one = notice((text) => raised(text).replace('cut 2 lining', 'cut 20 lining'), (text) => text.replace('price 8', 'price 9'));
    expect(tasksOf(one)['Buy these amounts in place of the earlier ones']?.[0]).toMatch(/^Lining: \S+ yd, in place of \S+ yd/);
    expect(one === undefined ? '' : errataText(one, 'markdown')).not.toContain('EUR');
  });

  it('says of a piece with another window or outline that its size is as before', () => {
    const one = notice((text) => raised(text).replace('corner top round 3/4', 'corner top round 1'));
    expect(tasksOf(one)['Cut these pieces again']).toContainEqual(expect.stringMatching(/^Body, from Canvas: shape within [^,]* as before, with another outline/));
  });

  it('lets no title break out of Markdown', () => {
    const one = notice((text) => raised(text).replace('"Body"', '"<b>*Body*"').replace('cut 2 foam', 'cut 4 foam'));
    const written = one === undefined ? '' : errataText(one, 'markdown');
    expect(written).toContain('&lt;b&gt;\\*Body\\*');
    expect(written).not.toContain('<b>');
  });
});
