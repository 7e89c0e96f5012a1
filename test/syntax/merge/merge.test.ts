import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mergeSpecs } from '../../../server/src/syntax/merge/merge.ts';
import { parseFile } from '../../../server/src/syntax/parse.ts';
import { printDeclaration, printFile } from '../../../server/src/syntax/print.ts';

const marking = { ours: 'ours', theirs: 'theirs', size: 7 };
const merged = (base: string, ours: string, theirs: string): { text: string; conflicts: number } => mergeSpecs(base, ours, theirs, marking);

const base = `# A bag.
pattern "Bag"
revision 1

length w = 3
length h = 4

piece front "Front" {
  outline rectangle w by h
  grain up
  cut 1 canvas
}

piece back "Back" {
  outline rectangle w by h
  cut 1 canvas
}
`;
const wide = base.replace('w = 3', 'w = 5');
const tall = base.replace('h = 4', 'h = 6');

describe('merging by declaration', () => {
  it('takes what either side has changed, beside one another as well', () => {
    expect(merged(base, wide, tall)).toEqual({ text: wide.replace('h = 4', 'h = 6'), conflicts: 0 });
  });

  it('takes a changed declaration to where the other side has moved it', () => {
    const [head = '', front = '', back = ''] = base.split(/\n(?=piece)/);
    const moved = `${head}\n${back}\n${front}`;
    expect(merged(base, base.replace('cut 1', 'cut 2'), moved)).toEqual({ text: moved.replace(/(piece front[^}]*)cut 1/, '$1cut 2'), conflicts: 0 });
    expect(merged(base, moved, base.replace('cut 1', 'cut 2')).text).toContain(front.replace('cut 1', 'cut 2').trimEnd());
  });

  it('keeps what both add at one place, ours first', () => {
    const flap = '\npiece flap {\n  outline rectangle 1 by 1\n}\n';
    const strap = '\npiece strap {\n  outline rectangle 9 by 1\n}\n';
    expect(merged(base, base + flap, base + strap)).toEqual({ text: base + flap + strap, conflicts: 0 });
    expect(merged(base, base + flap, base + flap)).toEqual({ text: base + flap, conflicts: 0 });
  });

  it('merges two changes of one declaration line by line, and marks only the lines that differ', () => {
    expect(merged(base, base.replace('outline rectangle w by h\n  grain', 'outline rectangle w by 2\n  grain'), base.replace('cut 1', 'cut 2'))).toMatchObject({ conflicts: 0 });
    const { text, conflicts } = merged(base, wide.replace('cut 1', 'cut 2'), tall.replace('cut 1', 'cut 3'));
    expect(conflicts).toBe(1);
    expect(text).toBe(wide.replace('h = 4', 'h = 6').replace('  cut 1 canvas\n', '<<<<<<< ours\n  cut 2 canvas\n=======\n  cut 3 canvas\n>>>>>>> theirs\n'));
  });

  it('lets a change stand where the other side has only laid it out anew', () => {
    const loose = base.replace(/^ {2}/gm, '\t').replace(/ by /g, '  by  ');
    expect(merged(base, loose, wide.replace('cut 1', 'cut 2'))).toMatchObject({ conflicts: 0 });
    const both = merged(base, loose.replace('rectangle w', 'rectangle 9'), base.replace('cut 1', 'cut 2'));
    expect(both.conflicts).toBe(0);
    expect(both.text).toContain('{\n  outline rectangle 9 by h\n  grain up\n  cut 2 canvas\n}');
  });

  it('asks where one side has taken away what the other has changed', () => {
    const without = base.replace(/\npiece back[^]*$/, '');
    expect(merged(base, without, wide)).toEqual({ text: without.replace('w = 3', 'w = 5'), conflicts: 0 });
    const { text, conflicts } = merged(base, without, base.replace(/(piece back[^]*)cut 1/, '$1cut 2'));
    expect([conflicts, text.includes('<<<<<<< ours\n=======\n\npiece back')]).toEqual([1, true]);
  });

  it('keeps comments with what they stand before, and after the last declaration', () => {
    const noted = `${base.replace('length h', '# How tall.\nlength h')}# The end.\n`;
    expect(merged(base, noted, wide)).toEqual({ text: noted.replace('w = 3', 'w = 5'), conflicts: 0 });
  });

  it('keeps the line ends of ours, and needs none at the end', () => {
    expect(merged(base, wide.replaceAll('\n', '\r\n'), tall)).toEqual({ text: wide.replace('h = 4', 'h = 6').replaceAll('\n', '\r\n'), conflicts: 0 });
    expect(merged('length a = 1', 'length a = 1\nlength b = 2', 'length a = 1\nlength c = 3')).toEqual({ text: 'length a = 1\nlength b = 2\nlength c = 3\n', conflicts: 0 });
  });

  it('tells checks and notes apart by what they say', () => {
    const checks = 'check w < 4\ncheck h < 5\nnote "One."\nnote "Two."\n';
    expect(merged(checks, checks.replace('check w < 4\n', ''), checks.replace('note "One."\n', 'note "Other."\n'))).toEqual({ text: 'check h < 5\nnote "Other."\nnote "Two."\n', conflicts: 0 });
    expect(merged(checks, checks.replace('check w < 4\n', ''), checks.replace('h < 5', 'h < 6'))).toEqual({ text: 'check h < 6\nnote "One."\nnote "Two."\n', conflicts: 0 });
  });

  it('leaves what both say alike outside of the marks', () => {
    const of = (cut: string): string => `piece a {\n  grain bias\n  ${cut}\n  note "New."\n}\n`;
    expect(merged('piece a {\n}\n', of('cut 1 felt'), of('cut 2 felt')).text)
      .toBe(of('X').replace('  X\n', '<<<<<<< ours\n  cut 1 felt\n=======\n  cut 2 felt\n>>>>>>> theirs\n'));
  });

  it('keeps what an earlier merge has left', () => {
    const left = base.replace('  cut 1', '<<<<<<< a\n  cut 5 canvas\n=======\n  cut 6 canvas\n>>>>>>> b\n  cut 1');
    expect(merged(base, left, wide)).toEqual({ text: left.replace('w = 3', 'w = 5'), conflicts: 0 });
  });

  it('makes marks as long as git asks for', () => {
    expect(mergeSpecs('length a = 1\n', 'length a = 2\n', 'length a = 3\n', { ours: 'o', theirs: 't', size: 9 }).text)
      .toBe('<<<<<<<<< o\nlength a = 2\n=========\nlength a = 3\n>>>>>>>>> t\n');
  });
});

/** A text of values in some order, by number: what each says. */
const values = fc.uniqueArray(fc.record({ name: fc.integer({ min: 0, max: 12 }), says: fc.integer({ min: 1, max: 3 }) }), { selector: ({ name }) => name, maxLength: 10 });
const written = (list: readonly { name: number; says: number }[]): string => list.map(({ name, says }) => `length v${name} = ${says}\n`).join('');
const declarations = (text: string): readonly string[] => parseFile('', text).declarations.map(({ declaration }) => printDeclaration(declaration.tree)).sort();

describe('any three texts', () => {
  it('give the other side where one is as it was, and what both say where both say the same', () => {
    fc.assert(fc.property(values, values, (one, other) => {
      const [a, b] = [written(one), written(other)];
      expect(merged(a, a, b)).toEqual({ text: b, conflicts: 0 });
      expect(merged(a, b, a)).toEqual({ text: b, conflicts: 0 });
      expect(merged(a, b, b)).toEqual({ text: b, conflicts: 0 });
    }));
  });

  it('give the same declarations whichever side is ours, where nothing is to be chosen', () => {
    fc.assert(fc.property(values, values, values, (one, two, three) => {
      const [left, right] = [merged(written(one), written(two), written(three)), merged(written(one), written(three), written(two))];
      expect(left.conflicts).toBe(right.conflicts);
      if (left.conflicts === 0) expect(declarations(left.text)).toEqual(declarations(right.text));
    }));
  });

  it('lose nothing: each declaration is merged as a merge of it alone', () => {
    fc.assert(fc.property(values, values, values, (one, two, three) => {
      const whole = merged(written(one), written(two), written(three));
      const only = (list: typeof one, name: number): string => written(list.filter((value) => value.name === name));
      const apart = Array.from({ length: 13 }, (_, name) => merged(only(one, name), only(two, name), only(three, name)));
      expect(whole.conflicts).toBe(apart.reduce((sum, { conflicts }) => sum + conflicts, 0));
      expect(whole.text.split('\n').sort()).toEqual(apart.map(({ text }) => text).join('').split('\n').sort());
    }));
  });

  it('give a canonical text where all three are canonical and nothing is to be chosen', () => {
    fc.assert(fc.property(values, values, values, (one, two, three) => {
      const { text, conflicts } = merged(written(one), written(two), written(three));
      if (conflicts === 0) expect(printFile(parseFile('', text))).toBe(text);
    }));
  });
});
