import { describe, expect, it, vi } from 'vitest';
import { diagnose } from '../../server/src/language/diagnostics.ts';
import { limits } from '../../server/src/problems/limits.ts';
import { nameUses } from '../../server/src/syntax/walk.ts';
import { Workspace } from '../../server/src/workspace/workspace.ts';
import type { Snapshot } from '../../server/src/workspace/snapshot.ts';
import { brokenLines, chainOfFiles, choosing, circle, head, mainPath, sumOfFractions, unknownNames, type HostileInput } from '../support/hostile/inputs.ts';

/**
 * Small texts that took minutes and gigabytes. Nothing is timed here: each would end the test by its own weight if its
 * limit were gone. `npm run fuzz` measures.
 */
function read(input: string | HostileInput): Snapshot {
  const { others, texts } = typeof input === 'string' ? { others: new Map<string, string>(), texts: [input] } : input;
  const workspace = new Workspace();
  for (const [path, text] of others) workspace.setDisk(path, text);
  workspace.open(mainPath, texts.at(-1) ?? '');
  const snapshot = workspace.snapshot(mainPath);
  if (snapshot === undefined) throw new Error('no snapshot');
  return snapshot;
}

const told = (snapshot: Snapshot): readonly string[] => diagnose(snapshot).map(({ found, message, start, end }) => `${found.code} at ${snapshot.file.text.slice(start, end)}: ${message}`);
const count = (snapshot: Snapshot, code: string): number => snapshot.pattern.problems.filter((one) => one.code === code).length;

const tooMany = 'This is a number of more than 100 digits, but a simpler one is needed here.';

describe('names of many parts', () => {
  it('keep the owners that anything can have, not all that stand before them', () => {
    const { file } = read(`length a = 1\nlength w = a${'.a'.repeat(5000)}\n`);
    const kept = file.declarations.flatMap(({ declaration }) => nameUses(declaration.tree)).reduce((sum, { path }) => sum + path.length, 0);
    expect(kept).toBeLessThan(5000 * 10);
  });
});

describe('numbers', () => {
  it('sums of fractions stop at a number of digits', () => {
    const said = told(read(sumOfFractions(60, 40, '+')));
    expect(said.filter((one) => one.startsWith('wrong-kind'))).toEqual([expect.stringContaining(tooMany)]);
  });

  it('sums up to that are exact', () => {
    const { pattern } = read('ratio a = 1/7 + 1/11 + 1/13 + 1/1000000007\n');
    expect(pattern.value('a', new Map())?.amount.toFraction()).toBe('311000003178/1001000007007');
  });

  it.each([
    ['around of a number of 304 digits', `length w = around(1${'0'.repeat(303)})\n`],
    ['a number of 15,000 digits', `length w = ${'7'.repeat(15_000)}\n`],
    ['a fraction of as many', `ratio r = 1/${'7'.repeat(15_000)}\n`],
    ['an angle of 400 digits', `angle a = 1${'0'.repeat(400)} deg\n`],
    ['grain of 400 digits', `piece a {\n  outline polygon from 0, 0 to 4, 0 to 2, 5\n  grain 1${'0'.repeat(400)} deg\n  cut 1 canvas\n}\n`],
  ])('%s', (_, text) => {
    const said = told(read(head + text)).filter((one) => !/^(?:unused|never)/.test(one));
    expect(said).toEqual([expect.stringMatching(/^wrong-kind at .*more than 100 digits/)]);
  });

  it('a count of a thousand million', () => {
    const piece = 'piece a {\n  outline rectangle 3 by 3\n  grain up\n  cut 1000000000 canvas\n}\n';
    expect(told(read(head + piece))).toEqual(['wrong-kind at 1000000000: This is a count of more than 10,000, but a smaller one is needed here.']);
  });
});

describe('names', () => {
  it('three thousand unknown ones among three thousand', () => {
    const snapshot = read(unknownNames(3000, 3000, 'v'));
    expect(count(snapshot, 'unknown-name')).toBeGreaterThan(100);
    expect(snapshot.pattern.problems.find((one) => one.code === 'unknown-name')?.fixes).toHaveLength(1);
  });

  it('two of twenty thousand letters', () => {
    const long = 'n'.repeat(18_000);
    const found = read(`length ${long} = 1\nlength b = ${long}x\n`).pattern.problems.find((one) => one.code === 'unknown-name');
    expect(found?.fixes).toEqual([]);
  });

  it('a circle of five thousand names a few for each', () => {
    const snapshot = read(circle(5000));
    const cycle = snapshot.pattern.problems.find((one) => one.code === 'cycle');
    expect(cycle?.message).toMatch(/^This goes round in a circle: it is one of 5,000 names that need one another, as do “v1”, .*\.$/);
    expect(Math.max(...snapshot.pattern.problems.map((one) => one.message.length))).toBeLessThan(200);
  });

  it('in a small circle each is told its own way round', () => {
    const messages = read('length a = b\nlength b = c + d\nlength c = a\nlength d = b\n').pattern.problems.filter((one) => one.code === 'cycle').map((one) => one.message);
    expect(messages).toEqual([
      'This goes round in a circle: “a” needs “b” needs “c” needs “a”.',
      'This goes round in a circle: “b” needs “d” needs “b”.',
      'This goes round in a circle: “c” needs “a” needs “b” needs “c”.',
      'This goes round in a circle: “d” needs “b” needs “d”.',
    ]);
  });
});

describe('choices', () => {
  it('ten of two options each, of which a hundred pieces hang on all', () => {
    const snapshot = read(choosing(10, 2, 100));
    expect(count(snapshot, 'too-many-ways')).toBe(100);
    expect(snapshot.pattern.problems.find((one) => one.code === 'too-many-ways')?.message).toBe('This hangs on so many choices that only the first 24 of its 1024 combinations are checked.');
  });

  it('five of two options each, of which 1,800 pieces hang on all: as many pieces as there are leave less for each', () => {
    const snapshot = read(choosing(5, 2, 1800));
    expect(snapshot.pattern.problems.find((one) => one.code === 'too-many-ways')?.message).toBe('This hangs on so many choices that only the first 2 of its 32 combinations are checked.');
  });

  it('how many are looked at hangs on the text alone', () => {
    const workspace = new Workspace();
    const said = (text: string): string => {
      workspace.open(mainPath, text);
      const snapshot = workspace.snapshot(mainPath);
      return snapshot === undefined ? '' : told(snapshot).join('\n');
    };
    const texts = [choosing(5, 2, 3), choosing(5, 2, 180), choosing(5, 2, 150), choosing(5, 2, 2), choosing(5, 2, 180)];
    for (const text of texts) expect(said(text)).toBe(told(read(text)).join('\n'));
  });

  it('a piece that few choices decide about is looked at in all', () => {
    expect(count(read(choosing(3, 3, 60)), 'too-many-ways')).toBe(0);
  });
});

describe('the text', () => {
  it('a megabyte of one-letter lines is not read', () => {
    expect(told(read(brokenLines('x\n', 999_000)))).toEqual(['file-too-long at x: This file is longer than 20,000 lines, so it isn’t read.']);
  });

  it('so many broken lines are explained, and then it is said that there are more', () => {
    const snapshot = read(brokenLines('x\n', 38_000));
    expect(snapshot.pattern.problems).toHaveLength(limits.problems + 1);
    expect(snapshot.pattern.problems.at(-1)?.message).toBe('Only the first 500 problems of this file are told.');
    expect(snapshot.pattern.problems.at(-1)?.severity).toBe('error');
  });

  it('as many in one piece', () => {
    expect(read(`${head}piece a {\n  outline rectangle 3 by 3\n${'x\n'.repeat(9000)}}\n`).pattern.problems.at(-1)?.code).toBe('too-much');
  });

  it.each([
    ['brackets', '(', `length a = ${'('.repeat(100)}1${')'.repeat(100)}\n`, `length a = ${'('.repeat(101)}1${')'.repeat(101)}\n`],
    ['signs', '-', `length a = ${'-'.repeat(200)}1\n`, `length a = ${'-'.repeat(201)}1\n`],
    ['terms', '+', `length a = 1${' + 1'.repeat(200)}\n`, `length a = 1${' + 1'.repeat(201)}\n`],
    ['conditions', 'not', `choice t is a or b\ncheck ${'not '.repeat(200)}t is b\n`, `choice t is a or b\ncheck ${'not '.repeat(201)}t is b\n`],
  ])('%s one too many', (_, at, right, wrong) => {
    expect(count(read(right), 'too-much') + count(read(right), 'unreadable-line')).toBe(0);
    expect(told(read(wrong)).filter((one) => !one.startsWith('unused'))).toEqual([expect.stringContaining(`too-much at ${at}: There are more than`)]);
  });

  it('a declaration one character too long, its texts not counted', () => {
    const points = (length: number): string => `piece a "${'t'.repeat(5000)}" {\n  outline rectangle 3 by 3 # ${'c'.repeat(5000)}\n  note "${'n'.repeat(30_000)}"\n  cut 1 canvas\n  mark ${'m'.repeat(length)} at 1, 1\n}\n`;
    const rest = 'piecea{outlinerectangle3by3notecut1canvasmarkat1,1}'.length;
    expect(count(read(head + points(limits.declarationLength - rest)), 'too-much')).toBe(0);
    expect(count(read(head + points(limits.declarationLength - rest + 1)), 'too-much')).toBe(1);
  });
});

describe('files', () => {
  it('a chain of twelve thousand is followed so far', () => {
    const snapshot = read(chainOfFiles(12_000));
    expect(snapshot.pattern.world.files).toHaveLength(limits.files);
    expect(snapshot.pattern.problems.filter((one) => one.code === 'too-much').map((one) => one.message)).toEqual(['This pattern uses more than 500 files, so this one isn’t read.']);
    expect(told(snapshot)).toContainEqual(expect.stringContaining('faults-in-file'));
  });

  it('of such a chain no more is asked for than is read', () => {
    const workspace = new Workspace();
    for (const [path, text] of chainOfFiles(3000).others) workspace.setDisk(path, text);
    workspace.open(mainPath, chainOfFiles(1).texts[0] ?? '');
    expect(workspace.wanted(mainPath)).toEqual([]);
  });

  it('half of a pair of code units can be the name of none', () => {
    expect(told(read('use "a\uD800.piece"\n'))).toEqual([expect.stringContaining('missing-file')]);
  });
});

describe('a fault of the program in one declaration', () => {
  it('costs that one and what needs it, and is told once', async () => {
    const outlines = await import('../../server/src/model/checks/piece-checks.ts');
    const compute = vi.spyOn(outlines.pieceChecks, 'compute').mockImplementation((_, { tree }) => {
      if (tree.name.text === 'bad') throw new TypeError('a fault');
      return true;
    });
    try {
      const piece = (name: string): string => `piece ${name} {\n  outline rectangle 3 by 3\n  cut 1 canvass\n}\n`;
      const workspace = new Workspace();
      const said = (text: string): readonly string[] => {
        workspace.open(mainPath, text);
        const snapshot = workspace.snapshot(mainPath);
        return snapshot === undefined ? [] : told(snapshot).map((one) => one.replace(/:.*/, ''));
      };
      expect(said(`${head}${piece('good')}${piece('bad')}length b = bad.width\n`)).toEqual(['unknown-name at canvass', 'internal-fault at bad', 'unused-name at b']);
      expect(said(`${head}${piece('good')}${piece('better')}length b = better.width\n`)).toEqual(['unknown-name at canvass', 'unknown-name at canvass', 'unused-name at b']);
    } finally {
      compute.mockRestore();
    }
  });
});
