import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { alike, bringLetters, faults, offFrom, overlay, pictured, tolerated, turnTo, viewNames, type ViewName } from './reference.ts';
import { Draft, laysTold, shapes } from './specs.ts';
import type { ThemeName } from './themes.ts';

// Every view in every kind of theme against a picture that a person has looked at.

let browser: Browser;
let desk: Page;
beforeAll(async () => {
  browser = await openBrowser(alike);
  desk = await browser.newPage();
});
afterAll(() => browser.close());

const themes: readonly ThemeName[] = ['light', 'dark', 'high-contrast', 'high-contrast-light'];
const lays = laysTold(shapes).at(-1);

async function opened(theme: ThemeName): Promise<PreviewPage> {
  const preview = await openPreview(browser, { theme, ...pictured, state: { uri: 'draft.piece', view: 'board', focus: true, selected: 'gusset' } });
  await bringLetters(preview.page);
  await preview.page.evaluate(() => document.documentElement.style.setProperty('--vscode-font-family', 'Shipped'));
  await preview.show(new Draft().data(shapes, {}, { handled: 'gusset' }));
  await preview.lays(lays);
  return preview;
}

async function shot(preview: PreviewPage, view: ViewName): Promise<Uint8Array> {
  await turnTo(preview.page, view);
  await preview.page.mouse.move(0, 0);
  return preview.page.screenshot();
}

it.each(themes)('looks as it did when it was looked at, in %s', async (theme) => {
  const preview = await opened(theme);
  for (const view of viewNames) {
    expect(await offFrom(desk, await shot(preview, view), `${view}-${theme}`), `${view} in ${theme}: see build/screenshots/reference-${view}-${theme}.png`).toBeLessThan(tolerated);
  }
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
});

it.each(faults)('would notice %s, %s', async (_, view, fault) => {
  const preview = await opened('light');
  await overlay(preview.page, fault);
  expect(await offFrom(desk, await shot(preview, view), `${view}-light`, `${view}-fault`)).toBeGreaterThan(2 * tolerated);
  await preview.page.context().close();
});
