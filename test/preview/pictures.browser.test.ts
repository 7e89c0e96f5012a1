import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { apron, Draft, wallet, laysTold, shapes } from './specs.ts';
import type { ThemeName } from './themes.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const allThemes: readonly ThemeName[] = ['light', 'dark', 'high-contrast', 'high-contrast-light'];

describe('pictures to look at', () => {
  it.each(allThemes)('draws the wallet in %s', async (theme) => {
    const preview = await openPreview(browser, { theme });
    await preview.show(new Draft().data(wallet));
    const place = wallet.indexOf('line low');
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: place });
    await preview.picture(`wallet-${theme}`);
    for (const [tab, name] of [['Cutting table', 'table'], ['To buy', 'buying']] as const) {
      await preview.page.getByRole('tab', { name: tab }).click();
      await preview.picture(`wallet-${name}-${theme}`);
    }
    expect(preview.complaints).toEqual([]);
    await preview.page.context().close();
  });

  it.each(allThemes)('draws the shapes in %s', async (theme) => {
    const preview = await openPreview(browser, { theme });
    await preview.show(new Draft().data(shapes));
    await preview.picture(`shapes-${theme}`);
    expect(preview.complaints).toEqual([]);
    await preview.page.context().close();
  });

  it.each(allThemes)('draws what to buy and the layouts in %s', async (theme) => {
    const preview = await openPreview(browser, { theme });
    await preview.show(new Draft().data(wallet));
    const told = laysTold(wallet, { widths: '44 in = 12, 60 in' });
    await preview.lays(told[0]);
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf('line low') });
    for (const [tab, name] of [['To buy', 'list'], ['Layouts', 'layouts']] as const) {
      await preview.page.getByRole('tab', { name: tab }).click();
      await preview.picture(`${name}-${theme}`);
    }
    await preview.lays(told.at(-1));
    await preview.picture(`layouts-done-${theme}`);
    expect(preview.complaints).toEqual([]);
    await preview.page.context().close();
  });

  it('draws layouts without colour, in forced colours, narrow and large', async () => {
    const told = laysTold(shapes, { articles: 3 }).at(-1);
    for (const [name, options] of [['greyscale', {}], ['forced', { forcedColors: 'active' }], ['narrow', { width: 420, height: 700 }], ['large', { width: 1100 }]] as const) {
      const preview = await openPreview(browser, { theme: 'light', ...options });
      await preview.show(new Draft().data(shapes));
      await preview.lays(told);
      await preview.post({ type: 'cursor', file: 'draft.piece', offset: shapes.indexOf('piece gusset') });
      await preview.page.getByRole('tab', { name: 'Layouts' }).click();
      if (name === 'greyscale') await preview.page.evaluate(() => document.documentElement.style.setProperty('filter', 'grayscale(1)'));
      if (name === 'large') for (let presses = 0; presses < 4; presses++) await preview.page.getByRole('button', { name: 'Larger' }).last().click();
      await preview.picture(`layouts-${name}`);
      expect(preview.complaints).toEqual([]);
      await preview.page.context().close();
    }
  });

  it('draws folded cloth, and a search that was stopped', async () => {
    const preview = await openPreview(browser, { theme: 'light', width: 1200, height: 800 });
    await preview.show(new Draft().data(apron));
    const lays = laysTold(apron, { articles: 2, lay: 'folded' }).at(-1);
    await preview.lays(lays === undefined ? undefined : { ...lays, state: 'stopped' });
    await preview.page.getByRole('tab', { name: 'Layouts' }).click();
    await preview.picture('layouts-apron');
    await preview.page.locator('summary').last().click();
    await preview.page.locator('.lay').last().scrollIntoViewIfNeeded();
    await preview.picture('layouts-apron-end');
    expect(preview.complaints).toEqual([]);
    await preview.page.context().close();
  });

  it('draws in forced colours, and without colour', async () => {
    const forced = await openPreview(browser, { theme: 'light', forcedColors: 'active' });
    await forced.show(new Draft().data(shapes));
    await forced.picture('shapes-forced');
    await forced.page.context().close();
    const grey = await openPreview(browser, { theme: 'light' });
    await grey.show(new Draft().data(wallet));
    await grey.page.evaluate(() => document.documentElement.style.setProperty('filter', 'grayscale(1)'));
    await grey.picture('wallet-greyscale');
    expect(grey.complaints).toEqual([]);
    await grey.page.context().close();
  });

  it('draws in a narrow panel, and at a large scale', async () => {
    const narrow = await openPreview(browser, { theme: 'dark', width: 420, height: 700 });
    await narrow.show(new Draft().data(wallet));
    await narrow.picture('wallet-narrow');
    await narrow.page.getByRole('tab', { name: 'Cutting table' }).click();
    await narrow.picture('wallet-table-narrow');
    await narrow.page.context().close();
    const large = await openPreview(browser, { theme: 'light', width: 1100, height: 800 });
    await large.show(new Draft().data(shapes));
    for (let presses = 0; presses < 3; presses++) await large.page.getByRole('button', { name: 'Larger' }).click();
    await large.page.getByRole('button', { name: 'Cut height' }).first().focus();
    await large.picture('shapes-large');
    expect(large.complaints).toEqual([]);
    await large.page.context().close();
  });
});
