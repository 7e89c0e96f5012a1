import { describe, expect, it } from 'vitest';
import { analyse, pattern, type Analysed } from '../support/spec.ts';
import { compared, edited, type Edit } from './edited.ts';

/** An invented pouch: a body with a pocket, and a strap. */
const spec = `length zip_l = 7
piece body "Body" {
  outline rectangle 9 by 7
  corner bottom round 1
  allowance top 1
  edge top hemmed 1/2
  edge bottom raw
  notch left at 2
  notch right at 2
  grain up
  cut 2 cloth
}
piece strap "Strap" {
  outline rectangle 2 by 30
  grain up
  cut 1 cloth
}
supply zip "Zip" {
  kind zip
  finished zip_l
  note "Its teeth are {zip.finished} long."
}
step "Hem the top. Set the zip, {zip.finished} long." does body.top, zip
`;

const facts = 'unit in\nallowance 1/4';
type Found = readonly (readonly [what: string, causes: readonly string[]])[];
const causes = (...edits: readonly Edit[]): Found =>
  compared(pattern(spec, facts).pattern, pattern(edited(spec, ...edits), facts).pattern).changes.map(({ subject, what, causes: all }) => [`${subject}, ${what}`, all.map(({ text, before }) => `${text} < ${before ?? ''}`)]);

describe('the line that a change comes from', () => {
  it('of a size is not how many are cut, nor what becomes of an edge', () => {
    const found = causes(['rectangle 2 by 30', 'rectangle 2 by 15'], ['cut 1 cloth', 'cut 2 cloth'], ['allowance top 1', 'allowance top 2'], ['hemmed 1/2', 'hemmed 3/4']);
    expect(found).toContainEqual(['Strap, Cloth: size', ['outline rectangle 2 by 15 < outline rectangle 2 by 30']]);
    expect(found).toContainEqual(['Strap, Cloth: count', ['cut 2 cloth < cut 1 cloth']]);
    expect(found).toContainEqual(['Body, seam allowance', ['allowance top 2 < allowance top 1']]);
  });

  it('of a hem is not how wide its allowance is', () => {
    expect(causes(['allowance top 1', 'allowance top 2'], ['hemmed 1/2', 'hemmed 3/4'])).toContainEqual(['Body, edges', ['edge top hemmed 3/4 < edge top hemmed 1/2']]);
  });

  it('stands beside the line that it took the place of', () => {
    const found = causes(['notch left at 2', 'notch left at 3'], ['notch right at 2', 'notch right at 4']);
    expect(found).toContainEqual(['Body, cutting line', ['notch left at 3 < notch left at 2', 'notch right at 4 < notch right at 2']]);
  });

  it('of a step is also what its sentence tells of a supply', () => {
    expect(causes(['zip_l = 7', 'zip_l = 8'])).toContainEqual(['Order of work, step', ['length zip_l = 8 < length zip_l = 7']]);
    expect(causes(['finished zip_l', 'finished 8'])).toContainEqual(['Order of work, step', ['finished 8 < finished zip_l']]);
  });

  it('is found where a note tells a measure of its own supply', () => {
    expect(causes(['zip_l = 7', 'zip_l = 8'])).toContainEqual(['Zip, size', ['length zip_l = 8 < length zip_l = 7']]);
  });

  it('of a template in another material is the cut line, and no line of either material', () => {
    expect(causes(['cut 2 cloth', 'cut 2 lining'])).toContainEqual(['Body, cutting line', ['cut 2 lining < cut 2 cloth']]);
  });

  it('of which side is up is what made the outline uneven', () => {
    const uneven = causes(['rectangle 2 by 30', 'polygon from 0, 0 to 2, 0 to 2, 30 to 0, 28']);
    expect(uneven.filter(([what]) => what === 'Strap, Cloth: which way up')).toEqual([['Strap, Cloth: which way up', ['outline polygon from 0, 0 to 2, 0 to 2, 30 to 0, 28 < outline rectangle 2 by 30']]]);
  });

  it('of the cloth that a seam names is the line by which that is cut', () => {
    const sewn = `${spec}piece flap "Flap" {\n  outline rectangle 2 by 5\n  cut 1 cloth\n}\nseam ends "Ends" = strap.top with flap.bottom\n`;
    const [was, now] = [sewn, edited(sewn, ['grain up\n  cut 1 cloth', 'grain up\n  cut 1 cloth\n  cut 1 lining'])].map((text) => pattern(text, facts).pattern) as [Analysed['pattern'], Analysed['pattern']];
    const seams = compared(was, now).changes.filter(({ what }) => what === 'seam');
    expect(seams).toMatchObject([{ subject: 'Ends', causes: [{ side: 'new', text: 'cut 1 lining' }] }]);
  });

  it('of what a file sets is found wherever that file stood', () => {
    const stood = (allowance: string, folder: string): Analysed['pattern'] => analyse(`allowance ${allowance}\n${spec}material cloth {\n  width 60\n}\n`, {}, `${folder}/pouch.piece`).pattern;
    const [change] = compared(stood('1/4', 'old'), stood('3/8', 'new')).changes.filter(({ group }) => group === 'sew');
    expect(change).toMatchObject({ subject: 'Body', what: 'finished size', causes: [{ text: 'allowance 3/8', before: 'allowance 1/4' }] });
  });
});
