import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seen } from '../support/pdf.ts';
import { buildProgram, type Program } from './program.ts';

const pouch = `pattern "Cable pouch"
revision 4
unit mm
allowance 10
sizes S, M
length w = 120 for S, 150 for M
material canvas "Canvas" {
  role main
  width 150 cm
  bought in lengths of 10 cm
}
piece front "Front" {
  outline rectangle w by 100
  corner bottom round 30
  cut 2 canvas
}
`;

let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

describe('piecewright pages', () => {
  it('writes the booklet and every other file by its ending, and a drawing for each template', async () => {
    const folder = program.folder({ 'pouch.piece': pouch });
    const { code, err } = await program.run(['pages', 'pouch.piece', '-o', 'out/pouch.pdf', '-o', 'pouch.dxf', '-o', 'pouch.xlsx', '-o', 'pouch.json', '--svg', 'drawings', '--paper', 'letter'], folder);
    expect([code, err]).toEqual([0, ['out/pouch.pdf', 'pouch.dxf', 'pouch.xlsx', 'pouch.json', 'drawings/pouch-1-front.svg'].map((file) => `Wrote ${file}.\n`).join('')]);
    expect(readFileSync(join(folder, 'out/pouch.pdf')).subarray(0, 5).toString()).toBe('%PDF-');
    expect(readFileSync(join(folder, 'pouch.xlsx')).subarray(0, 2).toString()).toBe('PK');
    expect(JSON.parse(readFileSync(join(folder, 'pouch.json'), 'utf8'))).toMatchObject({ format: 'piecewright pattern', title: 'Cable pouch', combinations: [{ options: { size: 'S' } }, { options: { size: 'M' } }] });
    // Nothing half-written is left behind.
    expect(readdirSync(folder).sort()).toEqual(['drawings', 'out', 'pouch.dxf', 'pouch.json', 'pouch.piece', 'pouch.xlsx']);
  });

  it('writes beside the spec’s name where nothing is said, and one size alone where one is chosen', async () => {
    const folder = program.folder({ 'pouch.piece': pouch });
    expect(await program.run(['pages', 'pouch.piece', '--choose', 'size=M'], folder)).toMatchObject({ code: 0, err: 'Wrote pouch.pdf.\n' });
    expect(existsSync(join(folder, 'pouch.pdf'))).toBe(true);
  });

  it.each([
    [['--paper', 'a9'], /There is no paper “a9”/],
    [['--margin', '1 yard'], /isn’t a margin/],
    [['-o', 'x.docx'], /Nothing can be written as “\.docx”/],
    [['--choose', 'size=XXL'], /There is no option of “size” called “XXL”/],
  ] as const)('says what is wrong with %s, and writes nothing', async (args, words) => {
    const folder = program.folder({ 'pouch.piece': pouch });
    const { code, err } = await program.run(['pages', 'pouch.piece', ...args], folder);
    expect(code).toBe(2);
    expect(err).toMatch(words);
    expect(readdirSync(folder)).toEqual(['pouch.piece']);
  });

  it('says in the booklet what has changed since an earlier file, and nothing where the revision doesn’t tell the copies apart', async () => {
    const later = pouch.replace('revision 4', 'revision 5').replace('w by 100', 'w by 110');
    const folder = program.folder({ 'old.piece': pouch, 'pouch.piece': later, 'stale.piece': later.replace('revision 5', 'revision 4') });
    expect(await program.run(['pages', 'pouch.piece', '--since', 'old.piece'], folder)).toMatchObject({ code: 0 });
    const { pages, outline } = await seen(readFileSync(join(folder, 'pouch.pdf')));
    expect(outline[0]).toBe('What changed since revision 4');
    const words = pages.flatMap(({ texts }) => texts.map(({ text }) => text));
    expect(words).toEqual(expect.arrayContaining(['Print these templates again', 'Cut these pieces again']));
    expect(words.join(' ')).toMatch(/Front, from Canvas: size .*110 mm.*, in place of .*100 mm/);
    expect(await program.run(['pages', 'stale.piece', '--since', 'old.piece'], folder)).toMatchObject({ code: 1, err: expect.stringContaining('its revision is still 4') as string });
    expect(await program.run(['pages', 'pouch.piece', '--since', 'nowhere'], folder)).toMatchObject({ code: 2, err: expect.stringContaining('no revision “nowhere”') as string });
    expect(existsSync(join(folder, 'stale.pdf'))).toBe(false);
  });

  it('reads an earlier revision through git', async () => {
    const folder = program.folder({ 'pouch.piece': pouch });
    const git = (...args: readonly string[]): void => { execFileSync('git', ['-c', 'user.name=a', '-c', 'user.email=a@example.invalid', ...args], { cwd: folder }); };
    git('init', '--quiet');
    git('add', '.');
    git('commit', '--quiet', '-m', 'first');
    writeFileSync(join(folder, 'pouch.piece'), pouch.replace('revision 4', 'revision 5').replace('cut 2 canvas', 'cut 3 canvas'));
    expect(await program.run(['pages', 'pouch.piece', '--since', 'HEAD'], folder)).toMatchObject({ code: 0 });
    const { pages } = await seen(readFileSync(join(folder, 'pouch.pdf')));
    const words = pages.flatMap(({ texts }) => texts.map(({ text }) => text));
    expect(words).toContain('Cut another number of these');
    expect(words.some((text) => text.includes('count 3, in place of 2'))).toBe(true);
  });

  it('writes nothing while the spec has errors', async () => {
    const folder = program.folder({ 'pouch.piece': pouch.replace('cut 2 canvas', 'cut 2 linen') });
    const { code, err } = await program.run(['pages', 'pouch.piece'], folder);
    expect(code).toBe(1);
    expect(err).toContain('Nothing is written while the spec has errors: a wrong template would cost cloth.');
    expect(readdirSync(folder)).toEqual(['pouch.piece']);
  });
});
