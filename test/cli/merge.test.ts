import { execFileSync, spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from 'vitest';
import { materials, spec } from '../compare/changes.ts';
import { buildProgram, type Program } from './program.ts';

/* Git itself calls the program, by the settings that the readme gives, in a repository that is made here. */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });
let program: Program;
let folder: string;

const settings = ['user.name=A', 'user.email=a@example.com', 'commit.gpgsign=false', 'core.autocrlf=false'].flatMap((one) => ['-c', one]);
const git = (...args: readonly string[]): string => execFileSync('git', [...settings, ...args], { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
const path = 'our bags/case.piece';
const read = (): string => readFileSync(join(folder, path), 'utf8');
const write = (text: string): void => { writeFileSync(join(folder, path), text); };

beforeAll(async () => { program = await buildProgram(); });
beforeEach(() => {
  folder = program.folder({ '.gitattributes': '*.piece merge=piece\n', [path]: spec, 'our bags/stock.piece': materials });
  git('init', '--quiet', '--initial-branch', 'main');
  git('config', 'merge.piece.driver', `"${process.execPath}" "${program.file}" merge %O %A %B --marker-size %L --path %P`);
  git('add', '.');
  git('commit', '--quiet', '--message', 'First');
});
afterAll(() => { program.end(); });

/** Merges two changes of the case as git does, and gives its status with all that was said. */
function merge(ours: string, theirs: string): { readonly status: number | null; readonly said: string } {
  for (const [branch, text] of [['theirs', theirs], ['ours', ours]] as const) {
    git('checkout', '--quiet', '-b', branch, 'main');
    write(text);
    git('commit', '--quiet', '--all', '--message', branch);
  }
  const { status, stdout, stderr } = spawnSync('git', [...settings, 'merge', '--no-edit', 'theirs'], { cwd: folder, encoding: 'utf8' });
  return { status, said: stdout + stderr };
}

describe('piecewright merge, called by git', () => {
  it('merges what would be a conflict between lines, where it is in two declarations', () => {
    const wide = spec.replace('3 1/2 for S', '3 3/4 for S');
    const tall = spec.replace('case_h = 7', 'case_h = 8');
    const { status, said } = merge(wide, tall);
    expect([status, read()]).toEqual([0, wide.replace('case_h = 7', 'case_h = 8')]);
    expect(said).not.toContain('piece:');
    // Lines beside one another are a conflict to git by itself.
    writeFileSync(join(folder, '.gitattributes'), '');
    git('commit', '--quiet', '--all', '--message', 'Without');
    for (const [name, text] of [['a', wide], ['b', tall], ['o', spec]] as const) writeFileSync(join(folder, name), text);
    expect(spawnSync('git', ['merge-file', '-p', 'a', 'o', 'b'], { cwd: folder }).status).toBe(1);
  });

  it('leaves marks in the declaration alone where both say otherwise', () => {
    const { status, said } = merge(spec.replace('cut 2 foam', 'cut 4 foam'), spec.replace('cut 2 foam', 'cut 6 foam').replace('case_h = 7', 'case_h = 8'));
    expect(status).toBe(1);
    expect(said).toContain(`${path}: one place to choose between both sides.`);
    expect(read()).toBe(spec.replace('case_h = 7', 'case_h = 8').replace('  cut 2 foam along padding\n', '<<<<<<< ours\n  cut 4 foam along padding\n=======\n  cut 6 foam along padding\n>>>>>>> theirs\n'));
    expect(git('status', '--porcelain')).toContain(`UU "${path}"`);
  });

  it('stops where the two fit as texts and make an error that neither side had', () => {
    const { status, said } = merge(spec.replaceAll('case_h', 'tall'), `${spec}\nlength twice = case_h * 2\n`);
    expect(status).toBe(1);
    expect(said).toMatch(/^our bags\/case\.piece:\d+:16 unknown-name .*case_h/m);
    expect(said).toContain('merged, but with an error that neither side had');
    expect(read()).toContain('length tall = 7');
    expect(git('status', '--porcelain')).toContain(`UU "${path}"`);
  });

  it('stops where a check holds on both sides and not in what is merged', () => {
    const checked = spec.replace('clears body.cutting by 1/2', 'clears body.cutting by 3/8');
    write(checked);
    git('commit', '--quiet', '--all', '--message', 'Checked');
    const { status, said } = merge(checked.replace('pad = 1/2', 'pad = 3/8'), checked.replace('by 3/8', 'by 7/8'));
    expect(status).toBe(1);
    expect(said).toContain('check-failed');
  });

  it('tells where both sides have raised the revision to the same', () => {
    const raised = spec.replace('revision 1', 'revision 2');
    const { status, said } = merge(raised.replace('cut 2 foam', 'cut 4 foam'), raised.replace('case_h = 7', 'case_h = 8'));
    expect(status).toBe(0);
    expect(said).toContain('both sides are revision 2, and what is merged is neither');
  });
});

describe('piecewright merge', () => {
  it('writes nothing where a side can’t be read', async () => {
    const files = program.folder({ 'a.piece': 'pattern "A"\n', 'b.piece': '\u0000' });
    writeFileSync(join(files, 'b.piece'), Buffer.from([0xff, 0xfe, 0]));
    const { code, out, err } = await program.run(['merge', 'a.piece', 'a.piece', 'b.piece'], files);
    expect([code, out, err.includes('so nothing is merged')]).toEqual([2, '', true]);
    expect(readFileSync(join(files, 'a.piece'), 'utf8')).toBe('pattern "A"\n');
  });
});
