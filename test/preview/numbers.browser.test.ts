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

it('are places in the text on the board and in the list of sizes, whatever becomes the largest', async () => {
  const { page, show } = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 400, height: 700 });
  const draft = new Draft();
  const text = manyPieces(60);
  await show(draft.data(text));
  await page.getByRole('button', { name: 'Sizes' }).press('Enter');
  const onBoard = (): Promise<readonly (readonly [string | null, string])[]> => page.locator('.on-board.numbered').evaluateAll((all) => all.map((one) => [one.getAttribute('data-piece'), getComputedStyle(one, '::after').content.replace(/\D/g, '')] as const));
  const listed = (): Promise<readonly (readonly [string | null, string])[]> => page.locator('.sized-piece').evaluateAll((all) => all.map((one) => [one.getAttribute('data-piece'), one.querySelector('.numeral')?.textContent ?? ''] as const));
  const places = [...text.matchAll(/^piece (\w+)/gm)].map(([, name = ''], index) => [name, String(index + 1)] as const);
  const [first] = await listed();
  expect((await onBoard()).length).toBeGreaterThan(5);
  expect(places).toEqual(expect.arrayContaining([...(await onBoard())]));
  expect([...(await listed())].sort()).toEqual([...places].sort());
  // Another one is the largest now.
  const last = places.at(-1)?.[0] ?? '';
  const at = text.indexOf(`piece ${last}`);
  await show(draft.data(text.slice(0, at) + text.slice(at).replace(/rectangle .*/, 'rectangle 40 by 40')));
  await expect.poll(async () => (await listed())[0]?.[0]).toBe(last);
  expect(first?.[0]).not.toBe(last);
  expect((await onBoard()).length).toBeGreaterThan(5);
  expect(places).toEqual(expect.arrayContaining([...(await onBoard())]));
  expect([...(await listed())].sort()).toEqual([...places].sort());
  await page.close();
});

it('are told only where they hide no other piece, of many', async () => {
  const { page, show } = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 700, height: 700 });
  await show(new Draft().data(manyPieces(400)));
  const board = page.locator('.on-board');
  /** Of each number that is told: how far its ring sticks out of its piece at most; the border and what is free within it are 6 pixels of its width, and 4 of its height. */
  const out = (): Promise<readonly number[]> => board.evaluateAll((all) => all.filter((one) => one.classList.contains('numbered')).map((one) => {
    const [ring, piece] = [getComputedStyle(one, '::after'), one.getBoundingClientRect()];
    const [left, top] = [parseFloat(ring.left) + parseFloat(ring.marginLeft), parseFloat(ring.top) + parseFloat(ring.marginTop)];
    const [right, bottom] = [left + parseFloat(ring.width) + 6, top + parseFloat(ring.height) + 4];
    return Math.max(-left, -top, right - piece.width, bottom - piece.height);
  }));
  const few = await out();
  expect(few.every((one) => one <= 1)).toBe(true);
  expect(few.length).toBeLessThan(300);
  // Larger, there is room.
  for (let press = 0; press < 2; press++) await page.getByRole('button', { name: 'Larger' }).click();
  const more = await out();
  expect(more.length).toBeGreaterThan(few.length);
  expect(more.every((one) => one <= 1)).toBe(true);
  await page.close();
});
