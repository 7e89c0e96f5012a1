import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Browser, Locator } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { differingPixels } from './pixels.ts';
import { Draft, laysTold, manyPieces, shapes, wallet } from './specs.ts';

// What a person sees: in reach, in place, and drawn in pixels that differ from the ground.

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

/** A strap as long as an arm span beside a tab as small as a thumb; invented. */
const strap = `pattern "Strap and tab"
revision 1
unit cm
step 0.1
allowance 1
material canvas "Cotton canvas" {
  width 150
}
piece strap "Shoulder strap" {
  outline rectangle 138 by 6
  notch top at 50%
  grain up
  cut 2 canvas
}
piece tab "Tab" {
  outline rectangle 3 by 3
  allowance 0.7
  mark eye at 1.5, 1.5
  notch top at 50%
  grain up
  cut 4 canvas
}
`;

const card = (name: string): Locator => preview.page.locator(`.card[data-piece="${name}"]`);
const drawing = (name: string): Locator => card(name).locator('svg.drawing');
const field = (): Locator => preview.page.locator('#view-pieces .field');
const press = async (name: string, times: number): Promise<void> => {
  for (let presses = 0; presses < times; presses++) await preview.page.locator('#view-pieces').getByRole('button', { name, exact: true }).click();
};
const boxOf = async (of: Locator): Promise<{ x: number; y: number; width: number; height: number }> => {
  const box = await of.boundingBox();
  if (box === null) throw new Error('not to be seen');
  return box;
};

describe('reach', () => {
  it.each([400, 900, 1900])('Fit fits the longest piece into a panel of %i pixels, and the shortest is seen', async (width) => {
    preview = await openPreview(browser, { width });
    await preview.show(new Draft().data(strap));
    const check = async (): Promise<void> => {
      for (const name of ['strap', 'tab']) {
        const box = await boxOf(drawing(name));
        expect(box.x).toBeGreaterThanOrEqual(0);
        expect(box.x + box.width).toBeLessThanOrEqual(width);
      }
    };
    await check();
    expect((await boxOf(drawing('strap'))).width).toBeGreaterThan(width * 0.6 - 60);
    await press('Larger', 5);
    await press('Fit all pieces in', 1);
    await check();
  });

  it('both ends of a piece that is wider than the panel are reached by scrolling', async () => {
    preview = await openPreview(browser, { width: 500 });
    await preview.show(new Draft().data(strap));
    await press('Larger', 6);
    await field().evaluate((one) => one.scrollTo(0, 0));
    const before = await boxOf(drawing('strap'));
    expect(before.width).toBeGreaterThan(900);
    expect(before.x).toBeGreaterThanOrEqual(0);
    await field().evaluate((one) => one.scrollTo(one.scrollWidth, 0));
    const after = await boxOf(drawing('strap'));
    expect(after.x + after.width).toBeLessThanOrEqual(500);
  });

  it('fits in again when another size is chosen', async () => {
    preview = await openPreview(browser, { width: 500, height: 500 });
    const text = strap.replace('allowance 1\n', 'allowance 1\nsizes S, L\nlength long = 60 for S, 138 for L\n').replace('138 by 6', 'long by 6');
    const draft = new Draft();
    await preview.show(draft.data(text, { size: 'S' }));
    await preview.show(draft.data(text, { size: 'L' }), 2);
    const box = await boxOf(drawing('strap'));
    expect(box.x + box.width).toBeLessThanOrEqual(500);
  });

  it('layouts are not cut off on the right', async () => {
    preview = await openPreview(browser, { width: 500 });
    await preview.show(new Draft().data(wallet));
    await preview.lays(laysTold(wallet).at(-1));
    await preview.page.getByRole('tab', { name: 'Layouts' }).click();
    for (let presses = 0; presses < 5; presses++) await preview.page.locator('#view-layouts').getByRole('button', { name: 'Larger' }).click();
    const layouts = preview.page.locator('#view-layouts .field');
    await layouts.evaluate((one) => one.scrollTo(one.scrollWidth, 0));
    const widest = await layouts.locator('svg.drawing').evaluateAll((all) => Math.max(...all.map((one) => one.getBoundingClientRect().right)));
    expect(widest).toBeLessThanOrEqual(501);
  });

  it('with many pieces the largest is still seen well', async () => {
    preview = await openPreview(browser, { width: 900, height: 760 });
    await preview.show(new Draft().data(manyPieces(60)));
    const longest = await preview.page.locator('svg.drawing').evaluateAll((all) => Math.max(...all.map((one) => Math.max(one.getBoundingClientRect().width, one.getBoundingClientRect().height))));
    expect(longest).toBeGreaterThan(240);
  });
});

describe('steadiness', () => {
  it('no piece moves while a fraction is being typed', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    await preview.show(draft.data(wallet));
    const places = (): Promise<readonly (readonly number[])[]> => preview.page.locator('.card').evaluateAll((all) => all.map((one) => {
      const { x, y, width, height } = one.getBoundingClientRect();
      return [x, y, width, height];
    }));
    const before = await places();
    await preview.show(draft.data(wallet.replace('rectangle wrap_w by wallet_h', 'rectangle 15 by 6 1/')), 2);
    expect(await card('wrap').getAttribute('class')).toContain('stale');
    expect(await card('wrap').locator('.state').textContent()).toBe('before your last edits');
    expect(await places()).toEqual(before);
  });
});

describe('signs', () => {
  it('are as large on screen at every scale', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(shapes));
    const size = (kind: string): Promise<number> => card('flap').locator(`.sign.part.${kind}`).first().evaluate((one) => Math.max(one.getBoundingClientRect().width, one.getBoundingClientRect().height));
    const before = [await size('notch'), await size('drill'), await size('grain')];
    for (const one of before) expect(one).toBeGreaterThan(5);
    await press('Larger', 3);
    for (const [index, kind] of ['notch', 'drill', 'grain'].entries()) expect(await size(kind)).toBeCloseTo(before[index] ?? 0, 0);
  });

  it('stand on their edges, and on both halves of a piece on a fold', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(shapes));
    const box = await boxOf(drawing('gusset'));
    const [own, twin] = await card('gusset').locator('.sign.part.notch').evaluateAll((all) => all.map((one) => {
      const { left, right, top, bottom } = one.getBoundingClientRect();
      return { x: (left + right) / 2, y: (top + bottom) / 2 };
    }));
    if (own === undefined || twin === undefined) throw new Error('not on both halves');
    expect(own.y).toBeCloseTo(twin.y, 0);
    expect((own.x + twin.x) / 2).toBeCloseTo(box.x + box.width / 2, 0);
    expect(Math.abs(own.x - twin.x)).toBeGreaterThan(box.width / 2);
  });
});

describe('what is said', () => {
  it('of a line stands beside the pointer, wherever on the line that is', async () => {
    preview = await openPreview(browser, { width: 1400 });
    await preview.show(new Draft().data(strap));
    const box = await boxOf(drawing('strap'));
    const tooltip = preview.page.getByRole('tooltip');
    for (const share of [0.95, 0.1, 0.6]) {
      const point = { x: box.x + box.width * share, y: box.y };
      await preview.page.mouse.move(point.x, point.y, { steps: 3 });
      const told = await boxOf(tooltip);
      const away = Math.hypot(Math.max(told.x - point.x, 0, point.x - told.x - told.width), Math.max(told.y - point.y, 0, point.y - told.y - told.height));
      expect(away).toBeLessThanOrEqual(48);
    }
  });

  it('names the piece of a number', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(strap));
    for (const name of ['Shoulder strap, cut height 6 cm', 'Shoulder strap, finished width 136 cm', 'Tab, cut width 3 cm']) {
      expect(await preview.page.getByRole('button', { name, exact: true }).count(), name).toBe(1);
    }
  });
});

describe('a small panel', () => {
  it('shows the sizes of every row at 400 pixels, before the rest', async () => {
    preview = await openPreview(browser, { width: 400 });
    await preview.show(new Draft().data(wallet));
    await preview.page.getByRole('tab', { name: 'Cutting table' }).click();
    const rows = await preview.page.locator('#view-table tbody tr').evaluateAll((all) => all.map((row) => {
      const cells = [...row.querySelectorAll('td')].filter((cell) => cell.textContent !== '' && getComputedStyle(cell).display !== 'none').map((cell) => ({ isMeasure: cell.classList.contains('measure'), box: cell.getBoundingClientRect() }));
      const first = [...cells].sort((one, other) => one.box.top - other.box.top || one.box.left - other.box.left)[0];
      return { right: Math.max(...cells.map(({ box }) => box.right)), isMeasureFirst: first?.isMeasure === true || cells.every(({ isMeasure }) => !isMeasure) };
    }));
    expect(rows.length).toBeGreaterThan(10);
    for (const row of rows) expect(row.right <= 400 && row.isMeasureFirst).toBe(true);
    expect(await preview.page.locator('#view-table').evaluate((view) => view.scrollWidth <= view.clientWidth)).toBe(true);
  });

  it.each([[400, 800], [640, 400], [900, 700]])('cuts off no word of what is lit and of what an edit did, at %i by %i', async (width, height) => {
    preview = await openPreview(browser, { width, height, state: { uri: 'draft.piece', view: 'board', focus: true } });
    const draft = new Draft();
    await preview.post({ type: 'unsaved', files: [] });
    await preview.show(draft.data(wallet));
    await preview.post({ type: 'unsaved', files: ['draft.piece'] });
    await preview.show(draft.data(wallet.replace('panel_w = 4 1/2', 'panel_w = 5')), 2);
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf('length panel_w') + 2 });
    const said = await preview.page.locator('.about, .since span').evaluateAll((all) => all.filter((one) => one.getClientRects().length > 0).map((one) => ({ text: one.textContent, isWhole: one.scrollWidth <= one.clientWidth + 1 && one.scrollHeight <= one.clientHeight + 1 || getComputedStyle(one).display === 'inline', right: one.getBoundingClientRect().right })));
    expect(said.map(({ text }) => text.slice(0, 15))).toEqual(['panel_w = 5 in ', 'Changed since s']);
    for (const { text, isWhole, right } of said) expect(isWhole && right <= width, text).toBe(true);
    // Everything below the board is in reach without scrolling sideways.
    expect(await preview.page.locator('#view-board .foot :is(button, select)').evaluateAll((all) => all.filter((one) => one.getClientRects().length > 0).every((one) => one.getBoundingClientRect().right <= window.innerWidth))).toBe(true);
    expect(await preview.page.locator('#view-board .foot').evaluate((one) => one.scrollWidth <= one.clientWidth)).toBe(true);
    // The piece by itself has room to be seen, and the board is not hidden by its overview.
    expect(await preview.page.locator('.focus .drawing').evaluate((one) => one.getBoundingClientRect().width)).toBeGreaterThan(width === 900 ? 250 : 180);
    expect(await preview.page.locator('.overview').isVisible()).toBe(false);
  });

  it('leaves most of its height to the drawings at 200 %', async () => {
    preview = await openPreview(browser, { width: 640, height: 400 });
    await preview.show(new Draft().data(wallet));
    expect((await boxOf(field())).height).toBeGreaterThan(240);
  });
});

describe('many pieces', () => {
  it('are one Tab stop, with arrow keys inside', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(manyPieces(60)));
    const focused = (): Promise<string> => preview.page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? document.activeElement?.textContent ?? '');
    await preview.page.getByRole('tab', { name: 'Pieces' }).focus();
    const stops: string[] = [];
    while (stops.length < 20 && stops.at(-1) !== 'Fit all pieces in') {
      await preview.page.keyboard.press('Tab');
      stops.push(await focused());
    }
    expect(stops.filter((one) => one.startsWith('Part '))).toEqual(['Part 0']);
    await card('part_0').getByRole('button', { name: 'Part 0', exact: true }).focus();
    await preview.page.keyboard.press('ArrowDown');
    expect(await focused()).toBe('Part 1');
    await preview.page.keyboard.press('ArrowRight');
    expect(await focused()).toBe('Part 1, cut height 4 in');
    await preview.page.keyboard.press('End');
    expect(await focused()).toBe('Lines and marks of Part 59');
  });

  it('are filtered by name and material', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    await preview.show(draft.data(manyPieces(30)));
    const box = preview.page.getByRole('searchbox', { name: 'Show only pieces with these words' });
    await box.fill('part 2');
    const shown = (): Promise<string[]> => preview.page.locator('.card:visible h2').allTextContents();
    expect(await shown()).toEqual(['Part 2', ...Array.from({ length: 10 }, (_, index) => `Part ${20 + index}`), 'Part 12']
      .sort((one, other) => Number(one.slice(5)) - Number(other.slice(5))));
    // An edit shows nothing that was not asked for.
    await preview.show(draft.data(manyPieces(30).replace('unit_w = 5', 'unit_w = 6')), 2);
    expect((await shown()).length).toBe(12);
    await box.fill('no such words');
    expect(await shown()).toEqual([]);
    await box.fill('');
    expect((await shown()).length).toBe(30);
  });
});

describe('pixels', () => {
  it.each(['light', 'dark', 'high-contrast', 'high-contrast-light'] as const)('every kind of line is seen on its ground, in %s', async (theme) => {
    preview = await openPreview(browser, { theme, width: 1000, height: 900 });
    await preview.show(new Draft().data(shapes));
    await press('Larger', 4);
    for (const kind of ['cutting', 'stitching', 'fold', 'line', 'placement', 'foldline', 'window', 'grain', 'notch', 'mark', 'drill']) {
      const line = preview.page.locator(`.whole:has(.part.${kind})`).first();
      await line.scrollIntoViewIfNeeded();
      expect(await differingPixels(preview.page, line), kind).toBeGreaterThan(8);
    }
  });
});
