import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { standaloneData, standalonePage } from '../../server/src/preview/standalone.ts';
import { snapshotOf } from '../../server/src/workspace/snapshot.ts';
import { openBrowser } from '../editor/driver/browser.ts';
import { bundles } from './page.ts';
import { patternFrom, wallet } from './specs.ts';

let browser: Browser;
let page: Page;
const folder = mkdtempSync(path.join(tmpdir(), 'piecewright-'));
const file = path.join(folder, 'wallet.html');
const told: string[] = [];

beforeAll(async () => {
  const pattern = patternFrom(wallet);
  const whole = standalonePage(standaloneData(snapshotOf(pattern), pattern.combinations(), { ...usualOptions, effort: 0 }), await bundles());
  writeFileSync(file, whole);
  // What a reviewer's artifact may weigh.
  expect(whole.length).toBeLessThan(400_000);
  browser = await openBrowser();
  page = await (await browser.newContext({ viewport: { width: 1100, height: 800 }, reducedMotion: 'reduce' })).newPage();
  page.on('console', (message) => told.push(message.text()));
  page.on('pageerror', (error) => told.push(String(error)));
  page.on('request', (request) => told.push(request.url()));
  await page.goto(pathToFileURL(file).href);
});
afterAll(async () => {
  await browser.close();
  rmSync(folder, { recursive: true, force: true });
});

it('opens at the board from a file, asks for nothing but itself and complains of nothing', async () => {
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Orchard wallet');
  expect(await page.locator('.on-board').count()).toBe(wallet.match(/^piece /gm)?.length);
  expect(await page.locator('.on-board[data-piece="wrap"] .part').first().isVisible()).toBe(true);
  expect(await page.locator('.about').isVisible()).toBe(true);
  expect(await page.locator('.about').textContent()).toMatch(/^Largest pieces? by area: Wrap .*finished 15 in × 6 1\/2 in$/);
  expect(told).toEqual([pathToFileURL(file).href]);
});

it('shows another option, its table and its lays', async () => {
  await page.getByRole('tab', { name: 'Cutting table' }).click();
  const leaf = page.locator('#view-table tbody tr', { hasText: 'Leaf under the buckle' }).first();
  expect(await leaf.innerText()).toContain('Cotton canvas');
  await page.getByLabel('Edging', { exact: true }).selectOption('felt');
  await expect.poll(() => leaf.innerText()).toContain('Wool felt');
  await page.getByLabel('Edging', { exact: true }).selectOption('bias');
  await expect.poll(() => leaf.innerText()).toContain('Cotton canvas');
  await page.getByRole('tab', { name: 'Layouts' }).click();
  expect(await page.locator('#view-layouts svg.drawing').count()).toBeGreaterThan(5);
  // Nothing can be planned anew here, so nothing is offered.
  await page.getByRole('tab', { name: 'To buy' }).click();
  expect(await page.getByLabel('Articles').isVisible()).toBe(false);
  expect(await page.locator('#view-buying').innerText()).toContain('1/4 yd');
});

it('prints every view but the pieces one by one, within the page, with a caution', async () => {
  await page.getByRole('tab', { name: 'To buy' }).click();
  const width = (): Promise<number> => page.locator('.board').evaluate((one) => parseFloat(getComputedStyle(one).width));
  const before = await width();
  await page.emulateMedia({ media: 'print' });
  await page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  for (const view of ['board', 'table', 'buying', 'layouts']) expect(await page.locator(`#view-${view}`).isVisible(), view).toBe(true);
  expect(await page.locator('#view-pieces').isVisible()).toBe(false);
  expect(await page.getByRole('tablist').isVisible()).toBe(false);
  expect(await page.locator('#view-board .printed-note').innerText()).toBe('Drawn small, to look at: these are no templates, and nothing is cut along them.');
  const widest = await page.locator('#view-board .drawing, #view-layouts .drawing').evaluateAll((all) => Math.max(...all.map((one) => one.getBoundingClientRect().width)));
  expect(widest).toBeGreaterThan(150);
  expect(widest).toBeLessThanOrEqual(680);
  await page.emulateMedia({ media: 'screen' });
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await page.getByRole('tab', { name: 'Board' }).click();
  expect(await width()).toBeCloseTo(before, 0);
});
