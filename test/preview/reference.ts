import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { Frame, Page } from 'playwright-core';
import { comparePictures } from './pixels.ts';

// Pictures that a person has looked at, and how what is seen now is held against them. Machines have other fonts and draw
// the edges of letters in other ways: so the letters are brought along, and pictures are compared at a third of their size.

const folder = fileURLToPath(new URL('../expected/preview/', import.meta.url));
const screenshots = fileURLToPath(new URL('../../build/screenshots/', import.meta.url));
const isRenewed = process.env['UPDATE_EXPECTED'] === '1';

/** The share of places that may be of another colour. Letters set in another way made 0.008 of them; the faults below make more than twice as many. */
export const tolerated = 0.01;

/** How large the page is in the pictures, CSS pixels. */
export const pictured = { width: 900, height: 720 };

/** Has a browser draw alike, however its machine is set up to draw letters. */
export const alike = ['--font-render-hinting=none', '--disable-font-subpixel-positioning', '--disable-lcd-text', '--force-color-profile=srgb', '--force-device-scale-factor=1'];

export const views = { board: 'Board', pieces: 'Pieces', table: 'Cutting table', buying: 'To buy', layouts: 'Layouts' } as const;
export type ViewName = keyof typeof views;
export const viewNames = Object.keys(views) as readonly ViewName[];

/** One-line faults of the style, each with a view in which anyone would see it. */
export const faults = [
  ['lines that nobody sees', 'board', '.part { opacity: 0; }'],
  ['lines that nobody sees', 'pieces', '.part { opacity: 0; }'],
  ['a board of nothing', 'board', '.on-board { visibility: hidden; }'],
  ['pieces all alike', 'board', '.ground { display: none; }'],
  ['a table without its rows', 'table', 'tbody tr { visibility: hidden; }'],
  ['lays without pieces', 'layouts', '.lay svg { visibility: hidden; }'],
] as const;

const letters = createRequire(import.meta.url).resolve('@fontsource/source-sans-3/package.json').replace(/package\.json$/, 'files/source-sans-3-latin-');
const faces = [400, 600].map((weight) => ({ weight: String(weight), bytes: [...readFileSync(`${letters}${weight}-normal.woff2`)] }));

/** Has a page write in the letters of the product. */
export async function bringLetters(page: Page | Frame): Promise<void> {
  await page.evaluate(async (all) => {
    for (const { weight, bytes } of all) {
      const face = new FontFace('Shipped', new Uint8Array(bytes), { weight });
      document.fonts.add(await face.load());
    }
  }, faces);
}

/** Lays a style over that of a page, in place of the one that was; none without one. */
export const overlay = (page: Page | Frame, style: string): Promise<void> => page.evaluate((text) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(text.replaceAll(';', ' !important;'));
  document.adoptedStyleSheets = [sheet];
}, style);

/** Goes to a view; what comes into sight there is drawn a frame later. */
export async function turnTo(page: Page | Frame, view: ViewName): Promise<void> {
  await page.getByRole('tab', { name: views[view] }).click();
  await page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 300)));
}

/**
 * The share of places that are of another colour than in a kept picture, 1 without one. UPDATE_EXPECTED=1 renews the
 * picture, to be looked at.
 *
 * @param desk a page that has no part in it
 * @param kept the picture's name
 * @param seen the name under which what is seen now is left to be looked at; under another name it renews no picture
 */
export async function offFrom(desk: Page, shot: Uint8Array, kept: string, seen = kept): Promise<number> {
  const path = `${folder}${kept}.png`;
  const renews = isRenewed && seen === kept;
  const { picture, off } = await comparePictures(desk, shot, !renews && existsSync(path) ? readFileSync(path) : undefined);
  mkdirSync(screenshots, { recursive: true });
  writeFileSync(renews ? path : `${screenshots}reference-${seen}.png`, picture);
  return renews ? 0 : (off ?? 1);
}
