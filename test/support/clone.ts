import { cpSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { execFileSync } from 'node:child_process';

const root = fileURLToPath(new URL('../..', import.meta.url));
const made = new Set(['node_modules', 'dist', 'build', '.git', '.editors']);

/** A copy of the repository as it is after `npm ci --ignore-scripts`: nothing is built. */
export interface Clone {
  /** A new folder, in which `clone` is the copy. */
  readonly home: string;
  readonly folder: string;
  /** Runs npm in a folder, without a network. */
  readonly npm: (args: readonly string[], folder: string) => string;
  readonly end: () => void;
}

export function cloned(): Clone {
  const home = mkdtempSync(join(tmpdir(), 'piecewright-'));
  const folder = join(home, 'clone');
  for (const name of readdirSync(root)) if (!made.has(name)) cpSync(join(root, name), join(folder, name), { recursive: true, filter: (path) => !path.endsWith('generated') });
  symlinkSync(join(root, 'node_modules'), join(folder, 'node_modules'), 'junction');
  // What npm says to the scripts that it runs would be heard by the npm started here.
  const env = { ...Object.fromEntries(Object.entries(process.env).filter(([name]) => !name.startsWith('npm_'))), npm_config_cache: join(home, 'cache') };
  const own = process.env['npm_execpath'];
  const [program, first] = own === undefined ? ['npm', []] : [process.execPath, [own]];
  return {
    home, folder,
    npm: (args, at) => execFileSync(program, [...first, ...args, '--offline', '--no-audit', '--no-fund', '--loglevel=error'], { cwd: at, env, encoding: 'utf8' }),
    end: () => { rmSync(home, { recursive: true, force: true }); },
  };
}
