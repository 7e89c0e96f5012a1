import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { Draft, shapes } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

/** Whether the overview is filled in the middle of each of these boxes, which are all that it is of, and where there is none of them. */
async function overviewShows({ page }: PreviewPage, all: readonly { readonly x: number; readonly y: number; readonly width: number; readonly height: number }[]): Promise<{ readonly ofPieces: boolean; readonly elsewhere: boolean }> {
  const [left, top] = [Math.min(...all.map(({ x }) => x)), Math.min(...all.map(({ y }) => y))];
  const [across, down] = [Math.max(...all.map(({ x, width }) => x + width)) - left, Math.max(...all.map(({ y, height }) => y + height)) - top];
  const middles = all.map(({ x, y, width, height }) => [(x + width / 2 - left) / across, (y + height / 2 - top) / down] as const);
  const grid = Array.from({ length: 2500 }, (_, at) => [(Math.floor(at / 50) + 0.5) / 50, ((at % 50) + 0.5) / 50] as const);
  const isFree = ([right, below]: readonly [number, number]): boolean => all.every(({ x, y, width, height }) => {
    const [at, of] = [left + right * across, top + below * down];
    return at < x - 4 || at > x + width + 4 || of < y - 4 || of > y + height + 4;
  });
  return page.locator('.overview .pieces').evaluate((path, [inside, outside]) => {
    const shape = path as unknown as SVGPathElement;
    const box = shape.getBBox();
    const isFilled = ([right, below]: readonly [number, number]): boolean => shape.isPointInFill(new DOMPoint(box.x + right * box.width, box.y + below * box.height));
    return { ofPieces: inside.every(isFilled), elsewhere: outside.some(isFilled) };
  }, [middles, grid.filter(isFree)] as const);
}

it('shows each piece where it lies, and nothing else', async () => {
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' } });
  await preview.show(new Draft().data(shapes));
  const whole = await preview.page.locator('.on-board').evaluateAll((all) => all.map((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return { x, y, width, height };
  }));
  expect(whole.length).toBeGreaterThan(2);
  await preview.page.mouse.move((whole[0]?.x ?? 0) + 5, (whole[0]?.y ?? 0) + 5);
  await preview.page.mouse.wheel(0, -400);
  await expect.poll(() => preview.page.locator('.overview').isVisible()).toBe(true);
  expect(await overviewShows(preview, whole)).toEqual({ ofPieces: true, elsewhere: false });
  await preview.page.close();
});
