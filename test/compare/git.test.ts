import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { buildProgram, type Program } from '../cli/program.ts';
import { branches, materials, spec } from './changes.ts';

/*
 * A real repository with a branch for each kind of change. What is said of each was reviewed by eye; after a change that is
 * meant, write it anew and review it again:
 *   UPDATE_EXPECTED=1 npx vitest run --config test/vitest.config.mts test/compare
 */
vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });
let program: Program;
let folder: string;

const git = (...args: readonly string[]): string => execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', '-c', 'core.autocrlf=false', ...args], { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });
const write = (path: string, text: string): void => { writeFileSync(join(folder, path), text); };

beforeAll(async () => {
  program = await buildProgram();
  folder = program.folder({ 'case.piece': spec, 'stock.piece': materials });
  git('init', '--quiet', '--initial-branch', 'main');
  git('add', '.');
  git('commit', '--quiet', '--message', 'First');
  for (const branch of branches) {
    git('checkout', '--quiet', '-b', branch.name, 'main');
    write('case.piece', (branch.spec ?? ((text) => text))(spec));
    write('stock.piece', (branch.materials ?? ((text) => text))(materials));
    git('commit', '--quiet', '--all', '--message', branch.name);
  }
  git('checkout', '--quiet', 'main');
});
afterAll(() => { program.end(); });

const expected = (name: string): URL => new URL(`../expected/compare/${name}`, import.meta.url);

function reviewed(name: string, text: string): void {
  const file = expected(name);
  if (process.env['UPDATE_EXPECTED'] === '1') {
    mkdirSync(expected('.'), { recursive: true });
    writeFileSync(file, text);
  }
  expect(existsSync(file), 'there is no reviewed comparison yet').toBe(true);
  expect(text).toBe(readFileSync(file, 'utf8'));
}

describe('piecewright compare --git', () => {
  it.each(branches.map(({ name }) => name))('%s gives the reviewed comparison', async (name) => {
    const { code, out, err } = await program.run(['compare', '--git', `main..${name}`, 'case.piece', '--format', 'markdown'], folder);
    expect(err).toBe('');
    reviewed(`${name}.md`, `${out}\nExit status ${String(code)}\n`);
  });
});
