import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { renderTable } from '../../server/src/formats/format.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import { headings } from '../../server/src/table/words.ts';
import { openBrowser } from '../editor/driver/browser.ts';
import { samplePattern } from '../support/pages.ts';
import { seen } from '../support/pdf.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

async function printed(sample: string, format: 'A4' | 'Letter'): Promise<readonly (readonly string[])[]> {
  const html = renderTable([...wholeTables(samplePattern(sample), [new Map()])], 'html', 'piece');
  const page = await browser.newPage();
  await page.setContent(html);
  const { pages } = await seen(new Uint8Array(await page.pdf({ format, preferCSSPageSize: false })));
  await page.close();
  return pages.map(({ texts }) => texts.map(({ text }) => text));
}

/** How many sides each sample's table takes: of a small article one, of a larger one a sheet or two, looked at in print. */
describe.each([['harvest-bunting', 2], ['market-apron', 3], ['hearth-cosy', 3], ['sill-cover', 3], ['potters-roll', 3], ['orchard-wallet', 5]] as const)('the table of %s', (sample, sides) => {
  it.each(['A4', 'Letter'] as const)(`takes no more than ${sides} of %s, and leaves no heading behind at the foot of one`, async (format) => {
    const pages = await printed(sample, format);
    expect(pages.length).toBeLessThanOrEqual(sides);
    const known = new Set<string>(Object.values(headings));
    expect(pages.map((texts) => texts.filter((text) => text.trim() !== '').at(-1)).filter((last) => known.has(last ?? ''))).toEqual([]);
  });
});
