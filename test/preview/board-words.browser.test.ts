import { readdirSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser, Page } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { apron, Draft } from './specs.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

const folder = new URL('../../samples/', import.meta.url);
const samples = readdirSync(folder).filter((name) => name.endsWith('.piece')).map((name) => [name, readFileSync(new URL(name, folder), 'utf8')] as const);

async function opened(text: string, width: number): Promise<Page> {
  const { page, show } = await openPreview(browser, { width, height: 700, state: { uri: 'draft.piece', view: 'board' } });
  await show(new Draft().data(text));
  return page;
}

/** What stands in each piece or beside it, below its name. */
const details = (page: Page): Promise<Readonly<Record<string, string>>> =>
  page.locator('.on-board').evaluateAll((all) => Object.fromEntries(all.map((one) => [one.getAttribute('data-piece') ?? '', (one.querySelector('.details')?.textContent ?? '').replaceAll('\u00a0', ' ')])));

it.each(samples)('no word of a piece lies over the arrow along its grain: %s', async (_, text) => {
  for (const width of [400, 640, 1100]) {
    const page = await opened(text, width);
    const { found, seen } = await page.locator('.on-board').evaluateAll((all) => {
      const places = all.flatMap((one) => [...one.querySelectorAll('path.part.grain:not(.sign)')].flatMap((line) => {
        const name = one.querySelector('.name');
        const matrix = (line as SVGPathElement).getScreenCTM();
        if (name === null || matrix === null || line.getClientRects().length === 0 || getComputedStyle(name).clipPath !== 'none') return [];
        const points = Array.from({ length: 51 }, (__, at) => (line as SVGPathElement).getPointAtLength(((line as SVGPathElement).getTotalLength() * at) / 50).matrixTransform(matrix));
        return [...name.querySelectorAll('span:not(.unseen)')].map((words) => {
          const box = words.getBoundingClientRect();
          return { words: words.textContent, isCrossed: points.some(({ x, y }) => x > box.left + 1 && x < box.right - 1 && y > box.top + 1 && y < box.bottom - 1) };
        });
      }));
      return { found: places.filter(({ isCrossed }) => isCrossed).map(({ words }) => words), seen: places.length };
    });
    expect(found, String(width)).toEqual([]);
    expect(seen).toBeGreaterThan(0);
    await page.context().close();
  }
});

it('a size is told as the finished one in every piece, and of one that is sewn folded, that it is unfolded or how large it is then', async () => {
  for (const [, text] of samples) {
    const page = await opened(text, 1100);
    const told = Object.values(await details(page)).filter((words) => words !== '');
    expect(told.filter((words) => !/^(cut \d+( in all| from \d materials)?(,? (some )?on the fold)?, )?finished (circle, )?\d/.test(words))).toEqual([]);
    await page.context().close();
  }
  const page = await opened(apron, 1100);
  expect((await details(page))['tie']).toBe('cut 2, finished 2 in × 26 in, folded 1 in × 26 in');
  await page.context().close();
});

it('says how many are cut, of how many materials, and which of them on the fold', async () => {
  const page = await opened('pattern "Counted"\nunit cm\nrevision 1\nallowance 1\nuse "studio/materials.piece"\npiece a "One" {\n  outline rectangle 30 by 20\n  line core = rectangle 10 by 10 at 5, 5\n  on fold left\n  cut 2 canvas on fold\n  cut 1 poplin along core\n  cut 3 canvas on fold\n  cut 4 felt\n}\npiece b "Two" {\n  outline rectangle 30 by 20\n  cut 2 canvas\n  cut 1 canvas\n}\n', 1100);
  const told = await details(page);
  expect(told['a']).toMatch(/^cut 10 from 3 materials, some on the fold, finished /);
  expect(told['b']).toMatch(/^cut 3, finished /);
  await page.context().close();
});

it('a piece that is drawn as half says that it is cut on the fold: on the board, in what is said of it to a pointer, and by itself', async () => {
  const page = await opened(apron, 1100);
  expect((await details(page))['skirt']).toMatch(/^cut 1 on the fold, finished 21 1\/2 in × 27 3\/4 in$/);
  expect((await details(page))['pocket']).toMatch(/^cut 1, /);
  await page.locator('[data-piece="skirt"] .name').focus();
  await expect.poll(() => page.getByRole('tooltip').innerText()).toMatch(/1 × Cotton canvas, on the fold/);
  await page.getByRole('button', { name: 'Focus' }).press('Enter');
  expect(await page.locator('.focus h2').innerText()).toBe('Skirt, on the fold · finished 21 1/2 in × 27 3/4 in');
  await page.context().close();
});

it('what stands above and below the board says of what it is', async () => {
  const page = await opened(apron, 400);
  expect(await page.locator('header .muted').innerText()).toMatch(/^revision \d+ · checked: no problems$/);
  expect(await page.getByRole('group', { name: /^Order of work/ }).innerText()).toMatch(/Order of work: \d+ steps$/);
  await page.getByRole('button', { name: 'Next step' }).press('Enter');
  expect(await page.getByRole('group', { name: /^Order of work/ }).innerText()).toMatch(/Step 1 of \d+: /);
  expect(await page.getByLabel('Also draw').locator('option').allInnerTexts()).toEqual(['nothing', 'all sizes', 'every Bib']);
  await page.context().close();
});

it('the name of a piece covers none of its lines that are lit', async () => {
  let seen = 0;
  for (const [, text] of samples) {
    const { page, show, post } = await openPreview(browser, { width: 660, height: 700, state: { uri: 'draft.piece', view: 'board' } });
    await show(new Draft().data(text));
    for (const { 1: value = '', index } of text.matchAll(/^(?:length|count|angle|ratio) (\w+) = /gm)) {
      await post({ type: 'cursor', file: 'draft.piece', offset: index + 1 });
      const { lines, covered } = await page.locator('.on-board.lit:not(.tiny)').evaluateAll((all) => {
        const lit = all.flatMap((one) => [...one.querySelectorAll<SVGPathElement>('.whole.lit path.part:not(.sign)')].map((line) => ({ one, line })));
        const under = lit.filter(({ one, line }) => {
          const name = one.querySelector('.name');
          const matrix = line.getScreenCTM();
          if (name === null || matrix === null || getComputedStyle(name).backgroundColor === 'rgba(0, 0, 0, 0)') return false;
          const box = name.getBoundingClientRect();
          return Array.from({ length: 51 }, (__, at) => line.getPointAtLength((line.getTotalLength() * at) / 50).matrixTransform(matrix)).some(({ x, y }) => x > box.left && x < box.right && y > box.top && y < box.bottom);
        });
        return { lines: lit.length, covered: under.map(({ one }) => one.getAttribute('data-piece')) };
      });
      seen += lines;
      expect({ value, covered }).toEqual({ value, covered: [] });
    }
    await page.context().close();
  }
  expect(seen).toBeGreaterThan(30);
});
