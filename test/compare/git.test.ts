import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { buildProgram, type Program } from '../cli/program.ts';
import { branches, materials, spec } from './changes.ts';

/*
 * A real repository with a branch for each kind of change. What is said of each was reviewed by eye; after a change that is
 * meant, write it anew and review it again:
 *   UPDATE_EXPECTED=1 npx vitest run --config test/vitest.config.mts test/compare
 */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });
let program: Program;
let folder: string;

const git = (...args: readonly string[]): string => execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', '-c', 'core.autocrlf=false', ...args], { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
const write = (path: string, text: string): void => { writeFileSync(join(folder, path), text); };

beforeAll(async () => {
  program = await buildProgram();
  folder = program.folder({ 'case.piece': spec, 'stock.piece': materials });
  git('init', '--quiet', '--initial-branch', 'main');
  git('add', '.');
  git('commit', '--quiet', '--message', 'First');
  for (const branch of branches) {
    git('checkout', '--quiet', '-b', branch.name, 'main');
    write('case.piece', (branch.spec ?? ((text) => text))(spec));
    write('stock.piece', (branch.materials ?? ((text) => text))(materials));
    git('commit', '--quiet', '--all', '--message', branch.name);
  }
  git('checkout', '--quiet', 'main');
});
afterAll(() => { program.end(); });

const expected = (name: string): URL => new URL(`../expected/compare/${name}`, import.meta.url);

interface Written {
  readonly comparisons: { readonly changes: { readonly causes: { line?: number }[] }[] }[];
}

function reviewed(name: string, text: string): void {
  const file = expected(name);
  if (process.env['UPDATE_EXPECTED'] === '1') {
    mkdirSync(expected('.'), { recursive: true });
    writeFileSync(file, text);
  }
  expect(existsSync(file), 'there is no reviewed comparison yet').toBe(true);
  expect(text).toBe(readFileSync(file, 'utf8'));
}

describe('piecewright compare --git', () => {
  it.each(branches.map(({ name }) => name))('%s gives the reviewed comparison', async (name) => {
    const { code, out, err } = await program.run(['compare', '--git', `main..${name}`, 'case.piece', '--format', 'markdown'], folder);
    expect(err).toBe('');
    reviewed(`${name}.md`, `${out}\nExit status ${String(code)}\n`);
  });

  describe('as JSON', () => {
    const validate = new Ajv2020({ allErrors: true, strict: true }).compile(JSON.parse(readFileSync(new URL('../../server/src/formats/compare.schema.json', import.meta.url), 'utf8')) as object);
    const written = async (name: string): Promise<Written> => JSON.parse((await program.run(['compare', '--git', `main..${name}`, 'case.piece', '--format', 'json'], folder)).out) as Written;

    it.each(branches.map(({ name }) => name))('%s keeps to the published schema', async (name) => {
      expect(validate(await written(name)), JSON.stringify(validate.errors)).toBe(true);
    });

    it('is refused by its schema where a cause has no line, and where there is something that it doesn’t know', async () => {
      const broken = await written('resized');
      delete broken.comparisons[0]?.changes[0]?.causes[0]?.line;
      expect(validate(broken)).toBe(false);
      expect(validate({ ...(await written('resized')), more: 1 })).toBe(false);
    });
  });

  it('says no change in its first line, and only there, where nothing is made otherwise', async () => {
    const [same, changed] = await Promise.all(['comment', 'resized'].map(async (name) => program.run(['compare', '--git', `main..${name}`, 'case.piece'], folder)));
    expect(same).toEqual({ code: 0, out: 'no change\n', err: '' });
    expect([changed?.code, changed?.out.split('\n')[0]]).toEqual([1, 'Glasses case: revision 1 → revision 2']);
    expect(changed?.out).not.toContain('no change');
  });

  it('reads what is used as it was in the same revision, and checks nothing out', async () => {
    const { out, code } = await program.run(['compare', '--git', 'shared-list..main', 'case.piece', '--format', 'json'], folder);
    const { format, version, comparisons: [one] } = JSON.parse(out) as { format: string; version: number; comparisons: { changes: { subject: string; was: string; now: string; what: string }[] }[] };
    expect([code, format, version]).toEqual([1, 'piecewright comparison', 1]);
    expect(one?.changes.find(({ what }) => what === 'price')).toMatchObject({ subject: 'Canvas', was: '14 per yd', now: '12 per yd' });
    expect([git('status', '--porcelain'), git('rev-parse', '--abbrev-ref', 'HEAD').trim()]).toEqual(['', 'main']);
  });

  it('takes every spec of the folder, and tells those that only one revision has', async () => {
    git('checkout', '--quiet', '-b', 'more-files', 'main');
    write('other.piece', spec);
    git('add', '.');
    git('commit', '--quiet', '--message', 'More');
    git('checkout', '--quiet', 'main');
    const { code, out, err } = await program.run(['compare', '--git', 'main..more-files'], folder);
    expect([code, err, out]).toEqual([1, '', '3 specs: 1 added, 2 without change\nAdded: other.piece\n']);
  });

  it('starts where both parted with three dots', async () => {
    const [two, three] = await Promise.all(['resized..count', 'resized...count'].map(async (range) => program.run(['compare', '--git', range, 'case.piece'], folder)));
    expect(two?.out).toContain('Recut: Body');
    expect(three?.out).not.toContain('Recut');
    expect(three?.out).toContain('Cut in another number: Body (Foam): 2 → 4');
  });

  it('tells a range that is none, and a revision that there isn’t', async () => {
    const runs = await Promise.all([['main'], ['--output=x..main'], ['nosuch..main'], ['main..--all']].map(async ([range = '']) => program.run(['compare', `--git=${range}`, 'case.piece'], folder)));
    expect(runs.map(({ code }) => code)).toEqual([2, 2, 2, 2]);
    expect(runs.map(({ out }) => out).join('')).toBe('');
    expect(runs[2]?.err).toBe('There is no revision “nosuch” in a git repository of this folder.\n');
  });
});

describe('piecewright compare', () => {
  it('writes a page that loads nothing, and Markdown with its drawings beside it, by the ending of the file', async () => {
    const hostile = spec.replace('"Body"', '"<script>x</script>"').replace('"Canvas"', '"\'><img>"');
    const files = program.folder({ 'old/case.piece': hostile, 'old/stock.piece': materials, 'new/case.piece': hostile.replace('case_h = 7', 'case_h = 8'), 'new/stock.piece': materials });
    for (const file of ['out.html', 'out (1).md', 'out.json']) expect(await program.run(['compare', 'old/case.piece', 'new/case.piece', '--output', file], files)).toEqual({ code: 1, out: '', err: '' });
    const text = (name: string): string => readFileSync(join(files, name), 'utf8');
    const page = text('out.html');
    expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`);
    expect(page).not.toMatch(/<script|<img|href=|src=/);
    expect(page).toContain('&lt;script&gt;x&lt;/script&gt;, Canvas: within 4 1/4 in (10.8 cm) × 7 3/4 in (19.7 cm) → within 4 1/4 in (10.8 cm) × 8 3/4 in (22.3 cm), only when size is S');
    // Body of two layers, inside and the two sizes of each; the flap is as it was.
    expect(page.match(/class="was"/g)).toHaveLength(6);
    const links = [...text('out (1).md').matchAll(/\]\(([^)]*)\)/g)].map(([, link = '']) => decodeURIComponent(link));
    expect(links).toEqual([1, 2, 3, 4, 5, 6].map((number) => `out (1)-${number}.svg`));
    for (const link of links) expect(text(link)).toMatch(/^<svg [^]*stroke-dasharray[^]*<\/svg>\n$/);
    expect((JSON.parse(text('out.json')) as { format: string }).format).toBe('piecewright comparison');
    expect((await program.run(['compare', 'old/case.piece', 'new/case.piece', '--output', 'out.pdf'], files)).code).toBe(2);
  });

  it('takes away the drawings of an earlier report that had more, and nothing else', async () => {
    const files = program.folder({ 'old/case.piece': spec, 'old/stock.piece': materials, 'new/case.piece': spec.replace('case_h = 7', 'case_h = 8'), 'new/stock.piece': materials, 'one/case.piece': spec.replace('rectangle case_w by 3', 'rectangle case_w by 4'), 'one/stock.piece': materials });
    const drawings = (): readonly string[] => readdirSync(files).filter((name) => name.endsWith('.svg')).sort();
    await program.run(['compare', 'old/case.piece', 'new/case.piece', '--output', 'report.md'], files);
    expect(drawings().length).toBeGreaterThan(3);
    writeFileSync(join(files, 'report-4.svg'), '<svg xmlns="http://www.w3.org/2000/svg"><rect/></svg>\n');
    await program.run(['compare', 'old/case.piece', 'one/case.piece', '--output', 'report.md'], files);
    const links = [...readFileSync(join(files, 'report.md'), 'utf8').matchAll(/\]\(([^)]*)\)/g)].map(([, link]) => link);
    // From somebody else's on, nothing is taken to be a part of the report.
    expect(drawings().slice(0, links.length + 1)).toEqual([...links, 'report-4.svg']);
    rmSync(join(files, 'report-4.svg'));
    await program.run(['compare', 'old/case.piece', 'new/case.piece', '--output', 'report.md'], files);
    await program.run(['compare', 'old/case.piece', 'one/case.piece', '--output', 'report.md'], files);
    expect(drawings()).toEqual(links);
  });

  it('compares two files, each with what is used beside it', async () => {
    const files = program.folder({ 'old/case.piece': spec, 'old/stock.piece': materials, 'new/case.piece': spec.replace('case_h = 7', 'case_h = 8'), 'new/stock.piece': materials });
    const { code, out, err } = await program.run(['compare', '../old/case.piece', '../new/case.piece'], join(files, 'old'));
    expect([code, err]).toEqual([1, '']);
    expect(out).toContain('error revision-not-raised');
    expect(out).toContain('case.piece:14  length case_h = 8  (was length case_h = 7)');
    expect((await program.run(['compare', 'old/case.piece'], files)).code).toBe(2);
  });
});
