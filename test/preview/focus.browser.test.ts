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
  const [, named = '', size = ''] = /^Largest piece by area: (.*), finished (.*)$/.exec((await page.locator('.about').textContent()) ?? '') ?? [];
  expect(named).not.toBe('Part 0');
  expect(await heading.textContent()).toBe(`${named} · finished ${size}`);
  await post({ type: 'cursor', file: 'draft.piece', offset: text.indexOf('piece part_7') + 8 });
  await expect.poll(() => heading.textContent()).toMatch(/^Part 7 · /);
  await page.context().close();
});

it('tells of an edge how long it is sewn where there is room for that, and the rest where there is more', async () => {
  const { page, show } = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board', focus: true } });
  const plain = (width: number): string => `pattern "Edges"\nrevision 1\nunit cm\nallowance 1\nmaterial cloth {\n  width 150\n}\npiece one {\n  outline rectangle ${width} by 60\n  cut 1 cloth\n}\n`;
  const seen = async (width: number, edge: string): Promise<readonly boolean[]> => {
    await show(new Draft().data(plain(width)));
    const told = page.locator('.focus .edge-told', { has: page.locator('.edge-title', { hasText: edge }) });
    expect(await told.locator('.edge-detail').textContent()).toBe(`sewn ${width - 2} cm, cut ${width} cm, allowance 1 cm`);
    return Promise.all(['.edge-first', '.edge-more'].map(async (part) => !(await told.locator(part).evaluate((one) => getComputedStyle(one).display + getComputedStyle(one.parentElement ?? one).display)).includes('none')));
  };
  expect(await seen(90, 'top')).toEqual([true, true]);
  expect(await seen(20, 'top')).toEqual([true, false]);
  expect(await seen(5, 'top')).toEqual([false, false]);
  await page.context().close();
});
