import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { apron, Draft, wallet, laysTold } from './specs.ts';

let browser: Browser;
let preview: PreviewPage;
beforeAll(async () => {
  browser = await openBrowser();
});
afterEach(async () => {
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
});
afterAll(() => browser.close());

const tab = (name: string) => preview.page.getByRole('tab', { name });
const table = () => preview.page.locator('table', { has: preview.page.locator('caption', { hasText: /^To buy$/ }) });

describe('the buying list', () => {
  it('says that it is on its way, then what to buy', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await tab('To buy').click();
    expect(await preview.page.locator('#view-buying').getByText('Laying the pieces out').isVisible()).toBe(true);
    const lays = laysTold(wallet).at(-1);
    await preview.lays(lays);
    expect(await preview.page.locator('#view-buying').getByText('Laying the pieces out').isVisible()).toBe(false);
    const canvas = table().locator('tbody tr').first();
    expect(await canvas.locator('th, td').allTextContents()).toEqual(['Cotton canvas', '58 in wide, 56 in usable', '1/4 ydcertain', expect.stringMatching(/^4\.63/), expect.stringContaining('left over'), '0.19 yd', 'the same']);
    expect(await table().locator('tbody tr').count()).toBe(lays?.purchases.length);
  });

  it('leads to where a material is written', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await preview.lays(laysTold(wallet, { effort: 0 }).at(-1));
    await tab('To buy').click();
    await preview.sent();
    await table().getByRole('button', { name: 'Cotton canvas' }).click();
    expect(await preview.sent()).toMatchObject([{ type: 'reveal', file: 'studio/materials.piece' }]);
  });

  it('asks for lays only while they are looked at, and says when they are of an earlier text', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    await preview.show(draft.data(wallet));
    await preview.sent();
    await tab('To buy').click();
    await tab('Layouts').click();
    expect(await preview.sent()).toEqual([{ type: 'wish', buying: {} }]);
    const [lays] = laysTold(wallet, { effort: 0 }).slice(-1);
    await preview.lays(lays);
    const search = preview.page.locator('#view-layouts .search').getByRole('status');
    expect(await search.textContent()).toBe('The search for shorter lays has ended.');
    await preview.show(draft.data(wallet.replace('panel_w = 4 1/2', 'panel_w = 4 3/4')), 2);
    expect(await search.textContent()).toBe('Laying the pieces out anew: what is shown is of an earlier text.');
    await preview.lays(lays);
    expect(await search.textContent()).toBe('The search for shorter lays has ended.');
    await tab('Cutting table').click();
    await tab('Pieces').click();
    expect(await preview.sent()).toEqual([{ type: 'wish' }]);
  });

  it('asks for articles, other widths and the spread, says what can’t be read, and keeps the wish', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await tab('To buy').click();
    await preview.sent();
    await preview.page.getByLabel('Articles').fill('12');
    await preview.page.getByLabel('Articles').press('Enter');
    await preview.page.getByLabel('Other widths').fill('44 in, wide');
    await preview.page.getByLabel('Other widths').press('Enter');
    await preview.page.getByLabel('Cloth laid').selectOption('folded');
    expect(await preview.sent()).toEqual([
      { type: 'wish', buying: { articles: 12, widths: '', lay: 'shorter' } },
      { type: 'wish', buying: { articles: 12, widths: '44 in, wide', lay: 'shorter' } },
      { type: 'wish', buying: { articles: 12, widths: '44 in, wide', lay: 'folded' } },
    ]);
    await preview.lays(laysTold(wallet, { effort: 0, widths: '44 in, wide' }).at(-1));
    expect(await preview.page.getByText('Not read as a width: “wide”.').isVisible()).toBe(true);
    const state = await preview.state();
    await preview.page.context().close();
    preview = await openPreview(browser, { state });
    expect(await preview.sent()).toEqual([{ type: 'wish', buying: { articles: 12, widths: '44 in, wide', lay: 'folded' } }, { type: 'ready' }]);
    await preview.show(new Draft().data(wallet));
    expect(await preview.page.getByLabel('Articles').inputValue()).toBe('12');
    await preview.page.getByLabel('Articles').fill('0');
    await preview.page.getByLabel('Articles').press('Enter');
    expect(await preview.page.getByLabel('Articles').inputValue()).toBe('1');
  });

  it('has a row for each width', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await preview.lays(laysTold(wallet, { effort: 0, widths: '44 in = 2' }).at(-1));
    await tab('To buy').click();
    const rows = table().locator('tbody tr', { hasText: 'Cotton canvas' });
    expect(await rows.count()).toBe(2);
    expect(await rows.nth(1).textContent()).toContain('the cheapest');
  });
});

describe('the layouts', () => {
  const told = laysTold(apron, { articles: 2 });
  const open = async (): Promise<void> => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(apron));
    await preview.lays(told[0]);
    await tab('Layouts').click();
    await preview.sent();
  };

  it('are true to proportion: every piece on the cloth, none larger or smaller than another', async () => {
    await open();
    const cloth = await preview.page.locator('.lay .drawing').first().evaluate((svg) => {
      const scale = (svg as SVGSVGElement).getScreenCTM();
      const box = svg.getBoundingClientRect();
      const pieces = [...svg.querySelectorAll<SVGPathElement>('.placed')].map((path) => {
        const { x, y, width, height } = path.getBBox();
        return { x, y, width, height };
      });
      return { across: scale?.a, down: scale?.d, ratio: box.width / box.height, pieces };
    });
    const lay = told[0]?.materials[0]?.widths[0]?.lays[0];
    expect(cloth.across).toBeCloseTo(cloth.down ?? 0, 6);
    expect(cloth.ratio).toBeCloseTo((lay?.cloth.length ?? 0) / (lay?.cloth.width ?? 1), 3);
    expect(cloth.pieces).toHaveLength(lay?.pieces.length ?? 0);
    for (const { x, y, width, height } of cloth.pieces) {
      expect(x).toBeGreaterThan(-0.05);
      expect(y).toBeGreaterThan(-0.05);
      expect(x + width).toBeLessThan((lay?.laid.length ?? 0) + 0.05);
      expect(y + height).toBeLessThan((lay?.cloth.width ?? 0) + 0.05);
    }
  });

  it('lead from a piece to its cut line, wherever that is by now', async () => {
    await open();
    const moved = apron.replace('piece ', '# One more line.\npiece ');
    await preview.show(new Draft().data(moved), 2);
    await preview.page.locator('.lay [data-piece="skirt"] .placed').first().click();
    const [message] = await preview.sent();
    expect(message?.type === 'reveal' && moved.slice(message.start, message.end)).toMatch(/^cut 1 canvas/);
  });

  it('light up the piece that the cursor is in', async () => {
    await open();
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: apron.indexOf('piece skirt') + 3 });
    const lit = preview.page.locator('.on-lay.lit');
    expect(new Set(await lit.evaluateAll((all) => all.map((one) => one.getAttribute('data-piece'))))).toEqual(new Set(['skirt']));
    expect(await lit.count()).toBe(2);
    // Better lays come with the same piece lit.
    await preview.lays(told.at(-1));
    expect(await lit.count()).toBe(2);
  });

  it('say that a lay is the first, show how far the search is, and can stop it', async () => {
    await open();
    expect(await preview.page.getByText('First lay, looking for a shorter one …').isVisible()).toBe(true);
    const view = preview.page.getByRole('tabpanel', { name: 'Layouts' });
    expect(await view.getByRole('progressbar', { name: 'Search for shorter lays' }).isVisible()).toBe(true);
    await view.getByRole('button', { name: 'Stop' }).click();
    expect(await preview.sent()).toEqual([{ type: 'look', on: false }]);
    const [first] = told;
    if (first !== undefined) await preview.lays({ ...first, state: 'stopped' });
    expect(await view.getByText('Stopped: there may be shorter lays.').isVisible()).toBe(true);
    await view.getByRole('button', { name: 'Look on' }).click();
    expect(await preview.sent()).toEqual([{ type: 'look', on: true }]);
    await preview.lays(told.at(-1));
    expect(await view.getByRole('progressbar').isVisible()).toBe(false);
    expect(await preview.page.getByText('looking for a shorter one').count()).toBe(0);
  });

  it('keep scale, scroll, focus, open lists and whatever did not change', async () => {
    await open();
    const view = preview.page.getByRole('tabpanel', { name: 'Layouts' });
    for (let presses = 0; presses < 3; presses++) await view.getByRole('button', { name: 'Larger' }).click();
    const summary = view.locator('summary').last();
    await summary.press('Enter');
    const field = view.locator('.field');
    await field.evaluate((one) => one.scrollTo(0, 120));
    const scale = await view.locator('output').textContent();
    await view.locator('.lay').last().evaluate((one) => one.setAttribute('data-same', 'yes'));
    // The quarter is certain from the first word on; the canvas gets shorter.
    await preview.lays(told.at(-1));
    expect(told[0]?.materials.at(-1)).toEqual(told.at(-1)?.materials.at(-1));
    expect(told[0]?.materials[0]).not.toEqual(told.at(-1)?.materials[0]);
    expect(await view.locator('.lay[data-same]').count()).toBe(1);
    expect(await view.locator('output').textContent()).toBe(scale);
    expect(await field.evaluate((one) => [one.scrollLeft, one.scrollTop])).toEqual([0, 120]);
    expect(await summary.evaluate((one) => one === document.activeElement && (one.parentElement as HTMLDetailsElement).open)).toBe(true);
  });

  it('write no name where there is no room for it, and the whole name where there is', async () => {
    await open();
    const view = preview.page.getByRole('tabpanel', { name: 'Layouts' });
    /** Whatever is written in a piece lies within it, to a pixel or two that letters may be wider than thought. */
    const fits = (): Promise<boolean> => view.locator('.on-lay').evaluateAll((all) => all.every((one) => {
      const [shape, words] = [one.querySelector('.placed'), one.querySelector('.label')].map((part) => part?.getBoundingClientRect());
      if (shape === undefined || words === undefined || words.width === 0) return true;
      return words.left >= shape.left - 2 && words.right <= shape.right + 2 && words.top >= shape.top - 2 && words.bottom <= shape.bottom + 2;
    }));
    const names = async (): Promise<Set<string>> => new Set(await view.locator('.on-lay .label').allTextContents());
    for (let presses = 0; presses < 12; presses++) await view.getByRole('button', { name: 'Smaller' }).click();
    expect(await fits()).toBe(true);
    const whole = ['1 Skirt', '2 Tie', '3 Neck strap', '1 Pocket'];
    expect(await names()).not.toEqual(new Set(whole));
    for (let presses = 0; presses < 16; presses++) {
      await view.getByRole('button', { name: 'Larger' }).click();
      expect(await fits()).toBe(true);
    }
    expect(await names()).toEqual(new Set(whole));
  });

  it('show texts as texts', async () => {
    preview = await openPreview(browser);
    const text = apron.replaceAll('"Skirt"', '"<img src=x onerror=alert(1)>"');
    await preview.show(new Draft().data(text));
    await preview.lays(laysTold(text, { effort: 0 })[0]);
    await tab('Layouts').click();
    expect(await preview.page.locator('#view-layouts img').count()).toBe(0);
    expect(await preview.page.locator('.keys').first().textContent()).toContain('<img src=x onerror=alert(1)>');
  });

  it('can come before the drawings', async () => {
    preview = await openPreview(browser);
    await preview.lays(told[0]);
    await preview.show(new Draft().data(apron));
    await tab('Layouts').click();
    expect(await preview.page.locator('.on-lay').count()).toBeGreaterThan(5);
  });
});
