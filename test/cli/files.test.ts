import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, test, vi } from 'vitest';
import { issue } from '../../server/src/cli/issue.ts';
import { nodeHost } from '../../server/src/lsp/node-host.ts';
import { Analyst } from '../../server/src/model/pattern.ts';
import { Workspace } from '../../server/src/workspace/workspace.ts';
import { buildProgram, type Program } from './program.ts';

// Starting programs takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const spec = (body: string): string => `pattern "Test"\nrevision 1\nallowance none\n${body}\n`;
const good = spec('length w = 3\ncheck w = 3');
const using = (path: string): string => spec(`use "${path}"\ncheck 1 < 2`);

/** Makes files that no program should read as specs, as far as the system has them. */
function strange(folder: string): Readonly<Record<string, string>> {
  writeFileSync(join(folder, 'wide.piece'), `\uFEFF${good}`, 'utf16le');
  writeFileSync(join(folder, 'latin.piece'), Buffer.from(good.replace('Test', 'Caf\u00e9'), 'latin1'));
  const links: Readonly<Record<string, string>> = { 'endless.piece': '/dev/zero', 'faulty.piece': '/proc/self/mem' };
  for (const [name, to] of Object.entries(links)) if (existsSync(to)) symlinkSync(to, join(folder, name));
  spawnSync('mkfifo', [join(folder, 'pipe.piece')]);
  const words: Readonly<Record<string, string>> = {
    'wide.piece': 'It is saved as UTF-16: save it as UTF-8.',
    'latin.piece': 'It isn’t written in UTF-8 throughout: save it as UTF-8, and look at its accents and signs.',
    'endless.piece': 'It is no file, but a device or a pipe.',
    'pipe.piece': 'It is no file, but a device or a pipe.',
    'faulty.piece': 'The disk gives an error.',
  };
  const there = new Set(readdirSync(folder));
  return Object.fromEntries(Object.entries(words).filter(([name]) => there.has(name)));
}

describe('files that can’t be read', () => {
  it('cost themselves, and no other file of many', async () => {
    const many = Object.fromEntries(Array.from({ length: 40 }, (_, index) => [`many${String(index).padStart(2, '0')}.piece`, good]));
    const folder = program.folder(many);
    const words = strange(folder);
    expect(Object.keys(words).length).toBeGreaterThan(2);
    const { code, out, err } = await program.run(['check', ...Object.keys(words), ...Object.keys(many)], folder);
    const expected = Object.entries(words).sort(([a], [b]) => (a < b ? -1 : 1)).map(([name, why]) => `${name}:1:1 error unreadable-file This file can’t be read. ${why}`);
    expect(out.split('\n')).toEqual([...expected, `${expected.length + 40} files: ${expected.length} errors.`, '']);
    expect([code, err]).toEqual([1, '']);
  });

  it('are told where another spec uses them, and no table is written', async () => {
    const folder = program.folder({});
    for (const [name, why] of Object.entries(strange(folder))) {
      writeFileSync(join(folder, 'user.piece'), using(name));
      const { code, out } = await program.run(['check', 'user.piece'], folder);
      // A link that leads out of the folder counts as no file.
      if (['endless.piece', 'faulty.piece'].includes(name)) expect(out).toContain('missing-file');
      else expect(out).toContain(`${name}:1:1 error unreadable-file This file can’t be read. ${why}`);
      expect(code).toBe(1);
      expect(await program.run(['table', name], folder)).toMatchObject({ code: 1, out: '' });
    }
  });

  it('keep the server waiting for nothing', async () => {
    const folder = program.folder({ 'good.piece': good });
    strange(folder);
    const host = nodeHost({ read: () => Promise.resolve(undefined), list: () => Promise.resolve([]) });
    const root = pathToFileURL(folder).href;
    expect((await host.list(root)).map((uri) => uri.slice(root.length + 1))).not.toContain('pipe.piece');
    expect(await Promise.all(['pipe.piece', 'wide.piece', 'latin.piece', 'endless.piece', 'good.piece'].map((name) => host.read(`${root}/${name}`, root)))).toEqual([{ unread: 'no file' }, { unread: 'utf-16' }, { unread: 'not utf-8' }, undefined, { text: good }]);
  });
});

test('in the editor, what stands on disk is told as well, until an editor shows a text of its own', () => {
  const workspace = new Workspace();
  const told = (): readonly string[] => workspace.snapshot('a.piece')?.pattern.problems.map(({ code, message }) => `${code} ${message}`) ?? [];
  workspace.setDisk('a.piece', undefined, 'utf-16');
  expect(told()).toContain('unreadable-file This file can’t be read. It is saved as UTF-16: save it as UTF-8.');
  workspace.open('a.piece', '');
  expect(told().join()).not.toContain('unreadable-file');
  workspace.open('a.piece', good);
  workspace.close('a.piece');
  expect(told().join()).toContain('unreadable-file');
  workspace.setDisk('a.piece', '');
  expect(told().join()).not.toContain('unreadable-file');
  workspace.setDisk('a.piece', undefined, 'denied');
  expect(told().join()).toContain('Permission is missing.');
});

describe('names that the disk can’t have', () => {
  const long = `${'n'.repeat(300)}.piece`;
  it.each([['used', using(long)], ['used with a sign that ends a name', using('a\\u0000.piece')]])('count as no file where they are %s', async (_, text) => {
    const folder = program.folder({ 'a.piece': text });
    const { code, out, err } = await program.run(['check', 'a.piece'], folder);
    expect(out).toMatch(/a\.piece:4:5 error /);
    expect([code, err]).toEqual([1, '']);
  });

  it('are told in one line, without the name of a file that was there only while writing', async () => {
    const folder = program.folder({ 'a.piece': spec('material c "C" {\n role main\n width 40 in\n}\npiece p "P" {\n outline rectangle 3 by 4\n grain up\n cut 1 c\n}') });
    expect((await program.run(['check', long], folder)).err).toBe(`There is no file or folder “${long}”.\n`);
    for (const name of [`${'n'.repeat(300)}.md`, `${'n'.repeat(250)}.md`]) {
      const { code, err } = await program.run(['table', 'a.piece', '-o', name], folder);
      expect([code, err]).toEqual([2, `“${name}” can’t be written: its name is too long.\n`]);
    }
    expect(readdirSync(folder)).toEqual(['a.piece']);
  });
});

describe('what is written', () => {
  it('never takes the place of a spec, whatever it is called', async () => {
    const folder = program.folder({ 'a.piece': spec('material c "C" {\n role main\n width 40 in\n}\npiece p "P" {\n outline rectangle 3 by 4\n grain up\n cut 1 c\n}') });
    const before = readFileSync(join(folder, 'a.piece'), 'utf8');
    symlinkSync('a.piece', join(folder, 'link.md'));
    for (const [name, ...more] of [['a.piece', '-f', 'markdown'], ['./A.PIECE', '-f', 'csv'], ['link.md']] as const) {
      const { code, out, err } = await program.run(['table', 'a.piece', '-o', name, ...more], folder);
      expect([code, out, err]).toEqual([2, '', `“${name}” is a spec, or would look like one: name another file to write.\n`]);
    }
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toBe(before);
  });

  it('steers no terminal and turns no line around', async () => {
    const folder = program.folder({ 'a.piece': spec('length w = 3\ncheck w > 4 else "a\u202Eb\u0007c\u001b[31md\u2028e"') });
    const { out } = await program.run(['check', 'a.piece'], folder);
    expect(out).toContain('a\\u{202e}b\\u{7}c\\u{1b}[31md e');
    expect(out).not.toMatch(/[\u0000-\u0009\u000B-\u001F\u2028\u202E]/);
    expect((await program.run(['check', 'no\u001b]0;x\u0007.piece'], folder)).err).toBe('There is no file or folder “no\\u{1b}]0;x\\u{7}.piece”.\n');
  });
});

describe('standard input', () => {
  it('is a spec of its own, told by a name', async () => {
    const folder = program.folder({ 'stock.piece': 'length w = 3', 'sub/near.piece': 'length w = 4' });
    const run = (args: readonly string[], text: string | Buffer): Promise<{ readonly code: number | null; readonly out: string; readonly err: string }> => program.run(args, folder, false, text);
    expect(await run(['check', '-'], good)).toEqual({ code: 0, out: '-: nothing to report.\n', err: '' });
    expect((await run(['check', '-'], spec('length w = 3 in + 1 deg\ncheck w = 3'))).out).toContain('-:4:12 error mixed-kinds');
    expect(await run(['check', '-', '--name', 'a.piece'], spec('use "stock.piece"\ncheck w = 3'))).toMatchObject({ code: 0, out: 'a.piece: nothing to report.\n' });
    expect(await run(['check', '-', '--name', 'sub/a.piece'], spec('use "near.piece"\ncheck w = 4'))).toMatchObject({ code: 0, out: 'sub/a.piece: nothing to report.\n' });
    expect((await run(['check', '-'], Buffer.from(good, 'utf16le'))).code).toBe(1);
    expect((await run(['check', '-', 'stock.piece'], good)).out).toContain('2 files: ');
  });
});

describe('issue', () => {
  const folders = { 'a.piece': 'pattern "T"\nrevision 3\nallowance none\n' };

  it('does not lower what was issued, and keeps its record', async () => {
    const folder = program.folder(folders);
    await program.run(['issue', 'a.piece'], folder);
    const issued = readFileSync(join(folder, 'a.piece'), 'utf8');
    expect(issued).toContain('issued 3');
    const lowered = issued.replace('revision 3', 'revision 2');
    writeFileSync(join(folder, 'a.piece'), lowered);
    const { code, err } = await program.run(['issue', 'a.piece'], folder);
    expect([code, err]).toEqual([2, 'Revision 3 has been issued already, so 2 would go back: raise the revision first.\n']);
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toBe(lowered);
  });

  it('writes nothing over what was saved while it worked', async () => {
    const folder = program.folder(folders);
    const file = join(folder, 'a.piece');
    const edited = `${folders['a.piece']}length w = 3\n`;
    const spy = vi.spyOn(Analyst.prototype, 'analyse').mockImplementationOnce((...given) => {
      const pattern = new Analyst().analyse(...given);
      writeFileSync(file, edited);
      return pattern;
    });
    try {
      await expect(issue(file)).rejects.toThrow('has been changed meanwhile, so nothing is written: issue it again.');
    } finally {
      spy.mockRestore();
    }
    expect(readFileSync(file, 'utf8')).toBe(edited);
    expect(readdirSync(folder)).toEqual(['a.piece']);
  });

  it('keeps a byte order mark', async () => {
    const folder = program.folder({ 'a.piece': `\uFEFF${folders['a.piece']}` });
    await program.run(['issue', 'a.piece'], folder);
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toMatch(/^\uFEFFpattern "T"\nrevision 3\nissued 3 as "[0-9a-f]{12}"\nallowance none\n$/);
  });
});
