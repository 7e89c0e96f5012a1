import { describe, expect, it } from 'vitest';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { resolvePath } from '../../server/src/model/names/paths.ts';
import { Analyst } from '../../server/src/model/pattern.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { analyse } from '../support/spec.ts';

describe('resolvePath', () => {
  it.each([
    ['a.piece', 'b.piece', 'b.piece'], ['bags/a.piece', 'b.piece', 'bags/b.piece'], ['bags/a.piece', '../b.piece', 'b.piece'],
    ['bags/a.piece', './more/b.piece', 'bags/more/b.piece'], ['bags/a.piece', 'more\\b.piece', 'bags/more/b.piece'],
    ['bags/a.piece', '..\\studio\\b.piece', 'studio/b.piece'], ['a.piece', 'x/../b.piece', 'b.piece'], ['a.piece', 'x//b.piece', 'x/b.piece'],
  ])('%s uses %s: %s', (from, written, path) => {
    expect(resolvePath(from, written)).toBe(path);
  });

  it.each([
    ['a.piece', '../b.piece'], ['bags/a.piece', '../../b.piece'], ['bags/a.piece', 'x/../../../b.piece'], ['a.piece', '..\\b.piece'],
    ['a.piece', '/b.piece'], ['a.piece', '\\b.piece'], ['a.piece', '\\\\host\\b.piece'], ['a.piece', 'C:\\b.piece'], ['a.piece', 'c:b.piece'],
    ['a.piece', ''], ['a.piece', '  '], ['a.piece', 'b\0.piece'],
  ])('%s must not use %j', (from, written) => {
    expect(resolvePath(from, written)).toBeUndefined();
  });
});

const head = 'pattern "T"\nrevision 1\nallowance none\n';

describe('used files', () => {
  it('share values, things, materials, choices and sizes', () => {
    const found = analyse(`${head}use "b.piece"\nlength mine = theirs * 2 + card.width\ncheck mine > 0`, {
      'b.piece': 'unit cm\nsizes S, L\nchoice lid is flap or zip\nlength theirs = 5 for S, 6 for L\nthing card = 3 by 2',
    });
    expect(found.codes).toEqual([]);
    expect([...found.pattern.choices.keys()]).toEqual(['size', 'lid']);
    expect(found.value('mine', { size: 'L' }).amount.valueOf()).toBe(150);
  });

  it('are found by way of others, relative to where they are named', () => {
    const found = analyse(`${head}use "lists/b.piece"\nlength mine = deep\ncheck mine = 3`, {
      'lists/b.piece': 'use "more/c.piece"', 'lists/more/c.piece': 'use "../d.piece"', 'lists/d.piece': 'length deep = 3',
    });
    expect(found.codes).toEqual([]);
    expect(found.pattern.world.files.map((file) => file.path)).toEqual(['test.piece', 'lists/b.piece', 'lists/more/c.piece', 'lists/d.piece']);
  });

  it('may be used twice, but not in a circle', () => {
    expect(analyse(`${head}use "b.piece"\nuse "c.piece"\ncheck v = 1`, { 'b.piece': 'use "d.piece"', 'c.piece': 'use "d.piece"', 'd.piece': 'length v = 1' }).codes).toEqual([]);
    const round = analyse(`${head}use "b.piece"`, { 'b.piece': 'use "c.piece"', 'c.piece': 'use "b.piece"' });
    expect(round.only('file-cycle').message).toBe('These files use each other in a circle: b.piece → c.piece → b.piece.');
    expect(analyse(`${head}use "test.piece"`).only('file-cycle').file).toBe('test.piece');
    expect(analyse(`${head}use "b.piece"`, { 'b.piece': 'use "test.piece"' }).only('file-cycle').file).toBe('b.piece');
  });

  it('are looked at anew where they are used again', () => {
    const library = libraryOf(new Map([['list.piece', 'length room = ease * 2\n']]));
    const analyst = new Analyst();
    const codes = (text: string, by = analyst): readonly string[] => by.analyse(parseFile('a.piece', text), library).problems.map(({ code }) => code);
    const using = 'unit in\nuse "list.piece"\n';
    const last = `${using}length ease = 1\n`;
    expect(codes(using)).toContain('unknown-name');
    codes('unit in\n');
    expect(codes(last)).toEqual(codes(last, new Analyst()));
    expect(codes(last)).not.toContain('unknown-name');
  });

  it('must be there, inside the folder', () => {
    expect(analyse(`${head}use "none.piece"`).only('missing-file').marked).toBe('"none.piece"');
    for (const path of ['../b.piece', '/etc/passwd', 'C:\\\\b.piece', '..\\\\b.piece']) {
      expect(analyse(`${head}use "${path}"`, { 'b.piece': '' }).only('file-outside').severity).toBe('error');
    }
  });

  it('keep their pieces, supplies and checks to themselves', () => {
    const found = analyse(`${head}use "b.piece"`, { 'b.piece': 'length w = 1\npiece a {\n  outline rectangle w by 1\n}\ncheck w > 5\nsupply s {\n  kind thread\n}' });
    expect(found.only('pieces-not-shared').severity).toBe('note');
    expect(found.codes).not.toContain('check-failed');
    expect(found.table().supplies).toEqual([]);
  });

  it('tell their own faults in their own file', () => {
    const found = analyse(`${head}use "b.piece"\nlength mine = theirs\ncheck mine > 0`, { 'b.piece': 'length theirs = 1 in + 45 deg' });
    const faults = found.problems.map((one) => [one.file, one.code]);
    expect(faults).toContainEqual(['b.piece', 'mixed-kinds']);
  });

  it('may not take a name that is taken', () => {
    const found = analyse(`${head}use "b.piece"\nlength w = 1\ncheck w = 1`, { 'b.piece': 'length w = 2' }).only('duplicate-name');
    expect([found.file, found.marked]).toEqual(['b.piece', 'w']);
  });
});

describe('facts', () => {
  it('are the pattern’s own', () => {
    const found = analyse('pattern "Mine"\nrevision 4\ncurrency "EUR"\nnote "One"\nnote "Two"\nuse "b.piece"', { 'b.piece': 'pattern "Theirs"\nrevision 9\nnote "Three"' });
    expect(found.pattern.world.facts).toMatchObject({ title: 'Mine', revision: '4', currency: 'EUR', notes: [{ sentence: { parts: ['One'] } }, { sentence: { parts: ['Two'] } }] });
    expect(found.table()).toMatchObject({ title: 'Mine', revision: '4', notes: ['One', 'Two'] });
  });

  it('count once, the first', () => {
    const found = analyse('pattern "One"\npattern "Two"\nrevision 1\nunit cm\nunit in');
    expect(found.codes).toEqual(['repeated-fact', 'repeated-fact']);
    expect(found.pattern.world.facts.title).toBe('One');
    expect(found.pattern.display.unit).toBe('cm');
  });

  it('are missed in a pattern, not in a list', () => {
    expect(analyse('piece a {\n  outline rectangle 1 by 1\n  allowance none\n}').codes).toEqual(expect.arrayContaining(['missing-title', 'missing-revision']));
    expect(analyse('length w = 1').codes).toEqual([]);
  });

  it.each([['in', '1/8'], ['in', '1/16'], ['in', '1/32'], ['in', '0.125'], ['mm', '1'], ['mm', '0.5'], ['cm', '0.1'], ['cm', '0.5'], ['cm', '1 mm']])('%s may step by %s', (unit, step) => {
    expect(analyse(`pattern "T"\nrevision 1\nunit ${unit}\nstep ${step}`).codes).toEqual([]);
  });

  it.each([['in', '1/10'], ['in', '1/64'], ['mm', '2'], ['in', '1/16 + 1/16'], ['in', '45 deg'], ['in', '1/0']])('%s may not step by %s', (unit, step) => {
    expect(analyse(`pattern "T"\nrevision 1\nunit ${unit}\nstep ${step}`).codes).toEqual(['bad-step']);
  });
});
