import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';

inEachHost('a workspace that is not trusted', (workbench, kind) => {
  it('is checked and drawn all the same', async () => {
    await workbench().page.locator('[id="status.workspaceTrust"]', { hasText: 'Restricted Mode' }).waitFor();
    await workbench().openFile('unfinished.piece');
    await workbench().waitForSquiggle();
    await expect.poll(() => workbench().problemsPanelText()).toContain('There is no value called “lid_height”.');
    await workbench().titleButton('Open Preview');
    await workbench().previewFrame().locator('.on-board[data-piece="body"] .drawing .part').first().waitFor({ state: 'attached' });
    await workbench().screenshot(`restricted-${kind}`);
  });
}, { trusted: false });
