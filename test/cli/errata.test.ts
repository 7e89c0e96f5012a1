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

  it('writes one for each spec of a folder that matters, and says of which there is none', async () => {
    const folder = program.folder({
      'was/line/a.piece': spec(1, '11'), 'was/b.piece': spec(1, '11'), 'was/c.piece': spec(1, '11'), 'was/gone.piece': spec(1, '11'),
      'now/line/a.piece': spec(2, '12'), 'now/b.piece': spec(1, '12'), 'now/c.piece': spec(1, '11'), 'now/new.piece': spec(1, '5'),
    });
    const errata = (...more: readonly string[]): ReturnType<typeof program.run> => program.run(['errata', 'was', 'now', '--no-cache', ...more], folder);
    const { code, out, err } = await errata('--output', 'notices');
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/now\/b\.piece: .*could not tell which copy they have[^]*Wrote one notice to notices\./);
    expect(readFileSync(join(folder, 'notices/line/a.md'), 'utf8')).toMatch(/Back, from Linen: size 9 in .* × 12 in/);
    expect(['notices/b.md', 'notices/c.md', 'notices/new.md', 'notices/gone.md'].map((file) => existsSync(join(folder, file)))).toEqual([false, false, false, false]);
    const refused = await errata();
    expect([refused.code, refused.err]).toEqual([2, expect.stringContaining('name a folder with --output')]);
  });
});
