import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, renameSync, rmSync, statSync, symlinkSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import * as esbuild from 'esbuild';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { node } from '../../client/bundles.mjs';
import { outcomes, type Outcome } from '../../server/src/cli/catalogue.ts';
import { checkJob } from '../../server/src/cli/check.ts';
import { keptOutcomes, type Job } from '../../server/src/cli/kept-results.ts';
import { isFileReport } from '../../server/src/cli/report-shape.ts';
import { pruned, resultCache, usualFolder } from '../../server/src/cli/result-cache.ts';
import { contentOf, sha256, textsOf } from '../../server/src/cli/spec-texts.ts';
import type { FileReport } from '../../server/src/formats/problems/problem-list.ts';
import { threadsOf } from '../../server/src/platform/node-workers.ts';
import { writeNewFile } from '../../server/src/platform/whole-file.ts';
import type { Work } from '../../server/src/workers/job.ts';
import type { OpenWorker } from '../../server/src/workers/worker.ts';
import { generateCatalogue } from '../support/catalogue.ts';
import { buildProgram, type Program } from './program.ts';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });
let program: Program;
let home: string;
beforeAll(async () => {
  program = await buildProgram();
  home = mkdtempSync(join(tmpdir(), 'piecewright-'));
});
afterAll(() => {
  program.end();
  rmSync(home, { recursive: true, force: true });
});

const unused: Work<string, string> = function* () {
  throw new Error('Nothing is to be done in this thread.');
};
const letters = Array.from({ length: 40 }, (_, index) => `spec ${index}`);

/** What comes of requests, in their order. */
async function gathered(requests: AsyncIterable<string> | Iterable<string>, work: Work<string, string>, open: OpenWorker<string, string>): Promise<readonly Outcome<string>[]> {
  const found: Outcome<string>[] = [];
  await outcomes(requests, work, open, (at, outcome) => (found[at] = outcome));
  return found;
}

describe('a catalogue', () => {
  it('has its results in its own order, whichever is done first', async () => {
    await fc.assert(fc.asyncProperty(fc.array(fc.nat(), { minLength: 40, maxLength: 40 }), async (turns) => {
      // Threads that answer when their turn comes, in any order.
      const waiting: (() => void)[] = [];
      const finished: string[] = [];
      const found = gathered(letters, unused, (hear) => ({
        isApart: true, stop: () => undefined, close: () => undefined,
        begin: ({ id, request }) => waiting.push(() => {
          finished.push(request);
          hear({ id, kind: 'reply', reply: request.toUpperCase() });
          hear({ id, kind: 'ended', how: 'done' });
        }),
      }));
      for (const turn of turns) {
        await new Promise((later) => setImmediate(later));
        waiting.splice(turn % Math.max(1, waiting.length), 1)[0]?.();
      }
      expect(await found).toEqual(letters.map((one) => ({ result: one.toUpperCase() })));
      return finished.length === letters.length;
    }), { numRuns: 30 });
  });

  it.skipIf(availableParallelism() < 2)('is begun while more is looked for', async () => {
    let begun = 0;
    const looking = async function* (): AsyncGenerator<string> {
      yield* letters.slice(0, 20);
      await vi.waitFor(() => expect(begun).toBeGreaterThan(0), { timeout: 20_000 });
      yield* letters.slice(20);
    };
    const found = await gathered(looking(), unused, (hear) => ({
      isApart: true, stop: () => undefined, close: () => undefined,
      begin: ({ id, request }) => {
        begun++;
        setImmediate(() => {
          hear({ id, kind: 'reply', reply: request.toUpperCase() });
          hear({ id, kind: 'ended', how: 'done' });
        });
      },
    }));
    expect(found).toEqual(letters.map((one) => ({ result: one.toUpperCase() })));
  });

  it('keeps every thread at work while what it did is seen to', async () => {
    const told: string[] = [];
    const one = 'spec 7';
    await outcomes(letters, unused, (hear) => ({
      isApart: true, stop: () => undefined, close: () => undefined,
      begin: ({ id, request }) => {
        told.push(`begun ${request}`);
        setImmediate(() => {
          told.push(`worked out ${request}`);
          hear({ id, kind: 'reply', reply: request });
          hear({ id, kind: 'ended', how: 'done' });
        });
      },
    }), (at, outcome) => {
      told.push(`seen to ${'result' in outcome ? outcome.result : ''}`);
      // Files may be written in one turn meanwhile, and no longer.
      expect(writeNewFile(join(home, `in time ${at}`), 'a')).toBe(true);
    });
    expect(writeNewFile(join(home, 'late'), 'a')).toBe(false);
    const since = told.slice(told.indexOf(`worked out ${one}`), told.indexOf(`seen to ${one}`));
    expect(since.some((what) => what.startsWith('begun '))).toBe(true);
  });

  it('opens no thread for a few', async () => {
    let opened = 0;
    const none = (): never => {
      opened++;
      throw new Error('There is no thread.');
    };
    const here: Work<string, string> = function* (request) {
      yield request.toUpperCase();
    };
    expect(await gathered(letters.slice(0, 7), here, none)).toEqual(letters.slice(0, 7).map((one) => ({ result: one.toUpperCase() })));
    expect(opened).toBe(0);
  });

  it('loses only what brings a thread down, be it the first', async () => {
    const file = join(home, 'fatal.cjs');
    await esbuild.build({ ...node, entryPoints: ['test/cli/fatal-program.ts'], outfile: file });
    const requests = ['end', 'eat', ...letters.slice(0, 12), 'throw', ...letters.slice(12, 20), 'end', ...letters.slice(20)];
    const found = await gathered(requests, unused, threadsOf(file, 'echo', 32));
    expect(found.map((one) => ('result' in one ? one.result : 'fault'))).toEqual(requests.map((one) => (one.startsWith('spec') ? one.toUpperCase() : 'fault')));
    expect(found[0]).toEqual({ fault: 'A thread has ended.' });
    expect(found[1]).toEqual({ fault: expect.stringContaining('memory') });
    expect(found[14]).toEqual({ fault: expect.stringContaining('It was thrown.') });
  });
});

/** Every file in a folder, however deep, be it that one is given its name just then. */
const filesIn = (folder: string): readonly string[] => (existsSync(folder) ? readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile()).map(({ parentPath, name }) => join(parentPath, name)).sort() : []);

describe('results that are kept', () => {
  const list = (width: string): string => `unit in\nmaterial canvas "Canvas" {\n  role main\n  width ${width} in\n  price 12 per yd\n}\n`;
  const spec = (uses: readonly string[], size: string): string => `pattern "Test"\nrevision 1\nunit in\nallowance none\n${uses.map((one) => `use "${one}"\n`).join('')}piece body "Body" {\n  outline rectangle ${size} by 3\n  cut 1 canvas\n}\n`;
  const paths = ['a.piece', 'b.piece', 'more/c.piece'];
  const lists = ['stock/one.piece', 'stock/two.piece'];

  const counted = (): { readonly job: Job<{ folder: string; path: string }, FileReport>; readonly computed: string[] } => {
    const computed: string[] = [];
    const job = checkJob();
    return { computed, job: { ...job, read: (request) => {
      const { content, compute } = job.read(request);
      return { content, compute: () => { computed.push(request.path); return compute(); } };
    } } };
  };
  const run = async (folder: string, cache: string | false): Promise<{ readonly reports: unknown; readonly computed: readonly string[] }> => {
    const { job, computed } = counted();
    const there = paths.filter((path) => existsSync(join(folder, path)));
    return { reports: await keptOutcomes(job, there.map((path) => ({ folder, path })), resultCache({ cache }, 3), () => undefined), computed };
  };
  const prepared = (): { readonly folder: string; readonly cache: string } => {
    const folder = program.folder({
      'a.piece': spec(['stock/one.piece'], '2'), 'b.piece': spec(['stock/one.piece', 'stock/two.piece'], '3 in + 1 deg'), 'more/c.piece': spec(['../stock/two.piece'], '4'),
      'stock/one.piece': list('12'), 'stock/two.piece': 'length spare = 3\n',
    });
    return { folder, cache: join(folder, 'kept') };
  };

  it('are not worked out again while nothing that they follow from has changed', async () => {
    const { folder, cache } = prepared();
    const first = await run(folder, cache);
    expect(first.computed).toEqual(paths);
    expect(await run(folder, cache)).toEqual({ reports: first.reports, computed: [] });
    writeFileSync(join(folder, 'stock/one.piece'), list('13'));
    expect((await run(folder, cache)).computed).toEqual(['a.piece', 'b.piece']);
    // And back again: both states are known.
    writeFileSync(join(folder, 'stock/one.piece'), list('12'));
    expect(await run(folder, cache)).toEqual({ reports: first.reports, computed: [] });
    rmSync(join(folder, 'stock/two.piece'));
    expect((await run(folder, cache)).computed).toEqual(['b.piece', 'more/c.piece']);
  });

  const edit = fc.oneof(
    fc.record({ what: fc.constant('spec' as const), path: fc.constantFrom(...paths), uses: fc.subarray(['stock/one.piece', 'stock/two.piece', '../stock/two.piece', '../stock/one.piece', 'none.piece', 'a.piece']), size: fc.constantFrom('2', '3', '1/0', '4 in + 1 deg', 'spare', 'none') }),
    fc.record({ what: fc.constant('list' as const), path: fc.constantFrom(...lists), text: fc.constantFrom(list('12'), list('14'), list('-1'), 'length spare = 3\n', 'use "one.piece"\n', 'use "two.piece"\nlength spare = 2\n', '# use "one.piece"\n', 'note "use \\"one.piece\\""\n', '\u00fe') }),
    fc.record({ what: fc.constant('gone' as const), path: fc.constantFrom(...lists, ...paths) }),
    fc.record({ what: fc.constant('cut short' as const), at: fc.nat(), length: fc.nat(300) }),
    fc.record({ what: fc.constant('garbled' as const), at: fc.nat(), byte: fc.nat(), by: fc.integer({ min: 1, max: 255 }) }),
    fc.record({ what: fc.constant('another kind' as const), at: fc.nat(), body: fc.constantFrom('null', '[]', '{"file":1,"problems":[]}', '{"file":"a.piece"}', '{"file":"a.piece","problems":[],"__proto__":{}}', '{"file":"a.piece","problems":[{}]}', '{') }),
  );

  it('are the same as worked out anew, after any edits and whatever becomes of the cache', async () => {
    await fc.assert(fc.asyncProperty(fc.array(edit, { maxLength: 8 }), async (edits) => {
      const { folder, cache } = prepared();
      for (const one of [undefined, ...edits]) {
        const kept = filesIn(cache);
        const entry = kept[one !== undefined && 'at' in one ? one.at % Math.max(1, kept.length) : 0];
        if (one?.what === 'spec') writeFileSync(join(folder, one.path), spec(one.uses, one.size));
        else if (one?.what === 'list') writeFileSync(join(folder, one.path), one.text);
        else if (one?.what === 'gone') rmSync(join(folder, one.path), { force: true });
        else if (one !== undefined && entry !== undefined) {
          const bytes = readFileSync(entry);
          if (one.what === 'cut short') writeFileSync(entry, bytes.subarray(0, one.length));
          else if (one.what === 'another kind') writeFileSync(entry, `${sha256(one.body)}\n${one.body}`);
          else bytes[one.byte % bytes.length] = ((bytes[one.byte % bytes.length] ?? 0) + one.by) % 256;
          if (one.what === 'garbled') writeFileSync(entry, bytes);
        }
        const [withCache, clean] = [await run(folder, cache), await run(folder, false)];
        expect(withCache.reports).toEqual(clean.reports);
      }
      rmSync(folder, { recursive: true });
    }), { numRuns: 60 });
  });

  it('are kept for their own kind and program, and not at all where more was read than was seen', async () => {
    const { folder, cache } = prepared();
    await run(folder, cache);
    const { job, computed } = counted();
    await keptOutcomes({ ...job, role: 'another' }, [{ folder, path: 'a.piece' }], resultCache({ cache }, 3), () => undefined);
    expect(computed).toEqual(['a.piece']);
    const known = resultCache({ cache }, 3);
    await keptOutcomes(job, [{ folder, path: 'a.piece' }], known && { ...known, program: 'another' }, () => undefined);
    expect(computed).toEqual(['a.piece', 'a.piece']);
    const blind: typeof job = { ...job, read: (request) => ({ ...job.read(request), compute: () => ({ ...job.read(request).compute(), isWhole: false }) }) };
    const before = filesIn(cache).length;
    writeFileSync(join(folder, 'a.piece'), spec([], '9'));
    await keptOutcomes(blind, [{ folder, path: 'a.piece' }], resultCache({ cache }, 3), () => undefined);
    expect(filesIn(cache)).toHaveLength(before);
  });

  it.skipIf(process.platform === 'win32')('are not taken from a folder that others can write to, or that a link leads to', () => {
    const folder = program.folder({});
    mkdirSync(join(folder, 'open/results'), { recursive: true });
    chmodSync(join(folder, 'open/results'), 0o777);
    mkdirSync(join(folder, 'linked'));
    symlinkSync(folder, join(folder, 'linked/results'));
    writeFileSync(join(folder, 'file'), '');
    const told = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    try {
      expect(['open', 'linked', 'file'].map((name) => resultCache({ cache: join(folder, name) }, 100))).toEqual([undefined, undefined, undefined]);
      expect(told.mock.calls.map(([text]) => String(text).replace(/“.*”/, ''))).toEqual([' is not used as a cache: others can write to it.\n', ' is not used as a cache: it is no folder.\n', ' is not used as a cache: it can’t be made.\n']);
    } finally {
      told.mockRestore();
    }
    expect(resultCache({ cache: false }, 100)).toBeUndefined();
    expect(resultCache({ cache: true }, 3)).toBeUndefined();
  });

  it('stand where the system keeps such things', () => {
    // XDG Base Directory Specification 0.8; Apple's File System Programming Guide; Windows' known folder LocalAppData.
    expect(usualFolder({ XDG_CACHE_HOME: '/x' }, 'linux', '/home/a')).toBe(join('/x', 'piecewright'));
    expect(usualFolder({ XDG_CACHE_HOME: '' }, 'linux', '/home/a')).toBe(join('/home/a', '.cache', 'piecewright'));
    expect(usualFolder({}, 'darwin', '/Users/a')).toBe(join('/Users/a', 'Library', 'Caches', 'piecewright'));
    expect(usualFolder({ LOCALAPPDATA: '/l' }, 'win32', '/a')).toBe(join('/l', 'piecewright', 'Cache'));
    expect(usualFolder({}, 'win32', '/a')).toBeUndefined();
  });

  it('go, the oldest first, where they are too much', () => {
    const folder = program.folder({ 'aa/1': 'x'.repeat(100), 'aa/2': 'x'.repeat(100), 'bb/3': 'x'.repeat(100) });
    for (const [index, name] of ['aa/2', 'bb/3', 'aa/1'].entries()) {
      writeFileSync(join(folder, 'time'), '');
      renameSync(join(folder, name), join(folder, 'moved'));
      writeFileSync(join(folder, name), readFileSync(join(folder, 'moved')));
      rmSync(join(folder, 'moved'));
      rmSync(join(folder, 'time'));
      for (const until = Date.now() + 15 * (index + 1); Date.now() < until;);
    }
    pruned(folder, 300);
    expect(filesIn(folder)).toHaveLength(3);
    pruned(folder, 299);
    expect(filesIn(folder)).toEqual([join(folder, 'aa/1')]);
  });

  it('depend on every file that is used, by way of others too', () => {
    const texts: Record<string, string> = { 'l/one.piece': 'use "two.piece"', 'l/two.piece': 'length a = 1' };
    const content = (): string => contentOf(textsOf('a.piece', { text: 'use"l/one.piece" # x' }, (path) => (texts[path] === undefined ? undefined : { text: texts[path] })));
    const before = content();
    texts['l/two.piece'] = 'length a = 2';
    const after = content();
    delete texts['l/two.piece'];
    expect(new Set([before, after, content()]).size).toBe(3);
  });

  it('know a report when they see one', () => {
    const problem = { file: 'a', start: { line: 1, column: 1 }, end: { line: 1, column: 2 }, severity: 'error', code: 'x', message: 'y', related: [] };
    expect(isFileReport({ file: 'a', problems: [problem, { ...problem, when: 'size is S' }] })).toBe(true);
    for (const bad of [{ ...problem, severity: 'fatal' }, { ...problem, start: { line: -1, column: 1 } }, { ...problem, more: 1 }, { ...problem, related: [{}] }, { ...problem, message: 1 }]) expect(isFileReport({ file: 'a', problems: [bad] })).toBe(false);
  });
});

describe('piecewright check of a catalogue', () => {
  const catalogue = (count: number): Record<string, string> => Object.fromEntries([...generateCatalogue(count, 4)].map(([path, text], index) => [path, index % 9 === 5 ? `${text}length wrong = 1 in + 1 deg\n` : text]));

  it('writes the same, byte for byte, one by one, in threads, and out of its cache', async () => {
    const files = catalogue(40);
    const folder = program.folder(files);
    const whole = async (...more: readonly string[]): Promise<unknown> => program.run(['check', '--json', ...more], folder);
    const [threads, first, again] = [await whole('--no-cache'), await whole('--cache', 'kept'), await whole('--cache', 'kept')];
    expect(first).toEqual(threads);
    expect(again).toEqual(threads);
    const serial: FileReport['problems'][number][] = [];
    const paths = Object.keys(files).sort();
    // So few at a time that no thread is opened for them.
    for (let at = 0; at < paths.length; at += 12) serial.push(...(JSON.parse((await program.run(['check', '--json', '--no-cache', ...paths.slice(at, at + 12)], folder)).out) as { problems: FileReport['problems'] }).problems);
    expect((JSON.parse((threads as { out: string }).out) as { problems: unknown }).problems).toEqual(serial);
    expect(serial.filter(({ code }) => code === 'mixed-kinds').length).toBeGreaterThan(3);
  });

  it.skipIf(process.platform === 'win32')('leaves nothing half written when it is interrupted', async () => {
    const interrupted = async (count: number): Promise<string> => {
      const folder = program.folder(catalogue(count));
      const child = spawn(process.execPath, [program.file, 'check', '--cache', 'kept', '--report', 'sarif=out.sarif'], { cwd: folder, stdio: 'ignore' });
      const ended = once(child, 'exit');
      while (filesIn(join(folder, 'kept')).length === 0 && child.exitCode === null) await new Promise((later) => setTimeout(later, 2));
      child.kill('SIGINT');
      // On a busy machine all may be done before the first that is kept is noticed: then more of them are tried.
      return (await ended)[1] === null && count < 1000 ? interrupted(count * 4) : folder;
    };
    const folder = await interrupted(360);
    expect(existsSync(join(folder, 'out.sarif'))).toBe(false);
    const kept = filesIn(join(folder, 'kept'));
    for (const file of kept) {
      const [sum = '', body = ''] = readFileSync(file, 'utf8').split('\n');
      expect([sha256(body), isFileReport(JSON.parse(body))], file).toEqual([sum, true]);
    }
    const after = await program.run(['check', '--json', '--cache', 'kept'], folder);
    expect(after).toEqual(await program.run(['check', '--json', '--no-cache'], folder));
    expect(kept.length).toBeLessThan(filesIn(join(folder, 'kept')).length);
  });
});

describe('piecewright table of a catalogue', () => {
  it.skipIf(process.platform === 'win32')('leaves only whole tables when it is interrupted', async () => {
    const folder = program.folder({ ...Object.fromEntries(generateCatalogue(240, 4)) });
    const args = (out: string): readonly string[] => ['table', '.', '--effort', '0', '--output', out, '--cache', `${out}-kept`];
    const child = spawn(process.execPath, [program.file, ...args('cut-short')], { cwd: folder, stdio: 'ignore' });
    const ended = once(child, 'exit');
    // What is still being written has another name.
    const isTable = (file: string): boolean => file.endsWith('.md');
    while (filesIn(join(folder, 'cut-short')).filter(isTable).length < 3 && child.exitCode === null) await new Promise((later) => setTimeout(later, 2));
    child.kill('SIGINT');
    await ended;
    await program.run(args('whole'), folder);
    const written = (name: string): ReadonlyMap<string, string> => new Map(filesIn(join(folder, name)).map((file) => [file.slice(join(folder, name).length), readFileSync(file, 'utf8')]));
    const [some, all] = [written('cut-short'), written('whole')];
    expect(some.size).toBeGreaterThan(2);
    for (const [file, text] of some) expect(text, file).toBe(all.get(file));
    for (const [file, text] of written('cut-short-kept')) expect(text, file).toBe(written('whole-kept').get(file));
  });

  it('writes each table as by itself, in threads and out of the cache, and none of a spec with errors', async () => {
    const files = Object.fromEntries([...generateCatalogue(18, 2)].map(([path, text]) => [`specs/${path}`, text]));
    const [wrong = ''] = Object.keys(files).filter((path) => path.includes('spec0003'));
    const folder = program.folder({ ...files, [wrong]: `${files[wrong] ?? ''}length wrong = 1 in + 1 deg\n` });
    const run = async (...args: readonly string[]): Promise<{ code: number | null; out: string; err: string }> => program.run(['table', ...args, '--effort', '0', '--all', '--format', 'csv'], folder);
    const anew = await run('specs', '--output', 'anew', '--no-cache');
    const kept = await run('specs', '--output', 'kept', '--cache', 'cache');
    const again = await run('specs', '--output', 'again', '--cache', 'cache');
    const written = (name: string): readonly (readonly [string, string])[] => filesIn(join(folder, name)).map((file) => [file.slice(join(folder, name).length), readFileSync(file, 'utf8')]);
    expect(written('anew')).toHaveLength(17);
    expect([written('kept'), written('again')]).toEqual([written('anew'), written('anew')]);
    expect([anew, kept, again].map(({ code, out, err }) => [code, out, err.replace(/to \w+:/, 'to')])).toEqual(Array.from({ length: 3 }, () => [1, '', expect.stringMatching(/error mixed-kinds [^]*\nWrote 17 tables to .* None is written of a spec with errors\.\n$/)]));
    for (const path of ['line0/spec0000', 'line5/spec0005']) expect((await run(`specs/${path}.piece`)).out).toBe(readFileSync(join(folder, 'anew', `${path}.csv`), 'utf8'));
  });

  it('leaves a file alone that says the same already, and wants a folder to write to', async () => {
    const folder = program.folder({ 'specs/a.piece': 'pattern "A"\nrevision 1\nunit in\nallowance none\nmaterial canvas "Canvas" {\n  role main\n  width 44 in\n}\npiece body "Body" {\n  outline rectangle 2 by 3\n  cut 1 canvas\n}\n', 'specs/list.piece': 'length spare = 3\n' });
    const twice = async (): Promise<unknown> => program.run(['table', 'specs', '--output', 'out', '--format', 'json'], folder);
    expect(await twice()).toEqual({ code: 0, out: '', err: expect.stringMatching(/^[^]*Wrote one table to out: /) });
    const { ino } = statSync(join(folder, 'out/a.json'));
    await twice();
    expect(statSync(join(folder, 'out/a.json')).ino).toBe(ino);
    expect(filesIn(join(folder, 'out'))).toHaveLength(1);
    mkdirSync(join(folder, 'in-the-way/a.json'), { recursive: true });
    expect(await program.run(['table', 'specs', '--output', 'in-the-way', '--format', 'json'], folder)).toEqual({ code: 2, out: '', err: expect.stringMatching(/“in-the-way.a\.json” is a folder: name a file to write\.\n$/) });
    const refused = await Promise.all([['table', 'specs'], ['table', 'specs', '--output', 'out', '--section', 'cuts']].map(async (args) => program.run(args, folder)));
    expect(refused.map(({ code, err }) => [code, err])).toEqual([[2, '“specs” is a folder: name one to write its tables to with --output.\n'], [2, 'The tables of a folder are written whole: leave out --section.\n']]);
  });
});
