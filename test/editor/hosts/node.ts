import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { nodeHostFolder } from '../fetch/node-host.ts';
import { run } from '../fetch/run.ts';
import { settingsFor, type Host, type HostOptions } from './host.ts';

/** Starts the editor's server with the packed extension installed and a copy of the samples open. */
export async function startNodeHost({ vsix, samples, trusted, git }: HostOptions): Promise<Host> {
  const folder = mkdtempSync(path.join(tmpdir(), 'piecewright-editor-'));
  const workspace = path.join(folder, 'workspace');
  const program = path.join(nodeHostFolder, 'out/node/entry.js');
  const places = ['--extensions-dir', path.join(folder, 'extensions'), '--user-data-dir', path.join(folder, 'user')];
  cpSync(samples, workspace, { recursive: true });
  mkdirSync(path.join(folder, 'user/User'), { recursive: true });
  writeFileSync(path.join(folder, 'user/User/settings.json'), JSON.stringify(settingsFor({ trusted, ...(git === undefined ? {} : { git }) })));
  await run(process.execPath, [program, ...places, '--install-extension', vsix]);

  const port = await freePort();
  const quiet = ['--disable-telemetry', '--disable-update-check', '--disable-getting-started-override', ...(trusted ? ['--disable-workspace-trust'] : [])];
  const args = [program, ...places, ...quiet, '--auth', 'none', '--bind-addr', `127.0.0.1:${port}`];
  // A group of its own, so that what it starts ends with it.
  const child = spawn(process.execPath, args, { detached: true, stdio: ['ignore', 'pipe', 'pipe'] });
  let output = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk: Buffer) => (output += chunk.toString()));
  const ended = new Promise<void>((resolve) => child.on('close', () => resolve()));
  const stop = async (): Promise<void> => {
    if (child.pid !== undefined && child.exitCode === null) process.kill(-child.pid, 'SIGTERM');
    await ended;
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };

  const url = `http://localhost:${port}`;
  for (let waited = 0; !(await answers(`${url}/healthz`)); waited += 200) {
    if (child.exitCode !== null || waited > 60_000) {
      await stop();
      throw new Error(`The editor's server did not start:\n${output}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  return {
    url: `${url}/?folder=${encodeURIComponent(workspace)}`,
    read: (file) => readFile(path.join(workspace, file)).catch(() => undefined),
    folder: workspace,
    stop,
  };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const server = createServer().listen(0, '127.0.0.1', () => {
      const { port } = server.address() as AddressInfo;
      server.close(() => resolve(port));
    });
  });
}

async function answers(url: string): Promise<boolean> {
  return fetch(url).then(
    (response) => response.ok,
    () => false,
  );
}
