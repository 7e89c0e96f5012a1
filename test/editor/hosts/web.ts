import { unzipSync } from 'fflate';
import { createServer, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { buffer } from 'node:stream/consumers';
import { webHostFolder } from '../fetch/web-host.ts';
import type { Host, HostOptions } from './host.ts';
import { extensionText, manifestFor, schemeFor, writtenPath } from './memory-files.ts';
import { workbenchPage } from './web-page.ts';

/** Serves the web workbench with the packed extension and a workspace in memory. */
export async function startWebHost({ vsix, samples, trusted }: HostOptions): Promise<Host> {
  const scheme = schemeFor(trusted);
  const packed = unzipSync(readFileSync(vsix));
  const made = new Map<string, string>([
    ['/files/package.json', JSON.stringify(manifestFor(scheme))],
    ['/files/extension.js', extensionText(scheme, samples)],
  ]);

  // The workspace lives in the browser; it tells what is written.
  const written = new Map<string, Uint8Array>();

  const find = async (at: string): Promise<Uint8Array | string | undefined> => {
    if (at.startsWith('/ext/')) return packed[`extension/${at.slice('/ext/'.length)}`];
    if (at.startsWith('/code/')) return readFile(path.join(webHostFolder, at.slice('/code/'.length))).catch(() => undefined);
    return made.get(at);
  };
  const server = createServer((request, response) => {
    const at = path.posix.normalize(decodeURIComponent(new URL(request.url ?? '/', 'http://localhost').pathname));
    if (request.method === 'POST') return void buffer(request).then((data) => written.set(at, data)).then(() => answer(response, at, ''));
    void find(at).then((body) => answer(response, at, body));
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  made.set('/', workbenchPage(port, scheme, trusted));

  return {
    read: (file) => {
      const now = written.get(`${writtenPath}/workspace/${file}`);
      return now === undefined ? readFile(path.join(samples, file)).catch(() => undefined) : Promise.resolve(now);
    },
    // The page and its webviews must be of one site, so both live below one name.
    url: `http://vsc.localhost:${port}/`,
    stop: () =>
      new Promise((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

const types: Readonly<Record<string, string>> = {
  '.css': 'text/css',
  '.html': 'text/html',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.mjs': 'text/javascript',
  '.svg': 'image/svg+xml',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
};

function answer(response: ServerResponse, at: string, body: Uint8Array | string | undefined): void {
  const type = at === '/' ? 'text/html' : (types[path.extname(at)] ?? 'application/octet-stream');
  response.writeHead(body === undefined ? 404 : 200, { 'Content-Type': type, 'Access-Control-Allow-Origin': '*' });
  response.end(body);
}
