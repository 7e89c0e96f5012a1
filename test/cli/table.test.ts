import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { stock } from '../support/spec.ts';
import { buildProgram, type Program } from './program.ts';

// Starting programs takes its time on a busy machine.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const bag = `pattern "Small bag"
revision 2
allowance 1/4
use "stock.piece"
sizes S, L
choice lid is flap or zip
length w = 6 for S, 8 for L
piece front "Front" {
  outline rectangle w by 6
  cut 2 cloth
  cut 2 lining
}
piece flap "Flap" when lid is flap {
  outline rectangle w by 3
  cut 1 cloth
}
`;
const files = { 'bag.piece': bag, 'stock.piece': stock, 'wrong.piece': 'pattern "W"\nrevision 1\nlength a = nosuch\n' };

describe('piecewright table', () => {
  it('writes the first combination, or the one chosen, or all', async () => {
    const folder = program.folder(files);
    const [first, chosen, both, all, allSmall] = await Promise.all([
      [], ['--choose', 'size=L'], ['-c', 'size=L', '-c', 'lid=zip'], ['--all'], ['--all', '-c', 'size=S'],
    ].map(async (args) => program.run(['table', 'bag.piece', ...args], folder)));
    const titles = (text: string | undefined): readonly string[] => text?.split('\n').filter((line) => line.startsWith('# ')).map((line) => line.slice('# Small bag '.length)) ?? [];
    expect([first, chosen, both, all, allSmall].map((one) => [one?.code, one?.err])).toEqual(Array.from({ length: 5 }, () => [0, '']));
    expect(titles(first?.out)).toEqual(['(size: S, lid: flap)']);
    expect(titles(chosen?.out)).toEqual(['(size: L, lid: flap)']);
    expect(titles(both?.out)).toEqual(['(size: L, lid: zip)']);
    // Sizes stand side by side.
    expect(titles(all?.out)).toEqual(['(lid: flap, sizes: S, L)', '(lid: zip, sizes: S, L)']);
    expect(titles(allSmall?.out)).toEqual(['(size: S, lid: flap)', '(size: S, lid: zip)']);
    expect(chosen?.out).toContain('| Front | Cloth | 2 | 8 in × 6 in |');
    expect(both?.out).not.toContain('Flap');
  });

  it('says what a mistyped choice may have meant', async () => {
    const folder = program.folder(files);
    const runs = await Promise.all(['siz=L', 'size=XL', 'lid=flp', 'lid', 'lid=', 'lid=flap=zip'].map(async (choice) => program.run(['table', 'bag.piece', '-c', choice], folder)));
    expect(runs.map((one) => one.code)).toEqual([2, 2, 2, 2, 2, 2]);
    expect(runs.map((one) => one.out)).toEqual(['', '', '', '', '', '']);
    expect(runs[0]?.err).toBe('There is no choice called “siz”. Did you mean “size”?\n');
    expect(runs[1]?.err).toMatch(/^There is no option of “size” called “XL”\./);
    expect(runs[2]?.err).toBe('There is no option of “lid” called “flp”. Did you mean “flap”?\n');
    for (const one of runs.slice(3)) expect(one.err).toContain('as in tab=cork');
  });

  it('chooses its format by the ending, or as told', async () => {
    const folder = program.folder(files);
    const write = async (...args: readonly string[]): Promise<string> => {
      const { code, out, err } = await program.run(['table', 'bag.piece', ...args], folder);
      expect([code, out]).toEqual([0, '']);
      const name = args[args.indexOf('-o') + 1] ?? '';
      expect(err).toBe(`Wrote ${name}.\n`);
      return readFileSync(join(folder, name), 'utf8');
    };
    const [csv, html, json, md, told, byMaterial, pdf, colour] = await Promise.all([
      write('-o', 'a.csv'), write('-o', 'a.HTML'), write('-o', 'a.json'), write('-o', 'a.md'), write('-o', 'b.csv', '-f', 'json'),
      program.run(['table', 'bag.piece', '-f', 'csv', '--by', 'material'], folder),
      program.run(['table', 'bag.piece', '-f', 'pdf'], folder), program.run(['table', 'bag.piece', '-b', 'colour'], folder),
    ]);
    expect(csv).toMatch(/^Choice: size,Choice: lid,Piece,/);
    expect(html).toMatch(/^<!doctype html>/);
    expect(json).toMatch(/^\{\n {2}"format"/);
    expect(md).toMatch(/^# Small bag/);
    expect(told).toMatch(/^\{/);
    expect(byMaterial.out).toContain('Choice: size,Choice: lid,Material,Piece,');
    expect([pdf.code, colour.code]).toEqual([2, 2]);
  });

  it('writes CSV part by part, and for as many articles as asked', async () => {
    const folder = program.folder(files);
    const [cuts, many, parts, noFolder, wrong, none] = await Promise.all([
      ['-f', 'csv', '-s', 'seams'], ['-f', 'csv', '-n', '3'], ['-s', 'all', '-o', 'parts'], ['-s', 'all'], ['-f', 'html', '-s', 'cuts'], ['-n', '0'],
    ].map(async (args) => program.run(['table', 'bag.piece', ...args], folder)));
    // 6 − 2 · 1/4 wide and high.
    expect(cuts?.out.split('\r\n')[1]).toMatch(/^S,flap,Front,,5 1\/2 in × 5 1\/2 in,,1\/4 in all round,Small bag,2,/);
    expect(many?.out).toContain('S,flap,Front,Cloth,6,6 in × 6 in');
    expect(parts?.code).toBe(0);
    expect(readdirSync(join(folder, 'parts')).sort()).toEqual(['buying.csv', 'cuts.csv', 'safety.csv', 'seams.csv']);
    expect([noFolder?.code, wrong?.code, none?.code]).toEqual([2, 2, 2]);
  });

  it('replaces a file whole and leaves nothing beside it', async () => {
    const folder = program.folder(files);
    writeFileSync(join(folder, 'out.md'), 'Before '.repeat(100_000));
    await program.run(['table', 'bag.piece', '-o', 'out.md'], folder);
    const text = readFileSync(join(folder, 'out.md'), 'utf8');
    expect(text).not.toContain('Before');
    expect(text.trimEnd()).toMatch(/_Revision 2, fingerprint [0-9a-f]{12}_$/);
    expect(readdirSync(folder).sort()).toEqual(['bag.piece', 'out.md', 'stock.piece', 'wrong.piece']);
    expect((await program.run(['table', 'bag.piece', '-o', 'new/out.md'], folder)).code).toBe(0);
    expect(existsSync(join(folder, 'new/out.md'))).toBe(true);
    expect((await program.run(['table', 'bag.piece', '-o', 'out.pdf'], folder)).code).toBe(2);
    const lost = await program.run(['table', 'bag.piece', '-o', 'out.md/out.md'], folder);
    expect([lost.code, lost.out, lost.err.trim().split('\n').length]).toEqual([2, '', 1]);
  });

  it('refuses while the spec has errors, and leaves the old file alone', async () => {
    const folder = program.folder({ ...files, 'out.md': 'old' });
    const { code, out, err } = await program.run(['table', 'wrong.piece', '-o', 'out.md'], folder);
    expect([code, out]).toEqual([1, '']);
    expect(err).toBe('wrong.piece:3:12 error unknown-name There is no value called “nosuch”.\nNo table is written while the spec has errors: a wrong one would cost cloth.\n');
    expect(readFileSync(join(folder, 'out.md'), 'utf8')).toBe('old');
    expect((await program.run(['table', '.'], folder)).code).toBe(2);
  });

  it('is not written of a spec that has nothing to cut or to buy', async () => {
    const folder = program.folder({ 'empty.piece': '', 'stock.piece': stock });
    expect(await program.run(['table', 'empty.piece', '-o', 'out.md'], folder)).toEqual({ code: 1, out: '', err: '“empty.piece” has no piece and nothing to buy, so there is no table of it.\n' });
    expect(existsSync(join(folder, 'out.md'))).toBe(false);
    expect((await program.run(['table', 'stock.piece'], folder)).code).toBe(1);
  });

  it('survives its reader going away', async () => {
    const { err } = await program.run(['table', 'bag.piece', '--all'], program.folder(files), true);
    expect(err).not.toMatch(/EPIPE|at \w|node:/);
  });
});

describe('piecewright issue', () => {
  it('writes what was given out, and a later change warns', async () => {
    const folder = program.folder(files);
    const read = (): string => readFileSync(join(folder, 'bag.piece'), 'utf8');
    const issued = await program.run(['issue', 'bag.piece'], folder);
    const digest = /issued as ([0-9a-f]{12})\.\n$/.exec(issued.out)?.[1] ?? '';
    expect(issued).toMatchObject({ code: 0, out: `Revision 2 is issued as ${digest}.\n`, err: '' });
    expect(read()).toBe(bag.replace('revision 2\n', `revision 2\nissued 2 as "${digest}"\n`));
    expect((await program.run(['check', 'bag.piece'], folder)).out).toBe('bag.piece: nothing to report.\n');
    expect((await program.run(['table', 'bag.piece'], folder)).out).toContain(`fingerprint ${digest}`);

    writeFileSync(join(folder, 'bag.piece'), read().replace('8 for L', '9 for L'));
    const changed = await program.run(['check', 'bag.piece'], folder);
    expect(changed.out).toContain('bag.piece:2:10 warning revision-not-raised');
    const again = await program.run(['issue', 'bag.piece'], folder);
    expect([again.code, again.err]).toEqual([2, 'Revision 2 was issued as something else: raise the revision first.\n']);

    writeFileSync(join(folder, 'bag.piece'), read().replace('revision 2', 'revision 3'));
    expect((await program.run(['issue', 'bag.piece'], folder)).code).toBe(0);
    expect(read().match(/^issued 3 as "[0-9a-f]{12}"$/gm)).toHaveLength(1);
    expect(read()).not.toContain('issued 2');
  });

  it('keeps line ends, and comments', async () => {
    const text = bag.replace('revision 2\n', 'revision 2 # second try\n').replaceAll('\n', '\r\n');
    const folder = program.folder({ ...files, 'bag.piece': text });
    await program.run(['issue', 'bag.piece'], folder);
    const after = readFileSync(join(folder, 'bag.piece'), 'utf8');
    expect(after).toMatch(/revision 2 # second try\r\nissued 2 as "[0-9a-f]{12}"\r\nallowance/);
    expect(after.replace(/issued .*\r\n/, '')).toBe(text);
  });

  it('refuses what has errors or no revision, and changes nothing', async () => {
    const folder = program.folder({ ...files, 'none.piece': 'pattern "N"\n' });
    const [wrong, none, missing] = await Promise.all(['wrong.piece', 'none.piece', 'lost.piece'].map(async (name) => program.run(['issue', name], folder)));
    expect([wrong?.code, none?.code, missing?.code]).toEqual([1, 2, 2]);
    expect(wrong?.err).toContain('A pattern with errors can’t be issued.');
    expect(none?.err).toContain('no revision to issue');
    expect(readFileSync(join(folder, 'wrong.piece'), 'utf8')).toBe(files['wrong.piece']);
  });
});

describe('piecewright', () => {
  it('tells its version and its use', async () => {
    const folder = program.folder({});
    const [version, help] = await Promise.all([program.run(['--version'], folder), program.run(['--help'], folder)]);
    expect(version.code).toBe(0);
    expect(version.out).toMatch(/^\d+\.\d+\.\d+\n$/);
    expect(help.code).toBe(0);
    for (const word of ['check', 'table', 'issue']) expect(help.out).toContain(word);
  });
});
