/**
 * Measures how the board moves with many pieces: milliseconds from one frame to the next while it is dragged and while a
 * wheel zooms it, and until its first picture. Beside it, the same is done to a page of the same engine on which a plain
 * block of the same size is scrolled: no drawing can be quicker than that. The browser has no screen and no graphics card.
 *
 * Run: node test/bench/run.mjs board [PIECES …]
 */
import * as esbuild from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { Draft, manyPieces } from '../preview/specs.ts';
import { atShare } from './share.ts';

const root = process.cwd();
const counts = process.argv.slice(2).map(Number).filter((count) => count > 0);
const frames = 90;
const bundle = async (entry: string): Promise<string> =>
  (await esbuild.build({ absWorkingDir: root, entryPoints: [entry], bundle: true, minify: true, write: false, platform: 'browser', target: 'es2022', format: entry.endsWith('.ts') ? 'iife' : 'esm' })).outputFiles[0]?.text ?? '';
const [script, style] = [await bundle('client/preview/main.ts'), await bundle('client/preview/preview.css')];

async function boardPage(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1000, height: 800 } });
  await page.setContent('<html lang="en"><body data-uri="draft.piece"><main id="preview"></main></body></html>');
  await page.addStyleTag({ content: style });
  await page.evaluate(() => {
    Object.assign(window, { acquireVsCodeApi: () => ({ postMessage: () => undefined, getState: () => undefined, setState: () => undefined }) });
  });
  await page.addScriptTag({ content: script });
  return page;
}

/** Milliseconds between frames while `act` goes on, as the page sees them; one act a frame. */
async function intervals(page: Page, selector: string, kind: 'drag' | 'wheel'): Promise<readonly number[]> {
  return page.evaluate(async ({ selector, kind, frames }) => {
    const field = document.querySelector<HTMLElement>(selector);
    if (field === null) throw new Error(`There is no ${selector}.`);
    const box = field.getBoundingClientRect();
    const at = (x: number, y: number, more: object): object => ({ clientX: box.left + box.width / 2 + x, clientY: box.top + box.height / 2 + y, bubbles: true, cancelable: true, pointerId: 1, button: 0, buttons: 1, ...more });
    field.setPointerCapture = () => undefined;
    const frame = (): Promise<number> => new Promise((resolve) => requestAnimationFrame(resolve));
    if (kind === 'drag') field.dispatchEvent(new PointerEvent('pointerdown', at(0, 0, {})));
    let before = await frame();
    const all: number[] = [];
    for (let count = 0; count < frames; count++) {
      const turn = (count / frames) * 2 * Math.PI;
      if (kind === 'drag') field.dispatchEvent(new PointerEvent('pointermove', at(Math.sin(turn) * 300, (Math.cos(turn) - 1) * 200, {})));
      else field.dispatchEvent(new WheelEvent('wheel', at(0, 0, { deltaY: count < frames / 2 ? -20 : 20 })));
      const now = await frame();
      all.push(now - before);
      before = now;
    }
    if (kind === 'drag') field.dispatchEvent(new PointerEvent('pointerup', at(0, 0, {})));
    return all;
  }, { selector, kind, frames });
}

const tell = (words: string, values: readonly number[]): void => console.log(`  ${words.padEnd(34)} p50 ${atShare(values, 0.5)}   p95 ${atShare(values, 0.95)}   max ${atShare(values, 1)}`);

const browser = await openBrowser();
for (const count of counts.length === 0 ? [30, 200, 1000] : counts) {
  const data = new Draft().data(manyPieces(count));
  const page = await boardPage(browser);
  const first = await page.evaluate(async (text) => {
    const start = performance.now();
    window.dispatchEvent(new MessageEvent('message', { data: { type: 'show', version: 1, uri: 'draft.piece', update: { serial: 1, data: text } } }));
    await new Promise((resolve) => requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = resolve;
      port2.postMessage(null);
    }));
    return performance.now() - start;
  }, JSON.stringify(data));
  await page.waitForTimeout(1500);
  console.log(`\n${count} pieces, milliseconds`);
  console.log(`  first picture ${first.toFixed(0)}`);
  tell('a wheel zooms, all in sight', await intervals(page, '.plane', 'wheel'));
  await page.waitForTimeout(1000);
  for (const _ of [0, 1, 2]) await page.locator('#view-board').getByRole('button', { name: 'Larger' }).click();
  await page.waitForTimeout(1000);
  tell('dragged, twice as large', await intervals(page, '.plane', 'drag'));
  for (const _ of [0, 1, 2, 3, 4]) await page.locator('#view-board').getByRole('button', { name: 'Larger' }).click();
  await page.waitForTimeout(1000);
  tell('dragged, six times as large', await intervals(page, '.plane', 'drag'));
  await page.close();
}
const empty = await browser.newPage({ viewport: { width: 1000, height: 800 } });
await empty.setContent('<style>.plane{width:1000px;height:600px;overflow:auto}.plane div{width:4000px;height:4000px;background:linear-gradient(45deg,#fff,#ccc)}</style><div class="plane"><div></div></div>');
await empty.evaluate(() => {
  const field = document.querySelector('.plane');
  let from = { x: 0, y: 0, left: 0, top: 0 };
  field?.addEventListener('pointerdown', (event) => (from = { x: (event as PointerEvent).clientX, y: (event as PointerEvent).clientY, left: 1000, top: 1000 }));
  field?.addEventListener('pointermove', (event) => field.scrollTo(from.left - (event as PointerEvent).clientX + from.x, from.top - (event as PointerEvent).clientY + from.y));
});
console.log('\nA page with one plain block');
tell('dragged', await intervals(empty, '.plane', 'drag'));
await browser.close();
