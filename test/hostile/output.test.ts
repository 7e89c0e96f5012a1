import { execFileSync } from 'node:child_process';
import { readFileSync, statSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { buildProgram, type Program } from '../cli/program.ts';

let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const stock = 'material cloth "Cloth" {\n  role main\n  width 44 in\n}\n';
const spec = (title: string, more = ''): string => `pattern "${title}"\nrevision 1\nunit in\nallowance none\n${stock}${more}piece a "A" {\n  outline rectangle 3 by 2\n  grain up\n  cut 1 cloth\n}\n`;

it.skipIf(process.platform === 'win32')('writes to a pipe without putting a file in its place', async () => {
  const folder = program.folder({ 'a.piece': spec('T') });
  const pipe = join(folder, 'pipe');
  execFileSync('mkfifo', [pipe]);
  const [{ code }, read] = await Promise.all([program.run(['table', 'a.piece', '--format', 'csv', '-o', 'pipe'], folder), readFile(pipe, 'utf8')]);
  expect(code).toBe(0);
  expect(read).toContain('Piece,Material,');
  expect(statSync(pipe).isFIFO()).toBe(true);
});

it('says in plain words why nothing could be written', async () => {
  const folder = program.folder({ 'a.piece': spec('T'), 'sub.md/x.txt': '' });
  const [lost, taken] = [await program.run(['table', 'a.piece', '-o', 'a.piece/x.md'], folder), await program.run(['table', 'a.piece', '-o', 'sub.md'], folder)];
  expect([lost.code, lost.err]).toEqual([2, '“a.piece/x.md” can’t be written: a part of the path is no folder.\n']);
  expect([taken.code, taken.err]).toEqual([2, '“sub.md” is a folder: name a file to write.\n']);
});

it('writes one table however many choices there are, and not all of them', async () => {
  const choices = Array.from({ length: 30 }, (_, index) => `choice c${index} is ${Array.from({ length: 10 }, (__, option) => `o${index}_${option}`).join(', ')}\n`).join('');
  const folder = program.folder({ 'a.piece': spec('T', choices) });
  const [one, all] = [await program.run(['table', 'a.piece', '-c', 'c7=o7_3'], folder), await program.run(['table', 'a.piece', '--all'], folder)];
  expect(one.code).toBe(0);
  expect(one.out).toContain('c7: o7 3');
  expect(all.code).toBe(2);
  expect(all.err).toContain('choose some of them with --choose');
}, 20_000);

it('keeps control signs of a spec from the terminal', async () => {
  const folder = program.folder({ 'a.piece': spec('T\u001b[31mred') });
  for (const args of [['check', 'a.piece'], ['table', 'a.piece'], ['lay', 'a.piece', '-e', '0']]) {
    const { code, out } = await program.run(args, folder);
    expect(code).toBe(0);
    expect(out).not.toContain('\u001b');
  }
});

it('issues no file that it would damage, and keeps a byte order mark', async () => {
  const folder = program.folder({ 'marked.piece': `\uFEFF${spec('T')}` });
  const latin = Buffer.from(spec('T\u00e9'), 'latin1');
  writeFileSync(join(folder, 'latin.piece'), latin);
  expect((await program.run(['issue', 'latin.piece'], folder)).code).toBe(1);
  expect(readFileSync(join(folder, 'latin.piece')).equals(latin)).toBe(true);
  expect((await program.run(['issue', 'marked.piece'], folder)).code).toBe(0);
  expect(readFileSync(join(folder, 'marked.piece'), 'utf8')).toMatch(/^\uFEFFpattern "T"\nrevision 1\nissued 1 as/);
});
