import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { buildProgram, type Program } from './program.ts';

vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
beforeAll(async () => { program = await buildProgram(); });
afterAll(() => { program.end(); });

const spec = (revision: number, height: string): string => `pattern "Peg bag"
revision ${revision}
unit in
material cloth "Linen" {
  role main
  width 40 in
}
piece back "Back" {
  outline rectangle 9 by ${height}
  grain up
  cut 1 cloth
}
`;
const run = async (fresh: string, ...more: readonly string[]): Promise<{ readonly code: number | null; readonly out: string; readonly err: string; readonly folder: string }> => {
  const folder = program.folder({ 'old.piece': spec(1, '11'), 'new.piece': fresh });
  return { ...await program.run(['errata', 'old.piece', 'new.piece', ...more], folder), folder };
};

describe('piecewright errata', () => {
  it('writes what to do otherwise, with the usual cautions', async () => {
    const { code, folder } = await run(spec(2, '12'), '--output', 'notice.md');
    expect(code).toBe(0);
    const notice = readFileSync(join(folder, 'notice.md'), 'utf8');
    expect(notice).toContain('Cut these pieces again');
    expect(notice).toMatch(/Back, from Linen: size 9 in .* × 12 in .*, in place of 9 in .* × 11 in/);
    expect(notice).toContain('Safety');
  });

  it('writes none while a spec has errors', async () => {
    const { code, out, err, folder } = await run(spec(2, 'tall'), '--output', 'notice.md');
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('while one of the specs has errors');
    expect(existsSync(join(folder, 'notice.md'))).toBe(false);
  });

  it('writes none where the revision wasn’t raised: nobody could tell which copy they have', async () => {
    const { code, out, err } = await run(spec(1, '12'));
    expect([code, out]).toEqual([1, '']);
    expect(err).toContain('could not tell which copy they have');
  });

  it('says so where nothing matters to those who have the earlier revision', async () => {
    const { code, out, err } = await run(spec(2, '22/2'));
    expect([code, out]).toEqual([0, '']);
    expect(err).toContain('Nothing has changed that matters');
  });
});
