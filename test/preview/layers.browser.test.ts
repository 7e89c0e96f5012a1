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

/** A flap that is not its own mirror image, with a stay that lies inside it and a badge on its face. */
const spec = `pattern "Layers"
unit cm
use "studio/materials.piece"
piece flap "Flap" {
  outline path from 0, 0 {
    line to 20, 0
    line to 20, 6
    arc to 10, 16 through 17, 13
    line to 0, 16
    close
  }
  line core = inset 1
  line badge = rectangle 4 by 3 at 2, 11
  mark eye at 4, 4
  cut 1 canvas
  cut 1 stay along core on wrong side
  cut 1 felt along badge on right side
}
piece plain "Plain" {
  outline rectangle 5 by 5
  cut 1 canvas
}
`;

async function opened(options: Parameters<typeof openPreview>[1] = {}): Promise<PreviewPage> {
  const preview = await openPreview(browser, { width: 1200, height: 800, state: { uri: 'draft.piece', view: 'board', focus: true }, ...options });
  await preview.show(new Draft().data(spec, {}, { handled: 'flap' }));
  return preview;
}

async function closed(preview: PreviewPage): Promise<void> {
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
}

/** A line is as wide as it is. */
const nearly = 0.012;

const share = async (preview: PreviewPage, selector: string): Promise<{ readonly left: number; readonly width: number }> => {
  const [one, whole] = [await preview.page.locator(`.focus ${selector}`).first().boundingBox(), await preview.page.locator('.focus .whole .part.cutting').evaluateAll((all) => {
    const boxes = all.map((part) => part.getBoundingClientRect());
    return { left: Math.min(...boxes.map(({ left }) => left)), right: Math.max(...boxes.map(({ right }) => right)) };
  })];
  const width = whole.right - whole.left;
  return { left: ((one?.x ?? NaN) - whole.left) / width, width: (one?.width ?? NaN) / width };
};

it('draws layers on request as they lie, what is behind dashed, and says where each is', async () => {
  const preview = await opened();
  const { page } = preview;
  expect(await page.locator('.focus .layer').count()).toBe(0);
  await page.getByRole('button', { name: 'Layers' }).click();
  expect(await page.locator('.focus .layer').evaluateAll((all) => all.map((one) => one.classList.contains('behind')))).toEqual([true, false]);
  // The stay lies 1 cm inside 20 cm, the badge 2 cm from the left.
  const stay = await share(preview, '.layer.behind');
  expect(Math.abs(stay.left - (1 / 20))).toBeLessThan(nearly);
  expect(Math.abs(stay.width - (18 / 20))).toBeLessThan(nearly);
  expect(Math.abs((await share(preview, '.layer:not(.behind)')).left - (2 / 20))).toBeLessThan(nearly);
  const [first, second] = await page.locator('.layers-told li').allInnerTexts();
  expect(first).toMatch(/^Sew-in stabiliser on the wrong side, behind, dashed: 1 cm inside every edge$/);
  expect(second).toMatch(/^Wool felt on the right side: /);
  await preview.picture('layers');
  await page.getByRole('button', { name: 'Layers' }).click();
  expect(await page.locator('.focus .layer, .layers-told').count()).toBe(0);
  // What has none has no such button.
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: spec.indexOf('piece plain') + 8 });
  expect(await page.getByRole('button', { name: 'Layers' }).count()).toBe(0);
  await closed(preview);
});

it('turns the piece over: all of it the other way round, with what is on that side in front', async () => {
  const preview = await opened();
  const { page } = preview;
  await page.getByRole('button', { name: 'Layers' }).click();
  /** Whether certain places of the outline lie in it, as the browser fills it. */
  const inside = (turn: 1 | -1): Promise<readonly boolean[]> => page.locator('.focus .layer').first().evaluate((path, sign) => {
    const places = [[2, 2], [18, 2], [2, 14], [18, 14], [10, 14.5], [17, 12]];
    return places.map(([x = 0, y = 0]) => (path as SVGGeometryElement).isPointInFill(new DOMPoint(sign * x * 10, y * 10)));
  }, turn);
  const before = await inside(1);
  expect(new Set(before).size).toBe(2);
  await page.getByRole('button', { name: 'Wrong side' }).click();
  expect(await page.locator('.focus h2').innerText()).toMatch(/^Flap, wrong side · cut and finished /);
  expect(await page.locator('.focus .drawing').getAttribute('aria-label')).toContain('seen on the wrong side');
  expect(await page.locator('.focus .layer').evaluateAll((all) => all.map((one) => one.classList.contains('behind')))).toEqual([true, false]);
  expect(await page.locator('.layers-told li').first().innerText()).toMatch(/on the wrong side: 1 cm inside every edge$/);
  const badge = await share(preview, '.layer.behind');
  expect(Math.abs(badge.left - (1 - 6 / 20))).toBeLessThan(nearly);
  expect(await page.locator('.focus .layer').nth(1).evaluate((path) => [[-2, 2], [-18, 2], [-2, 14], [-18, 14], [-10, 14.5], [-17, 12]].map(([x = 0, y = 0]) => (path as SVGGeometryElement).isPointInFill(new DOMPoint(x * 10, y * 10))))).toEqual(before);
  // A mark 4 cm from the left is that far from the right, and is told from where the spec counts.
  const eye = await share(preview, '.whole:has(.part.mark) .part');
  expect(Math.abs(eye.left + eye.width / 2 - (1 - 4 / 20))).toBeLessThan(nearly);
  await page.mouse.move(...(await page.locator('.focus .whole:has(.part.mark) .part').first().boundingBox().then((box) => [(box?.x ?? 0) + (box?.width ?? 0) / 2, (box?.y ?? 0) + (box?.height ?? 0) / 2] as const)));
  expect(await page.locator('.focus-at').innerText()).toBe('x 4 cm, y 4 cm');
  // What is on the right side shows through, dotted, and its name says so; what is cut is on both.
  const behind = (): Promise<readonly string[]> => page.locator('.focus .whole.behind').evaluateAll((all) => all.map((one) => `${one.querySelector('.part')?.getAttribute('class') ?? ''} ${getComputedStyle(one.querySelector('.part') ?? one).strokeDasharray}`));
  expect(await behind()).toEqual(['part line 1px, 4px', 'sign part mark 1px, 4px']);
  expect(await page.locator('.focus text.label').allTextContents()).toEqual(expect.arrayContaining(['core', 'badge, on the right side', 'eye, on the right side']));
  // Words are not turned, and nothing is moved from behind.
  expect(await page.locator('.focus .edge-title').allTextContents()).toEqual(expect.arrayContaining(['side1']));
  expect(await page.locator('.focus .handle').count()).toBe(0);
  await preview.picture('layers-wrong-side');
  await page.getByRole('button', { name: 'Wrong side' }).click();
  expect(await page.locator('.focus h2').innerText()).toMatch(/^Flap · cut and finished /);
  expect(await page.locator('.focus .handle').count()).toBeGreaterThan(0);
  expect(await behind()).toEqual([]);
  await closed(preview);
});

it.each(['dark', 'high-contrast', 'high-contrast-light'] as const)('draws layers in %s', async (theme) => {
  const preview = await opened({ theme });
  await preview.page.getByRole('button', { name: 'Layers' }).click();
  await preview.page.getByRole('button', { name: 'Wrong side' }).click();
  await preview.picture(`layers-${theme}`);
  await closed(preview);
});
