import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import { buildProgram, type Program } from './program.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const loose = 'pattern   "A"\r\nlength  a=1  1/2 # why\r\n  oops here\r\n';
const canonical = 'pattern "A"\r\nlength a = 1 1/2  # why\r\noops here\r\n';
const tidy = 'pattern "B"\n';

describe('piecewright format', () => {
  it('brings specs to their canonical form, with their line ends and what can’t be read, and says which', async () => {
    const folder = program.folder({ 'a.piece': loose, 'more/b.piece': tidy, 'notes.txt': loose });
    const checked = await program.run(['format', '--check'], folder);
    expect(checked).toEqual({ code: 1, out: 'a.piece would change.\n', err: '' });
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toBe(loose);
    expect(await program.run(['format', '.'], folder)).toEqual({ code: 0, out: 'Formatted a.piece.\n', err: '' });
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toBe(canonical);
    expect(readFileSync(join(folder, 'notes.txt'), 'utf8')).toBe(loose);
    expect(await program.run(['format', '--check', 'a.piece', 'more'], folder)).toEqual({ code: 0, out: '', err: 'Nothing to change.\n' });
  });

  it('writes what comes from standard input to standard output', async () => {
    const folder = program.folder({ 'a.piece': loose });
    expect(await program.run(['format', '-'], folder, false, loose)).toEqual({ code: 0, out: canonical, err: '' });
    expect(await program.run(['format', '-', '--check'], folder, false, loose)).toEqual({ code: 1, out: '', err: '' });
    expect(await program.run(['format', '-', '--check'], folder, false, canonical)).toEqual({ code: 0, out: '', err: '' });
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toBe(loose);
  });

  it('leaves a file alone that it can’t read, and keeps a byte order mark', async () => {
    const utf16 = Buffer.from('\uFEFFpattern   "A"', 'utf16le');
    const folder = program.folder({ 'a.piece': '\uFEFFpattern   "A"\n' });
    expect((await program.run(['format', 'a.piece'], folder)).code).toBe(0);
    expect(readFileSync(join(folder, 'a.piece'), 'utf8')).toBe('\uFEFFpattern "A"\n');
    const input = await program.run(['format', '-'], folder, false, utf16);
    expect([input.code, input.out]).toEqual([2, '']);
    expect(input.err).toContain('UTF-16');
    expect((await program.run(['format', '-', 'a.piece'], folder)).code).toBe(2);
  });
});

describe('the canonical form', () => {
  const lines = ['outline rectangle 3 by 4', 'corner top round 1/2  # soft', 'line core = inset 1/2', '# in between', 'grain up', 'cut 2 canvas', 'cut 1 foam along core note "Last."'];
  const written = (body: readonly string[]): string => printFile(parseFile('a.piece', `piece a {\n${body.map((line) => ` ${line}\n`).join('')}}\nlength  x = 3\n`));
  it.each(lines)('adds one line where “%s” is added, and changes no other', (line) => {
    const at = lines.indexOf(line);
    const without = written(lines.filter((_, index) => index !== at)).split('\n');
    const whole = written(lines).split('\n');
    expect(whole.length).toBe(without.length + 1);
    expect([...whole.slice(0, at + 1), ...whole.slice(at + 2)]).toEqual(without);
  });
});
