import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { fileURLToPath } from 'node:url';
import * as esbuild from 'esbuild';
import { browser as browserBundle } from '../../client/bundles.mjs';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PreviewLays } from '../../server/src/preview/lays-data.ts';
import { openBrowser } from '../editor/driver/browser.ts';
import { sample } from '../support/samples.ts';

let browser: Browser;
let script: string;
beforeAll(async () => {
  browser = await openBrowser();
  const built = await esbuild.build({ ...browserBundle, entryPoints: [fileURLToPath(new URL('../../server/src/lsp/browser.ts', import.meta.url))], write: false, format: 'iife' });
  script = built.outputFiles[0]?.text ?? '';
});
afterAll(() => browser.close());

interface Outcome {
  readonly lays: readonly PreviewLays[];
  readonly logged: readonly string[];
}

/** Runs the server in a worker of a page whose policy allows it one, and asks for lays until the last are told. */
async function outcome(policy: string): Promise<Outcome> {
  // Served for real: requests of a worker within a worker can't be answered by the test's browser.
  const server = createServer(({ url }, response) => {
    if (url !== '/server.js') return response.writeHead(200, { 'content-type': 'text/html' }).end('<!DOCTYPE html><title>Server</title>');
    return response.writeHead(200, { 'content-type': 'text/javascript', ...(policy === '' ? {} : { 'content-security-policy': policy }) }).end(script);
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done));
  const page = await (await browser.newContext()).newPage();
  await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`);
  const files = { 'http://server.test/work/studio/materials.piece': sample('studio/materials.piece') };
  const found = await page.evaluate(async ({ text, others }) => {
    const worker = new Worker('/server.js');
    const lays: unknown[] = [];
    const logged: string[] = [];
    const uri = 'http://server.test/work/a.piece';
    const send = (message: object): void => worker.postMessage({ jsonrpc: '2.0', ...message });
    await new Promise<void>((done) => {
      worker.onmessage = ({ data }: MessageEvent<{ id?: number; method?: string; params: { uri: string; lays: { state: string }; message: string } }>) => {
        if (data.method === 'piecewright/read') send({ id: data.id, result: (others as Record<string, string>)[data.params.uri] ?? null });
        if (data.method === 'window/logMessage') logged.push(data.params.message);
        if (data.method === 'piecewright/lays') lays.push(data.params.lays);
        if (data.method === 'piecewright/lays' && data.params.lays.state === 'done') done();
      };
      send({ id: 1, method: 'initialize', params: { processId: null, rootUri: 'http://server.test/work', capabilities: {} } });
      send({ method: 'initialized', params: {} });
      send({ method: 'textDocument/didOpen', params: { textDocument: { uri, languageId: 'piecewright', version: 1, text } } });
      send({ id: 2, method: 'piecewright/preview', params: { uri, buying: { articles: 2 } } });
    });
    return { lays, logged };
  }, { text: sample('market-apron.piece'), others: files });
  await page.context().close();
  server.closeAllConnections();
  server.close();
  return found as Outcome;
}

describe('the server in a browser’s worker', () => {
  it('plans in a worker of its own', async () => {
    const { lays, logged } = await outcome('');
    expect(logged).toEqual([]);
    expect(lays[0]?.materials[0]?.state).toBe('first');
    expect(lays.at(-1)?.materials.map(({ state }) => state)).toEqual(['settled', 'settled']);
  });

  it('plans in its own thread where it may have no worker', async () => {
    const { lays, logged } = await outcome("worker-src 'none'");
    expect(logged).toHaveLength(1);
    expect(lays[0]?.materials[0]?.state).toBe('first');
    expect(lays.at(-1)?.state).toBe('done');
  });
});
