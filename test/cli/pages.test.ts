import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
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

  it('writes nothing while the spec has errors', async () => {
    const folder = program.folder({ 'pouch.piece': pouch.replace('cut 2 canvas', 'cut 2 linen') });
    const { code, err } = await program.run(['pages', 'pouch.piece'], folder);
    expect(code).toBe(1);
    expect(err).toContain('Nothing is written while the spec has errors: a wrong template would cost cloth.');
    expect(readdirSync(folder)).toEqual(['pouch.piece']);
  });
});
