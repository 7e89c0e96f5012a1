import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { standaloneData, standalonePage } from '../../server/src/preview/standalone.ts';
import { openBrowser } from '../editor/driver/browser.ts';
import { snapshotOf } from '../../server/src/workspace/snapshot.ts';
import { bundles, openPreview, type PreviewPage } from './page.ts';
import { Draft, patternFrom } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const spec = `pattern "Nested"
unit cm
use "studio/materials.piece"
sizes S, M, L
choice lid "Lid" is flat, domed "Domed"
length body = 20 for S, 24 for M, 30 for L
piece front "Front" {
  outline rectangle body by 16
  cut 1 canvas
}
piece pad "Pad" {
  outline rectangle 8 by 8
  cut 1 felt when lid is flat
  cut 1 cork when lid is domed
}
piece top "Flat top" when lid is flat {
  outline rectangle 12 by 4
  cut 1 canvas
}
piece dome "Domed top" when lid is domed {
  outline circle across 12
  cut 1 canvas
}
`;

async function opened(options: Parameters<typeof openPreview>[1] = {}): Promise<PreviewPage> {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board', focus: true }, ...options });
  await preview.show(new Draft().data(spec));
  return preview;
}

async function closed(preview: PreviewPage): Promise<void> {
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
}

/** How far the pad is to the right of the front, in widths of the front. */
async function apart(page: PreviewPage['page']): Promise<number> {
  const [front, pad] = [await page.locator('.on-board[data-piece="front"]').boundingBox(), await page.locator('.on-board[data-piece="pad"]').boundingBox()];
  return ((pad?.x ?? NaN) - (front?.x ?? NaN)) / (front?.width ?? NaN);
}

it('nests all sizes under what is shown, each by name and by a line of its own, and takes them away', async () => {
  const preview = await opened();
  const { page } = preview;
  await preview.sent();
  await page.getByLabel('Beside').selectOption('all sizes');
  expect(await preview.sent()).toEqual([{ type: 'beside', choice: 'size' }]);
  expect(await preview.state()).toMatchObject({ beside: 'size' });
  const before = await apart(page);
  await preview.show(new Draft().data(spec, {}, { beside: 'size' }));
  const front = page.locator('.on-board[data-piece="front"]');
  expect(await front.locator('.nested-name').allTextContents()).toEqual(['M', 'L']);
  // All of them are in sight while the board is fitted in.
  const plane = await page.locator('.plane').boundingBox();
  for (const one of await page.locator('.on-board .nested-line').all()) {
    const box = await one.boundingBox();
    expect(box?.x).toBeGreaterThanOrEqual(plane?.x ?? Infinity);
    expect(box?.y).toBeGreaterThanOrEqual(plane?.y ?? Infinity);
    expect((box?.x ?? NaN) + (box?.width ?? NaN)).toBeLessThanOrEqual((plane?.x ?? NaN) + (plane?.width ?? NaN));
    expect((box?.y ?? NaN) + (box?.height ?? NaN)).toBeLessThanOrEqual((plane?.y ?? NaN) + (plane?.height ?? NaN));
  }
  expect(await front.locator('.nested-words li').allTextContents()).toEqual(['M: finished 24 cm × 16 cm', 'L: finished 30 cm × 16 cm']);
  const lines = await front.locator('.nested .nested-line').evaluateAll((all) => all.map((one) => ({ width: one.getBoundingClientRect().width, dash: one.getAttribute('stroke-dasharray'), stroke: getComputedStyle(one).stroke })));
  const own = (await front.locator('.cloth-fill').boundingBox())?.width ?? NaN;
  expect(lines.map(({ width }) => width / own)).toEqual([expect.closeTo(24 / 20, 1), expect.closeTo(30 / 20, 1)]);
  expect(new Set(lines.map(({ dash }) => dash)).size).toBe(2);
  // No piece gets another place for it, and what is the same in all sizes has nothing beside it.
  expect(await apart(page)).toBeCloseTo(before, 1);
  expect(await page.locator('.on-board[data-piece="pad"] .nested').count()).toBe(0);
  // By itself there is room for the largest.
  const [field, largest] = [await page.locator('.focus-field').boundingBox(), await page.locator('.focus .nested .nested-line').last().boundingBox()];
  expect(largest?.x ?? 0).toBeGreaterThan(field?.x ?? Infinity);
  expect((largest?.x ?? 0) + (largest?.width ?? Infinity)).toBeLessThan((field?.x ?? 0) + (field?.width ?? 0));
  await preview.picture('nested-sizes');
  await page.getByLabel('Beside').selectOption('nothing');
  await preview.show(new Draft().data(spec));
  expect(await page.locator('.nested, .nested-words').count()).toBe(0);
  await closed(preview);
});

it('puts another option beside the one that is shown: what is cut otherwise, and what is only in one of them', async () => {
  const preview = await opened();
  const { page } = preview;
  await preview.show(new Draft().data(spec, { lid: 'flat' }, { beside: 'lid' }));
  expect(await page.locator('.on-board[data-piece="pad"] .nested-words').innerText()).toBe('Domed: 1 × Cork fabric');
  expect(await page.locator('.on-board[data-piece="pad"] .nested-line').count()).toBe(0);
  expect(await page.locator('#view-board .foot').innerText()).toContain('Only in Domed: Domed top. Not in Domed: Flat top.');
  await preview.picture('nested-options');
  await closed(preview);
});

it.each(['dark', 'high-contrast'] as const)('draws nested sizes in %s', async (theme) => {
  const preview = await opened({ theme, width: 420 });
  await preview.show(new Draft().data(spec, { size: 'M' }, { beside: 'size' }));
  await preview.picture(`nested-${theme}`);
  await closed(preview);
});

it('nests in a page that stands by itself, too', async () => {
  const pattern = patternFrom(spec);
  const html = standalonePage(standaloneData(snapshotOf(pattern), pattern.combinations(), { ...usualOptions, effort: 0 }), await bundles());
  const page = await browser.newPage();
  await page.setContent(html);
  await page.getByLabel('Beside').selectOption('all sizes');
  expect(await page.locator('.on-board[data-piece="front"] .nested-name').allTextContents()).toEqual(['M', 'L']);
  await page.getByLabel('size', { exact: true }).selectOption('M');
  expect(await page.locator('.on-board[data-piece="front"] .nested-name').allTextContents()).toEqual(['S', 'L']);
  await page.close();
});
