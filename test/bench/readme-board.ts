/**
 * Renews the readme's picture of the board: a real web editor with the wallet's text, the cursor at a height of it, and its
 * board beside that. Look at it before it is kept.
 *
 * Run: node test/bench/run.mjs readme-board
 */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { openBrowser } from '../editor/driver/browser.ts';
import { placeOf } from '../editor/driver/place.ts';
import { Workbench } from '../editor/driver/workbench.ts';
import { run } from '../editor/fetch/run.ts';
import { fetchWebHost } from '../editor/fetch/web-host.ts';
import { startWebHost } from '../editor/hosts/web.ts';

const root = process.cwd();
const samples = path.join(root, 'samples');
const name = 'orchard-wallet.piece';

await fetchWebHost();
await run('npm', ['run', 'package'], { cwd: root });
const host = await startWebHost({ vsix: path.join(root, 'dist/piecewright.vsix'), samples, trusted: true });
const browser = await openBrowser();
try {
  const workbench = await Workbench.open(browser, host);
  await workbench.theme('Light Modern');
  await workbench.openFile(name);
  await workbench.titleButton('Open Preview');
  const frame = workbench.previewFrame();
  await frame.locator('body.vscode-light').waitFor();
  await workbench.page.keyboard.press('Control+B');
  await workbench.page.locator('.part.sidebar').waitFor({ state: 'hidden' });
  const legend = frame.locator('#view-board').getByRole('button', { name: 'Legend' });
  if ((await legend.getAttribute('aria-expanded')) !== 'true') await legend.click();
  await workbench.focusText();
  await workbench.goTo(...placeOf(readFileSync(path.join(samples, name), 'utf8'), 'length |wallet_h'));
  // The pieces are arranged for the room that is left once the board says what hangs on the value.
  await frame.locator('.on-board.lit').first().waitFor();
  await frame.getByRole('button', { name: 'Arrange' }).click();
  await workbench.focusText();
  // A pointer would name what it is on; and what comes with delay is to be there.
  await workbench.page.mouse.move(0, 0);
  await workbench.page.waitForTimeout(3000);
  await workbench.page.screenshot({ path: path.join(root, 'client/media/preview.png'), animations: 'disabled', caret: 'initial' });
} finally {
  await browser.close();
  await host.stop();
}
