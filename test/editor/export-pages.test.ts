import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';
import { root } from './fetch/folder.ts';
import { workspace } from './setup.ts';

const wallet = 'orchard-wallet.piece';
const command = 'Piecewright: Export Pages…';

/** What the command line as it is shipped writes, in the folder that the editors have open. */
function written(ending: string, ...args: readonly string[]): Buffer {
  const folder = mkdtempSync(path.join(tmpdir(), 'piecewright-'));
  try {
    const file = path.join(folder, `pages.${ending}`);
    execFileSync(process.execPath, [path.join(root, 'dist/piecewright.cjs'), 'pages', ...args, '--output', file], { cwd: workspace, stdio: 'ignore' });
    return readFileSync(file);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

inEachHost('exporting pages', (workbench, kind) => {
  it('writes the booklet as the command line does, byte for byte', async () => {
    await workbench().openFile(wallet);
    await workbench().runCommand(command);
    await workbench().pick('Booklet');
    await workbench().pick('Letter');
    await workbench().pick('All templates');
    await workbench().pick('trim felt');
    await workbench().screenshot(`export-pages-${kind}`);
    expect(await workbench().acceptFileName()).toMatch(/orchard-wallet\.pdf$/);
    await workbench().message(/Booklet: written to orchard-wallet\.pdf/);
    const bytes = await workbench().savedBytes('orchard-wallet.pdf');
    expect(Buffer.from(bytes ?? []).equals(written('pdf', wallet, '--paper', 'letter', '--choose', 'trim=felt'))).toBe(true);
  });

  it('refuses while the pattern has errors', async () => {
    await workbench().openFile('unfinished.piece');
    await workbench().runCommand(command);
    await workbench().message(/There are no pages while the pattern has errors\. Line 22: There is no value called “lid_height”/);
  });
});
