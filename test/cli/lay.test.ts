import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { UsageError } from '../../server/src/cli/files.ts';
import { lay, type LayOptions } from '../../server/src/cli/lay.ts';

const usual: LayOptions = { material: [], choose: [], all: false, articles: '1', width: [], lay: 'shorter', gap: '0', effort: '0', verify: false, json: false };
const roll = fileURLToPath(new URL('../../samples/potters-roll.piece', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'lay-'));
afterAll(() => { rmSync(folder, { recursive: true }); });

async function run(file: string, options: Partial<LayOptions> = {}): Promise<{ code: number; out: string; told: string }> {
  let [out, told] = ['', ''];
  const toOut = vi.spyOn(process.stdout, 'write').mockImplementation((text) => { out += String(text); return true; });
  const toErr = vi.spyOn(process.stderr, 'write').mockImplementation((text) => { told += String(text); return true; });
  try {
    return { code: await lay(file, { ...usual, ...options }), out, told };
  } finally {
    toOut.mockRestore();
    toErr.mockRestore();
  }
}

describe('piecewright lay', () => {
  it('says what to buy of each material and supply, and that every lay was checked', async () => {
    const { code, out } = await run(roll, { verify: true });
    expect(code).toBe(0);
    for (const words of ['Cotton canvas, 58 in wide, 56 in usable', 'buy 1/2 yd, certain, 9.25', 'Cotton webbing: needs 40 in, buy 1 1/4 yd', 'Checked: every lay is right.', 'Blades: cover']) expect(out).toContain(words);
  });

  it('sets widths side by side and names the cheapest', async () => {
    const { out } = await run(roll, { material: ['canvas'], width: ['44 in', '60in=10'] });
    expect(out).toMatch(/44 in wide, 42 in usable: .*9\.25/);
    expect(out).toMatch(/60 in wide, 58 in usable: .*5\.00 EUR, the cheapest/);
    expect(out).not.toContain('Cotton poplin');
  });

  it('writes JSON that others can read', async () => {
    const { out } = await run(roll, { json: true, articles: '3', gap: '1/8in' });
    const data = JSON.parse(out) as { format: string; plans: { articles: number; materials: { widths: { lays: { gap: number }[] }[] }[] }[] };
    expect([data.format, data.plans[0]?.articles, data.plans[0]?.materials[0]?.widths[0]?.lays[0]?.gap]).toEqual(['piecewright lay', 3, 3.175]);
  });

  it('draws a file for each material', async () => {
    await run(roll, { svg: folder, material: ['canvas', 'cork'] });
    expect(readdirSync(folder).sort()).toEqual(['potters-roll-canvas.svg', 'potters-roll-cork.svg']);
    expect(readFileSync(join(folder, 'potters-roll-canvas.svg'), 'utf8')).toContain('Blades: cover');
  });

  it('leaves out a piece that is too wide, says so and ends with 1', async () => {
    const file = join(folder, 'wide.piece');
    writeFileSync(file, 'pattern "W"\nrevision 1\nunit in\nallowance none\nmaterial cloth "Cloth" {\n  role main\n  width 44\n}\npiece p "Wide" {\n  outline rectangle 60 by 50\n  grain up\n  cut 1 cloth\n}\npiece q "Small" {\n  outline rectangle 6 by 5\n  grain up\n  cut 1 cloth\n}\n');
    const { code, out, told } = await run(file, { verify: true });
    expect(code).toBe(1);
    expect(told).toContain('too-wide');
    expect(out).toContain('Attention: does not fit and is left out: Wide');
    expect(out).toContain('buy 1/4 yd');
  });

  it('lays nothing out while a spec has other errors', async () => {
    const file = join(folder, 'bad.piece');
    writeFileSync(file, 'pattern "B"\nrevision 1\nunit in\nallowance none\npiece p "P" {\n  outline rectangle 60 by nothing\n  cut 1 cloth\n}\n');
    const { code, out, told } = await run(file);
    expect([code, out]).toEqual([1, '']);
    expect(told).toContain('Nothing is laid out');
  });

  it.each([
    [{ width: ['wide'] }], [{ width: ['54in=x'] }], [{ width: ['0in'] }], [{ gap: '-1' }], [{ gap: '1/0in' }], [{ articles: '0' }], [{ articles: '2.5' }], [{ effort: 'x' }], [{ material: ['velvet'] }], [{ width: ['20 m'] }], [{ gap: '20 m' }], [{ articles: '100001' }], [{ effort: '3601' }], [{ width: ['40', '41', '42', '43', '44', '45', '46'] }],
  ] as [Partial<LayOptions>][])('refuses what it can’t read: %o', async (options) => {
    await expect(run(roll, options)).rejects.toThrow(UsageError);
  });
});
