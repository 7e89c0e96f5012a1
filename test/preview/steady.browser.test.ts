import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { Draft } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** A high piece, so that the board has room at both sides, and one beside it that an edit makes wider. */
const spec = (width: number): string => `pattern "Post and flag"
unit cm
use "studio/materials.piece"
piece post "Post" {
  outline rectangle 20 by 60
  cut 1 canvas
}
piece flag "Flag" {
  outline rectangle ${width} by 10
  cut 1 canvas
}
`;

interface Box {
  readonly left: number;
  readonly right: number;
}

const boxOf = (preview: PreviewPage, selector: string): Promise<Box> => preview.page.locator(selector).evaluate((one) => {
  const { left, right } = one.getBoundingClientRect();
  return { left, right };
});

it('moves no piece while an edit makes the board wider, or only as far as it is seen whole, and puts it in the middle again when it is fitted in', async () => {
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 900, height: 700 });
  const draft = new Draft();
  let version = 0;
  const shown = async (width: number): Promise<Readonly<Record<'post' | 'flag' | 'field', Box>>> => {
    await preview.show(draft.data(spec(width)), ++version);
    return { post: await boxOf(preview, '[data-piece="post"].on-board'), flag: await boxOf(preview, '[data-piece="flag"].on-board'), field: await boxOf(preview, '.plane') };
  };
  const first = await shown(10);
  expect(first.post.left - first.field.left).toBeCloseTo(first.field.right - first.flag.right, 0);
  const pixel = (first.post.right - first.post.left) / 20;
  // By half of the room at the right.
  const wider = await shown(10 + Math.floor((first.field.right - first.flag.right) / pixel / 2));
  expect(wider.post).toEqual(first.post);
  expect(wider.flag.left).toBe(first.flag.left);
  expect(wider.flag.right).toBeGreaterThan(first.flag.right + 50);
  // By more than that room, yet less than both.
  const widest = await shown(10 + Math.floor((first.field.right - first.flag.right) / pixel * 1.5));
  expect(widest.post.left).toBeLessThan(first.post.left);
  expect(widest.flag.right).toBeLessThanOrEqual(widest.field.right - 23);
  expect(await preview.page.locator('.plane').evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(true);
  // Narrower again it stays where it is.
  const narrow = await shown(10);
  expect(narrow.post).toEqual(widest.post);
  await preview.page.getByRole('button', { name: 'Fit all pieces in' }).click();
  expect(await boxOf(preview, '[data-piece="post"].on-board')).toEqual(first.post);
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
});

it('stands where it did after an edit that came while another view was looked at', async () => {
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 900, height: 700 });
  const draft = new Draft();
  await preview.show(draft.data(spec(10)), 1);
  await preview.page.locator('#view-board').getByRole('button', { name: 'Smaller' }).click();
  const before = await boxOf(preview, '[data-piece="post"].on-board');
  await preview.page.getByRole('tab', { name: 'Cutting table' }).click();
  await preview.page.locator('#view-table').getByText('Flag').first().waitFor();
  await preview.show(draft.data(spec(11)), 2);
  // All views are filled for a printed page, be they in sight or not.
  await preview.page.evaluate(() => window.dispatchEvent(new Event('beforeprint')));
  await preview.page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  await preview.show(draft.data(spec(12)), 3);
  await preview.page.getByRole('tab', { name: 'Board' }).click();
  await expect.poll(() => boxOf(preview, '[data-piece="post"].on-board')).toEqual(before);
  // What has become too wide for the room beside it is seen whole at once.
  const field = await boxOf(preview, '.plane');
  const flag = await boxOf(preview, '[data-piece="flag"].on-board');
  const room = (field.right - flag.right) / ((before.right - before.left) / 20);
  await preview.page.getByRole('tab', { name: 'Cutting table' }).click();
  await preview.show(draft.data(spec(12 + Math.floor(room * 1.5))), 4);
  await preview.page.getByRole('tab', { name: 'Board' }).click();
  await expect.poll(async () => (await boxOf(preview, '[data-piece="flag"].on-board')).right).toBeGreaterThan(flag.right + 50);
  expect((await boxOf(preview, '[data-piece="flag"].on-board')).right).toBeLessThanOrEqual(field.right - 23);
  await preview.page.context().close();
});

it('draws what is in sight, and has what is far out of it take no part in a frame, but for its name', async () => {
  const pieces = Array.from({ length: 16 }, (_, at) => `piece p${at} "Piece ${at}" {\n  outline rectangle 30 by 30\n  foldline middle = upright at 15\n  cut 1 canvas\n}\n`);
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 700, height: 600 });
  const { page } = preview;
  await preview.show(new Draft().data(`pattern "Many"\nunit cm\nuse "studio/materials.piece"\n${pieces.join('')}`));
  /** Whether anything of a piece's drawing is there, and whether it is within the field. */
  const all = (): Promise<readonly { readonly isDrawn: boolean; readonly isInSight: boolean; readonly isNamed: boolean }[]> => page.locator('.on-board').evaluateAll((made) => made.map((one) => {
    const [box, field] = [one.getBoundingClientRect(), document.querySelector('.plane')?.getBoundingClientRect() ?? new DOMRect()];
    return {
      isDrawn: [...one.querySelectorAll('.ground path, .whole path')].some((path) => path.getClientRects().length > 0),
      isInSight: box.right > field.left && box.left < field.right && box.bottom > field.top && box.top < field.bottom,
      isNamed: one.querySelector('.name')?.checkVisibility() === true,
    };
  }));
  expect((await all()).every(({ isDrawn, isInSight }) => isDrawn && isInSight)).toBe(true);
  for (let step = 0; step < 8; step++) await page.locator('#view-board').getByRole('button', { name: 'Larger' }).click();
  await expect.poll(async () => (await all()).filter(({ isDrawn }) => !isDrawn).length).toBeGreaterThan(3);
  const large = await all();
  expect(large.filter(({ isDrawn, isInSight }) => isInSight && !isDrawn)).toEqual([]);
  expect(large.every(({ isNamed }) => isNamed)).toBe(true);
  // The last is drawn once it is come to, by keys too.
  await page.locator('.on-board .name').last().focus();
  await expect.poll(async () => (await all()).at(-1)).toEqual({ isDrawn: true, isInSight: true, isNamed: true });
  await page.emulateMedia({ media: 'print' });
  expect((await all()).every(({ isDrawn }) => isDrawn)).toBe(true);
  expect(preview.complaints).toEqual([]);
  await page.context().close();
});

it('fits in the first piece of a pattern that had none', async () => {
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 500, height: 600 });
  const draft = new Draft();
  await preview.show(draft.data('pattern "Post and flag"\nunit cm\nuse "studio/materials.piece"\n'), 1);
  expect(await preview.page.locator('.on-board').count()).toBe(0);
  await preview.show(draft.data(spec(10)), 2);
  const [field, post, name] = [await boxOf(preview, '.plane'), await boxOf(preview, '[data-piece="post"].on-board'), await boxOf(preview, '[data-piece="post"] .name')];
  expect(post.left).toBeGreaterThan(field.left);
  expect(post.right).toBeLessThan(field.right);
  expect(post.right - post.left).toBeGreaterThan(50);
  expect(name.right - name.left).toBeGreaterThan(20);
  expect(await preview.page.locator('.plane').evaluate((one) => one.scrollHeight <= one.clientHeight)).toBe(true);
  await preview.page.close();
});

it('names a piece again, with its new size, after an edit of it', async () => {
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' }, width: 900, height: 700 });
  const draft = new Draft();
  const told = preview.page.locator('[data-piece="flag"] .name .details');
  await preview.show(draft.data(spec(30)), 1);
  expect(await told.innerText()).toMatch(/30\scm\s×\s10\scm/);
  await preview.show(draft.data(spec(31)), 2);
  expect(await told.innerText()).toMatch(/31\scm\s×\s10\scm/);
  await preview.page.close();
});
