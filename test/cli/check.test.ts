import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { buildProgram, type Program } from './program.ts';

// Starting programs takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const spec = (body: string): string => `pattern "Test"\nrevision 1\nallowance none\n${body}\n`;
const good = spec('length w = 3\ncheck w = 3');
const warned = spec('length w = 3');
const wrong = spec('length w = 3 in + 45 deg\ncheck w = 3');

describe('piecewright check', () => {
  it('ends with 0 where there is no error, with 1 where there is, with 2 where it is called wrongly', async () => {
    const folder = program.folder({ 'good.piece': good, 'warned.piece': warned, 'wrong.piece': wrong });
    const [none, warning, error, missing, option, command] = await Promise.all([['check', 'good.piece'], ['check', 'warned.piece'], ['check', 'wrong.piece'], ['check', 'none.piece'], ['check', '--nosuch'], ['chekc']].map(async (args) => program.run(args, folder)));
    expect(none).toEqual({ code: 0, out: 'good.piece: nothing to report.\n', err: '' });
    expect(warning).toEqual({ code: 0, out: 'warned.piece:4:8 warning unused-name The length “w” is never used.\nwarned.piece: 1 warning.\n', err: '' });
    expect(error).toEqual({ code: 1, out: 'wrong.piece:4:12 error mixed-kinds A length and an angle can’t be added.\nwrong.piece: 1 error.\n', err: '' });
    expect(missing).toEqual({ code: 2, out: '', err: 'There is no file or folder “none.piece”.\n' });
    expect([option?.code, command?.code]).toEqual([2, 2]);
    expect(option?.err).toContain('--nosuch');
    expect(command?.err).toContain('check');
  });

  it('takes every spec of a folder, hidden ones and modules left out', async () => {
    const folder = program.folder({ 'a.piece': good, 'more/b.piece': wrong, 'more/deep/c.piece': warned, 'notes.txt': wrong, '.hidden/d.piece': wrong, 'node_modules/e.piece': wrong });
    const here = await program.run(['check'], folder);
    expect(here.code).toBe(1);
    expect(here.out.split('\n')).toEqual([expect.stringMatching(/^more\/b\.piece:4:12 error/), expect.stringMatching(/^more\/deep\/c\.piece:4:8 warning/), '3 files: 1 error, 1 warning.', '']);
    const { out, code } = await program.run(['check', 'more/deep', 'a.piece', 'more/deep/c.piece', '--json'], folder);
    const found = JSON.parse(out) as { format: string; version: number; files: string[]; problems: unknown[] };
    expect(code).toBe(0);
    expect(found).toEqual({
      format: 'piecewright check', version: 1, files: ['a.piece', 'more/deep/c.piece'],
      problems: [{ file: 'more/deep/c.piece', start: { line: 4, column: 8 }, end: { line: 4, column: 9 }, severity: 'warning', code: 'unused-name', message: 'The length “w” is never used.', related: [] }],
    });
  });

  it('tells a fault of a shared file once, in that file, with the combination that it holds in', async () => {
    const use = 'use "list.piece"\nsizes S, L\nlength own = 2 for S, 4 for L\ncheck own > shared else "Too short"';
    const folder = program.folder({ 'a.piece': spec(use), 'b.piece': spec(use), 'list.piece': 'length shared = 3\nlength bad = 1 in + 1 deg' });
    const { out } = await program.run(['check'], folder);
    expect(out.match(/list\.piece:2:14 error mixed-kinds/g)).toHaveLength(1);
    expect(out).toContain('a.piece:7:7 error check-failed Too short (own > shared doesn’t hold: 2 in against 3 in) (only when size is S)');
  });

  it('gives the same in many threads as in one', async () => {
    const files = Object.fromEntries(Array.from({ length: 40 }, (_, n) => [`f${String(n).padStart(2, '0')}.piece`, [good, warned, wrong][n % 3] ?? '']));
    const folder = program.folder(files);
    const all = await program.run(['check'], folder);
    const names = Object.keys(files);
    const parts = await Promise.all([names.slice(0, 10), names.slice(10, 20), names.slice(20, 30), names.slice(30)].map(async (some) => program.run(['check', ...some], folder)));
    const lines = (out: string): readonly string[] => out.split('\n').filter((line) => line.includes('.piece:'));
    expect(lines(all.out)).toEqual(parts.flatMap((part) => lines(part.out)));
    expect(lines(all.out)).toHaveLength(26);
    expect(all.out).toContain('40 files: 13 errors, 13 warnings.');
    expect([all.code, all.err]).toEqual([1, '']);
  });

  it('reads CRLF and a byte order mark, and points to the right place', async () => {
    const folder = program.folder({ 'a.piece': `\uFEFF${wrong.replaceAll('\n', '\r\n')}`, 'b.piece': wrong.replaceAll('\n', '\r') });
    const { out } = await program.run(['check'], folder);
    expect(out.split('\n').slice(0, 2).map((line) => line.split(' ').slice(0, 3).join(' '))).toEqual(['a.piece:4:12 error mixed-kinds', 'b.piece:4:12 error mixed-kinds']);
  });

  it('does not follow a link out of its folder', async () => {
    const outside = program.folder({ 'secret.piece': 'length secret = 1' });
    const folder = program.folder({ 'a.piece': spec('use "link.piece"\nuse "linked/secret.piece"\nuse "inside.piece"\ncheck w = 3'), 'real.piece': 'length w = 3' });
    symlinkSync(join(outside, 'secret.piece'), join(folder, 'link.piece'));
    symlinkSync(outside, join(folder, 'linked'));
    symlinkSync(join(folder, 'real.piece'), join(folder, 'inside.piece'));
    const { out, code } = await program.run(['check', 'a.piece'], folder);
    expect(code).toBe(1);
    expect(out.match(/missing-file/g)).toHaveLength(2);
    expect(out).not.toContain('unknown-name');
  });

  it('takes a spec outside the current folder by its own folder', async () => {
    const outside = program.folder({ 'bags/a.piece': spec('use "b.piece"\ncheck w = 3'), 'bags/b.piece': 'length w = 3' });
    const here = program.folder({});
    const { code, out } = await program.run(['check', join(outside, 'bags/a.piece')], here);
    expect([code, out]).toEqual([0, `${relative(here, join(outside, 'bags/a.piece'))}: nothing to report.\n`]);
  });

  it('writes reports beside its lines or in their place', async () => {
    const folder = program.folder({ 'a b,c.piece': wrong, 'more/ok.piece': good });
    const beside = await program.run(['check', '--report', 'sarif=out/a.sarif', '-r', 'junit=out/a.xml', '-r', 'gitlab=out/a.json'], folder);
    expect([beside.code, beside.err]).toEqual([1, '']);
    expect(beside.out).toContain('2 files: 1 error.');
    expect((JSON.parse(readFileSync(join(folder, 'out/a.sarif'), 'utf8')) as { runs: { results: { ruleId: string }[] }[] }).runs[0]?.results.map(({ ruleId }) => ruleId)).toEqual(['mixed-kinds']);
    expect(readFileSync(join(folder, 'out/a.xml'), 'utf8')).toContain('<testcase classname="piecewright check" name="more/ok.piece" time="0"/>');
    expect(JSON.parse(readFileSync(join(folder, 'out/a.json'), 'utf8'))).toHaveLength(1);
    const github = await program.run(['check', '--report', 'github'], folder);
    expect(github).toEqual({ code: 1, out: '::error file=a b%2Cc.piece,line=4,endLine=4,col=12,endColumn=24,title=mixed-kinds::A length and an angle can’t be added.\n', err: '' });
    const wrongly = await Promise.all([['--report', 'xml'], ['--report', 'sarif='], ['--report', 'sarif', '--json'], ['-r', 'sarif=a', '-r', 'junit=a']].map(async (args) => program.run(['check', ...args], folder)));
    expect(wrongly.map(({ code, out }) => [code, out])).toEqual(wrongly.map(() => [2, '']));
    expect(wrongly[0]?.err).toBe('“xml” is no format of a report: there are json, sarif, junit, github, gitlab.\n');
  });

  it('says in one line what it cannot read', async () => {
    const folder = program.folder({ 'a.piece/inner.piece': good, 'b.piece': spec('use "a.piece"\ncheck 1 < 2') });
    mkdirSync(join(folder, 'empty'));
    const [all, empty] = await Promise.all([program.run(['check'], folder), program.run(['check', 'empty'], folder)]);
    expect(all.out).toContain('b.piece:4:5 error missing-file');
    expect(all.err).toBe('');
    expect([empty.code, empty.err]).toEqual([2, 'There is no file that ends in .piece in “empty”.\n']);
    writeFileSync(join(folder, 'notes.md'), 'Notes');
    expect((await program.run(['check', 'notes.md'], folder)).err).toBe('“notes.md” is no spec: specs end in .piece.\n');
  });

  it('keeps a problem on its line and the terminal as it is', async () => {
    const folder = program.folder({ 'a.piece': spec('length w = 3\ncheck w > 4 else "two\\nlines \u001b[2J"') });
    const { out } = await program.run(['check'], folder);
    expect(out.split('\n')[0]).toBe('a.piece:5:7 error check-failed two lines \\u{1b}[2J (w > 4 doesn’t hold: 3 in against 4 in)');
    expect(out).not.toContain('\u001b');
  });

  it('survives its reader going away', async () => {
    const folder = program.folder({ 'a.piece': spec(Array.from({ length: 4000 }, (_, n) => `length unused_${n} = ${n}`).join('\n')) });
    const { err } = await program.run(['check'], folder, true);
    expect(err).not.toMatch(/EPIPE|at \w|node:/);
  });

  it('reads five megabytes no further than to say so', async () => {
    const folder = program.folder({ 'long.piece': good + '# A comment of some length that says nothing.\n'.repeat(110_000), 'line.piece': `${good}length a = ${'1 + '.repeat(100_000)}\n` });
    writeFileSync(join(folder, 'zeros.piece'), Buffer.alloc(5_000_000));
    const results = await Promise.all(['long.piece', 'line.piece', 'zeros.piece'].map(async (name) => program.run(['check', name], folder)));
    expect(results.map((one) => one.code)).toEqual([1, 1, 1]);
    expect(results[0]?.out).toContain('This file is longer than 1 million characters, so it isn’t read.');
    for (const one of results) expect(one.err).toBe('');
    for (const one of results) expect(one.out.length).toBeLessThan(20_000);
  });
});
