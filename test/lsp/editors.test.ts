import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, mkdir, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import * as esbuild from 'esbuild';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node';
import type { CompletionList, DocumentDiagnosticReport, Hover, InitializeResult, PublishDiagnosticsParams, WorkspaceEdit } from 'vscode-languageserver';
import { nodeHost } from '../../server/src/lsp/node-host.ts';
import { folio, materials } from '../support/folio.ts';
import { handshakes } from '../support/handshakes.ts';
import { Client, codesOf } from '../support/lsp.ts';

const main = 'file:///work/main.piece';
const files = { [main]: folio, 'file:///work/materials.piece': materials };
const textDocument = { uri: main };

function capabilitiesOf(name: string): NonNullable<(typeof handshakes)[string]> {
  const capabilities = handshakes[name];
  if (capabilities === undefined) throw new Error(`No handshake of ${name}`);
  return capabilities;
}

test('a modal editor gets UTF-16 where it offers that too, asks for diagnostics, and gets snippets', async () => {
  const client = await Client.start({ files, capabilities: capabilitiesOf('a modal editor') });
  expect(client.greeting.capabilities).toMatchObject({ positionEncoding: 'utf-16', renameProvider: { prepareProvider: true } });
  void client.open(main, folio);
  expect(await client.request<DocumentDiagnosticReport>('textDocument/diagnostic', { textDocument })).toMatchObject({ kind: 'full', items: [] });
  const { items } = await client.request<CompletionList>('textDocument/completion', { textDocument, position: { line: 12, character: 0 } });
  expect(items.find((one) => one.label === 'notch')).toMatchObject({ insertTextFormat: 2, textEdit: { newText: 'notch ${1:top} at ${2:50%}' } });
  expect(await client.request('textDocument/definition', { textDocument, position: { line: 18, character: 10 } })).toMatchObject([{ targetUri: 'file:///work/materials.piece' }]);
  await expect.poll(() => client.asked).toContain('client/registerCapability');
  client.end();
});

test('an older client gets its diagnostics sent, plain texts, flat symbols and plain edits', async () => {
  const client = await Client.start({ files, capabilities: capabilitiesOf('an older client') });
  expect(client.greeting.capabilities.renameProvider).toBe(true);
  const { diagnostics } = await client.open(main, `${folio}length base = 1\n`);
  expect(diagnostics).toMatchObject([{ code: 'duplicate-name' }]);
  expect(diagnostics[0]).not.toHaveProperty('relatedInformation');
  const { items } = await client.request<CompletionList>('textDocument/completion', { textDocument, position: { line: 12, character: 0 } });
  const notch = items.find((one) => one.label === 'notch');
  expect(notch).toMatchObject({ textEdit: { newText: 'notch top at 50%' }, documentation: { kind: 'plaintext' } });
  expect(notch).not.toHaveProperty('insertTextFormat');
  const { contents } = (await client.request<Hover>('textDocument/hover', { textDocument, position: { line: 18, character: 10 } }));
  expect(contents).toMatchObject({ kind: 'plaintext', value: expect.not.stringContaining('**') });
  expect(await client.request('textDocument/documentSymbol', { textDocument })).toContainEqual(expect.objectContaining({ name: 'hem', containerName: 'cover' }));
  const edit = await client.request<WorkspaceEdit>('textDocument/rename', { textDocument, position: { line: 12, character: 15 }, newName: 'rim' });
  expect(edit).not.toHaveProperty('documentChanges');
  expect(Object.keys(edit.changes ?? {})).toEqual([main]);
  expect(client.asked).toEqual([]);
  client.end();
});

describe('on a real disk', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'piecewright-'));
    await mkdir(join(folder, 'work', 'deep'), { recursive: true });
    await writeFile(join(folder, 'work', 'materials.piece'), `\uFEFF${materials}`);
    await writeFile(join(folder, 'work', 'deep', 'main.piece'), folio);
    await writeFile(join(folder, 'outside.piece'), materials);
    await symlink(join(folder, 'outside.piece'), join(folder, 'work', 'linked.piece'));
    await symlink(join(folder, 'work', 'materials.piece'), join(folder, 'work', 'inner.piece'));
  });
  afterAll(() => rm(folder, { recursive: true }));

  const host = nodeHost({ read: () => Promise.resolve(undefined), list: () => Promise.resolve([]) });
  const uri = (...parts: string[]): string => pathToFileURL(join(folder, ...parts)).href;

  test('files are read without their mark of byte order, links inside the folder followed, those that leave it refused', async () => {
    expect(await host.read(uri('work', 'materials.piece'), uri('work'))).toBe(materials);
    expect(await host.read(uri('work', 'inner.piece'), uri('work'))).toBe(materials);
    expect(await host.read(uri('work', 'linked.piece'), uri('work'))).toBeUndefined();
    expect(await host.read(uri('outside.piece'), uri('work'))).toBeUndefined();
    expect(await host.read(uri('work', 'none.piece'), uri('work'))).toBeUndefined();
    expect(await host.read(uri('work'), folder)).toBeUndefined();
    expect(await host.list(uri('work'))).toContain(uri('work', 'deep', 'main.piece'));
  });

  test('the server as it is shipped: a process of its own over its standard streams', async () => {
    const bundle = join(folder, 'server.cjs');
    await esbuild.build({
      entryPoints: [fileURLToPath(new URL('../../server/src/lsp/node.ts', import.meta.url))],
      bundle: true, platform: 'node', format: 'cjs', target: 'node20', mainFields: ['module', 'main'], outfile: bundle, logLevel: 'error',
    });
    const child = spawn(process.execPath, [bundle, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
    const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
    connection.listen();
    const published = new Promise<PublishDiagnosticsParams>((done) => connection.onNotification('textDocument/publishDiagnostics', done));
    const { capabilities } = await connection.sendRequest<InitializeResult>('initialize', { processId: process.pid, rootUri: uri('work'), capabilities: {}, workspaceFolders: null });
    expect(capabilities.hoverProvider).toBe(true);
    await connection.sendNotification('initialized', {});
    await connection.sendNotification('textDocument/didOpen', { textDocument: { uri: uri('work', 'main.piece'), languageId: 'piecewright', version: 1, text: folio.replace('cover holds card', 'cover holds cart') } });
    expect(codesOf((await published).diagnostics)).toEqual(['unknown-name']);
    await connection.sendRequest('shutdown');
    const ended = once(child, 'exit');
    await connection.sendNotification('exit');
    expect(await ended).toEqual([0, null]);
    connection.dispose();
  }, 60_000);
});
