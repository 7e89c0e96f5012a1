import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { root } from '../fetch/folder.ts';
import { workspace } from '../setup.ts';

/** What the command line as it is shipped prints, in the folder that the editors have open. */
export function printed(...args: readonly string[]): string {
  return execFileSync(process.execPath, [path.join(root, 'dist/piecewright.cjs'), ...args], { cwd: workspace, encoding: 'utf8', maxBuffer: 1e8, stdio: ['ignore', 'pipe', 'ignore'] });
}
