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

  it('merges changes of lines beside one another in one piece, each being a fact of its own', () => {
    const [ours, theirs] = [base.replace('rectangle w by h\n  grain', 'rectangle w by 9\n  grain'), base.replace('grain up\n  cut 1', 'grain across  # Firmer.\n  cut 1')];
    expect(merged(base, ours, theirs)).toEqual({ text: ours.replace('grain up', 'grain across  # Firmer.'), conflicts: 0 });
    // A side that was only laid out anew as well.
    const loose = ours.replace(/^ {2}/gm, '\t');
    expect(merged(base, loose, theirs)).toMatchObject({ conflicts: 0, text: expect.stringContaining('  outline rectangle w by 9\n  grain across  # Firmer.\n') });
  });

  it('asks where it can’t be told what has become of a fact', () => {
    const of = (...cuts: readonly string[]): string => `piece a {\n  outline rectangle 1 by 1\n${cuts.map((cut) => `  ${cut}\n`).join('')}}\n`;
    // Both have made another of one cut line; one has made another of what the other took away; both have taken one of two alike.
    expect(merged(of('cut 1 canvas'), of('cut 1 felt'), of('cut 1 cork')).conflicts).toBe(1);
    expect(merged(of('cut 1 canvas'), of('cut 1 felt'), of()).conflicts).toBe(1);
    const notches = of('notch top at 1', 'notch top at 2');
    expect(merged(notches, of('notch top at 2'), of('notch top at 1')).text).not.toContain('notch');
    expect(merged(notches, of('notch top at 1/2', 'notch top at 2'), of('notch top at 1', 'notch top at 3'))).toEqual({ text: of('notch top at 1/2', 'notch top at 3'), conflicts: 0 });
    expect(merged(notches, of('notch top at 1/2', 'notch top at 2'), of('notch top at 1/4', 'notch top at 2')).conflicts).toBe(1);
  });

  it('makes marks as long as git asks for', () => {
    expect(mergeSpecs('length a = 1\n', 'length a = 2\n', 'length a = 3\n', { ours: 'o', theirs: 't', size: 9 }).text)
      .toBe('<<<<<<<<< o\nlength a = 2\n=========\nlength a = 3\n>>>>>>>>> t\n');
  });
});

/** What a piece says of each thing: one of a few numbers, or nothing. */
const facts = ['outline rectangle # by 9', 'allowance #', 'line core = inset #', 'notch top at #', 'notch left at #', 'mark eye at #, 1', 'note "#"', 'cut # canvas', 'cut # felt along core'];
const saying = fc.array(fc.option(fc.integer({ min: 1, max: 3 }), { nil: undefined, freq: 6 }), { minLength: facts.length, maxLength: facts.length });
const linesIn = (says: readonly (number | undefined)[]): readonly string[] => facts.flatMap((fact, at) => (says[at] === undefined ? [] : [`  ${fact.replace('#', String(says[at]))}`]));
const pieceSaying = (says: readonly (number | undefined)[]): string => `piece a {\n${linesIn(says).map((line) => `${line}\n`).join('')}}\n`;

describe('any two changes of one piece', () => {
  it('are both in what is merged, or something is to be chosen: never is one lost', () => {
    let [whole, chosen] = [0, 0];
    fc.assert(fc.property(saying, saying, saying, fc.array(fc.constantFrom(0, 1, 2), { minLength: facts.length, maxLength: facts.length }), (was, one, other, by) => {
      // Of most facts at most one side says otherwise.
      const [ours, theirs] = [was.map((says, at) => (by[at] === 1 ? one[at] : says)), was.map((says, at) => (by[at] === 2 || (by[at] === 1 && one[at] === 3) ? other[at] : says))];
      const isFree = was.map((says, at) => ours[at] === theirs[at] || ours[at] === says || theirs[at] === says);
      const { text, conflicts } = merged(pieceSaying(was), pieceSaying(ours), pieceSaying(theirs));
      if (conflicts > 0) {
        chosen++;
        return;
      }
      whole++;
      expect(isFree.every(Boolean)).toBe(true);
      const both = was.map((says, at) => (ours[at] === says ? theirs[at] : ours[at]));
      expect(text.split('\n').sort()).toEqual(pieceSaying(both).split('\n').sort());
    }), { numRuns: 700 });
    expect(Math.min(whole, chosen)).toBeGreaterThan(70);
  });

  it('need no choice where each changes numbers of its own', () => {
    const all = fc.array(fc.integer({ min: 1, max: 3 }), { minLength: facts.length, maxLength: facts.length });
    fc.assert(fc.property(all, all, fc.array(fc.boolean(), { minLength: facts.length, maxLength: facts.length }), (was, now, isOurs) => {
      const side = (ours: boolean): string => pieceSaying(was.map((says, at) => (isOurs[at] === ours ? now[at] : says)));
      expect(merged(pieceSaying(was), side(true), side(false))).toEqual({ text: pieceSaying(now), conflicts: 0 });
    }), { numRuns: 200 });
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
