import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { materials, spec } from '../compare/changes.ts';
import { buildProgram, type Program } from './program.ts';

/* Git itself calls the program, by the settings that the readme gives, in a repository that is made here. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
let folder: string;

const git = (...args: readonly string[]): string => execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', '-c', 'core.autocrlf=false', ...args], { cwd: folder, encoding: 'utf8' });
const write = (path: string, text: string): void => { writeFileSync(join(folder, path), text); };
const dear = materials.replace('price 12', 'price 15');
const [wide, wider] = ['3 3/4 for S', '3 7/8 for S'].map((width) => spec.replace('3 1/2 for S', width)) as [string, string];
const lines = (diff: string, start: '+' | '-'): readonly string[] => diff.split('\n').filter((line) => line.startsWith(start) && !line.startsWith(start.repeat(3)));

beforeAll(async () => {
  program = await buildProgram();
  folder = program.folder({ '.gitattributes': '*.piece diff=piece\n', 'bags/case.piece': spec, 'bags/stock.piece': materials });
  git('init', '--quiet', '--initial-branch', 'main');
  git('config', 'diff.piece.textconv', `"${process.execPath}" "${program.file}" textconv`);
  git('add', '.');
  git('commit', '--quiet', '--message', 'First');
});
afterAll(() => { program.end(); });

describe('piecewright textconv, called by git', () => {
  it('makes git diff show what is made otherwise, and nothing where only the text is another', () => {
    write('bags/case.piece', wide);
    const diff = git('diff');
    expect(lines(diff, '-').join('\n')).toContain('4 1/4 in');
    expect(lines(diff, '+').join('\n')).toContain('4 1/2 in');
    expect(diff).not.toMatch(/case_w|No table/);
    write('bags/case.piece', spec.replace(' by ', '   by '));
    expect(git('diff')).not.toContain('@@');
    write('bags/case.piece', spec.replaceAll('case_h', 'tall'));
    // What it was worked out from is called otherwise.
    expect(lines(git('diff'), '+').filter((line) => !line.includes('fingerprint'))).toEqual([]);
    write('bags/case.piece', spec);
  });

  it('reads what is used as it was in the revision: committed, staged, or in the folder', () => {
    write('bags/case.piece', wide);
    write('bags/stock.piece', dear);
    const unstaged = git('diff', 'bags/case.piece');
    expect(lines(unstaged, '-').join('\n')).toContain('| 3.00 EUR |');
    expect(lines(unstaged, '+').join('\n')).toContain('| 3.75 EUR |');
    git('add', '.');
    write('bags/stock.piece', materials.replace('price 12', 'price 99'));
    // Git hands over the file in the folder itself where it says the same as what is staged.
    write('bags/case.piece', `${wide}# more\n`);
    const staged = git('diff', '--cached', 'bags/case.piece');
    expect(lines(staged, '-').join('\n')).toContain('| 3.00 EUR |');
    expect(lines(staged, '+').join('\n')).toContain('| 3.75 EUR |');
    write('bags/case.piece', wide);
    write('bags/stock.piece', dear);
    git('commit', '--quiet', '--all', '--message', 'Second');
    write('bags/case.piece', wider);
    write('bags/stock.piece', materials.replace('price 12', 'price 18'));
    git('commit', '--quiet', '--all', '--message', 'Third');
    const shown = git('show', 'HEAD', '--', 'bags/case.piece');
    expect(lines(shown, '-').join('\n')).toContain('| 3.75 EUR |');
    expect(lines(shown, '+').join('\n')).toContain('| 4.50 EUR |');
    expect(shown).toMatch(/^-Files that it uses are as of commit [0-9a-f]{8}\^\.$/m);
    git('reset', '--quiet', '--hard', 'HEAD~2');
  });

  it('finds the files of a branch that is not checked out', () => {
    git('checkout', '--quiet', '-b', 'dear');
    write('bags/stock.piece', dear);
    write('bags/case.piece', wide);
    git('commit', '--quiet', '--all', '--message', 'Dear');
    git('checkout', '--quiet', 'main');
    const diff = git('diff', 'main', 'dear', '--', 'bags/case.piece');
    expect(lines(diff, '-').join('\n')).toContain('| 3.00 EUR |');
    expect(lines(diff, '+').join('\n')).toContain('| 3.75 EUR |');
  });

  it('shows a list of materials, and a spec with errors after them, as they are written', () => {
    write('bags/stock.piece', dear);
    expect(lines(git('diff'), '+')).toEqual(['+  price 15 per yd']);
    write('bags/stock.piece', materials);
    write('bags/case.piece', spec.replace('cut 2 lining', 'cut 2 lace'));
    const diff = git('diff');
    expect(lines(diff, '+').slice(0, 3)).toEqual(['+No table, for there are errors:', '+', expect.stringMatching(/^\+- [a-z-]+: .*lace/)]);
    expect(lines(diff, '+')).toContain('+  cut 2 lace');
    write('bags/case.piece', spec);
  });
});

describe('piecewright textconv', () => {
  it('ends with 0 whatever it is given', async () => {
    const files = program.folder({ 'binary.piece': '\u0000\u0001', 'empty.piece': '', 'folder/a.piece': 'pattern "A"\n', 'case.piece': spec });
    const ended = await Promise.all(['binary.piece', 'empty.piece', 'folder', 'nosuch.piece', 'case.piece'].map(async (file) => program.run(['textconv', file], files)));
    expect(ended.map(({ code, err }) => [code, err])).toEqual(ended.map(() => [0, '']));
    expect(ended[3]?.out).toBe('There is no such file.\n');
    // What it uses is nowhere.
    expect(ended[4]?.out).toContain('stock.piece');
  });

  it('takes what is used from beside a file outside of any repository', async () => {
    const files = program.folder({ 'case.piece': spec, 'stock.piece': materials });
    expect((await program.run(['textconv', 'case.piece'], files)).out).toContain('| Body |');
  });

  it('ends with 0 where the same text is laid out by another name and was never committed', async () => {
    mkdirSync(join(folder, '../laid'), { recursive: true });
    copyFileSync(join(folder, 'bags/case.piece'), join(folder, '../laid/XyZ_case.piece'));
    const known = await program.run(['textconv', join(folder, '../laid/XyZ_case.piece')], folder);
    expect([known.code, known.out.includes('| 3.00 EUR |')]).toEqual([0, true]);
    writeFileSync(join(folder, '../laid/XyZ_case.piece'), wider);
    const unknown = await program.run(['textconv', join(folder, '../laid/XyZ_case.piece')], folder);
    expect([unknown.code, unknown.err, unknown.out.startsWith('No table')]).toEqual([0, '', true]);
  });
});
