import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import type { HostMessage } from '../../client/preview/messages.ts';
import { difference } from '../../server/src/preview/difference.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { Draft, wallet, manyPieces, shapes } from './specs.ts';

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

const card = (name: string) => preview.page.locator(`.card[data-piece="${name}"]`);
const tab = (name: string) => preview.page.getByRole('tab', { name });

describe('drawings and text in step', () => {
  it('says that it is ready, and keeps which pattern it shows', async () => {
    preview = await openPreview(browser);
    expect(await preview.sent()).toEqual([{ type: 'ready' }]);
    expect(await preview.state()).toMatchObject({ uri: 'draft.piece' });
  });

  it('leads from a line, a mark, a notch, a number and a name to the text', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await preview.page.getByRole('button', { name: 'Larger' }).click();
    await preview.sent();
    const revealed = async (): Promise<string[]> => (await preview.sent()).map((message) => (message.type === 'reveal' ? wallet.slice(message.start, message.end) : message.type));
    const clickPart = async (piece: string, kind: string, share = 0.3): Promise<string[]> => {
      // On the path itself, since the middle of its box may be empty.
      const at = await card(piece).locator(`.whole:has(.part.${kind})`).first().evaluate((group, along) => {
        const path = group.querySelector('.part:not(.twin)') as SVGPathElement;
        const point = path.getPointAtLength(path.getTotalLength() * along).matrixTransform(path.getScreenCTM() ?? undefined);
        return { x: point.x, y: point.y };
      }, share);
      await preview.page.mouse.click(at.x, at.y);
      return revealed();
    };
    expect(await clickPart('wrap', 'foldline')).toEqual(['foldline last_fold = upright at panel_w + far / 2']);
    expect(await clickPart('wrap', 'mark')).toEqual(['mark strap_left at panel_w + far + 1/2, strap_y']);
    expect(await clickPart('leaf', 'notch')).toEqual(['notch lower at 50%']);
    expect(await clickPart('wrap', 'placement', 0.1)).toEqual(['placement label_at "Place of the label" = rectangle 3 1/4 by 2 1/4 at 5/8, 3 3/8']);
    await card('wrap').getByRole('button', { name: 'Cut width' }).click();
    expect(await revealed()).toEqual(['wrap_w']);
    await card('leaf').getByRole('button', { name: 'Leaf under the buckle', exact: true }).click();
    expect(await revealed()).toEqual(['leaf']);
  });

  it('says under the table what its words mean, and only where they stand there', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    const meaning = preview.page.getByText('Same both ways: either side of the cloth may be up.');
    await preview.show(draft.data(wallet));
    await tab('Cutting table').click();
    expect(await preview.page.getByRole('cell', { name: 'same both ways' }).count()).toBeGreaterThan(1);
    expect(await meaning.isVisible()).toBe(true);
    await preview.show(draft.data(wallet.replaceAll(/^ {2}cut .*$/gm, '')));
    await expect.poll(() => meaning.isVisible()).toBe(false);
  });

  it('says that it is painted once it is, and at once where only tables are looked at', async () => {
    preview = await openPreview(browser);
    const data = new Draft().data(wallet);
    await preview.show(data);
    const { page } = preview;
    const painted = (): Promise<number> => page.evaluate(() => window.stage.painted);
    /** How much oftener it has said so by the time that it has taken a drawing. */
    const saidAtOnce = (): Promise<number> => page.evaluate((message) => {
      const before = window.stage.painted;
      window.dispatchEvent(new MessageEvent('message', { data: message }));
      return window.stage.painted - before;
    }, { type: 'show', version: 1, uri: 'draft.piece', update: { serial: 1, data: JSON.stringify(data) } } satisfies HostMessage);
    for (const view of ['Board', 'Pieces']) {
      await tab(view).click();
      const before = await painted();
      expect(await saidAtOnce(), view).toBe(0);
      await expect.poll(painted).toBe(before + 1);
    }
    for (const view of ['Cutting table', 'To buy']) {
      await tab(view).click();
      expect(await saidAtOnce(), view).toBe(1);
    }
  });

  it('asks for the whole where it has missed a change', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    const before = draft.data(wallet);
    await preview.show(before);
    await preview.sent();
    const later = wallet.replace('"Orchard wallet"', '"Orchard case"');
    const update = { serial: 9, since: 8, data: JSON.stringify(difference(before, draft.data(later))) };
    await preview.post({ type: 'show', version: 2, uri: 'draft.piece', update });
    expect(await preview.sent()).toEqual([{ type: 'ready' }]);
    expect(await preview.page.locator('h1').textContent()).toBe('Orchard wallet');
    await preview.post({ type: 'show', version: 2, uri: 'draft.piece', update: { ...update, since: 1 } });
    expect(await preview.page.locator('h1').textContent()).toBe('Orchard case');
  });

  it('follows the cursor in a text that is drawn as before, and leaves alone what is drawn where only tables come', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    await preview.show(draft.data(wallet));
    const touched = async (): Promise<number> => preview.page.evaluate(() => window.touched?.splice(0).length ?? -1);
    await preview.page.evaluate(() => {
      window.touched = [];
      new MutationObserver((all) => window.touched?.push(...all)).observe(document.querySelector('.cards') ?? document.body, { subtree: true, childList: true, attributes: true, characterData: true });
    });
    // A word above all moves each place, and the cursor that was ahead of it.
    const above = `# A word.\n${wallet}`;
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: above.indexOf('line low') + 3, version: 2 });
    expect(await preview.page.locator('.card.lit').count()).toBe(0);
    await preview.show(draft.data(above), 2);
    expect(await preview.page.locator('.card.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')))).toEqual(['packet_pocket']);
    await touched();
    const priced = `${above}\nsupply band "Band" {\n  kind other\n  count 3\n}\n`;
    await preview.show(draft.data(priced), 3);
    expect(await touched()).toBe(0);
    // A word below all moves no place, but the cursor.
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: priced.length + 3, version: 4 });
    await preview.show(draft.data(`${priced}# A word below.\n`), 4);
    expect(await preview.page.locator('.card.lit').count()).toBe(0);
    await tab('To buy').click();
    const shown = (words: string) => preview.page.getByText(words, { exact: true }).filter({ visible: true });
    expect(await shown('Band').count()).toBe(1);
    await preview.show(draft.data(priced.replace('"Band"', '"Ribbon"')), 5);
    expect(await shown('Ribbon').count()).toBe(1);
  });

  it('marks what the cursor is on, in the drawings and in the table', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf('line low') + 3 });
    expect(await preview.page.locator('.card.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')))).toEqual(['packet_pocket']);
    expect(await card('packet_pocket').getAttribute('aria-current')).toBe('true');
    expect(await preview.page.locator('.whole.lit .part.line').count()).toBe(2);
    expect(await preview.page.locator('.whole.lit').count()).toBe(1);
    await tab('Cutting table').click();
    expect(new Set(await preview.page.locator('tr.lit th').allTextContents())).toEqual(new Set(['Packet pocket']));
    // Two cuts, the finished size, the piece's note, and a layer.
    expect(await preview.page.locator('tr.lit').count()).toBe(5);
    expect(await preview.page.locator('table', { has: preview.page.locator('caption', { hasText: 'Cut, piece by piece' }) }).locator('tr.lit').count()).toBe(2);
    await preview.post({ type: 'cursor', file: 'other.piece', offset: 5 });
    expect(await preview.page.locator('.lit').count()).toBe(0);
  });

  it('leads from anywhere in a drawing to its piece', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(shapes));
    await preview.sent();
    const { width = 0, height = 0 } = (await card('panel').locator('svg.drawing').boundingBox()) ?? {};
    await card('panel').locator('svg.drawing').click({ position: { x: width * 0.2, y: height * 0.15 } });
    expect((await preview.sent()).map((message) => (message.type === 'reveal' ? shapes.slice(message.start, message.end) : message.type))).toEqual(['panel']);
    expect(await card('panel').getAttribute('aria-current')).toBe('true');
  });

  it('leads from the cells of the table', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await tab('Cutting table').click();
    await preview.sent();
    const row = preview.page.locator('table', { has: preview.page.locator('caption', { hasText: 'Cut, piece by piece' }) }).locator('tbody tr', { hasText: 'Clear vinyl' });
    await row.getByRole('button', { name: '2 3/4 in × 1 3/4 in' }).click();
    await row.getByRole('button', { name: 'Clear vinyl' }).click();
    await row.locator('td').last().click();
    const [size, material, whole] = await preview.sent();
    expect(size?.type === 'reveal' && wallet.slice(size.start, size.end)).toBe('sized 2 3/4 by 1 3/4');
    expect(material).toMatchObject({ type: 'reveal', file: 'studio/materials.piece' });
    expect(whole?.type === 'reveal' && wallet.slice(whole.start, whole.end)).toMatch(/^cut 1 vinyl on wrong side sized/);
  });

  it('asks for another combination, and says so to the state', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(shapes));
    await preview.sent();
    await preview.page.getByLabel('size', { exact: true }).selectOption('L');
    expect(await preview.sent()).toEqual([{ type: 'choose', combination: { size: 'L' } }]);
    expect(await preview.state()).toMatchObject({ combination: { size: 'L' } });
  });
});

describe('steadiness', () => {
  it('touches only the piece that changed', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    const text = manyPieces(30);
    await preview.show(draft.data(text));
    await preview.page.evaluate(() => {
      const touched: string[] = [];
      Object.assign(window, { touched });
      new MutationObserver((records) => {
        for (const record of records) {
          const nodes = record.type === 'childList' ? [...record.addedNodes, ...record.removedNodes] : [];
          for (const node of nodes) touched.push((node instanceof Element ? (node.closest('[data-piece]')?.getAttribute('data-piece') ?? node.nodeName) : node.nodeName));
        }
      }).observe(document.getElementById('preview') as HTMLElement, { childList: true, subtree: true });
    });
    await preview.show(draft.data(text.replace('piece part_7 "Part 7" {\n  outline rectangle unit_w + 7 / 2 by 10', '# moves all that follows\npiece part_7 "Part 7" {\n  outline rectangle unit_w + 7 / 2 by 11')), 2);
    const touched = await preview.page.evaluate(() => (window as unknown as { touched: string[] }).touched);
    // Rows of no piece are the materials, whose areas have grown.
    expect(new Set(touched.filter((one) => one !== 'TR'))).toEqual(new Set(['part_7']));
    expect(await card('part_7').getByRole('button', { name: 'Cut height 11 in' }).count()).toBe(1);
  });

  it('leads to the right text after lines above were added', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    await preview.show(draft.data(wallet));
    const moved = wallet.replace('# Bias strips', '# One more line.\n# Bias strips');
    await preview.show(draft.data(moved), 2);
    await preview.sent();
    await card('edging').getByRole('button', { name: 'Cut height' }).click();
    const [message] = await preview.sent();
    expect(message?.type === 'reveal' && moved.slice(message.start, message.end)).toBe('edging_l');
  });

  it('keeps view, scale, scroll, selection, focus and open lists through an edit', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    const text = manyPieces(30);
    await preview.show(draft.data(text));
    await preview.page.getByRole('button', { name: 'Larger' }).click();
    await card('part_7').locator('summary').click();
    const button = card('part_7').getByRole('button', { name: 'Cut width' });
    await button.click();
    const scroll = (): Promise<readonly number[]> => preview.page.locator('#view-pieces .field').evaluate((field) => [field.scrollLeft, field.scrollTop, Number(getComputedStyle(field).getPropertyValue('--scale'))]);
    await preview.page.locator('#view-pieces .field').evaluate((field) => field.scrollBy(0, 40));
    const before = await scroll();
    await preview.show(draft.data(text.replace('by 10', 'by 10.5')), 2);
    expect(await scroll()).toEqual(before);
    expect(await card('part_7').getAttribute('class')).toContain('lit');
    expect(await card('part_7').locator('details').evaluate((details: HTMLDetailsElement) => details.open)).toBe(true);
    expect(await button.evaluate((one) => one === document.activeElement)).toBe(true);
  });

  it('comes back as it was when the page is loaded again', async () => {
    preview = await openPreview(browser);
    const data = new Draft().data(manyPieces(30));
    await preview.show(data);
    await preview.page.getByRole('button', { name: 'Larger' }).click();
    await preview.page.getByRole('button', { name: 'Larger' }).click();
    await card('part_12').getByRole('button', { name: 'Part 12', exact: true }).click();
    const text = await preview.page.locator('#view-pieces output').textContent();
    const top = await preview.page.locator('#view-pieces .field').evaluate((field) => field.scrollTop);
    expect(top).toBeGreaterThan(0);
    await tab('Cutting table').click();
    await preview.page.locator('#view-table').evaluate((view) => view.scrollTo(0, 200));
    await expect.poll(async () => ((await preview.state()) as { scroll: { table: number[] } }).scroll.table[1]).toBe(200);
    await preview.page.reload();
    await preview.theme('light');
    await preview.show(data);
    expect(await tab('Cutting table').getAttribute('aria-selected')).toBe('true');
    expect(await preview.page.locator('#view-table').evaluate((view) => view.scrollTop)).toBe(200);
    await tab('Pieces').click();
    expect(await preview.page.locator('#view-pieces output').textContent()).toBe(text);
    expect(await preview.page.locator('#view-pieces .field').evaluate((field) => field.scrollTop)).toBe(top);
    expect(await card('part_12').getAttribute('class')).toContain('lit');
  });

  it('keeps the last drawing of a piece with a fault, marked as old', async () => {
    preview = await openPreview(browser);
    const draft = new Draft();
    await preview.show(draft.data(wallet));
    const order = await preview.page.locator('.card').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')));
    await preview.show(draft.data(wallet.replace('rectangle edging_w', 'rectangle edging_x')), 2);
    expect(await preview.page.locator('.card').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')))).toEqual(order);
    expect(await card('edging').locator('svg.drawing').count()).toBe(1);
    expect(await card('edging').textContent()).toContain('before your last edits');
    // Also once the page has been loaded again, be it by an editor that knows of no earlier one.
    const state = await preview.state();
    await preview.page.context().close();
    preview = await openPreview(browser, { state });
    const broken = new Draft().data(wallet.replace('rectangle edging_w', 'rectangle edging_x'));
    await preview.show(broken, 1);
    expect(await card('edging').locator('svg.drawing').count()).toBe(1);
    expect(await card('edging').textContent()).toContain('before your last edits');
    await tab('Cutting table').click();
    expect(await preview.page.locator('#view-table').textContent()).toContain('Left out, since they can’t be drawn now: Edging strip.');
    await preview.show(draft.data(wallet), 3);
    await tab('Pieces').click();
    expect(await card('edging').getAttribute('class')).not.toContain('stale');
  });

  it('says that it shows an earlier text while no drawing can be made', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet), 41);
    await preview.post({ type: 'stale', uri: 'draft.piece', reason: 'The preview could not be drawn.' });
    expect(await preview.page.getByRole('status').first().textContent()).toBe('The preview could not be drawn. What is shown is from before your last edits.');
    expect(await card('wrap').count()).toBe(1);
    await preview.show(new Draft().data(wallet), 42);
    expect(await preview.page.locator('.banner').isVisible()).toBe(false);
  });
});

describe('scale', () => {
  it('draws all pieces true to one scale, and says which', async () => {
    preview = await openPreview(browser);
    const data = new Draft().data(wallet);
    await preview.show(data);
    const check = async (): Promise<number> => {
      const scales = await preview.page.locator('svg.drawing').evaluateAll((all) => all.map((one) => {
        const [, , width = 1, height = 1] = (one.getAttribute('viewBox') ?? '').split(' ').map(Number);
        const box = one.getBoundingClientRect();
        return [box.width / width, box.height / height];
      }));
      const first = scales[0]?.[0] ?? 0;
      for (const scale of scales.flat()) expect(scale).toBeCloseTo(first, 3);
      // The bar of so many inches is as long as the drawings say.
      const bars = await preview.page.locator('.bar').evaluateAll((all) => all.map((one) => [one.textContent, (one.querySelector('svg')?.getBoundingClientRect().width ?? 0) - 2] as const));
      expect(bars.map(([text]) => text.replace(/^[\d./]+ /, ''))).toEqual(['in', 'cm']);
      for (const [text, width] of bars) expect(width / first / millimetres(text)).toBeCloseTo(1, 3);
      return first;
    };
    const before = await check();
    await preview.page.locator('#view-pieces .field').focus();
    await preview.page.keyboard.press('+');
    expect(await check()).toBeCloseTo(before * 1.25, 3);
    await preview.page.keyboard.press('-');
    await preview.page.keyboard.press('-');
    expect(await check()).toBeCloseTo(before / 1.25, 3);
    await preview.page.keyboard.press('0');
    expect(await check()).toBeCloseTo(before, 3);
  });

  it('fits the pieces in when they are first seen, whichever view comes first', async () => {
    const data = new Draft().data(wallet);
    preview = await openPreview(browser);
    await preview.show(data);
    const text = await preview.page.locator('#view-pieces output').textContent();
    await preview.page.context().close();
    preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'buying', scale: 'fit' } });
    await preview.show(data);
    await tab('Pieces').click();
    expect(await preview.page.locator('#view-pieces output').textContent()).toBe(text);
    expect(await card('wrap').locator('svg.drawing path').count()).toBeGreaterThan(10);
  });

  it('zooms at the pointer, and pans by dragging and by arrow keys', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(shapes));
    const svg = card('gusset').locator('svg.drawing');
    const before = await svg.boundingBox();
    if (before === null) throw new Error('not shown');
    const point = { x: before.x + before.width / 2, y: before.y + before.height / 2 };
    await preview.page.mouse.move(point.x, point.y);
    await preview.page.keyboard.down('Control');
    await preview.page.mouse.wheel(0, -300);
    await preview.page.keyboard.up('Control');
    await expect.poll(async () => (await svg.boundingBox())?.width).toBeGreaterThan(before.width * 2);
    const place = (): Promise<readonly [number, number]> => preview.page.locator('#view-pieces .field').evaluate((field) => [field.scrollLeft, field.scrollTop] as const);
    await preview.page.locator('#view-pieces .field').evaluate((field) => field.scrollTo(0, 100));
    await preview.sent();
    await preview.page.mouse.move(500, 400);
    await preview.page.mouse.down();
    await preview.page.mouse.move(500, 360, { steps: 4 });
    await preview.page.mouse.up();
    expect((await place())[1]).toBe(140);
    expect(await preview.sent()).toEqual([]);
    await preview.page.locator('#view-pieces .field').focus();
    await preview.page.keyboard.press('ArrowDown');
    await expect.poll(async () => (await place())[1]).toBeGreaterThan(140);
  });
});

function millimetres(text: string): number {
  const [amount = '', unit] = text.split(' ');
  const [over = '1', under = '1'] = amount.split('/');
  return (Number(over) / Number(under)) * (unit === 'in' ? 25.4 : 10);
}

describe('by keyboard', () => {
  it('goes through tabs by arrows, and shows a number’s steps while it has the focus', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await tab('Pieces').focus();
    await preview.page.keyboard.press('ArrowRight');
    expect(await tab('Cutting table').getAttribute('aria-selected')).toBe('true');
    await preview.page.keyboard.press('End');
    expect(await tab('Layouts').evaluate((one) => one === document.activeElement)).toBe(true);
    await preview.page.keyboard.press('Home');
    expect(await tab('Board').getAttribute('aria-selected')).toBe('true');
    await preview.page.keyboard.press('ArrowRight');
    const number = card('packet_pocket').getByRole('button', { name: 'Cut width' });
    await number.focus();
    const tooltip = preview.page.getByRole('tooltip');
    expect(await tooltip.locator('div').allTextContents()).toEqual(['Cut width 4 1/4 in', 'width drawn = pocket_w + 2 * seam', 'pocket_w = 3 3/4 in', 'seam = 1/4 in']);
    expect(await number.getAttribute('aria-describedby')).toBe(await tooltip.getAttribute('id'));
    await preview.page.keyboard.press('Escape');
    expect(await tooltip.isVisible()).toBe(false);
    await preview.sent();
    await preview.page.keyboard.press('Enter');
    expect(await preview.sent()).toMatchObject([{ type: 'reveal' }]);
  });

  it('reaches every line and mark as a button', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(wallet));
    await card('wrap').locator('summary').focus();
    await preview.page.keyboard.press('Enter');
    const button = card('wrap').getByRole('button', { name: 'Mark: strap left' });
    await button.focus();
    await preview.sent();
    await preview.page.keyboard.press('Enter');
    const [message] = await preview.sent();
    expect(message?.type === 'reveal' && wallet.slice(message.start, message.end)).toBe('mark strap_left at panel_w + far + 1/2, strap_y');
    expect(await card('wrap').locator('.whole.lit .mark').count()).toBe(1);
  });
});

describe('whatever a spec says', () => {
  it('is shown as text, never as markup', async () => {
    preview = await openPreview(browser);
    const hostile = '\\"><img src=x onerror=\\"window.hit=1\\"><script>window.hit=1</script>';
    const text = `pattern "${hostile}"\nrevision 1\nnote "${hostile}"\nmaterial felt "${hostile}" {\n  width 30\n  note "${hostile}"\n}\npiece a "${hostile}" {\n  outline rectangle 3 by 4\n  cut 1 felt note "${hostile}"\n}\nsupply s "${hostile}" {\n  kind other\n  note "${hostile}"\n}\n`;
    const data = new Draft().data(text);
    expect(data.pieces[0]?.title).toContain('"><img');
    await preview.show(data);
    for (const name of ['Cutting table', 'To buy', 'Pieces']) await tab(name).click();
    await card('a').locator('summary').click();
    await card('a').getByRole('button', { name: 'Cut width' }).hover();
    expect(await preview.page.locator('img, #preview script').count()).toBe(0);
    expect(await preview.page.evaluate(() => 'hit' in window)).toBe(false);
    expect(await preview.page.locator('h1').textContent()).toBe('"><img src=x onerror="window.hit=1"><script>window.hit=1</script>');
  });

  it('shows an empty text as an empty page', async () => {
    preview = await openPreview(browser);
    await preview.show(new Draft().data(''));
    await tab('Cutting table').click();
    expect(await preview.page.locator('#view-table').textContent()).toContain('Nothing is cut yet');
  });
});
