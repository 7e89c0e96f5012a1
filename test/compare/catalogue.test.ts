import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { isComparison } from '../../server/src/cli/comparison-shape.ts';
import { movedSpecs } from '../../server/src/compare/catalogue.ts';
import { compare, unchanged } from '../../server/src/compare/comparison.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { Analyst, type Pattern } from '../../server/src/model/pattern.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { buildProgram, type Program } from '../cli/program.ts';
import { generateCatalogue } from '../support/catalogue.ts';
import { materials, spec } from './changes.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const titled = (title: string): string => spec.replace('Glasses case', title);
const uses = (text: string): string => text.replace('use "stock.piece"', 'use "../stock.piece"');
const taller = (text: string): string => text.replace('case_h = 7', 'case_h = 8');
const raised = (text: string): string => text.replace('revision 1', 'revision 2');
const old: Record<string, string> = {
  'stock.piece': materials, 'b/kept.piece': uses(titled('Kept')), 'b/taller.piece': uses(titled('Taller')), 'b/raised.piece': uses(titled('Raised')),
  'b/gone.piece': uses(titled('Gone')), 'b/moved.piece': uses(titled('Moved')), 'b/moved-on.piece': uses(titled('Moved on')),
};
const fresh: Record<string, string> = {
  'stock.piece': materials, 'b/kept.piece': `${uses(titled('Kept'))}# A comment.\n`, 'b/taller.piece': taller(uses(titled('Taller'))), 'b/raised.piece': raised(taller(uses(titled('Raised')))),
  'c/moved.piece': uses(titled('Moved')), 'c/on.piece': raised(taller(uses(titled('Moved on')))), 'c/new.piece': uses(titled('New')),
};
const below = (folder: string, files: Record<string, string>): Record<string, string> => Object.fromEntries(Object.entries(files).map(([path, text]) => [`${folder}/${path}`, text]));
const lead = (before: string, now: string): readonly string[] => [
  '8 specs: 3 changed, 1 added, 1 removed, 2 moved, 3 without change',
  `Changed without a higher revision: Taller (${now}b/taller.piece)`,
  ...['Recut', 'Reprint'].map((what) => expect.stringMatching(new RegExp(`^${what}: Raised \\(${now}b/raised.piece\\): .*; Taller \\(${now}b/taller.piece\\): .*; Moved on \\(${now}c/on.piece\\): `)) as string),
  `Added: ${now}c/new.piece`,
  `Removed: ${before}b/gone.piece`,
  `Moved: ${before}b/moved-on.piece → ${now}c/on.piece; ${before}b/moved.piece → ${now}c/moved.piece`,
];
/** What is bought otherwise is told by other tests. */
const leadOf = (out: string): readonly string[] => (out.split('\n\n')[0] ?? '').split('\n').filter((line) => !line.startsWith('Buy otherwise') && !line.startsWith('Cut in'));

describe('piecewright compare of two folders', () => {
  it('pairs specs by their paths, finds those that have moved, and leads with what matters', async () => {
    const folder = program.folder({ ...below('old', old), ...below('new', fresh) });
    const { code, out, err } = await program.run(['compare', 'old', 'new'], folder);
    expect([code, err, leadOf(out).map((line) => (line.startsWith('Moved: ') ? line.replace(/(Moved: )(.*); (.*)/, (_, what: string, ...two: string[]) => `${what}${two.slice(0, 2).sort().join('; ')}`) : line))]).toEqual([1, '', lead('old/', 'new/')]);
    // Each that has changed follows, in the order of the paths; no other.
    expect(out.split('\n').filter((line) => line.endsWith('.piece'))).toEqual(expect.arrayContaining(['new/b/raised.piece', 'new/b/taller.piece', 'new/c/on.piece']));
    expect(out.indexOf('\nnew/b/raised.piece\n')).toBeLessThan(out.indexOf('\nnew/b/taller.piece\n'));
    expect(out).not.toContain('\nnew/b/kept.piece\n');
    expect(out).toContain('new/b/taller.piece:14  length case_h = 8  (was length case_h = 7)');
  });

  it('says the same of folders elsewhere, and of two revisions', async () => {
    const folder = program.folder({ ...below('old', old), ...below('new', fresh), 'here/readme.txt': '' });
    const elsewhere = await program.run(['compare', '../old', '../new'], join(folder, 'here'));
    expect([elsewhere.code, elsewhere.err]).toEqual([1, '']);
    const repository = program.folder(old);
    const git = (...args: readonly string[]): void => void execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', '-c', 'core.autocrlf=false', ...args], { cwd: repository, stdio: 'ignore' });
    git('init', '--quiet');
    git('add', '.');
    git('commit', '--quiet', '--message', 'First');
    for (const path of Object.keys(old)) if (!(path in fresh)) rmSync(join(repository, path));
    for (const [path, text] of Object.entries(fresh)) {
      mkdirSync(dirname(join(repository, path)), { recursive: true });
      writeFileSync(join(repository, path), text);
    }
    git('add', '--all');
    git('commit', '--quiet', '--message', 'Second');
    expect(await program.run(['compare', '--git', 'HEAD~1..HEAD'], repository)).toEqual(elsewhere);
  });

  it('keeps to its schema, and is a page and Markdown that lead with the same', async () => {
    const folder = program.folder({ ...below('old', old), ...below('new', fresh) });
    for (const file of ['out.json', 'out.html', 'out.md']) expect((await program.run(['compare', 'old', 'new', '--output', file], folder)).code).toBe(1);
    const text = (file: string): string => readFileSync(join(folder, file), 'utf8');
    const json = JSON.parse(text('out.json')) as { comparisons: unknown[]; lone: unknown; moved: unknown[] };
    const validate = new Ajv2020({ allErrors: true, strict: true }).compile(JSON.parse(readFileSync(new URL('../../server/src/formats/compare.schema.json', import.meta.url), 'utf8')) as object);
    expect(validate(json), JSON.stringify(validate.errors)).toBe(true);
    expect([json.comparisons.length, json.moved.length, json.lone]).toEqual([6, 2, [{ file: 'old/b/gone.piece', is: 'removed' }, { file: 'new/c/new.piece', is: 'added' }]]);
    expect(validate({ ...json, lone: [{ file: 'a' }] })).toBe(false);
    expect(text('out.md')).toMatch(/^# 8 specs: 3 changed, 1 added, 1 removed, 2 moved, 3 without change\n\n- \*\*Changed without a higher revision:\*\* Taller/);
    // Drawings are numbered through the whole report.
    const links = [...text('out.md').matchAll(/\]\(([^)]*)\)/g)].map(([, link = '']) => link);
    expect(links.length).toBeGreaterThan(6);
    expect(links).toEqual(links.map((_, index) => `out-${index + 1}.svg`));
    expect(text('out.html').indexOf('<h1>8 specs')).toBeLessThan(text('out.html').indexOf('<h1>Raised'));
    expect(text('out.html').match(/<article>/g)).toHaveLength(4);
  });

  it('ends with 0 where nothing has changed, and refuses what can’t be set side by side', async () => {
    const folder = program.folder({ ...below('old', old), ...below('new', old) });
    expect(await program.run(['compare', 'old', 'new'], folder)).toEqual({ code: 0, out: '7 specs: no change\n', err: '' });
    expect(await program.run(['compare', 'old', 'new/stock.piece'], folder)).toEqual({ code: 2, out: '', err: '“old” is a folder and “new/stock.piece” is not: name two specs, or two folders.\n' });
  });

  it('loses only the spec that can’t be compared', async () => {
    const many = Array.from({ length: 12 }, (_, index) => `choice c${index} is a${index} or b${index}\n`).join('');
    const folder = program.folder({ ...below('old', { ...old, 'b/many.piece': `pattern "Many"\n${many}` }), ...below('new', { ...old, 'b/many.piece': `pattern "Many"\nrevision 2\n${many}` }) });
    const { code, out, err } = await program.run(['compare', 'old', 'new'], folder);
    expect([code, err]).toEqual([1, '']);
    expect(out).toMatch(/^8 specs: 1 could not be compared, 7 without change\nCould not be compared: new\/b\/many\.piece: new\/b\/many\.piece: /);
  });

  it('writes the same, byte for byte, in threads, in one, and out of its cache', async () => {
    const files = [...generateCatalogue(36, 4)];
    const changed = files.map(([path, text]): [string, string] => [path, path === 'stock/list2.piece' ? text.replace('52 in', '50 in') : text.replace('tote_h = 15', 'tote_h = 16')]);
    const folder = program.folder({ ...below('old', Object.fromEntries(files)), ...below('new', Object.fromEntries(changed)) });
    const run = async (...more: readonly string[]): Promise<string> => (await program.run(['compare', 'old', 'new', '--effort', '0', '--format', 'json', ...more], folder)).out;
    const [anew, first, again] = [await run('--no-cache'), await run('--cache', 'kept'), await run('--cache', 'kept')];
    expect([first === anew, again === anew]).toEqual([true, true]);
    const { comparisons } = JSON.parse(anew) as { comparisons: { same: boolean; new: { file: string } }[] };
    expect([comparisons.length, comparisons.filter(({ same }) => !same).length]).toEqual([40, 18]);
    // Two by two no thread is opened.
    for (const one of comparisons.slice(0, 6)) {
      const { out } = await program.run(['compare', one.new.file.replace('new/', 'old/'), one.new.file, '--effort', '0', '--format', 'json'], folder);
      expect((JSON.parse(out) as typeof comparisons & { comparisons: unknown[] }).comparisons).toEqual([one]);
    }
  });
});

describe('specs that have moved', () => {
  const of = (text: string, title?: string): { text: string; title: string | undefined } => ({ text, title });

  it('are known by their text, or by a title that no other has', () => {
    expect(movedSpecs([of('a', 'A'), of('b', 'B')], [of('b', 'B'), of('c', 'A')]).both).toEqual([[of('b', 'B'), of('b', 'B')], [of('a', 'A'), of('c', 'A')]]);
    expect(movedSpecs([of('a', 'A'), of('b', 'A')], [of('c', 'A')])).toEqual({ both: [], gone: [of('a', 'A'), of('b', 'A')], come: [of('c', 'A')] });
    expect(movedSpecs([of('a')], [of('c')]).both).toEqual([]);
  });
});

describe('a pattern and itself', () => {
  const patternOf = (path: string, text: string): Pattern => new Analyst().analyse(parseFile(path, text), libraryOf(new Map([['stock.piece', materials]])));

  it('are told to be the same without comparing them, as comparing them does', () => {
    for (const text of [spec, spec.replace('pattern "Glasses case"\n', ''), `${spec}length wrong = 1 in + 1 deg\n`]) expect(unchanged(patternOf('a.piece', text), 'b.piece')).toEqual(compare(patternOf('a.piece', text), patternOf('b.piece', text)));
  });

  it('are of a shape that is known again', () => {
    const changed = JSON.parse(JSON.stringify(compare(patternOf('a.piece', spec), patternOf('a.piece', taller(spec))))) as { outlines: { was: { rings: unknown } }[] };
    expect(isComparison(changed)).toBe(true);
    const [outline] = changed.outlines;
    if (outline !== undefined) outline.was.rings = [[{ x: 'a', y: 1 }]];
    expect(isComparison(changed)).toBe(false);
  });
});
