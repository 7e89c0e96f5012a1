import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { run, timed } from './run.ts';

/** The browser that shows the hosts. */
export const browserPath = process.env['PIECEWRIGHT_CHROMIUM'] ?? '/usr/bin/chromium';

const libraries = ['libkrb5-dev', 'libsecret-1-dev', 'libx11-dev', 'libxkbfile-dev'];

/** Installs the browser and what the Node host is built from, if they are missing. */
export async function installSystemPackages(): Promise<void> {
  const missing = [
    ...(existsSync(browserPath) ? [] : ['chromium']),
    ...(ripgrepPath() === undefined ? ['ripgrep'] : []),
    ...libraries.filter((name) => !installed(name)),
  ];
  if (missing.length === 0) return;
  if (process.getuid?.() !== 0 || spawnSync('apt-get', ['--version']).status !== 0) {
    throw new Error(`These system packages are needed to test in a real editor: ${missing.join(', ')}. Install them and run again.`);
  }
  await timed(`system packages ${missing.join(', ')}`, async () => {
    await run('apt-get', ['update', '-q'], { tries: 3 });
    await run('apt-get', ['install', '-y', '-q', '--no-install-recommends', ...missing], { tries: 3 });
  });
}

/** Where the system's own search program is. */
export function ripgrepPath(): string | undefined {
  const found = spawnSync('which', ['rg'], { encoding: 'utf8' });
  return found.status === 0 ? found.stdout.trim() : undefined;
}

function installed(name: string): boolean {
  const query = spawnSync('dpkg-query', ['-W', '-f', '${Status}', name], { encoding: 'utf8' });
  return query.status === 0 && query.stdout.includes('install ok installed');
}
