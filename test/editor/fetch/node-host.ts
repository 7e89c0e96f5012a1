import { existsSync, mkdirSync, symlinkSync } from 'node:fs';
import path from 'node:path';
import { fetchOnce, packageFolder, type HostPackage } from './folder.ts';
import { run, timed } from './run.ts';
import { ripgrepPath } from './system.ts';

const host: HostPackage = { name: 'code-server', version: '4.100.3' };
const quiet = ['--no-audit', '--no-fund'];
const native = ['@vscode/spdlog', 'node-pty', '@parcel/watcher', 'native-watchdog', 'kerberos'];

/** The folder of the editor's server. */
export const nodeHostFolder = packageFolder(host);

/** Fetches the editor's server: its extensions run in Node, as on the desktop. Its native parts are built here. */
export function fetchNodeHost(): Promise<void> {
  return fetchOnce(host, async (cwd) => {
    const editor = path.join(nodeHostFolder, 'lib/vscode');
    const parts = ['install', '--ignore-scripts', '--omit=dev', ...quiet];
    await timed('code-server: package', async () => {
      await run('npm', ['install', '--ignore-scripts', '--no-save', ...quiet, `${host.name}@${host.version}`], { cwd, tries: 3 });
      await run('npm', ['rebuild', 'argon2', '--build-from-source'], { cwd, tries: 2 });
    });
    await timed('code-server: editor', async () => {
      await run('npm', [...parts, '--legacy-peer-deps'], { cwd: editor, tries: 3 });
      await run('npm', ['rebuild', ...native], { cwd: editor, tries: 2 });
    });
    await timed('code-server: built-in extensions', () => run('npm', parts, { cwd: path.join(editor, 'extensions'), tries: 3 }));
    linkSearch(path.join(editor, 'node_modules/@vscode/ripgrep/bin'));
  });
}

/** The editor looks for its search program in its own folder: give it the system's. */
function linkSearch(folder: string): void {
  const search = ripgrepPath();
  if (search === undefined) throw new Error('The search program rg is missing.');
  mkdirSync(folder, { recursive: true });
  if (!existsSync(path.join(folder, 'rg'))) symlinkSync(search, path.join(folder, 'rg'));
}
