import { execFile, execFileSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { parse } from 'yaml';
import { materials, spec } from '../compare/changes.ts';
import { buildProgram, type Program } from './program.ts';

/*
 * What GitHub, GitLab and pre-commit would run, as far as that can be had without them: the action against its published
 * schema, its scripts in a clean checkout of a repository made here and against a made-up server, the job's script in a shell,
 * the hooks by a program that we didn't write (prek, https://prek.j178.dev).
 */
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });
const root = fileURLToPath(new URL('../../', import.meta.url));
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
let program: Program;
let origin: string;

const git = (folder: string, ...args: readonly string[]): string => execFileSync('git', ['-c', 'user.name=A', '-c', 'user.email=a@example.com', '-c', 'commit.gpgsign=false', '-c', 'core.autocrlf=false', '-c', 'init.defaultBranch=main', ...args], { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] }).trim();

/** Runs a program with nothing of this one's environment that steers it. */
const run = async (file: string, args: readonly string[], folder: string, env: NodeJS.ProcessEnv): Promise<{ code: number; out: string; err: string }> => new Promise((resolve) => {
  execFile(file, args, { cwd: folder, env: { PATH: process.env['PATH'], HOME: process.env['HOME'], ...env } }, (error, out, err) => { resolve({ code: error === null ? 0 : Number(error.code), out, err }); });
});

beforeAll(async () => {
  program = await buildProgram();
  origin = program.folder({ 'bags/case.piece': spec, 'bags/stock.piece': materials });
  git(origin, 'init', '--quiet', '--initial-branch', 'main');
  git(origin, 'add', '.');
  git(origin, 'commit', '--quiet', '--message', 'First');
  const branch = (name: string, text: string): void => {
    git(origin, 'checkout', '--quiet', '-b', name, 'main');
    writeFileSync(join(origin, 'bags/case.piece'), text);
    git(origin, 'commit', '--quiet', '--all', '--message', name);
  };
  branch('wider', spec.replace('revision 1', 'revision 2').replace('3 1/2 for S', '3 3/4 for S').replace('"Body"', '"Body @everyone `$(id)`"'));
  branch('not-raised', spec.replace('case_h = 7', 'case_h = 8'));
  branch('error', spec.replace('revision 1', 'revision 2').replace('cut 2 lining', 'cut 2 lace'));
  branch('note', `${spec}# more\n`);
});
afterAll(() => { program.end(); });

/** A clean checkout of a branch, with all of its history, as an action has it. */
function checkout(branch: string): string {
  const folder = program.folder({});
  git(folder, 'clone', '--quiet', '--branch', branch, `file://${origin}`, 'work');
  return join(folder, 'work');
}

describe('the action', () => {
  const text = read('.github/actions/review/action.yml');
  const action = parse(text) as { inputs: Record<string, unknown>; runs: { steps: { uses?: string; run?: string; env?: Record<string, string>; if?: string }[] } };

  it('keeps to the published schema', async () => {
    const { validateAction } = await import('@action-validator/core');
    expect(validateAction(text).errors).toEqual([]);
    expect(validateAction(text.replace(/shell: bash/, 'shelf: bash')).errors).not.toEqual([]);
  });

  it('pins what it uses to a commit, and puts nothing that others write into a command', () => {
    const { steps } = action.runs;
    for (const { uses } of steps) if (uses !== undefined) expect(uses).toMatch(/@[0-9a-f]{40}$/);
    for (const { run: command } of steps) if (command !== undefined) expect(command).not.toContain('${{');
    // Its token is given to the one step that comments.
    expect(steps.filter(({ env }) => JSON.stringify(env ?? {}).includes('token')).map(({ run: command }) => command)).toEqual(['node "$GITHUB_ACTION_PATH/comment.mjs"']);
  });

  const review = async (branch: string, more: NodeJS.ProcessEnv = {}): Promise<{ code: number; out: string; err: string; files: (name: string) => string; output: string }> => {
    const work = checkout(branch);
    const output = join(work, '..', 'output');
    const ended = await run(process.execPath, [join(root, '.github/actions/review/review.mjs')], work, {
      REVIEW_PROGRAM: program.file, REVIEW_BASE: git(work, 'rev-parse', 'origin/main'), REVIEW_PATHS: 'bags', REVIEW_OUTPUT: output,
      GITHUB_OUTPUT: join(work, '../values'), GITHUB_STEP_SUMMARY: join(work, '../summary'), ...more,
    });
    expect(git(work, 'status', '--porcelain')).toBe('');
    return { ...ended, output, files: (name) => readFileSync(join(work, '..', name), 'utf8') };
  };

  it('says in a clean checkout what a branch changes, with a page and reports beside it', async () => {
    const { code, err, files, output } = await review('wider');
    expect([code, err, files('values')]).toEqual([0, '', 'changed=true\nwritten=true\n']);
    expect(files('output/comment.md').split('\n').slice(0, 2)).toEqual(['<!-- piecewright review -->', '# 2 specs: 1 changed, 1 without change']);
    expect(files('output/comment.md')).toContain('\n## Glasses case: revision 1 → revision 2\n');
    expect(files('output/comment.md')).toContain('- **Recut:** Body @\u2060everyone \\`$(id)\\`, only when size is S;');
    expect(files('summary')).toBe(files('output/comment.md'));
    for (const name of ['problems.sarif', 'problems.xml', 'comparison.html', 'comparison.json']) expect(existsSync(join(output, name))).toBe(true);
  });

  it('fails where a change has no revision, and where a spec has an error, and tells both', async () => {
    const [silent, wrong, same] = await Promise.all([review('not-raised'), review('error'), review('note')]);
    expect([silent.code, silent.files('output/comment.md').includes('**Error:**')]).toEqual([1, true]);
    expect([wrong.code, /^::error file=bags\/case\.piece,line=\d+/m.test(wrong.out)]).toEqual([1, true]);
    expect([same.code, same.files('values').split('\n')[0]]).toEqual([0, 'changed=false']);
    expect(same.files('output/comment.md')).toContain('no change');
  });

  it.each([['no base', { REVIEW_BASE: '' }], ['the base of a new branch', { REVIEW_BASE: '0'.repeat(40) }], ['an option for a base', { REVIEW_BASE: '--output=x' }], ['an option for a path', { REVIEW_PATHS: '--output=x' }], ['a revision that there isn’t', { REVIEW_BASE: '1'.repeat(40) }]])('stops for %s', async (_, env) => {
    const { code, err } = await review('note', env);
    expect([code, err.length > 0]).toEqual([2, true]);
  });

  it('shortens what is too long for a comment, and closes what is folded', async () => {
    const { asComment } = await import('../../.github/actions/review/as-comment.mjs');
    const long = asComment(`## A\n\n<details>\n\n${'| a | b |\n'.repeat(9000)}\n</details>\n`, '');
    expect(long.length).toBeLessThan(65_536);
    expect(long).toMatch(/\| a \| b \|\n\n<\/details>\n\n\*\*This is cut short:/);
    expect(asComment('## A\n', '“<b>.piece” was added.\n')).toBe('<!-- piecewright review -->\n## A\n\n_“\\<b\\>.piece” was added._\n');
  });

  describe('comments', () => {
    let server: Server;
    const asked: { method: string | undefined; url: string | undefined; token: string | undefined; body: string }[] = [];
    let comments: unknown[] = [];
    let status = 200;
    beforeAll(async () => {
      server = createServer((request, response) => {
        let body = '';
        request.on('data', (part) => (body += String(part))).on('end', () => {
          asked.push({ method: request.method, url: request.url, token: request.headers.authorization, body });
          response.writeHead(request.method === 'GET' ? 200 : status).end(JSON.stringify(request.method === 'GET' ? comments : {}));
        });
      });
      await new Promise<void>((resolve) => { server.listen(0, '127.0.0.1', resolve); });
    });
    afterAll(() => { server.close(); });

    const comment = async (env: NodeJS.ProcessEnv = {}): ReturnType<typeof run> => {
      asked.length = 0;
      const output = program.folder({ 'comment.md': '<!-- piecewright review -->\n## A\n' });
      return run(process.execPath, [join(root, '.github/actions/review/comment.mjs')], output, {
        GITHUB_API_URL: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, GITHUB_REPOSITORY: 'studio/bags', REVIEW_OUTPUT: output, REVIEW_PULL_REQUEST: '7', REVIEW_TOKEN: 'made-up', ...env,
      });
    };

    it('once, and in the same place again', async () => {
      comments = [{ id: 3, user: { type: 'User' }, body: '<!-- piecewright review -->\nfrom somebody' }];
      expect((await comment()).code).toBe(0);
      expect(asked.map(({ method, url, token }) => [method, url, token])).toEqual([['GET', '/repos/studio/bags/issues/7/comments?per_page=100&page=1', 'Bearer made-up'], ['POST', '/repos/studio/bags/issues/7/comments', 'Bearer made-up']]);
      expect(JSON.parse(asked[1]!.body)).toEqual({ body: '<!-- piecewright review -->\n## A\n' });
      comments = [...comments, { id: 4, user: { type: 'Bot' }, body: '<!-- piecewright review -->\nearlier' }];
      expect((await comment()).code).toBe(0);
      expect(asked[1]).toMatchObject({ method: 'PATCH', url: '/repos/studio/bags/issues/comments/4' });
    });

    it('not where that is forbidden, which is told, and not where there is no number', async () => {
      status = 403;
      const forbidden = await comment();
      expect([forbidden.code, forbidden.out.startsWith('::notice::')]).toEqual([0, true]);
      status = 500;
      expect((await comment()).code).toBe(1);
      expect((await comment({ REVIEW_PULL_REQUEST: '7/../8' })).code).toBe(2);
      expect(asked).toEqual([]);
    });
  });
});

/** A folder with the program by its name, for a shell's PATH. */
function bin(): string {
  const folder = program.folder({ piecewright: `#!/bin/sh\nexec "${process.execPath}" "${program.file}" "$@"\n` });
  chmodSync(join(folder, 'piecewright'), 0o755);
  return folder;
}

describe('the job for GitLab', () => {
  const job = (parse(read('.gitlab/review.yml')) as Record<string, { script: string[]; artifacts: { paths: string[]; reports: Record<string, string> }; variables: Record<string, string> }>)['piecewright review']!;
  const play = async (branch: string): Promise<{ code: number; work: string }> => {
    const work = checkout(branch);
    // As a runner does: line by line, and no further than a line that fails.
    const { code } = await run('sh', ['-e', '-c', job.script.join('\n')], work, { ...job.variables, PATH: `${bin()}:${process.env['PATH'] ?? ''}`, CI_MERGE_REQUEST_DIFF_BASE_SHA: git(work, 'rev-parse', 'origin/main') });
    return { code, work };
  };

  it('writes what it says that it keeps', async () => {
    const { code, work } = await play('wider');
    expect(code).toBe(0);
    for (const path of [...job.artifacts.paths, ...Object.values(job.artifacts.reports), 'review/comparison.html', 'review/comparison.md', 'review/comparison-1.svg']) expect(existsSync(join(work, path)), path).toBe(true);
  });

  it('fails where a change has no revision, and where a spec has an error', async () => {
    expect((await Promise.all(['not-raised', 'error', 'note'].map(play))).map(({ code }) => code)).toEqual([1, 1, 0]);
  });
});

describe('the hooks for pre-commit', () => {
  const prek = join(root, 'node_modules/.bin/prek');
  const hooks = parse(read('.pre-commit-hooks.yaml')) as { id: string; language: string }[];

  it('are a manifest that another program reads', async () => {
    expect((await run(prek, ['validate-manifest', '.pre-commit-hooks.yaml'], root, {})).code).toBe(0);
    const wrong = program.folder({ 'hooks.yaml': read('.pre-commit-hooks.yaml').replace('entry:', 'entrance:') });
    expect((await run(prek, ['validate-manifest', 'hooks.yaml'], wrong, {})).code).not.toBe(0);
  });

  it('stop a commit with an error and one that is not in canonical form, which they mend', async () => {
    const work = checkout('main');
    // The very same hooks, but for how the program gets there.
    const local = hooks.map((hook) => ({ ...hook, language: 'system' }));
    writeFileSync(join(work, '.pre-commit-config.yaml'), JSON.stringify({ repos: [{ repo: 'local', hooks: local }] }));
    mkdirSync(join(work, '..', 'home'));
    const env = { PATH: `${bin()}:${process.env['PATH'] ?? ''}`, HOME: join(work, '..', 'home'), PREK_HOME: join(work, '..', 'home') };
    const commit = async (text: string): ReturnType<typeof run> => {
      writeFileSync(join(work, 'bags/case.piece'), text);
      git(work, 'add', '.');
      return run(prek, ['run'], work, env);
    };
    expect(await commit(`${spec}# more\n`)).toMatchObject({ code: 0 });
    const error = await commit(spec.replace('cut 2 lining', 'cut 2 lace'));
    expect([error.code, error.out.includes('unknown-name')]).toEqual([1, true]);
    const loose = await commit(spec.replace('unit in', 'unit   in'));
    expect([loose.code, readFileSync(join(work, 'bags/case.piece'), 'utf8')]).toEqual([1, spec]);
  });
});
