import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Locator, Page } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { Draft } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const square = (name: string, material: string): string => `piece ${name} {\n  outline rectangle 20 by 20\n  cut 1 ${material}\n}\n`;
const three = `pattern "Three"\nrevision 1\nunit cm\nuse "studio/materials.piece"\n${square('one', 'canvas')}${square('two', 'poplin')}${square('three', 'felt')}`;

/** What is seen in the middle of an element: how much it changes from a pixel to those that lie downwards and upwards of it to the right; alike where lines slant to neither side. */
async function leaning(page: Page, one: Locator): Promise<'falling' | 'rising' | 'neither'> {
  const { x = 0, y = 0, width = 0, height = 0 } = (await one.boundingBox()) ?? {};
  const shot = await page.screenshot({ clip: { x: x + width / 2 - 10, y: y + height / 2 - 5, width: 20, height: 10 } });
  const [down, up] = await page.evaluate(async (bytes) => {
    const picture = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(picture.width, picture.height).getContext('2d');
    canvas?.drawImage(picture, 0, 0);
    const data = canvas?.getImageData(0, 0, picture.width, picture.height).data ?? [];
    const at = (column: number, row: number): number => [0, 1, 2].reduce((sum, part) => sum + (data[4 * (row * picture.width + column) + part] ?? 0), 0);
    const changed = (rows: number): number => {
      let sum = 0;
      for (let row = 2; row + 2 < picture.height; row++) for (let column = 0; column + 2 < picture.width; column++) sum += Math.abs(at(column, row) - at(column + 2, row + rows));
      return sum;
    };
    return [changed(2), changed(-2)] as const;
  }, [...shot]);
  return down < up / 2 ? 'falling' : up < down / 2 ? 'rising' : 'neither';
}

it('a material is hatched in the legend as on its pieces', async () => {
  const { page, show } = await openPreview(browser, { width: 1100, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  await show(new Draft().data(three));
  const [seen, told]: [string[], string[]] = [[], []];
  // Names stand over the middles of pieces.
  await page.locator('.on-board .name, .on-board .part').evaluateAll((all) => all.forEach((one) => (one as HTMLElement).style.setProperty('visibility', 'hidden')));
  for (const name of ['one', 'two', 'three']) seen.push(await leaning(page, page.locator(`.on-board[data-piece="${name}"]`)));
  for (const sample of await page.getByRole('list', { name: 'Materials' }).locator('svg').all()) told.push(await leaning(page, sample));
  expect(seen).toEqual(['falling', 'rising', 'neither']);
  expect(told).toEqual(seen);
  await page.context().close();
});
