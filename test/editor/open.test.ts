import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';

inEachHost('opening a pattern', (workbench, kind) => {
  it('knows the language', async () => {
    await workbench().openFile('first.piece');
    await expect.poll(() => workbench().language()).toBe('Piecewright');
  });

  it('paints the words by what they are', async () => {
    await expect.poll(async () => (await workbench().colours(6)).size).toBeGreaterThan(3);
    const [comment, title, value] = [await workbench().colours(1), await workbench().colours(2), await workbench().colours(6)];
    const [keyword, name, size, unit] = ['length', 'body_w', '7 1/2', 'in'].map((word) => value.get(word));
    expect(new Set([[...comment.values()][0], title.get('"Card fold"'), keyword, name, size]).size).toBe(5);
    expect([keyword, name, size, unit]).not.toContain(undefined);
  });

  it('starts the extension', async () => {
    await workbench().screenshot(`open-${kind}`);
    const running = (await workbench().runningExtensions()).split(/\n(?=\D+\n\d+\.\d+\.\d+\n)/);
    expect(running.find((entry) => entry.startsWith('Piecewright'))).toMatch(/Activation: \d+ms/);
    await workbench().screenshot(`running-${kind}`);
  });

  // A browser can't start processes, so there is no task there.
  it.skipIf(kind === 'web')('runs the check as a task, which lists the problems of files that are not open', async () => {
    await workbench().runCommand('Tasks: Run Task');
    await workbench().pick('piecewright');
    await workbench().pick('piecewright: check');
    await expect.poll(() => workbench().problemsPanelText()).toMatch(/lid_height[^\n]*\npiecewright check\nunknown-name\n/);
    await workbench().screenshot(`task-${kind}`);
  });
});
