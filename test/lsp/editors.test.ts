import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, mkdir, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import * as esbuild from 'esbuild';
import { node } from '../../client/bundles.mjs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node';
import type { CodeAction, CompletionList, DocumentDiagnosticReport, DocumentSymbol, InitializeResult, MarkupContent, PublishDiagnosticsParams, SymbolInformation, WorkspaceEdit } from 'vscode-languageserver';
import { nodeHost } from '../../server/src/lsp/node-host.ts';
import { pouch, materials } from '../support/pouch.ts';
import { handshake, opened, openedText, play, root, type Answered } from '../support/handshakes.ts';
import { Client, codesOf } from '../support/lsp.ts';
import { sample } from '../support/samples.ts';

const files = { [opened]: openedText, [`${root}/studio/materials.piece`]: sample('studio/materials.piece') };

/** What each editor can do makes its answers differ in form; `null` stands for no answer. */
const expected = {
  neovim: {
    encoding: 'utf-16', renames: { prepareProvider: true }, unanswered: ['shutdown'], pulled: true,
    hover: 'markdown', link: true, tree: true, highlights: 8, renamed: 'changes', notch: 'notch ${1:top} at ${2:50%}', watched: false,
  },
  helix: {
    encoding: 'utf-16', renames: { prepareProvider: true }, unanswered: ['textDocument/signatureHelp', 'shutdown'], pulled: true,
    hover: 'markdown', link: false, tree: false, highlights: 8, renamed: 'documentChanges', notch: 'notch ${1:top} at ${2:50%}', watched: true,
  },
  emacs: {
    encoding: 'utf-16', renames: true, unanswered: ['shutdown'], pulled: false,
    hover: 'plaintext', link: true, tree: true, highlights: 2, renamed: 'documentChanges', notch: 'notch top at 50%', watched: true,
  },
} as const;

describe.each(Object.keys(expected) as (keyof typeof expected)[])('what %s sent when it was recorded', (name) => {
  const form = expected[name];
  const recorded = handshake(name);
  let client: Client;
  let answers: readonly Answered[];
  beforeAll(async () => {
    client = await Client.start({ files, greeting: recorded.messages[0].params });
    answers = await play(client, recorded);
  });
  afterAll(() => client.end());
  const all = <Answer>(method: string): readonly Answer[] => answers.filter((one) => one.method === method).map((one) => one.answer as Answer);
  const first = <Answer>(method: string): Answer => {
    const [answer] = all<Answer>(method);
    if (answer === undefined) throw new Error(`${name} never asked for ${method}`);
    return answer;
  };

  test('is greeted with what the editor can use', () => {
    expect(client.greeting.capabilities).toMatchObject({ positionEncoding: form.encoding, renameProvider: form.renames });
    expect(client.asked.includes('client/registerCapability')).toBe(form.watched);
  });

  test('is answered, all of it', () => {
    expect(answers.length).toBeGreaterThan(15);
    expect([...new Set(answers.filter((one) => one.answer === null).map((one) => one.method))]).toEqual(form.unanswered);
  });

  test('finds names in its own form', () => {
    const target = { start: { line: 15, character: 7 }, end: { line: 15, character: 14 } };
    expect(first('textDocument/definition')).toEqual(form.link
      ? [{ originSelectionRange: { start: { line: 25, character: 20 }, end: { line: 25, character: 27 } }, targetUri: opened, targetRange: { start: { line: 15, character: 0 }, end: { line: 15, character: 22 } }, targetSelectionRange: target }]
      : { uri: opened, range: target });
    expect(first<unknown[]>('textDocument/references')).toHaveLength(8);
    expect(first<unknown[]>('textDocument/documentHighlight')).toHaveLength(form.highlights);
    expect(first<SymbolInformation[]>('workspace/symbol').map((one) => one.name)).toEqual(['outer', 'outer_h', 'outer_w']);
    const symbols = first<DocumentSymbol[]>('textDocument/documentSymbol');
    if (form.tree) expect(symbols.find((one) => one.name === 'outer')?.children).toContainEqual(expect.objectContaining({ name: 'spine' }));
    else expect(symbols).toContainEqual(expect.objectContaining({ name: 'spine', containerName: 'outer' }));
  });

  test('renames in its own form', () => {
    const edit = first<WorkspaceEdit>('textDocument/rename');
    expect(Object.keys(edit)).toEqual([form.renamed]);
    const [change] = edit.documentChanges ?? [{ edits: edit.changes?.[opened] ?? [] }];
    expect(change).toMatchObject({ edits: Array.from({ length: 8 }, () => ({ newText: 'breadth' })) });
  });

  test('reads and completes in its own form', () => {
    const { contents } = first<{ contents: MarkupContent }>('textDocument/hover');
    expect(contents).toMatchObject({ kind: form.hover, value: expect.stringMatching(form.hover === 'markdown' ? /^\*\*canvas\*\* “Cotton canvas”/ : /^canvas “Cotton canvas”/) });
    const { items } = first<CompletionList>('textDocument/completion');
    expect(items.find((one) => one.label === 'notch')).toMatchObject({ textEdit: { newText: form.notch } });
  });

  test('mends the fault that it made', async () => {
    const [fix] = first<CodeAction[]>('textDocument/codeAction');
    expect(fix).toMatchObject({ title: 'Change to “canvas”', kind: 'quickfix' });
    expect(JSON.stringify(fix?.edit)).toContain('"newText":"canvas"');
    expect(first('textDocument/formatting')).toEqual([]);
    const pulled = all<DocumentDiagnosticReport>('textDocument/diagnostic').flatMap((one) => (one.kind === 'full' ? [codesOf(one.items)] : []));
    if (form.pulled) {
      expect(pulled[0]).toEqual(['rounded-size']);
      expect(pulled).toContainEqual(['unknown-name', 'rounded-size']);
      // All that was typed was taken back.
      expect(pulled.at(-1)).toEqual(['rounded-size']);
      expect(client.published).toEqual([]);
    } else {
      expect(pulled).toEqual([]);
      await expect.poll(() => codesOf(client.published.at(-1)?.diagnostics ?? [])).toEqual(['unknown-name', 'rounded-size']);
    }
  });

  // The others did not ask for these.
  if (name === 'neovim') test('gets hints, lenses, folding, calls and tokens', () => {
    expect(first('textDocument/inlayHint')).toContainEqual({ position: { line: 21, character: 43 }, label: '= 6 1/2 in', paddingLeft: true });
    expect(first('textDocument/codeLens')).toContainEqual({ range: { start: { line: 72, character: 6 }, end: { line: 72, character: 13 } }, command: { title: 'cut 1 from “poplin”', command: '' } });
    expect(first('textDocument/foldingRange')).toContainEqual({ startLine: 24, endLine: 38 });
    expect(first('callHierarchy/incomingCalls')).toMatchObject([{ from: { name: 'rul_top' } }]);
    expect(first<{ data: number[] }>('textDocument/semanticTokens/full').data.slice(0, 3)).toEqual([0, 0, openedText.indexOf('\n')]);
    // The name alone has changed, its kind has not.
    expect(first('textDocument/semanticTokens/full/delta')).toMatchObject({ edits: [] });
  });
});

test('an editor that knows of no related places is told of none', async () => {
  const client = await Client.start({ files, greeting: handshake('emacs').messages[0].params });
  const { diagnostics } = await client.open(opened, `${openedText}length seam = 1\n`);
  const twice = diagnostics.find((one) => one.code === 'duplicate-name');
  expect(twice).toBeDefined();
  expect(twice).not.toHaveProperty('relatedInformation');
  client.end();
});

describe('on a real disk', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'piecewright-'));
    await mkdir(join(folder, 'work', 'deep'), { recursive: true });
    await writeFile(join(folder, 'work', 'materials.piece'), `\uFEFF${materials}`);
    await writeFile(join(folder, 'work', 'deep', 'main.piece'), pouch);
    await writeFile(join(folder, 'outside.piece'), materials);
    await symlink(join(folder, 'outside.piece'), join(folder, 'work', 'linked.piece'));
    await symlink(join(folder, 'work', 'materials.piece'), join(folder, 'work', 'inner.piece'));
  });
  afterAll(() => rm(folder, { recursive: true }));

  const host = nodeHost({ read: () => Promise.resolve(undefined), list: () => Promise.resolve([]) });
  const uri = (...parts: string[]): string => pathToFileURL(join(folder, ...parts)).href;

  test('files are read without their mark of byte order, links inside the folder followed, those that leave it refused', async () => {
    expect(await host.read(uri('work', 'materials.piece'), uri('work'))).toEqual({ text: materials });
    expect(await host.read(uri('work', 'inner.piece'), uri('work'))).toEqual({ text: materials });
    expect(await host.read(uri('work', 'linked.piece'), uri('work'))).toBeUndefined();
    expect(await host.read(uri('outside.piece'), uri('work'))).toBeUndefined();
    expect(await host.read(uri('work', 'none.piece'), uri('work'))).toBeUndefined();
    expect(await host.read(uri('work'), folder)).toBeUndefined();
    expect(await host.list(uri('work'))).toContain(uri('work', 'deep', 'main.piece'));
  });

  test('the server as it is shipped: a process of its own over its standard streams', async () => {
    const bundle = join(folder, 'server.cjs');
    await esbuild.build({
      ...node, entryPoints: [fileURLToPath(new URL('../../server/src/lsp/node.ts', import.meta.url))],
      outfile: bundle,
    });
    const child = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
    connection.listen();
    const published = new Promise<PublishDiagnosticsParams>((done) => connection.onNotification('textDocument/publishDiagnostics', done));
    const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', { processId: process.pid, rootUri: uri('work'), capabilities: {}, workspaceFolders: null });
    expect(capabilities.hoverProvider).toBe(true);
    await connection.sendNotification('initialized', {});
    await connection.sendNotification('textDocument/didOpen', { textDocument: { uri: uri('work', 'main.piece'), languageId: 'piecewright', version: 1, text: pouch.replace('front holds card', 'front holds cart') } });
    expect(codesOf((await published).diagnostics)).toEqual(['unknown-name']);
    await connection.sendRequest('shutdown');
    const ended = once(child, 'exit');
    await connection.sendNotification('exit');
    expect(await ended).toEqual([0, null]);
    connection.dispose();
  }, 60_000);
});
