import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';

inEachHost('the check task', (workbench, kind) => {
  // A browser can't start processes, so there is no task there.
  it.skipIf(kind === 'web')('lists the problems of files that are not open', async () => {
    await workbench().openFile('first.piece');
    await workbench().runCommand('Tasks: Run Task');
    await workbench().pick('piecewright');
    await workbench().pick('piecewright: check');
    await expect.poll(() => workbench().problemsPanelText()).toMatch(/lid_height[^\n]*\npiecewright check\nunknown-name\n/);
    await workbench().screenshot(`task-${kind}`);
  });
});
