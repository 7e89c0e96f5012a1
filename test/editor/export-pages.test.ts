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
  /** Presses Open at once, since a message goes by itself, and downloads what the editor in a browser has no viewer for. */
  async function openedAndDownloaded(told: RegExp, name: string, says: RegExp): Promise<Buffer> {
    await (await workbench().message(told)).getByRole('button', { name: 'Open' }).click();
    const page = workbench().previewFrame();
    await page.getByRole('heading', { name }).waitFor();
    expect(await page.locator('p').innerText()).toMatch(says);
    expect(await page.locator('code').innerText()).toContain(name);
    const [download] = await Promise.all([workbench().page.waitForEvent('download'), page.getByRole('button', { name: 'Download' }).click()]);
    expect(download.suggestedFilename()).toBe(name);
    return readFileSync(await download.path());
  }

  it('writes the booklet as the command line does, byte for byte', async () => {
    await workbench().openFile(wallet);
    await workbench().runCommand(command);
    await workbench().pick('Booklet');
    await workbench().pick('Letter');
    await workbench().pick('All templates');
    await workbench().pick('trim felt');
    await workbench().screenshot(`export-pages-${kind}`);
    expect(await workbench().acceptFileName()).toMatch(/orchard-wallet\.pdf$/);
    const downloaded = await openedAndDownloaded(/Booklet: written to orchard-wallet\.pdf/, 'orchard-wallet.pdf', /print it: at 100 %/);
    await workbench().screenshot(`export-pages-opened-${kind}`);
    const bytes = await workbench().savedBytes('orchard-wallet.pdf');
    expect(Buffer.from(bytes ?? []).equals(written('pdf', wallet, '--paper', 'letter', '--choose', 'trim=felt'))).toBe(true);
    expect(downloaded.equals(Buffer.from(bytes ?? []))).toBe(true);
    await workbench().closeAll();
  });

  it('hands over a spreadsheet that is opened, too', async () => {
    await workbench().openFile(wallet);
    await workbench().runCommand(command);
    await workbench().pick('Spreadsheet');
    await workbench().pick('trim felt');
    await workbench().acceptFileName();
    const downloaded = await openedAndDownloaded(/Spreadsheet: written to orchard-wallet\.xlsx/, 'orchard-wallet.xlsx', /program for spreadsheets/);
    expect(downloaded.equals(written('xlsx', wallet, '--choose', 'trim=felt'))).toBe(true);
    await workbench().closeAll();
  });

  it('is stopped by its Cancel, and then writes nothing', async () => {
    await workbench().openFile('many-ways.piece');
    await workbench().runCommand(command);
    for (const choice of ['Booklet', 'A4', 'All templates', 'All sizes', 'depth shallow', 'flap small']) await workbench().pick(choice);
    await workbench().acceptFileName();
    const working = await workbench().message(/Making the pages/);
    await working.getByRole('button', { name: 'Cancel' }).click();
    await working.waitFor({ state: 'detached' });
    expect(await workbench().notifications()).toEqual([]);
    // The next is not kept waiting by the one that was stopped, and is the only one there is.
    await workbench().runCommand(command);
    for (const choice of ['Whole pattern', 'size S1', 'depth shallow', 'flap small']) await workbench().pick(choice);
    await workbench().acceptFileName();
    await workbench().message(/Whole pattern: written to many-ways-pattern\.json/);
    await expect.poll(() => workbench().filesLike('many-ways')).toEqual(['many-ways-pattern.json', 'many-ways.piece']);
  });

  it('refuses while the pattern has errors', async () => {
    await workbench().openFile('unfinished.piece');
    await workbench().runCommand(command);
    await workbench().message(/There are no pages while the pattern has errors\. Line 22: There is no value called “lid_height”/);
  });
});
