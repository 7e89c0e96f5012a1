import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { Draft } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const sample = (name: string): string => readFileSync(new URL(`../../samples/${name}.piece`, import.meta.url), 'utf8');

it.each([1200, 400])('are told with the names of all pieces that have room for them, at %i pixels', async (width) => {
  const { page, show } = await openPreview(browser, { width, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  await show(new Draft().data(sample('tidal-crossbody')));
  const told = await page.locator('.on-board').evaluateAll((all) => all.map((one) => {
    const [name, size] = ['.name', '.details'].map((part) => one.querySelector(part)?.getBoundingClientRect());
    const isTold = name !== undefined && size !== undefined && /finished/.test(one.querySelector('.details')?.textContent ?? '') && size.width > 0 && size.x >= name.x - 1 && size.right <= name.right + 1;
    return { piece: one.getAttribute('data-piece') ?? '', isTold };
  }));
  expect(told.length).toBeGreaterThan(10);
  // At 400 pixels some have no room for words of theirs but across a fold or the arrow along the grain: the list of sizes has them.
  const small = width === 400 ? ['zip_pull', 'cork_end', 'front_pocket', 'window_facing'] : [];
  expect(told.filter(({ isTold }) => !isTold).map(({ piece }) => piece).filter((one) => !small.includes(one))).toEqual([]);
  await page.getByRole('button', { name: 'Sizes' }).press('Enter');
  expect((await page.locator('.sized-piece').allInnerTexts()).filter((words) => !/\d cm × \d/.test(words))).toEqual([]);
  await page.context().close();
});

it('are told below each piece by itself, too, and where nothing is allowed for, that it is the cut one', async () => {
  const { page, show } = await openPreview(browser, { state: { uri: 'draft.piece', view: 'pieces' } });
  await show(new Draft().data('pattern "Two"\nrevision 1\nunit cm\nmaterial cloth {\n  width 150\n}\npiece sewn {\n  outline rectangle 8 by 6\n  allowance 1\n  cut 1 cloth\n}\npiece raw {\n  outline rectangle 8 by 6\n  allowance none\n  cut 1 cloth\n}\n'));
  expect(await page.locator('.card .finished').allTextContents()).toEqual(['Finished 6 cm × 4 cm', 'Finished 8 cm × 6 cm as it is cut']);
  await page.context().close();
});
