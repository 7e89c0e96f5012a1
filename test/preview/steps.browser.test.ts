import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { Draft } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const text = readFileSync(new URL('../../samples/tidal-crossbody.piece', import.meta.url), 'utf8');

it('goes from step to step by buttons and by keys, with what is worked on lit and what hangs together marked', async () => {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  const { page } = preview;
  await preview.show(new Draft().data(text));
  const steps = page.getByRole('group', { name: 'Order of work' });
  expect(await steps.innerText()).toContain('Order of work: 16 steps');
  const next = page.getByRole('button', { name: 'Next step' });
  for (let times = 0; times < 3; times++) await next.click();
  expect(await steps.innerText()).toContain('Step 3 of 16: Lay the base panel');
  expect(await page.locator('.on-board.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')).sort())).toEqual(['base_panel', 'gusset']);
  expect(await page.locator('.on-board[data-joined]').evaluateAll((all) => all.map((one) => [one.getAttribute('data-piece'), one.getAttribute('data-joined')].join(' ')).sort())).toEqual(['base_panel A', 'gusset A']);
  for (let times = 0; times < 10; times++) await page.keyboard.press('ArrowRight');
  expect(await steps.innerText()).toContain('13 of 16');
  await preview.picture('steps');
  await page.keyboard.press('ArrowLeft');
  expect(await steps.innerText()).toContain('12 of 16');
  expect(preview.complaints).toEqual([]);
  await page.context().close();
});

it.each([400, 1200])('shows all of a step, however long, at %i pixels, and keeps its buttons where they are', async (width) => {
  const preview = await openPreview(browser, { width, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  const { page } = preview;
  const data = new Draft().data(text);
  await preview.show(data);
  const said = page.locator('.steps p');
  const next = page.getByRole('button', { name: 'Next step' });
  const [before, lineHigh] = [await next.boundingBox(), (await said.boundingBox())?.height ?? 0];
  let mostHigh = 0;
  for (const { number, text: words } of data.steps) {
    await next.click();
    expect(await said.textContent()).toBe(`Step ${number} of ${data.steps.length}: ${words}`);
    const { cut, high } = await said.evaluate((one) => ({ cut: [one.scrollWidth - one.clientWidth, one.scrollHeight - one.clientHeight], high: one.clientHeight }));
    expect(cut, words).toEqual([0, 0]);
    mostHigh = Math.max(mostHigh, high);
  }
  expect(mostHigh).toBeGreaterThan(1.5 * lineHigh);
  expect(await next.boundingBox()).toEqual(before);
  await page.context().close();
});

it('stays at a step that was gone to until the cursor moves, though the cursor is on a piece', async () => {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  const { page } = preview;
  const draft = new Draft();
  await preview.show(draft.data(text));
  const onPocket = { type: 'cursor', file: 'draft.piece', offset: text.indexOf('piece front_pocket') + 8 } as const;
  await preview.post(onPocket);
  const steps = page.getByRole('group', { name: 'Order of work' });
  await page.getByRole('button', { name: 'Next step' }).click();
  expect(await steps.innerText()).toContain('1 of 16');
  // Other handles bring other data, and an editor that comes to the front tells its cursor again.
  await preview.show(draft.data(`${text}# more\n`));
  await preview.post(onPocket);
  expect(await steps.innerText()).toContain('1 of 16');
  await page.getByRole('button', { name: 'Next step' }).click();
  expect(await steps.innerText()).toContain('2 of 16');
  await preview.post({ ...onPocket, offset: onPocket.offset + 1 });
  expect(await steps.innerText()).toContain('Order of work: 16 steps');
  expect(await page.locator('.on-board.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')))).toEqual(['front_pocket']);
  expect(preview.complaints).toEqual([]);
  await page.context().close();
});

it('asks for no handles of what a cursor would be on in the text before the edit that moved it', async () => {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  const draft = new Draft();
  await preview.show(draft.data(text), 1);
  const onValue = { type: 'cursor', file: 'draft.piece', offset: text.indexOf('length gusset_w') + 3, version: 1 } as const;
  await preview.post(onValue);
  await preview.sent();
  // As if so much had been put in above.
  await preview.post({ ...onValue, offset: text.indexOf('piece front_pocket') + 8, version: 2 });
  expect((await preview.sent()).filter(({ type }) => type === 'handled')).toEqual([]);
  await preview.show(draft.data(text), 2);
  expect((await preview.sent()).filter(({ type }) => type === 'handled')).toEqual([{ type: 'handled', piece: 'front_pocket' }]);
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
});

it('lays a seam along itself while the cursor is on it', async () => {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board' } });
  const { page } = preview;
  await preview.show(new Draft().data(text));
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: text.indexOf('seam front_seam') + 2 });
  const walk = page.locator('.walked');
  expect(await walk.getAttribute('aria-label')).toMatch(/^Front seam: Gusset: left, .* along Front: side left, base and side right, .* eased in$/u);
  expect([await walk.locator('.wedge').count(), await walk.locator('.corner').count(), await walk.locator('.meets').count()]).toEqual([6, 2, 3]);
  expect(await page.locator('.on-board.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')).sort())).toEqual(['front', 'gusset']);
  await preview.picture('walk');
  expect(preview.complaints).toEqual([]);
  await page.context().close();
});
