import type { Frame, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { alike, bringLetters, faults, offFrom, overlay, pictured, tolerated, turnTo, viewNames, type ViewName } from '../preview/reference.ts';
import type { ThemeName } from '../preview/themes.ts';
import { inEachHost } from './driver/each-host.ts';

// In each editor the views look as the page does by itself, which is what was looked at.

const themes: readonly (readonly [theme: string, name: ThemeName, kind: string])[] = [
  ['Light Modern', 'light', 'vscode-light'],
  ['Dark High Contrast', 'high-contrast', 'vscode-high-contrast'],
  ['Light High Contrast', 'high-contrast-light', 'vscode-high-contrast-light'],
  ['Dark Modern', 'dark', 'vscode-dark'],
];
/** As large as in the pictures, in their letters. */
const style = `#preview { width: ${pictured.width}px; height: ${pictured.height}px; } body { font-family: Shipped; }`;

inEachHost('pictures of the preview', (workbench, kind) => {
  let frame: Frame;
  let desk: Page;

  beforeAll(async () => {
    desk = await workbench().page.context().newPage();
    await workbench().page.bringToFront();
    await workbench().page.setViewportSize({ width: 2200, height: 1000 });
    await workbench().openFile('shapes.piece');
    await workbench().titleButton('Open Preview');
    await workbench().page.keyboard.press('Control+B');
    frame = await workbench().previewPage();
    await frame.getByRole('button', { name: 'Focus' }).click();
    await frame.locator('.on-board[data-piece="gusset"] .name').click();
    await frame.locator('.focus h2', { hasText: 'Half gusset' }).waitFor();
    await bringLetters(frame);
    await overlay(frame, style);
    // As a board of that shape comes up.
    await frame.getByRole('button', { name: 'Arrange' }).click();
  });

  const shot = async (view: ViewName): Promise<Uint8Array> => {
    await turnTo(frame, view);
    // The pointer would name what it is on.
    await workbench().page.mouse.move(0, 0);
    if (view === 'buying' || view === 'layouts') await frame.locator(`#view-${view} .search`, { hasText: 'has ended' }).waitFor({ state: 'attached' });
    return frame.locator('#preview').screenshot({ animations: 'disabled' });
  };

  it.each(themes)('are as they were when they were looked at, in %s', async (theme, name, body) => {
    await workbench().theme(theme);
    await frame.locator(`body.${body}`).waitFor();
    await overlay(frame, style);
    const off: string[] = [];
    for (const view of viewNames) {
      const share = await offFrom(desk, await shot(view), `${view}-${name}`, `${view}-${name}-${kind}`);
      if (share >= tolerated) off.push(`${view}: ${share}`);
    }
    expect(off).toEqual([]);
  });

  // Whether all of them are noticed is tried where that takes less time.
  it.each(faults.filter(([, view]) => view === 'board'))('would notice %s, %s', async (_, view, fault) => {
    await overlay(frame, `${style} ${fault}`);
    expect(await offFrom(desk, await shot(view), `${view}-dark`, `${view}-fault-${kind}`)).toBeGreaterThan(2 * tolerated);
  });
}, { drawn: alike });
