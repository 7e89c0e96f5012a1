import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview, type PreviewPage } from './page.ts';
import { comparePictures } from './pixels.ts';
import { Draft, laysTold, shapes } from './specs.ts';
import type { ThemeName } from './themes.ts';

// Every view in every kind of theme against a picture that a person has looked at. Machines have other fonts and draw the
// edges of letters in other ways: so the letters are brought along, and pictures are compared at a third of their size.
// UPDATE_EXPECTED=1 renews the pictures, to be looked at.

const folder = fileURLToPath(new URL('../expected/preview/', import.meta.url));
const screenshots = fileURLToPath(new URL('../../build/screenshots/', import.meta.url));
const isRenewed = process.env['UPDATE_EXPECTED'] === '1';
/** The share of places that may be of another colour. Letters set in another way made 0.008 of them; the faults below make more than twice as many. */
const tolerated = 0.01;

const letters = createRequire(import.meta.url).resolve('@fontsource/source-sans-3/package.json').replace(/package\.json$/, 'files/source-sans-3-latin-');
const faces = [400, 600].map((weight) => ({ weight: String(weight), bytes: [...readFileSync(`${letters}${weight}-normal.woff2`)] }));

let browser: Browser;
let desk: Page;
beforeAll(async () => {
  // However a machine is set up to draw letters.
  browser = await openBrowser(['--font-render-hinting=none', '--disable-font-subpixel-positioning', '--disable-lcd-text', '--force-color-profile=srgb', '--force-device-scale-factor=1']);
  desk = await browser.newPage();
});
afterAll(() => browser.close());

const views = { board: 'Board', pieces: 'Pieces', table: 'Cutting table', buying: 'To buy', layouts: 'Layouts' } as const;
const themes: readonly ThemeName[] = ['light', 'dark', 'high-contrast', 'high-contrast-light'];
const lays = laysTold(shapes).at(-1);

async function opened(theme: ThemeName): Promise<PreviewPage> {
  const preview = await openPreview(browser, { theme, width: 900, height: 720, state: { uri: 'draft.piece', view: 'board', focus: true, selected: 'gusset' } });
  await preview.page.evaluate(async (all) => {
    for (const { weight, bytes } of all) {
      const face = new FontFace('Shipped', new Uint8Array(bytes), { weight });
      document.fonts.add(await face.load());
    }
    document.documentElement.style.setProperty('--vscode-font-family', 'Shipped');
  }, faces);
  await preview.show(new Draft().data(shapes, {}, { handled: 'gusset' }));
  await preview.lays(lays);
  return preview;
}

async function shot(preview: PreviewPage, view: keyof typeof views): Promise<Uint8Array> {
  await preview.page.getByRole('tab', { name: views[view] }).click();
  await preview.page.mouse.move(0, 0);
  // What comes into sight is drawn a frame later.
  await preview.page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 300)));
  return preview.page.screenshot();
}

it.each(themes)('looks as it did when it was looked at, in %s', async (theme) => {
  const preview = await opened(theme);
  for (const view of Object.keys(views) as (keyof typeof views)[]) {
    const path = `${folder}${view}-${theme}.png`;
    const { picture, off } = await comparePictures(desk, await shot(preview, view), !isRenewed && existsSync(path) ? readFileSync(path) : undefined);
    mkdirSync(screenshots, { recursive: true });
    writeFileSync(isRenewed ? path : `${screenshots}reference-${view}-${theme}.png`, picture);
    if (!isRenewed) expect(off ?? 1, `${view} in ${theme}: see build/screenshots/reference-${view}-${theme}.png`).toBeLessThan(tolerated);
  }
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
});

it.each([
  ['lines that nobody sees', 'board', '.part { opacity: 0; }'],
  ['lines that nobody sees', 'pieces', '.part { opacity: 0; }'],
  ['a board of nothing', 'board', '.on-board { visibility: hidden; }'],
  ['pieces all alike', 'board', '.ground { display: none; }'],
  ['a table without its rows', 'table', 'tbody tr { visibility: hidden; }'],
  ['lays without pieces', 'layouts', '.lay svg { visibility: hidden; }'],
] as const)('would notice %s, %s', async (_, view, fault) => {
  const preview = await opened('light');
  await preview.page.evaluate((text) => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(text.replace(';', ' !important;'));
    document.adoptedStyleSheets = [sheet];
  }, fault);
  const { off } = await comparePictures(desk, await shot(preview, view), readFileSync(`${folder}${view}-light.png`));
  expect(off).toBeGreaterThan(2 * tolerated);
  await preview.page.context().close();
});
