import { cpSync, rmSync } from 'node:fs';
import path from 'node:path';
import { fetchHosts } from './fetch/all.ts';
import { root } from './fetch/folder.ts';
import { run, timed } from './fetch/run.ts';

/** The packed extension that is tested. */
export const vsix = path.join(root, 'dist/piecewright.vsix');
/** What the editors have open: the samples, and the tests' own files beside them. */
export const workspace = path.join(root, 'build/editor/workspace');

/** Before all tests: fetches the editors, packs the extension and lays out the workspace. */
export async function setup(): Promise<void> {
  await fetchHosts();
  await timed('packing the extension', () => run('npm', ['run', 'package'], { cwd: root }));
  rmSync(workspace, { recursive: true, force: true });
  for (const folder of ['samples', 'test/editor/workspace']) cpSync(path.join(root, folder), workspace, { recursive: true });
}
