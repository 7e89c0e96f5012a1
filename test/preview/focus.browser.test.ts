import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { Draft, manyPieces } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

it('shows the piece that is named above the board, then the one that the cursor is on, or was last', async () => {
  const { page, show, post } = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' } });
  const text = manyPieces(60);
  await show(new Draft().data(text));
  await page.getByRole('button', { name: 'Focus' }).press('Enter');
  const heading = page.locator('.focus').getByRole('heading');
  const [, named = '', size = ''] = /^Largest piece: (.*), finished (.*)$/.exec((await page.locator('.about').textContent()) ?? '') ?? [];
  expect(named).not.toBe('Part 0');
  expect(await heading.textContent()).toBe(`${named} · finished ${size}`);
  await post({ type: 'cursor', file: 'draft.piece', offset: text.indexOf('piece part_7') + 8 });
  await expect.poll(() => heading.textContent()).toMatch(/^Part 7 · /);
  await page.context().close();
});
