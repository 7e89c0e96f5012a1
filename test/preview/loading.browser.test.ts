import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

it('says that it is ready, and of nothing that was lost, where all of it has come', async () => {
  const preview = await openPreview(browser);
  expect((await preview.sent()).filter(({ type }) => type === 'ready' || type === 'unloaded')).toEqual([{ type: 'ready' }]);
});

it.each(['/preview.js', '/preview.css'])('says that it has to be loaded again where %s was lost', async (lost) => {
  const preview = await openPreview(browser, { lost });
  await expect.poll(preview.sent).toContainEqual({ type: 'unloaded', load: 1 });
});

it('takes a fault in a script for no loss', async () => {
  const preview = await openPreview(browser);
  await preview.sent();
  await preview.page.evaluate(() => new Promise<void>((resolve) => {
    addEventListener('error', () => resolve());
    setTimeout(() => {
      throw new Error('A fault.');
    });
  }));
  expect(await preview.sent()).not.toContainEqual({ type: 'unloaded', load: 1 });
});
