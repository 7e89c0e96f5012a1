import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import type { MoveMessage } from '../../client/preview/messages.ts';
import { moveOf } from '../../server/src/preview/handles/shown.ts';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { Draft, patternFrom } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const spec = `pattern "Handles"
unit in
step 1/16
use "studio/materials.piece"
length body = 9
piece front "Front" {
  outline polygon from 0, 0 to body, 0 to 8, 6 to 1, 6
  mark clasp at 4, 3
  notch side2 at 2
  cut 1 canvas
}
piece other "Other" {
  outline rectangle 3 by 3
  cut 1 canvas
}
`;

/** The page with what stands in for the editor: it answers and writes as the server and the client do. */
interface Desk {
  readonly preview: PreviewPage;
  text: string;
  /** Answers all that was asked. */
  readonly answer: () => Promise<readonly MoveMessage[]>;
}

async function desk(options: Parameters<typeof openPreview>[1] = {}): Promise<Desk> {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board', focus: true }, ...options });
  const draft = new Draft();
  const one: Desk = {
    preview,
    text: spec,
    answer: async () => {
      const asked = (await preview.sent()).filter((message) => message.type === 'move');
      for (const { asked: number, piece, handle, to: [x, y], isLetGo } of asked) {
        const move = moveOf(patternFrom(one.text), { piece, combination: new Map(), id: handle }, { x, y });
        const start = spec.indexOf('piece front');
        for (const { place, before, text } of isLetGo ? [...(move?.changes ?? [])].reverse() : []) one.text = one.text.slice(0, start + place.start) + text + one.text.slice(start + place.start + before.length);
        const isWritten = isLetGo && (move?.changes.length ?? 0) > 0;
        await preview.post({ type: 'handle', asked: number, at: move === undefined ? null : [move.at.x, move.at.y], says: move?.says ?? 'gone', isWritten });
        if (isWritten) await preview.show(draft.data(one.text, {}, { handled: 'front' }));
      }
      return asked;
    },
  };
  await preview.show(draft.data(spec, {}, { handled: 'front' }));
  return one;
}

async function closed({ preview }: Desk): Promise<void> {
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
}

const middle = async ({ preview }: Desk, name: RegExp): Promise<readonly [number, number]> => {
  const box = await preview.page.getByRole('button', { name }).boundingBox();
  if (box === null) throw new Error('not to be seen');
  return [box.x + box.width / 2, box.y + box.height / 2];
};

it('asks for the handles of the piece that is shown large, and for none when it is no longer', async () => {
  const one = await desk();
  expect(await one.preview.sent()).toContainEqual({ type: 'handled', piece: 'front' });
  await one.preview.page.getByRole('button', { name: 'Focus' }).click();
  expect(await one.preview.sent()).toContainEqual({ type: 'handled', piece: null });
  await closed(one);
});

it('has handles on the board, too, on the piece that the cursor is in: one edit once it is let go, and never of a formula', async () => {
  const one = await desk({ state: { uri: 'draft.piece', view: 'board' } });
  const { page } = one.preview;
  expect(await page.locator('.handle').count()).toBe(0);
  await one.preview.post({ type: 'cursor', file: 'draft.piece', offset: spec.indexOf('piece front') + 8 });
  expect(await one.preview.sent()).toContainEqual({ type: 'handled', piece: 'front' });
  const board = page.locator('.on-board[data-piece="front"]');
  expect(await board.locator('.handle').count()).toBeGreaterThan(4);
  const [x, y] = await middle(one, /^Mark “clasp”/);
  const [left] = await middle(one, /^Point 1 of the outline/);
  const scale = (x - left) / (4 * 25.4);
  const places = (): Promise<unknown> => page.locator('.plane').evaluate((field) => [field.scrollLeft, field.scrollTop]);
  const before = await places();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 25.6 * scale, y - 12.8 * scale, { steps: 4 });
  await one.answer();
  expect(one.text).toBe(spec);
  await one.preview.picture('handles-board');
  await page.mouse.up();
  const asked = await one.answer();
  expect(asked.filter(({ isLetGo }) => isLetGo)).toMatchObject([{ handle: 'mark clasp' }]);
  expect(one.text).toBe(spec.replace('at 4, 3', 'at 5, 3 1/2'));
  // The board stays where it is, and the keys stay at the handle.
  expect(await places()).toEqual(before);
  expect(await board.locator('.handle:focus').getAttribute('data-handle')).toBe('mark clasp');
  // A formula stays: what is set by one can't be taken hold of.
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^Notch on side2/ }).focus();
  expect(await page.locator('.handle.fixed').count()).toBe(0);
  await one.preview.page.getByRole('button', { name: 'Focus' }).click();
  expect(await board.locator('.handle').count()).toBe(0);
  await closed(one);
});

it('has a handle dragged to where the text can put it, and writes that once it is let go', async () => {
  const one = await desk();
  const { page } = one.preview;
  const [x, y] = await middle(one, /^Mark “clasp”/);
  const [left] = await middle(one, /^Point 1 of the outline/);
  // A millimetre on screen: the mark is 4 in to the right of the first point.
  const scale = (x - left) / (4 * 25.4);
  await one.preview.sent();
  await page.mouse.move(x, y);
  expect(await page.locator('.handle-told').innerText()).toBe('Mark “clasp”\nx 4 in, y 3 in');
  await page.mouse.down();
  await page.mouse.move(x + 25.6 * scale, y - 12.8 * scale, { steps: 4 });
  expect((await one.answer()).length).toBeGreaterThan(0);
  await one.answer();
  expect(await page.locator('.handle-told').innerText()).toBe('Mark “clasp”\nx 5 in, y 3 1/2 in');
  expect(await page.locator('.handle-ghost').isVisible()).toBe(true);
  const ghost = await page.locator('.handle-ghost').boundingBox();
  expect((ghost?.x ?? 0) + (ghost?.width ?? 0) / 2 - x).toBeCloseTo(25.4 * scale, 0);
  await one.preview.picture('handles-drag');
  // Nothing is written until then.
  expect(one.text).toBe(spec);
  await page.mouse.up();
  expect(await one.answer()).toMatchObject([{ handle: 'mark clasp', isLetGo: true }]);
  expect(one.text).toBe(spec.replace('at 4, 3', 'at 5, 3 1/2'));
  expect(await page.locator('.handle-ghost').isVisible()).toBe(false);
  const [then] = await middle(one, /^Mark “clasp”: x 5 in, y 3 1\/2 in/);
  expect(then - x).toBeCloseTo(25.4 * scale, 0);
  // A drag is no click of the ruler's, and leads nowhere.
  expect(await page.locator('.focus-apart').textContent()).toBe('');
  expect(await one.preview.sent()).toEqual([]);
  await closed(one);
});

it('is moved by keys alone: Enter takes hold and lets go, Escape leaves it', async () => {
  const one = await desk();
  const { page } = one.preview;
  await page.locator('.focus-field').focus();
  await page.keyboard.press('Tab');
  const focused = (): Promise<string | null> => page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);
  expect(await focused()).toBe('Point 1 of the outline: x 0 in, y 0 in');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  expect(await focused()).toBe('Point 3 of the outline: x 8 in, y 6 in');
  await one.preview.sent();
  await page.keyboard.press('Enter');
  expect(await page.locator('.handles output').textContent()).toBe('Held: arrow keys move it by 1/16 in, with Shift ten times as far. Enter writes it, Escape leaves it.');
  for (const key of ['ArrowRight', 'ArrowRight', 'Shift+ArrowUp']) {
    await page.keyboard.press(key);
    await one.answer();
  }
  expect(await page.locator('.handles output').textContent()).toBe('x 8 1/8 in, y 6 5/8 in');
  await page.keyboard.press('Escape');
  expect(await page.locator('.handle-ghost').isVisible()).toBe(false);
  expect(await one.answer()).toEqual([]);
  expect(one.text).toBe(spec);
  for (const key of ['Enter', 'ArrowLeft', 'ArrowDown', 'Enter']) await page.keyboard.press(key);
  await one.answer();
  await one.answer();
  expect(one.text).toBe(spec.replace('to 8, 6', 'to 7 15/16, 5 15/16'));
  expect(await page.locator('.handles output').textContent()).toBe('Written: point 3 of the outline, x 7 15/16 in, y 5 15/16 in');
  // The focus stays on it.
  expect(await focused()).toBe('Point 3 of the outline: x 7 15/16 in, y 5 15/16 in');
  // One Tab stop: the next is outside.
  await page.keyboard.press('Shift+Tab');
  expect(await focused()).toMatch(/^Piece by itself/);
  await closed(one);
});

it('says at the handle what stays, and why, and never asks to move it', async () => {
  const one = await desk();
  const { page } = one.preview;
  const [x, y] = await middle(one, /^Point 2 of the outline/);
  await page.mouse.move(x, y);
  expect(await page.locator('.handle-told').innerText()).toBe('Point 2 of the outline\nx set by a formula: body, y 0 in');
  one.text = spec.replace('body, 0', 'body, body - 9');
  await one.preview.show(new Draft().data(one.text, {}, { handled: 'front' }));
  await one.preview.sent();
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 40, y - 40, { steps: 3 });
  await page.mouse.up();
  expect(await one.preview.sent()).toEqual([]);
  expect(await page.locator('.handle-told').innerText()).toBe('Point 2 of the outline\nStays: x set by a formula: body; y set by a formula: body - 9');
  expect(await page.getByRole('button', { name: /^Point 2 of/ }).getAttribute('aria-disabled')).toBe('true');
  const told = await page.locator('.handle-told').boundingBox();
  expect(Math.hypot((told?.x ?? 0) + (told?.width ?? 0) - x, (told?.y ?? 0) + (told?.height ?? 0) - y)).toBeLessThan(60);
  await one.preview.picture('handles-stays');
  await closed(one);
});

it('leaves a click on a handle to the ruler', async () => {
  const one = await desk();
  const { page } = one.preview;
  await page.mouse.click(...(await middle(one, /^Point 1 of/)));
  await page.mouse.click(...(await middle(one, /^Mark “clasp”/)));
  expect(await page.locator('.focus-apart').textContent()).toBe('5 in apart: 4 in across, 3 in up');
  await closed(one);
});

it('lets go of what is gone by then, and says so', async () => {
  const one = await desk();
  const { page } = one.preview;
  await page.getByRole('button', { name: /^Mark/ }).focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowLeft');
  const [asked] = (await one.preview.sent()).filter((message) => message.type === 'move');
  await one.preview.post({ type: 'handle', asked: asked?.asked ?? 0, at: null, says: 'It is not there any more.', isWritten: false });
  expect(await page.locator('.handle-told').innerText()).toContain('It is not there any more.');
  expect(await page.locator('.handle-ghost').isVisible()).toBe(false);
  // Once the text is another, what was held is let go.
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowLeft');
  await one.preview.show(new Draft().data(spec.replace('clasp at 4', 'clasp at 5'), {}, { handled: 'front' }));
  expect(await page.locator('.held').count()).toBe(0);
  await closed(one);
});

it.each(['light', 'dark', 'high-contrast', 'high-contrast-light'] as const)('is drawn in %s', async (theme) => {
  const one = await desk({ theme });
  await one.preview.page.getByRole('button', { name: /^Mark/ }).focus();
  await one.preview.page.keyboard.press('Enter');
  await one.preview.page.keyboard.press('Shift+ArrowRight');
  await one.answer();
  await one.preview.picture(`handles-${theme}`);
  await closed(one);
});
