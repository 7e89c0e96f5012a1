import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Locator } from 'playwright-core';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';
import { placeOf } from './driver/place.ts';
import { workspace } from './setup.ts';

const wallet = 'orchard-wallet.piece';
const text = readFileSync(path.join(workspace, wallet), 'utf8');
const written = 'placement label_at "Place of the label" = rectangle 3 1/4 by 2 1/4 at 5/8, 3 3/8';

inEachHost('handles in the preview', (workbench, kind) => {
  const frame = (): ReturnType<ReturnType<typeof workbench>['previewFrame']> => workbench().previewFrame();
  const handle = (name: RegExp): Locator => frame().getByRole('button', { name });
  const line = (): Promise<string | undefined> => workbench().savedText(wallet).then((all) => all?.split('\n').find((one) => one.includes('label_at '))?.trim());

  it('write a number in the text, which undo takes back', async () => {
    await workbench().openFile(wallet);
    await workbench().titleButton('Open Preview');
    await frame().getByRole('button', { name: 'Focus' }).click();
    await workbench().focusText();
    await workbench().goTo(...placeOf(text, 'label|_at "Place of the label" = rectangle'));
    const corner = handle(/^Lower left of “Place of the label”: x 5\/8 in, y 3 3\/8 in$/);
    await corner.waitFor();
    const box = await corner.boundingBox();
    const [x, y] = [(box?.x ?? 0) + (box?.width ?? 0) / 2, (box?.y ?? 0) + (box?.height ?? 0) / 2];
    const mouse = workbench().page.mouse;
    await mouse.move(x, y);
    await mouse.down();
    await mouse.move(x + 12, y, { steps: 3 });
    await frame().locator('.handle-ghost').waitFor();
    await expect.poll(() => frame().locator('.handle-told').innerText()).not.toContain('x 5/8 in');
    await workbench().screenshot(`handles-drag-${kind}`);
    const told = /x (.*) in, y 3 3\/8 in/.exec(await frame().locator('.handle-told').innerText())?.[1];
    await mouse.up();
    await handle(new RegExp(`^Lower left of “Place of the label”: x ${told ?? '?'} in, y 3 3/8 in$`)).waitFor();
    await workbench().focusText();
    expect(await workbench().isSaved()).toBe(false);
    await workbench().save();
    await expect.poll(line).toBe(written.replace('5/8', told ?? '?'));
    expect(told).not.toBe('5/8');
    await workbench().page.keyboard.press('Control+Z');
    await corner.waitFor();
    await workbench().save();
    await expect.poll(line).toBe(written);
  });

  it('are moved by keys, and say what stays', async () => {
    const corner = handle(/^Lower left of “Place of the label”: x 5\/8 in, y 3 3\/8 in$/);
    await corner.focus();
    for (const key of ['Enter', 'ArrowRight', 'ArrowUp', 'Enter']) await corner.press(key);
    await handle(/^Lower left of “Place of the label”: x 3\/4 in, y 3 1\/2 in$/).waitFor();
    await handle(/^Width of the outline/).focus();
    await expect.poll(() => frame().locator('.handle-told').innerText()).toBe('Width of the outline\nStays: set by a formula: wrap_w');
    await workbench().screenshot(`handles-stays-${kind}`);
    await workbench().focusText();
    await workbench().page.keyboard.press('Control+Z');
    await corner.waitFor();
    expect(await workbench().previewProblems()).toEqual([]);
  });
});
