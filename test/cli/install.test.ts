import { execFileSync, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { cloned, type Clone } from '../support/clone.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
let clone: Clone;
let installed: string;
beforeAll(() => {
  clone = cloned();
  clone.npm(['pack', '--pack-destination', clone.home], clone.folder);
  installed = join(clone.home, 'empty');
  mkdirSync(installed);
  writeFileSync(join(installed, 'package.json'), '{}');
  clone.npm(['install', join(clone.home, readdirSync(clone.home).find((name) => name.endsWith('.tgz')) ?? '')], installed);
});
afterAll(() => { clone.end(); });

/** Runs a command that npm has linked to. */
const run = (command: string, args: readonly string[], folder: string): string => execFileSync(command, args, { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
const packageFolder = (): string => join(installed, 'node_modules/piecewright');

describe('the packed package, installed into an empty folder', () => {
  it('brings nothing but itself', () => {
    expect(readdirSync(join(installed, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['piecewright']);
  });

  it('runs every command', () => {
    const command = join(installed, 'node_modules/.bin/piecewright');
    const work = join(clone.home, 'work');
    cpSync(join(packageFolder(), 'samples'), work, { recursive: true });
    const commands = [...run(command, ['--help'], work).matchAll(/^ {2}([a-z]+) .*[<[]/gm)].map(([, name]) => name ?? '').filter((name) => name !== 'help');
    expect(commands).toEqual(expect.arrayContaining(['check', 'table', 'lay', 'issue']));
    for (const name of commands) expect(run(command, [name, '--help'], work)).toContain(`piecewright ${name}`);
    expect(run(command, ['check'], work)).toMatch(/files: /);
    expect(run(command, ['table', 'market-apron.piece'], work)).toContain('# Market apron');
    expect(run(command, ['lay', 'market-apron.piece', '--effort', '0'], work)).toContain('buy ');
    expect(run(command, ['issue', 'market-apron.piece'], work)).toContain('is issued as');
  });

  it('runs the server', async () => {
    const message = JSON.stringify({ jsonrpc: '2.0', id: 1, method: 'initialize', params: { processId: null, rootUri: null, capabilities: {} } });
    const server = spawn(join(installed, 'node_modules/.bin/piecewright-server'), ['--stdio'], { cwd: installed, stdio: ['pipe', 'pipe', 'inherit'] });
    const ended = new Promise((resolve) => server.on('close', resolve).on('error', resolve));
    const answer = new Promise<string>((resolve) => server.stdout.setEncoding('utf8').once('data', resolve));
    server.stdin.write(`Content-Length: ${message.length}\r\n\r\n${message}`);
    expect(await Promise.race([answer, ended])).toContain('Content-Length');
    server.stdin.end();
    await ended;
  });

  it('carries every page that its pages link to', () => {
    const pages = readdirSync(packageFolder(), { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.md'));
    expect(pages).toContain('README.md');
    const missing = pages.flatMap((page) => {
      const links = [...readFileSync(join(packageFolder(), page), 'utf8').matchAll(/\]\((?!https?:|#|command:)([^)#\s]+)/g)].map(([, link]) => link ?? '');
      return links.filter((link) => !existsSync(join(packageFolder(), dirname(page), link))).map((link) => `${page}: ${link}`);
    });
    expect(missing).toEqual([]);
  });
});

describe('a clone in which nothing is built', () => {
  it('leaves a command where it is installed globally', () => {
    const prefix = join(clone.home, 'prefix');
    const fresh = join(clone.home, 'fresh');
    cpSync(clone.folder, fresh, { recursive: true, verbatimSymlinks: true, filter: (path) => path !== join(clone.folder, 'dist') });
    expect(existsSync(join(fresh, 'dist'))).toBe(false);
    clone.npm(['install', '--global', '--prefix', prefix, fresh], clone.home);
    const command = [join(prefix, 'bin/piecewright'), join(prefix, 'piecewright')].find((path) => existsSync(path)) ?? 'none';
    expect(run(command, ['--version'], clone.home)).toMatch(/^\d+\.\d+\.\d+\n$/);
  });
});
