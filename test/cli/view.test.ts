import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { generateCatalogue } from '../support/catalogue.ts';
import { buildProgram, type Program } from './program.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
const spec = `pattern "Case"
revision 1
unit cm
allowance 1
sizes S, L
length wide = 10 for S, 14 for L
material felt "Wool felt" {
  width 90
}
piece front "Front" {
  outline rectangle wide by 8
  cut 2 felt
}
`;
let program: Program;
beforeAll(async () => {
  program = await buildProgram();
});
afterAll(() => { program.end(); });

it('says so where the page’s own parts are missing', async () => {
  const folder = program.folder({ 'case.piece': spec });
  expect(await program.run(['view', 'case.piece'], folder)).toMatchObject({ code: 2, out: '', err: 'The page’s script and style are not beside the program: install it anew.\n' });
});

it('writes one page with every size, or with those that are chosen', async () => {
  writeFileSync(join(dirname(program.file), 'preview.js'), 'window.drawn = true;\n');
  writeFileSync(join(dirname(program.file), 'preview.css'), 'p { color: red }\n');
  const folder = program.folder({ 'case.piece': spec });
  const { code, err } = await program.run(['view', 'case.piece', '--output', 'case.html'], folder);
  expect([code, err.endsWith('Wrote case.html.\n')]).toEqual([0, true]);
  const page = readFileSync(join(folder, 'case.html'), 'utf8');
  expect(page).toContain('<script>window.drawn = true;</script>');
  const sizesIn = (text: string): unknown => (JSON.parse(/id="pattern">(.*)<\/script>/.exec(text)?.[1] ?? '') as { views: { combination: unknown }[] }).views.map(({ combination }) => combination);
  expect(sizesIn(page)).toEqual([{ size: 'S' }, { size: 'L' }]);
  expect(sizesIn((await program.run(['view', 'case.piece', '--choose', 'size=L'], folder)).out)).toEqual([{ size: 'L' }]);
  expect((await program.run(['view', 'case.piece', '--choose', 'size=M'], folder)).code).toBe(2);
});

it('refuses a spec with errors, and one without pieces', async () => {
  const folder = program.folder({ 'case.piece': spec.replace('wide by 8', 'width by 8'), 'empty.piece': 'pattern "Empty"\nrevision 1\nunit cm\n' });
  const faulty = await program.run(['view', 'case.piece'], folder);
  expect([faulty.code, faulty.out]).toEqual([1, '']);
  expect(faulty.err).toContain('No page is written while the spec has errors');
  expect(await program.run(['view', 'empty.piece'], folder)).toMatchObject({ code: 1, out: '' });
});

it('writes a page for each spec of a folder, and a list that leads to those that have one', async () => {
  writeFileSync(join(dirname(program.file), 'preview.js'), 'window.drawn = true;\n');
  writeFileSync(join(dirname(program.file), 'preview.css'), 'p { color: red }\n');
  const folder = program.folder({
    'all/case.piece': spec, 'all/more/b & c#1.piece': spec.replace('"Case"', '"<b>Bag</b>"'), 'all/faulty.piece': spec.replace('wide by 8', 'width by 8'), 'all/stock.piece': 'unit cm\nmaterial tape "Tape" {\n  width 2\n}\n',
  });
  const run = async (...more: readonly string[]): Promise<{ readonly code: number | null; readonly err: string }> => program.run(['view', 'all', '--effort', '0', ...more], folder);
  const { code, err } = await run('--output', 'pages');
  expect(code).toBe(1);
  expect(err).toContain('all/faulty.piece:11:');
  expect(err.endsWith('Wrote 2 pages to pages, and index.html, which leads to them. None is written of a spec with errors.\n')).toBe(true);
  const index = readFileSync(join(folder, 'pages/index.html'), 'utf8');
  const links = [...index.matchAll(/<a href="([^"]*)">([^<]*)<\/a>/g)].map(([, href = '', text]) => ({ text, page: readFileSync(join(folder, 'pages', decodeURIComponent(href)), 'utf8') }));
  expect(links.map(({ text, page }) => [text, page.includes('window.drawn = true;')])).toEqual([['Case', true], ['&lt;b&gt;Bag&lt;/b&gt;', true]]);
  expect(index).toContain('Case (has errors, so there is no page)');
  expect(index).not.toContain('stock.piece');
  expect((await run()).code).toBe(2);
  const chosen = await run('--output', 'chosen', '--choose', 'size=M');
  expect([chosen.code, chosen.err]).toEqual([1, expect.stringMatching(/There is no page of “case\.piece”: .*\n[^]*Wrote 0 pages to chosen/)]);
  writeFileSync(join(folder, 'all/index.piece'), spec);
  expect(await run('--output', 'pages')).toMatchObject({ code: 2, err: expect.stringContaining('index.piece') });
});

it('writes the same pages in threads, however many there are', async () => {
  writeFileSync(join(dirname(program.file), 'preview.js'), 'window.drawn = true;\n');
  writeFileSync(join(dirname(program.file), 'preview.css'), 'p { color: red }\n');
  const folder = program.folder(Object.fromEntries([...generateCatalogue(20, 2)].map(([path, text]) => [`all/${path}`, text])));
  expect(await program.run(['view', 'all', '--effort', '0', '--output', 'pages'], folder)).toMatchObject({ code: 0, err: 'Wrote 20 pages to pages, and index.html, which leads to them.\n' });
  for (const path of ['line0/spec0000', 'line19/spec0019']) {
    expect((await program.run(['view', `all/${path}.piece`, '--effort', '0'], folder)).out).toBe(readFileSync(join(folder, `pages/${path}.html`), 'utf8'));
  }
});
