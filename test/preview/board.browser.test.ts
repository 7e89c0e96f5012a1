import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Locator } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { differingPixels } from './pixels.ts';
import { Draft, manyPieces, shapes, wallet } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const onBoard = { uri: 'draft.piece', view: 'board' };
const strap = `pattern "Strap and tab"
unit cm
use "studio/materials.piece"
piece strap "Long strap" {
  outline rectangle 140 by 8
  cut 1 canvas
}
piece tab "Tab" {
  outline rectangle 3 by 3
  cut 2 felt
}
`;

async function opened(text: string, options: Parameters<typeof openPreview>[1] = {}): Promise<PreviewPage> {
  const preview = await openPreview(browser, { state: onBoard, ...options });
  await preview.show(new Draft().data(text));
  return preview;
}

async function closed(preview: PreviewPage): Promise<void> {
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
}

const boxes = (preview: PreviewPage): Promise<Readonly<Record<string, { readonly x: number; readonly y: number; readonly width: number; readonly height: number }>>> =>
  preview.page.locator('.on-board').evaluateAll((all) => Object.fromEntries(all.map((one) => {
    const { x, y, width, height } = one.getBoundingClientRect();
    return [one.getAttribute('data-piece') ?? '', { x, y, width, height }];
  })));

it.each([['wallet', wallet, {}], ['strap', strap, {}], ['many', manyPieces(200), {}], ['narrow', wallet, { width: 400, height: 700 }], ['wide', shapes, { width: 1900, height: 1000 }]] as const)('shows every piece whole, at one scale: %s', async (name, text, options) => {
  const preview = await opened(text, options);
  const field = await preview.page.locator('.plane').boundingBox();
  const data = new Draft().data(text);
  const drawn = await boxes(preview);
  expect(Object.keys(drawn)).toEqual(data.pieces.map((piece) => piece.name));
  const scales = data.pieces.map(({ name: piece, drawing: { box } }) => (drawn[piece]?.width ?? 0) / box.width);
  expect(Math.max(...scales) / Math.min(...scales)).toBeCloseTo(1, 2);
  for (const one of Object.values(drawn)) {
    expect(one.x).toBeGreaterThanOrEqual(field?.x ?? Infinity);
    expect(one.y).toBeGreaterThanOrEqual(field?.y ?? Infinity);
    expect(one.x + one.width).toBeLessThanOrEqual((field?.x ?? 0) + (field?.width ?? 0));
    expect(one.y + one.height).toBeLessThanOrEqual((field?.y ?? 0) + (field?.height ?? 0));
  }
  await preview.picture(`board-${name}`);
  await closed(preview);
});

it.each(['light', 'dark', 'high-contrast', 'high-contrast-light'] as const)('fills a piece within its stitching lines more than in its allowance, in %s', async (theme) => {
  const preview = await opened(`${strap}piece pad "Pad" {\n  outline rectangle 20 by 20\n  allowance 3\n  cut 1 canvas\n}\n`, { theme });
  await preview.picture(`board-fill-${theme}`);
  // What is seen: the mean difference from the ground in a patch of each.
  const { x = 0, y = 0, width = 0 } = (await boxes(preview))['pad'] ?? {};
  const inked = async (left: number, top: number): Promise<number> => {
    const shot = await preview.page.screenshot({ clip: { x: left, y: top, width: 10, height: 10 } });
    return preview.page.evaluate(async (bytes) => {
      const picture = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: 'image/png' }));
      const canvas = new OffscreenCanvas(picture.width, picture.height).getContext('2d');
      canvas?.drawImage(picture, 0, 0);
      const data = canvas?.getImageData(0, 0, picture.width, picture.height).data ?? [];
      const ground = (/rgba?\((\d+), (\d+), (\d+)/.exec(getComputedStyle(document.body).backgroundColor) ?? []).slice(1).map(Number);
      let sum = 0;
      for (let at = 0; at < data.length; at++) if (at % 4 < 3) sum += Math.abs((data[at] ?? 0) - (ground[at % 4] ?? 0));
      return sum / (picture.width * picture.height);
    }, [...shot]);
  };
  const scale = width / 200;
  const band = await inked(x + 15 * scale - 5, y + 60 * scale);
  const inside = await inked(x + 45 * scale, y + 45 * scale);
  const outside = await inked(x + width + 3, y + 60 * scale);
  expect(outside).toBeLessThan(1);
  expect(band).toBeGreaterThan(2);
  expect(inside).toBeGreaterThan(band * 1.5);
  await closed(preview);
});

it('leaves in their places all pieces that an edit does not push aside', async () => {
  const pad = 'piece pad "Pad" {\n  outline rectangle 30 by 20\n  cut 1 canvas\n}\n';
  const grown = (height: string): string => `${strap.replace('140 by 8', `140 by ${height}`)}${pad}`;
  const preview = await opened(grown('8'));
  const draft = new Draft();
  const millimetres = (): Promise<readonly string[]> => preview.page.locator('.on-board').evaluateAll((all) => all.map((one) => `${one.getAttribute('data-piece') ?? ''} ${one.getAttribute('style') ?? ''}`.replace(/--(width|height|sign-room|room-.|name-width|outside-.|leader|leader-turn): [^;]*;/g, '').replace(/\s+/g, ' ').trim()));
  const before = await millimetres();
  // Smaller, the strap would be arranged in another order; nothing needs to move.
  await preview.show(draft.data(grown('2')), 2);
  expect(await millimetres()).toEqual(before);
  await closed(preview);
});

it('keeps what is under the pointer there, shows an overview of what is out of sight, and fits in by a double click', async () => {
  const preview = await opened(shapes);
  const whole = await boxes(preview);
  expect(await preview.page.locator('.overview').isVisible()).toBe(false);
  // The one farthest from where scrolling starts.
  const [name = '', piece = { x: 0, y: 0, width: 0, height: 0 }] = Object.entries(whole).sort(([, one], [, other]) => other.x + other.y - one.x - one.y)[0] ?? [];
  const at = { x: piece.x + piece.width / 4, y: piece.y + piece.height / 4 };
  await preview.page.mouse.move(at.x, at.y);
  await preview.page.mouse.wheel(0, -400);
  await expect.poll(async () => (await boxes(preview))[name]?.width).toBeGreaterThan(piece.width * 2);
  // While the wheel turns the board is stretched; once it rests it is drawn anew, with the same below the pointer.
  const stretched = (await boxes(preview))[name] ?? piece;
  expect(Math.abs((at.x - stretched.x) / stretched.width - 0.25)).toBeLessThan(0.02);
  await expect.poll(() => preview.page.locator('.board').evaluate((one: HTMLElement) => one.style.transform)).toBe('');
  const large = (await boxes(preview))[name] ?? piece;
  expect(Math.abs((at.x - large.x) / large.width - 0.25)).toBeLessThan(0.02);
  await expect.poll(() => preview.page.locator('.overview').isVisible()).toBe(true);
  await preview.picture('board-large');
  // Two fingers that move sideways pan, and so they do up and down right after; Shift has the wheel pan.
  const field = preview.page.locator('.plane');
  const places = (): Promise<readonly [number, number]> => field.evaluate((one) => [one.scrollLeft, one.scrollTop] as const);
  const [left, top] = await places();
  await field.evaluate((one) => {
    for (const [deltaX, deltaY] of [[30, 0], [0, 20]]) one.dispatchEvent(new WheelEvent('wheel', { deltaX: deltaX ?? 0, deltaY: deltaY ?? 0, cancelable: true, bubbles: true }));
    one.dispatchEvent(new WheelEvent('wheel', { deltaY: 15, shiftKey: true, cancelable: true, bubbles: true }));
  });
  expect(await places()).toEqual([left + 45, top + 20]);
  expect((await boxes(preview))[name]?.width).toBeCloseTo(large.width, 1);
  await preview.page.mouse.dblclick(at.x, at.y);
  await expect.poll(() => boxes(preview)).toEqual(whole);
  await closed(preview);
});

it('leads from a piece to its text and lights what the cursor is on', async () => {
  const preview = await opened(wallet);
  await preview.sent();
  await preview.page.locator('.on-board[data-piece="inside"]').getByRole('button', { name: /^Inside ?, cut 2 from 2 materials, cut and finished 15 in by 6 1\/2 in, 1 × Cotton poplin/ }).focus();
  await preview.page.keyboard.press('Enter');
  const [message] = await preview.sent();
  expect(message?.type === 'reveal' && wallet.slice(message.start, message.end)).toBe('inside');
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf('mark strap_left') + 1 });
  expect(await preview.page.locator('.on-board.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')))).toEqual(['wrap']);
  expect(await preview.page.locator('.on-board .whole.lit .mark').count()).toBeGreaterThan(0);
  await closed(preview);
});

it('names every piece at first look, at 400 pixels too, and says which is the largest and its finished size', async () => {
  const preview = await opened(wallet, { width: 400, height: 700 });
  const { page } = preview;
  expect(await page.locator('.about').textContent()).toBe('Largest pieces by area: Wrap and Inside, each cut and finished 15 in × 6 1/2 in');
  const told = await page.locator('.on-board').evaluateAll((all) => all.map((one) => {
    const name = one.querySelector('.name')?.getBoundingClientRect();
    return { isNamed: name !== undefined && Math.max(name.width, name.height) > 20 && name.left >= 0 && name.right <= 400, number: one.classList.contains('numbered') ? getComputedStyle(one, '::after').content.replace(/\D/g, '') : '' };
  }));
  for (const { isNamed, number } of told) expect(isNamed || number !== '').toBe(true);
  expect(told.filter(({ isNamed }) => isNamed).length).toBeGreaterThan(4);
  // The list of sizes and the legend are there on request, by keys, and remembered.
  expect(await page.locator('#legend').isVisible()).toBe(false);
  const button = page.getByRole('button', { name: 'Legend' });
  const place = await button.boundingBox();
  await button.press('Enter');
  // What is pressed next is where it was.
  expect(await button.boundingBox()).toEqual(place);
  expect(await page.locator('#legend').getByText('Placement line').isVisible()).toBe(true);
  await page.getByRole('button', { name: 'Sizes' }).press('Enter');
  expect(await page.locator('.sized-piece').allInnerTexts()).toEqual(expect.arrayContaining([expect.stringMatching(/^1 Wrap\s+15 in × 6 1\/2 in, as cut\s+cut 5 from 3 materials$/), expect.stringMatching(/^5 Label frame\s+3 1\/4 in × 2 1\/4 in/)]));
  expect((await page.locator('.sized-piece').allInnerTexts()).map((text) => parseInt(text, 10)).slice(0, 2)).toEqual([1, 2]);
  expect(await preview.state()).toMatchObject({ legend: true, sizes: true });
  await preview.sent();
  await page.getByRole('button', { name: '5 Label frame' }).press('Enter');
  const [message] = await preview.sent();
  expect(message?.type === 'reveal' && wallet.slice(message.start, message.end)).toBe('label_frame');
  await page.setViewportSize({ width: 1400, height: 1000 });
  await expect.poll(() => page.locator('.on-board[data-piece="wrap"] .details').innerText()).toMatch(/^cut\s5\sfrom\s3\smaterials,\sfinished\s15\sin\s×\s6\s1\/2\sin$/);
  await closed(preview);
});

it('tells materials apart without colour', async () => {
  const preview = await opened(wallet, { forcedColors: 'active' });
  await preview.picture('board-forced');
  const used = await preview.page.locator('.hatchings pattern path').evaluateAll((all) => all.map((one) => `${one.getAttribute('d') ?? ''} ${one.parentElement?.getAttribute('patternTransform') ?? ''}`));
  expect(used.length).toBeGreaterThan(5);
  expect(new Set(used).size).toBe(used.length);
  await closed(preview);
});

it('is what a preview opens at', async () => {
  const preview = await opened(wallet, { state: null });
  expect(await preview.page.getByRole('tab', { name: 'Board' }).getAttribute('aria-selected')).toBe('true');
  expect(await preview.page.locator('.on-board[data-piece="wrap"] .name').isVisible()).toBe(true);
  await closed(preview);
});

it('has pieces that are not asked for stand back, and shows the others as large as it can', async () => {
  const preview = await opened(manyPieces(60));
  const before = await boxes(preview);
  const box = preview.page.getByRole('searchbox', { name: 'Show only pieces with these words' });
  await box.fill('part_7');
  const back = (): Promise<readonly string[]> => preview.page.locator('.on-board:not([inert])').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece') ?? ''));
  expect(await back()).toEqual(['part_7']);
  const field = await preview.page.locator('.plane').boundingBox();
  const found = (await boxes(preview))['part_7'];
  expect((found?.width ?? 0) / (before['part_7']?.width ?? 1)).toBeGreaterThan(3);
  expect(found !== undefined && field !== null && found.x >= field.x && found.y >= field.y && found.x + found.width <= field.x + field.width && found.y + found.height <= field.y + field.height).toBe(true);
  expect(await preview.page.locator('.on-board[data-piece="part_8"]').evaluate((one) => Number(getComputedStyle(one).opacity))).toBeLessThan(0.3);
  await preview.picture('board-filtered');
  await box.fill('');
  expect((await back()).length).toBe(60);
  expect(await boxes(preview)).toEqual(before);
  await closed(preview);
});

it('calls lines what the spec titles them, and leaves them to be seen through the names of pieces', async () => {
  const preview = await opened(wallet.replace('mark strap_left at', 'mark strap_left "Left strap" at'), { width: 1400, height: 900 });
  const words = await preview.page.locator('.on-board[data-piece="wrap"] text').allTextContents();
  expect(words).toEqual(expect.arrayContaining(['Left strap', 'strap right', 'Core of the front']));
  const grounds = await preview.page.locator('.on-board .name:visible').evaluateAll((all) => all.map((one) => getComputedStyle(one).backgroundColor));
  expect(new Set(grounds)).toEqual(new Set(['rgba(0, 0, 0, 0)']));
  await closed(preview);
});

it('writes a name upright where a piece is narrow, in lines where it is short, within the piece', async () => {
  const preview = await opened(`pattern "Names"\nunit cm\nmaterial felt "Felt" {\n  width 90\n}\npiece tall "Long narrow strip" {\n  outline rectangle 5 by 60\n  cut 1 felt\n}\npiece square "Pocket for needles" {\n  outline rectangle 14 by 14\n  cut 1 felt\n}\n`);
  const within = async (name: string): Promise<{ readonly width: number; readonly height: number }> => {
    const one = preview.page.locator(`.on-board[data-piece="${name}"]`);
    const [piece, words] = [await one.boundingBox(), await one.locator('.name').boundingBox()];
    if (piece === null || words === null) throw new Error('not to be seen');
    expect(words.x >= piece.x && words.x + words.width <= piece.x + piece.width && words.y >= piece.y && words.y + words.height <= piece.y + piece.height).toBe(true);
    return words;
  };
  const tall = await within('tall');
  // However wide the letters of a machine are.
  expect(tall.height).toBeGreaterThan(tall.width * 2);
  expect((await within('square')).height).toBeGreaterThan(30);
  await preview.picture('board-names');
  await closed(preview);
});

it('lights all that hangs on what the cursor is on, and says what that is', async () => {
  const preview = await opened(wallet);
  const lit = (): Promise<readonly string[]> => preview.page.locator('.on-board.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece') ?? ''));
  const go = (to: string): Promise<void> => preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf(to) + 1 });
  const before = await boxes(preview);
  await go('length wallet_h');
  expect((await lit()).length).toBeGreaterThan(2);
  expect(await preview.page.locator('.on-board[data-piece="wrap"] .whole.lit .cutting').count()).toBeGreaterThan(0);
  expect(await preview.page.locator('.about').textContent()).toMatch(/^wallet_h = .* · changes the outline of Wrap, /);
  await preview.picture('board-lit');
  // A line that moves inside a piece is lit alone.
  await go('length strap_y');
  expect(await lit()).toEqual(['wrap']);
  expect(await preview.page.locator('.about').textContent()).toBe('strap_y = 1 3/4 in · changes lines on Wrap');
  expect(await preview.page.locator('.on-board[data-piece="wrap"] .whole.lit .mark').count()).toBeGreaterThan(0);
  const glow = (name: string): Promise<string> => preview.page.locator(`.on-board[data-piece="${name}"] .ground .cloth-fill`).evaluate((one) => getComputedStyle(one).stroke);
  expect(await glow('wrap')).toBe('none');
  await go('length wallet_h');
  expect(await glow('wrap')).not.toBe('none');
  // The other half of a fold changes with the one that is drawn.
  await go('length pocket_h');
  const strokes = (half: string): Promise<readonly string[]> => preview.page.locator(`.on-board[data-piece="packet_pocket"] .whole.lit ${half}`).evaluateAll((all) => [...new Set(all.map((one) => getComputedStyle(one).stroke))]);
  expect(await strokes('.part.twin')).toEqual(await strokes('.part.cutting:not(.twin)'));
  expect(await strokes('.part.twin')).toHaveLength(1);
  await go('material');
  expect(await boxes(preview)).toEqual(before);
  await closed(preview);
});

it('lays the saved outline below the new one and names what is otherwise, until it is saved or dismissed', async () => {
  const preview = await openPreview(browser, { state: onBoard });
  const draft = new Draft();
  const longer = (width: string): string => strap.replace('140 by 8', `${width} by 8`);
  await preview.post({ type: 'unsaved', files: [] });
  await preview.show(draft.data(strap));
  expect(await preview.page.locator('.since').isVisible()).toBe(false);
  const room = await preview.page.locator('.plane').boundingBox();
  await preview.post({ type: 'unsaved', files: ['draft.piece'] });
  await preview.show(draft.data(longer('120')), 2);
  const piece = preview.page.locator('.on-board[data-piece="strap"]');
  const ghost = piece.locator('.ghost');
  // As wide as it was, from the same corner.
  const [was, now] = [await ghost.boundingBox(), await piece.boundingBox()];
  expect((was?.width ?? 0) / (now?.width ?? 1)).toBeCloseTo(140 / 120, 1);
  expect(Math.abs((was?.x ?? 0) - (now?.x ?? 99))).toBeLessThan(6);
  expect(await piece.locator('.was').innerText()).toBe('Cut width 120 cm, was 140 cm');
  expect(await preview.page.locator('.plane').boundingBox()).toEqual(room);
  expect(await preview.page.locator('.since').innerText()).toContain('Changed since saved: Long strap. Dotted outlines are as saved.');
  await preview.picture('board-ghost');
  // Another edit is compared with what was saved, too; a dismissed one with what was there then.
  await preview.show(draft.data(longer('130')), 3);
  expect(await piece.locator('.was').innerText()).toContain('Cut width 130 cm, was 140 cm');
  await preview.page.getByRole('button', { name: 'Dismiss' }).click();
  expect(await preview.page.locator('.ghost, .was').count()).toBe(0);
  expect(await preview.page.locator('.since').isVisible()).toBe(false);
  await preview.show(draft.data(longer('150')), 4);
  expect(await piece.locator('.was').innerText()).toContain('Cut width 150 cm, was 130 cm');
  await preview.post({ type: 'unsaved', files: [] });
  expect(await preview.page.locator('.ghost, .was').count()).toBe(0);
  await closed(preview);
});

it('says of a piece that is gone that it was there', async () => {
  const preview = await openPreview(browser, { state: onBoard });
  const draft = new Draft();
  await preview.post({ type: 'unsaved', files: [] });
  await preview.show(draft.data(strap));
  await preview.post({ type: 'unsaved', files: ['draft.piece'] });
  await preview.show(draft.data(strap.slice(0, strap.indexOf('piece tab'))), 2);
  expect(await preview.page.locator('.since').innerText()).toContain('No longer there: Tab.');
  await closed(preview);
});

it('holds the pieces against what was last committed, live, or against nothing, as is chosen by keys', async () => {
  const preview = await openPreview(browser, { state: onBoard });
  const draft = new Draft();
  const longer = (width: string): string => strap.replace('140 by 8', `${width} by 8`);
  const committed = draft.data(strap).pieces;
  await preview.post({ type: 'unsaved', files: [] });
  await preview.show(draft.data(longer('150')));
  const [piece, since] = [preview.page.locator('.on-board[data-piece="strap"]'), preview.page.locator('.since')];
  expect(await since.isVisible()).toBe(false);
  const select = preview.page.getByLabel('Changes:');
  await select.focus();
  await preview.page.keyboard.press('ArrowDown');
  expect(await select.inputValue()).toBe('committed');
  expect((await preview.sent()).at(-1)).toEqual({ type: 'since', committed: true });
  expect(await since.isVisible()).toBe(false);
  await preview.post({ type: 'committed', combination: null, pieces: committed });
  expect(await since.innerText()).toBe('Changed since committed: Long strap. Dotted outlines are as committed.');
  expect(await piece.locator('.was').innerText()).toBe('Cut width 150 cm, was 140 cm');
  // Live, and saving makes no difference to it.
  await preview.post({ type: 'unsaved', files: ['draft.piece'] });
  await preview.show(draft.data(longer('120')), 2);
  await preview.post({ type: 'unsaved', files: [] });
  expect(await piece.locator('.was').innerText()).toBe('Cut width 120 cm, was 140 cm');
  await preview.picture('board-committed');
  // What was asked for another choice stands in for none.
  await preview.post({ type: 'committed', combination: { size: 'L' }, pieces: [] });
  expect(await piece.locator('.was').innerText()).toBe('Cut width 120 cm, was 140 cm');
  await preview.post({ type: 'committed', combination: null, pieces: null });
  expect([await since.innerText(), await preview.page.locator('.ghost').count()]).toEqual(['Nothing to compare with: no earlier version of this pattern has been committed, or no git is at hand.', 0]);
  await select.focus();
  await preview.page.keyboard.press('ArrowDown');
  expect([await select.inputValue(), await since.isVisible(), (await preview.sent()).at(-1)]).toEqual(['off', false, { type: 'since', committed: false }]);
  await preview.post({ type: 'unsaved', files: ['draft.piece'] });
  await preview.show(draft.data(longer('130')), 3);
  expect(await preview.page.locator('.ghost, .was').count()).toBe(0);
  await closed(preview);
});

it('shows the piece that is meant large, with edges by name, coordinates and a ruler, by pointer and by keys', async () => {
  const preview = await opened(wallet, { width: 1200, height: 800 });
  expect(await preview.page.locator('.focus').isVisible()).toBe(false);
  expect(await preview.page.locator('.focus svg').count()).toBe(0);
  await preview.page.getByRole('button', { name: 'Focus' }).click();
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf('piece inside') + 8 });
  const focus = preview.page.locator('.focus');
  expect(await focus.getByRole('heading').textContent()).toBe('Inside · cut and finished 15 in × 6 1/2 in');
  const drawing = focus.locator('svg.drawing');
  const box = await drawing.boundingBox();
  const onBoard = await preview.page.locator('.on-board[data-piece="inside"]').boundingBox();
  expect(box?.width ?? 0).toBeGreaterThan((onBoard?.width ?? Infinity) * 1.1);
  expect(await focus.locator('.edge-title').allTextContents()).toEqual(expect.arrayContaining(['top', 'right', 'bottom', 'left']));
  expect(await focus.locator('.edge-detail').first().textContent()).toMatch(/ in long, |^sewn /);
  if (box === null) throw new Error('not to be seen');
  // 15 in by 6 1/2 in: the points are where its sides run into one another, were its corners not round.
  const at = (x: number, y: number): readonly [number, number] => [box.x + (box.width * x) / 15, box.y + box.height * (1 - y / 6.5)];
  await preview.page.mouse.move(...at(4, 2));
  expect(await focus.locator('.focus-at').textContent()).toMatch(/^x (3 15\/16|4|4 1\/16) in, y (1 15\/16|2|2 1\/16) in$/);
  await preview.sent();
  await preview.page.mouse.click(...at(4, 2));
  await preview.page.mouse.click(...at(8, 5));
  expect(await focus.locator('.focus-apart').textContent()).toMatch(/^(4 15\/16|5|5 1\/16) in apart: /);
  expect(await preview.sent()).toEqual([]);
  await preview.picture('board-focus');
  // From the origin by keys alone.
  await focus.locator('.focus-field').focus();
  for (const key of ['Escape', 'Enter', 'Shift+ArrowRight', 'Shift+ArrowRight', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft', 'ArrowLeft', 'Enter']) await preview.page.keyboard.press(key);
  expect(await focus.locator('.focus-apart').textContent()).toBe('1 in apart: 1 in across, 0 in up');
  expect(await preview.state()).toMatchObject({ focus: true });
  await preview.page.setViewportSize({ width: 420, height: 800 });
  await preview.picture('board-focus-narrow');
  const [above, below] = [await preview.page.locator('.plane').boundingBox(), await focus.boundingBox()];
  expect((above?.y ?? 0) + (above?.height ?? 0)).toBeLessThanOrEqual((below?.y ?? 0) + 1);
  await closed(preview);
});

it('has names of lines give way to the name of their piece, and takes the tag of an edit into the piece', async () => {
  const preview = await opened(wallet, { width: 1000, height: 800 });
  const hidden = await preview.page.locator('.on-board').evaluateAll((all) => all.flatMap((one) => {
    const name = one.querySelector('.name')?.getBoundingClientRect();
    if (name === undefined || name.width < 5) return [];
    return [...one.querySelectorAll('.drawing > .label')].filter((text) => getComputedStyle(text).visibility === 'visible' && getComputedStyle(text).display !== 'none').flatMap((text) => {
      const box = text.getBoundingClientRect();
      const [across, down] = [Math.min(box.right, name.right) - Math.max(box.left, name.left), Math.min(box.bottom, name.bottom) - Math.max(box.top, name.top)];
      return across > 4 && down > 4 ? [`${text.textContent} under ${one.getAttribute('data-piece') ?? ''}`] : [];
    });
  }));
  expect(hidden).toEqual([]);
  expect(await preview.page.locator('.on-board[data-piece="wrap"] .label:not(.under-name)').count()).toBeGreaterThan(3);
  await closed(preview);
});

it.each(['light', 'dark', 'high-contrast', 'high-contrast-light'] as const)('draws by how much a check fails where the cursor is on it, in %s', async (theme) => {
  const text = `${strap}thing card "Card" = 9 by 5\ncheck strap.top matches tab.top eased by 102\ncheck tab holds card\n`;
  const preview = await opened(text, { theme, width: 700 });
  const before = await boxes(preview);
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: text.indexOf('check strap') + 2 });
  const compared = preview.page.locator('.compared');
  expect(await compared.getAttribute('aria-label')).toBe('strap.top is 140 cm, and should be 105 cm: 35 cm apart');
  expect(await compared.locator('p').allInnerTexts()).toEqual(['140 cm strap.top', '105 cm tab.top with 102 cm to ease in · 35 cm shorter']);
  const widths = await compared.locator('.measured, .apart').evaluateAll((all) => all.map((one) => [one.getAttribute('class'), Math.round(one.getBoundingClientRect().width)] as const));
  expect(widths.map(([kind]) => kind)).toEqual(['measured', 'apart', 'measured']);
  const [whole = 0, apart = 0, shorter = 0] = widths.map(([, width]) => width);
  expect(shorter / whole).toBeCloseTo(105 / 140, 1);
  expect(shorter + apart).toBeGreaterThanOrEqual(whole - 3);
  // On the edges themselves: what each is, and the stretch that is too long, to scale.
  const here = (name: string): Locator => preview.page.locator(`.on-board[data-piece="${name}"] .failing-here`);
  expect(await here('strap').locator('text').allTextContents()).toEqual(['140 cm, 35 cm longer']);
  expect(await here('tab').locator('text').allTextContents()).toEqual(['105 cm with 102 cm to ease in, 35 cm shorter']);
  const strapWide = await preview.page.locator('.on-board[data-piece="strap"]').evaluate((one) => one.getBoundingClientRect().width);
  const [over] = await here('strap').locator('.over').evaluateAll((all) => all.map((one) => (one as SVGPathElement).getBoundingClientRect().width));
  expect((over ?? 0) / strapWide).toBeCloseTo(35 / 142, 1);
  expect(await here('tab').locator('.over').count()).toBe(0);
  expect(await differingPixels(preview.page, here('strap').locator('.over'))).toBeGreaterThan(100);
  expect(await differingPixels(preview.page, here('tab').locator('text'))).toBeGreaterThan(60);
  // The words are in sight, all of them.
  for (const name of ['strap', 'tab']) {
    const { x = -1, width = 0 } = (await here(name).locator('text').boundingBox()) ?? {};
    expect(x).toBeGreaterThanOrEqual(0);
    expect(x + width).toBeLessThanOrEqual(700);
  }
  // Nothing moves for it.
  expect(await boxes(preview)).toEqual(before);
  await preview.picture(`compared-lengths-${theme}`);
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: text.indexOf('check tab') + 2 });
  expect(await compared.locator('p').allInnerTexts()).toEqual(['3 cm × 3 cm tab', '9 cm × 5 cm card, dashed']);
  expect(await here('tab').locator('text').allTextContents()).toEqual(['9 cm × 5 cm wanted']);
  const [wanted, own] = await Promise.all([here('tab').locator('.over'), preview.page.locator('.on-board[data-piece="tab"]')].map((one) => one.evaluate((box) => box.getBoundingClientRect().width)));
  expect((wanted ?? 0) / (own ?? 1)).toBeGreaterThan(1.5);
  expect(await here('strap').count()).toBe(0);
  await preview.picture(`compared-sizes-${theme}`);
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: text.indexOf('piece tab') + 8 });
  expect(await compared.count()).toBe(0);
  expect(await preview.page.locator('.failing, .failing-here').count()).toBe(0);
  await closed(preview);
});
