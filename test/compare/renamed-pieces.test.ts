import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { analyse } from '../support/spec.ts';
import { compared, edited, pointOf, tasksOf, type Edit } from './edited.ts';

/** An invented case for knitting needles. */
const spec = `pattern "Needle case"
revision 1
unit cm
allowance 1
length wide = 20
material cloth "Cloth" {
  width 110
}
piece front "Front" {
  outline rectangle wide by 30
  edge left raw
  edge right raw
  edge bottom raw
  cut 1 cloth
}
piece flap "Flap" {
  outline rectangle wide by 8
  edge left raw
  edge right raw
  edge top raw
  cut 1 cloth
}
piece tab "Tab" {
  outline rectangle 4 by 6
  edge all raw
  cut 2 cloth
}
seam join "Join" = flap.bottom with front.top
`;
const raised: Edit = ['revision 1', 'revision 2'];
const to = (was: string, ...edits: readonly Edit[]): Comparison => compared(analyse(was, {}).pattern, analyse(edited(was, raised, ...edits), {}).pattern);
const told = (comparison: Comparison): readonly unknown[] => [comparison.renamed.map(({ was, now }) => `${was} → ${now}`), pointOf(comparison, 'Recut'), pointOf(comparison, 'Cut anew'), pointOf(comparison, 'No longer cut')];
const renamed: readonly Edit[] = [['piece flap "Flap"', 'piece lid "Lid"'], ['flap.bottom', 'lid.bottom']];

describe('a piece under another name and of another size', () => {
  it('is the same where it is sewn to the same edges', () => {
    const comparison = to(spec, ...renamed, ['wide by 8', 'wide by 9']);
    expect(told(comparison)).toEqual([['Flap → Lid'], ['Lid'], [], []]);
    expect(comparison.changes.filter(({ group, kind }) => group === 'cut' && kind === 'changed').map(({ was, now, causes }) => [was, now, causes.map(({ text }) => text)])).toEqual([['20 cm (about 7 7/8 in) × 8 cm (about 3 1/8 in)', '20 cm (about 7 7/8 in) × 9 cm (about 3 1/2 in)', ['outline rectangle wide by 9']]]);
    expect(tasksOf(errataOf(comparison))).toMatchObject({ 'Cut these pieces again': ['Lid, from Cloth: size 20 cm (about 7 7/8 in) × 9 cm (about 3 1/2 in), in place of 20 cm (about 7 7/8 in) × 8 cm (about 3 1/8 in)'], 'These have another title': ['Lid, which was Flap'] });
  });

  it('is the same where what it is sewn to only has another name', () => {
    expect(told(to(spec, ...renamed, ['wide by 8', 'wide by 9'], ['piece front "Front"', 'piece face "Face"'], ['front.top', 'face.top']))).toEqual([['Front → Face', 'Flap → Lid'], ['Lid'], [], []]);
  });

  it('is the same where it is sewn to nothing and has the same title', () => {
    expect(told(to(spec, ['piece tab', 'piece loop'], ['4 by 6', '4 by 7']))).toEqual([['tab → loop'], ['Tab'], [], []]);
  });

  it.each<[string, readonly Edit[]]>([
    ['where it is sewn to another edge', [...renamed, ['wide by 8', 'wide by 9'], ['front.top', 'front.bottom'], ['edge bottom raw', 'edge top raw']]],
    ['where another edge of it is sewn', [['piece flap "Flap"', 'piece lid "Lid"'], ['flap.bottom', 'lid.top'], ['edge top raw', 'edge bottom raw'], ['wide by 8', 'wide by 9']]],
    ['where another number is cut', [...renamed, ['wide by 8', 'wide by 9'], [/edge top raw\n {2}cut 1/, 'edge top raw\n  cut 2']]],
  ])('is another one %s', (_, edits) => {
    const [names, recut, anew, gone] = told(to(spec, ...edits));
    expect([names, recut, anew, gone]).toEqual([[], [], ['Lid (Cloth)'], ['Flap (Cloth)']]);
  });

  it('is another one where it has another title and is sewn to nothing', () => {
    expect(told(to(spec, ['piece tab "Tab"', 'piece loop "Loop"'], ['4 by 6', '4 by 7']))).toEqual([[], [], ['Loop (Cloth)'], ['Tab (Cloth)']]);
  });

  it('is not guessed at where there are two that it could be', () => {
    const two = `${spec}piece tab_b "Tab" {\n  outline rectangle 4 by 9\n  edge all raw\n  cut 2 cloth\n}\n`;
    expect(told(to(two, ['piece tab "Tab"', 'piece loop "Tab"'], ['4 by 6', '4 by 7'], ['piece tab_b', 'piece loop_b'], ['4 by 9', '4 by 10']))).toEqual([[], [], ['Tab (Cloth)'], ['Tab (Cloth)']]);
  });
});
