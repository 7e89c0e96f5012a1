import { afterAll, afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { mkdtemp, rm } from 'node:fs/promises';
import { spawn, type ChildProcess } from 'node:child_process';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { node } from '../../client/bundles.mjs';
import { CancellationTokenSource, createMessageConnection, StreamMessageReader, StreamMessageWriter, type MessageConnection } from 'vscode-languageserver-protocol/node';
import type { Hover, InlayHint } from 'vscode-languageserver';
import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import { handOver } from '../../server/src/formats/pages.ts';
import { paperNamed } from '../../server/src/pages/paper.ts';
import { renderTable } from '../../server/src/formats/format.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import { sample, snapshotOfText } from '../support/samples.ts';

// The server as it is shipped, with its planner in a thread of its own.
vi.setConfig({ testTimeout: 60_000, hookTimeout: 60_000 });

let folder: string;
let bundle: string;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'piecewright-'));
  bundle = join(folder, 'server.cjs');
  await esbuild.build({
    ...node, entryPoints: [fileURLToPath(new URL('../../server/src/lsp/node.ts', import.meta.url))],
    outfile: bundle,
  });
});
afterAll(() => rm(folder, { recursive: true }));

interface Told {
  readonly lays: PreviewLays;
  readonly version: number;
}

/** A client of a server in a process of its own. */
class Editor {
  readonly child: ChildProcess;
  readonly connection: MessageConnection;
  readonly told: Told[] = [];
  readonly logged: string[] = [];
  readonly asked: string[] = [];
  readonly progress: { readonly token: unknown; readonly value: { readonly kind: string } }[] = [];
  #version = 0;
  #watchers: (() => void)[] = [];

  constructor() {
    this.child = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    if (this.child.stdout === null || this.child.stdin === null) throw new Error('The server has no streams');
    this.connection = createMessageConnection(new StreamMessageReader(this.child.stdout), new StreamMessageWriter(this.child.stdin));
    const noted = (): void => this.#watchers.forEach((watch) => watch());
    this.connection.onNotification('piecewright/lays', ({ lays }: { lays: PreviewLays }) => {
      this.told.push({ lays, version: this.#version });
      noted();
    });
    this.connection.onNotification('window/logMessage', ({ message }: { message: string }) => void this.logged.push(message));
    this.connection.onNotification('$/progress', (one: { token: unknown; value: { kind: string } }) => {
      this.progress.push(one);
      noted();
    });
    for (const method of ['window/workDoneProgress/create', 'workspace/inlayHint/refresh', 'client/registerCapability']) {
      this.connection.onRequest(method, () => {
        this.asked.push(method);
        noted();
        return null;
      });
    }
    this.connection.listen();
  }

  async start(capabilities: unknown = {}): Promise<this> {
    await this.connection.sendRequest('initialize', { processId: process.pid, rootUri: samples, workspaceFolders: null, capabilities });
    await this.connection.sendNotification('initialized', {});
    return this;
  }

  open(uri: string, text: string): void {
    this.#version = 1;
    void this.connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'piecewright', version: 1, text } });
  }

  replace(uri: string, text: string): void {
    this.#version++;
    void this.connection.sendNotification('textDocument/didChange', { textDocument: { uri, version: this.#version }, contentChanges: [{ text }] });
  }

  /** Waits until something that was noted makes it so. */
  async until<Found>(find: () => Found | undefined): Promise<Found> {
    for (;;) {
      const found = find();
      if (found !== undefined) return found;
      await new Promise<void>((done) => this.#watchers.push(done));
    }
  }

  preview(uri: string, more: object = {}): Promise<unknown> {
    return this.connection.sendRequest('piecewright/preview', { uri, ...more });
  }
}

const samples = new URL('../../samples/', import.meta.url).href.replace(/\/$/, '');
const uri = `${samples}/market-apron.piece`;
const text = sample('market-apron.piece');

let editor: Editor | undefined;
const begin = (capabilities?: unknown): Promise<Editor> => (editor = new Editor()).start(capabilities);
afterEach(() => {
  expect(editor?.logged).toEqual([]);
  editor?.connection.dispose();
  editor?.child.kill();
});

/** Of these aprons the first lay is not the shortest. */
const pair = { buying: { articles: 2 } };

describe('lays for a preview', () => {
  test('the first at once, then better ones, and the end', async () => {
    const client = await begin();
    client.open(uri, text);
    await client.preview(uri, pair);
    const last = await client.until(() => client.told.find(({ lays }) => lays.state === 'done'));
    const [first] = client.told;
    expect(first?.lays).toMatchObject({ state: 'looking', done: 0, articles: 2 });
    expect(first?.lays.materials.some(({ state }) => state === 'first')).toBe(true);
    expect(last.lays.materials.every(({ state }) => state === 'settled')).toBe(true);
    const lengths = client.told.map(({ lays }) => lays.materials[0]?.widths[0]?.lays[0]?.laid.length ?? NaN);
    for (const [index, length] of lengths.entries()) expect(length).toBeLessThanOrEqual((lengths[index - 1] ?? Infinity) + 1e-9);
    // Asked again about the same, it has the answer.
    const before = client.told.length;
    await client.preview(uri, pair);
    expect((await client.until(() => client.told[before])).lays).toEqual(last.lays);
  });

  test('what an edit does not touch is not laid out again', async () => {
    const client = await begin();
    client.open(uri, text);
    await client.preview(uri, pair);
    const done = await client.until(() => client.told.find(({ lays }) => lays.state === 'done'));
    client.replace(uri, `# A word more.\n${text}`);
    const count = client.told.length;
    await client.preview(uri, pair);
    const next = await client.until(() => client.told[count]);
    // Settled from the first word on, and the very same.
    expect(next.lays.materials).toEqual(done.lays.materials);
  });

  test('another wish is another list', async () => {
    const client = await begin();
    client.open(uri, text);
    await client.preview(uri, { buying: { articles: 3, widths: '44 in, wide', lay: 'folded' } });
    const { lays } = await client.until(() => client.told[0]);
    expect(lays).toMatchObject({ articles: 3, unread: ['wide'] });
    expect(lays.materials[0]?.widths.map(({ width }) => width)).toEqual(['58 in wide, 56 in usable', '44 in wide, 42 in usable']);
    expect(lays.materials[0]?.widths[0]?.lays[0]?.near).toBe('fold');
    const told = client.told.length;
    await client.preview(uri, { buying: { articles: -1 } });
    expect((await client.until(() => client.told.slice(told).find((one) => one.lays.articles !== 3))).lays.articles).toBe(1);
  });

  test('a search is stopped in the middle, and goes on when it is asked to', async () => {
    const client = await begin();
    client.open(uri, text);
    await client.preview(uri, { buying: { articles: 400 } });
    await client.until(() => client.told[0]);
    void client.connection.sendNotification('piecewright/look', { uri, on: false });
    const stopped = await client.until(() => client.told.find(({ lays }) => lays.state !== 'looking'));
    expect(stopped.lays.state).toBe('stopped');
    const count = client.told.length;
    void client.connection.sendNotification('piecewright/look', { uri, on: true });
    expect((await client.until(() => client.told[count])).lays.state).toBe('looking');
    void client.connection.sendNotification('piecewright/look', { uri, on: false });
    await client.until(() => client.told.slice(count).find(({ lays }) => lays.state === 'stopped'));
  });

  test('a search of an older text is given up, and the newer one does not wait for it', async () => {
    const client = await begin();
    client.open(uri, text);
    await client.preview(uri, { buying: { articles: 40 } });
    await client.until(() => client.told[0]);
    const before = performance.now();
    client.replace(uri, text.replace('"Market apron"', '"Stall apron"'));
    await client.preview(uri, { buying: {} });
    const next = await client.until(() => client.told.find(({ version, lays }) => version === 2 && lays.articles === 1));
    expect(next.lays.state).toBe('looking');
    // Forty aprons would have been laid out for many seconds.
    expect(performance.now() - before).toBeLessThan(5000);
    expect(client.told.filter(({ version, lays }) => version === 2 && lays.articles === 40)).toEqual([]);
  });

  test('what takes long is told as the editor tells it, and can be stopped there', async () => {
    const client = await begin({ window: { workDoneProgress: true } });
    client.open(uri, text);
    await client.preview(uri, { buying: { articles: 3000 } });
    const { token } = await client.until(() => client.progress.find(({ value }) => value.kind === 'begin'));
    await client.until(() => client.told[0]);
    void client.connection.sendNotification('window/workDoneProgress/cancel', { token });
    await client.until(() => client.progress.find(({ value }) => value.kind === 'end'));
    expect((await client.until(() => client.told.find(({ lays }) => lays.state !== 'looking'))).lays.state).toBe('stopped');
  });

  test('keystrokes are answered while lays are looked for', async () => {
    const client = await begin();
    client.open(uri, text);
    await client.preview(uri, { buying: { articles: 40 } });
    await client.until(() => client.told[0]);
    for (let index = 0; index < 5; index++) {
      const before = performance.now();
      await client.connection.sendRequest('textDocument/documentSymbol', { textDocument: { uri } });
      // A step of the search may take a second.
      expect(performance.now() - before).toBeLessThan(500);
    }
  });
});

describe('beside the text', () => {
  const position = (words: string): { line: number; character: number } => {
    const before = text.slice(0, text.indexOf(words)).split('\n');
    return { line: before.length - 1, character: (before.at(-1)?.length ?? 0) + words.length - 1 };
  };

  test('a material says what to buy of it in every combination', async () => {
    const client = await begin();
    client.open(uri, text);
    const hover = await client.connection.sendRequest<Hover>('textDocument/hover', { textDocument: { uri }, position: position('cut 1 canvas') });
    const { value } = hover.contents as { value: string };
    const { pattern } = snapshotOfText(text);
    const told = [...value.matchAll(/^- (.*): found [\d.]+ yd, none (?:shorter|under [\d.]+ yd), buy [\d /]+ yd/gm)];
    expect(told).toHaveLength(pattern.choices.get('size')?.length ?? 0);
    expect(value).toContain('Cut from it:');
  });

  test('hints say it too, and the client is told when they can say it better', async () => {
    const client = await begin({ workspace: { inlayHint: { refreshSupport: true } } });
    const own = `${text}\nmaterial ticking "Ticking" {\n  width 20 in\n}\npiece patch "Patch" {\n  outline path from 0, 0 {\n    line to 9, 0\n    line to 2, 8\n    close\n  }\n  grain up\n  cut 7 ticking\n}\n`;
    client.open(uri, own);
    const hints = (): Promise<InlayHint[]> => client.connection.sendRequest<InlayHint[]>('textDocument/inlayHint', { textDocument: { uri }, range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } } });
    expect((await hints()).map(({ label }) => label)).toContainEqual(expect.stringMatching(/^7 pieces, .*, buy [\d /]+ yd \(first lay\)$/));
    await client.until(() => client.asked.find((method) => method === 'workspace/inlayHint/refresh'));
    expect((await hints()).map(({ label }) => label)).toContainEqual(expect.stringMatching(/^7 pieces, .*, buy [\d /]+ yd$/));
  });
});

describe('exported tables', () => {
  test.each(['markdown', 'json'] as const)('say what to buy, letter by letter as on the command line: %s', async (format) => {
    const client = await begin();
    client.open(uri, text);
    const answer = await client.connection.sendRequest<{ text: string }>('piecewright/export', { uri, format, by: 'piece', combination: { size: 'M' } });
    const { pattern } = snapshotOfText(text);
    expect(answer.text).toBe(renderTable([...wholeTables(pattern, [new Map([['size', 'M']])])], format, 'piece'));
    expect(answer.text).toMatch(/least possible|lets you buy less|leastPossible/i);
  });

  test('of an option that there is no longer are refused, and said why', async () => {
    const client = await begin();
    client.open(uri, text);
    const answer = (combination: object): Promise<unknown> => client.connection.sendRequest('piecewright/export', { uri, format: 'markdown', by: 'piece', combination });
    expect(await answer({ size: 'XXS' })).toEqual({ refused: expect.stringMatching(/^There is no option of “size” called “XXS”\./) as string });
    expect(await answer({ strap: 'long' })).toEqual({ refused: expect.stringMatching(/^There is no choice called “strap”\./) as string });
  });

  test('a table that nobody waits for any more is given up', async () => {
    const client = await begin();
    client.open(uri, text);
    const source = new CancellationTokenSource();
    const answer = client.connection.sendRequest('piecewright/export', { uri, format: 'markdown', by: 'piece', combination: 'all' }, source.token);
    const refused = expect(answer).rejects.toMatchObject({ code: -32800 });
    source.cancel();
    await refused;
    expect(await client.connection.sendRequest('piecewright/export', { uri, format: 'csv', by: 'piece' })).toMatchObject({ text: expect.stringContaining('Skirt') as string });
  });
});

describe('exported pages', () => {
  test.each(['pdf', 'dxf', 'xlsx'] as const)('are the same, byte for byte, as on the command line: %s', async (format) => {
    const client = await begin();
    client.open(uri, text);
    const answer = await client.connection.sendRequest<{ files: { name: string; base64: string }[] }>('piecewright/pages', { uri, format, combination: { size: 'M' } });
    const { pattern } = snapshotOfText(text);
    const made = handOver({ pattern, combination: new Map([['size', 'M']]), options: { paper: paperNamed('a4')!, orientation: 'auto', margin: 10, templates: 'all', sizes: ['M'] } }, format);
    expect(answer.files.map(({ name, base64 }) => [name, base64])).toEqual(made.files.map(({ name, content }) => [name, Buffer.from(content).toString('base64')]));
  });

  test('of a size or a paper that there is not are refused', async () => {
    const client = await begin();
    client.open(uri, text);
    const answer = (more: object): Promise<unknown> => client.connection.sendRequest('piecewright/pages', { uri, format: 'pdf', ...more });
    expect(await answer({ combination: { size: 'XXS' } })).toEqual({ refused: expect.stringMatching(/^There is no option of “size”/) as string });
    expect(await answer({ paper: 'a99' })).toEqual({ refused: 'There is no such paper or format.' });
  });

  test('that nobody waits for any more are given up', async () => {
    const client = await begin();
    client.open(uri, text);
    const source = new CancellationTokenSource();
    const answer = client.connection.sendRequest('piecewright/pages', { uri, format: 'pdf' }, source.token);
    const refused = expect(answer).rejects.toMatchObject({ code: -32800 });
    source.cancel();
    await refused;
  });
});
