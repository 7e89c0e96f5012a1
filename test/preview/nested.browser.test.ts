import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Locator } from 'playwright-core';
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

/** All outlines of other options lie within a field, on all four sides. */
async function expectInSight(lines: Locator, field: Locator): Promise<void> {
  const sides = async (one: Locator): Promise<{ readonly left: number; readonly top: number; readonly right: number; readonly bottom: number }> => {
    const box = await one.boundingBox();
    if (box === null) throw new Error(`Nothing is drawn of ${String(one)}.`);
    return { left: box.x, top: box.y, right: box.x + box.width, bottom: box.y + box.height };
  };
  const room = await sides(field);
  const all = await lines.all();
  expect(all).not.toEqual([]);
  for (const line of all) {
    const { left, top, right, bottom } = await sides(line);
    expect(left).toBeGreaterThanOrEqual(room.left);
    expect(top).toBeGreaterThanOrEqual(room.top);
    expect(right).toBeLessThanOrEqual(room.right);
    expect(bottom).toBeLessThanOrEqual(room.bottom);
  }
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
  await page.getByLabel('Also draw').selectOption('all sizes');
  expect(await preview.sent()).toEqual([{ type: 'beside', choice: 'size' }]);
  expect(await preview.state()).toMatchObject({ beside: 'size' });
  const before = await apart(page);
  await preview.show(new Draft().data(spec, {}, { beside: 'size' }));
  const front = page.locator('.on-board[data-piece="front"]');
  expect(await front.locator('.nested-name').allTextContents()).toEqual(['M', 'L']);
  // All of them are in sight while the board is fitted in.
  await expectInSight(page.locator('.on-board .nested .nested-line'), page.locator('.plane'));
  expect(await front.locator('.nested-words li').allTextContents()).toEqual(['M: finished 24 cm × 16 cm', 'L: finished 30 cm × 16 cm']);
  const lines = await front.locator('.nested .nested-line').evaluateAll((all) => all.map((one) => ({ width: one.getBoundingClientRect().width, dash: one.getAttribute('stroke-dasharray'), stroke: getComputedStyle(one).stroke })));
  const own = (await front.locator('.cloth-fill').boundingBox())?.width ?? NaN;
  expect(lines.map(({ width }) => width / own)).toEqual([expect.closeTo(24 / 20, 1), expect.closeTo(30 / 20, 1)]);
  expect(new Set(lines.map(({ dash }) => dash)).size).toBe(2);
  // No piece gets another place for it, and what is the same in all sizes has nothing beside it.
  expect(await apart(page)).toBeCloseTo(before, 1);
  expect(await page.locator('.on-board[data-piece="pad"] .nested').count()).toBe(0);
  // By itself there is room for the largest.
  await expectInSight(page.locator('.focus .nested .nested-line'), page.locator('.focus-field'));
  await preview.picture('nested-sizes');
  await page.getByLabel('Also draw').selectOption('nothing');
  await preview.show(new Draft().data(spec));
  expect(await page.locator('.nested, .nested-words').count()).toBe(0);
  await closed(preview);
});

it('keeps outlines of other sizes in sight on whichever side they reach beyond what is shown', async () => {
  const preview = await opened();
  const { page } = preview;
  const grown = (sides: Readonly<Record<'left' | 'below' | 'right' | 'above', number>>): string => `pattern "Grown"
unit cm
use "studio/materials.piece"
sizes S, L
length more = 0 for S, 9 for L
piece front "Front" {
  outline polygon from -${sides.left} * more, -${sides.below} * more to 10 + ${sides.right} * more, -${sides.below} * more to 10 + ${sides.right} * more, 10 + ${sides.above} * more to -${sides.left} * more, 10 + ${sides.above} * more
  cut 1 canvas
}
`;
  const none = { left: 0, below: 0, right: 0, above: 0 };
  for (const sides of [...Object.keys(none).map((side) => ({ ...none, [side]: 1 })), { left: 1, below: 1, right: 1, above: 1 }]) {
    await preview.show(new Draft().data(grown(sides), {}, { beside: 'size' }));
    await page.locator('#view-board').getByRole('button', { name: 'Fit' }).click();
    await expectInSight(page.locator('.on-board .nested .nested-line'), page.locator('.plane'));
    await expectInSight(page.locator('.focus .nested .nested-line'), page.locator('.focus-field'));
  }
  await closed(preview);
});

it('names the cut size where only that is otherwise', async () => {
  const preview = await opened();
  const wider = spec.replace('rectangle body by 16\n', 'rectangle 20 by 16\n  drawn to stitching\n  allowance seam\n').replace('piece front', 'length seam = 1 for S, 1.5 for M, 2 for L\npiece front');
  await preview.show(new Draft().data(wider, {}, { beside: 'size' }));
  const front = preview.page.locator('.on-board[data-piece="front"]');
  expect(await front.locator('.nested-words li').allTextContents()).toEqual(['M: cut 23 cm × 19 cm', 'L: cut 24 cm × 20 cm']);
  expect(await front.locator('.nested .nested-line').count()).toBe(2);
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
  await page.getByLabel('Also draw').selectOption('all sizes');
  expect(await page.locator('.on-board[data-piece="front"] .nested-name').allTextContents()).toEqual(['M', 'L']);
  await page.getByLabel('size', { exact: true }).selectOption('M');
  expect(await page.locator('.on-board[data-piece="front"] .nested-name').allTextContents()).toEqual(['S', 'L']);
  await page.close();
});
