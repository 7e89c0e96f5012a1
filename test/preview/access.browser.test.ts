import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { afterAll, beforeAll, expect, it } from 'vitest';
import type { Browser } from 'playwright-core';
import { openBrowser } from '../editor/driver/browser.ts';
import { openPreview } from './page.ts';
import { Draft, wallet, laysTold, shapes } from './specs.ts';
import type { ThemeName } from './themes.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

let browser: Browser;
beforeAll(async () => {
  browser = await openBrowser();
});
afterAll(() => browser.close());

interface AxeRun {
  readonly violations: readonly { readonly id: string; readonly impact: string; readonly nodes: readonly { readonly html: string; readonly failureSummary?: string }[] }[];
}

const all: readonly ThemeName[] = ['light', 'dark', 'high-contrast', 'high-contrast-light'];

it.each(all)('has no fault that a checker for accessibility finds, in %s', async (theme) => {
  const preview = await openPreview(browser, { theme });
  const draft = new Draft();
  await preview.show(draft.data(wallet));
  await preview.show(draft.data(wallet.replace('rectangle edging_w', 'rectangle edging_x')), 2);
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: wallet.indexOf('line low') });
  await preview.lays(laysTold(wallet, { widths: '60 in, nonsense' })[0]);
  await preview.page.locator('summary').first().click();
  await preview.page.evaluate(axe);
  for (const tab of ['Board', 'Pieces', 'Cutting table', 'To buy', 'Layouts']) {
    await preview.page.getByRole('tab', { name: tab }).click();
    if (tab === 'Board') await preview.page.getByRole('button', { name: 'Focus' }).click();
    if (tab === 'Layouts') await preview.page.getByText('Where each piece lies').first().click();
    const { violations } = (await preview.page.evaluate(() => (window as unknown as { axe: { run: () => Promise<unknown> } }).axe.run())) as AxeRun;
    expect(violations.map(({ id, impact, nodes }) => ({ id, impact, nodes: nodes.map((node) => `${node.html.slice(0, 120)} ${node.failureSummary ?? ''}`) }))).toEqual([]);
  }
  await preview.page.context().close();
});

it.each(all)('has no violation with handles, layers, another option beside and a check that fails, in %s', async (theme) => {
  const text = `${wallet}\ncheck wrap.top matches wrap.left\n`;
  const preview = await openPreview(browser, { theme, width: 1100, state: { uri: 'draft.piece', view: 'board', focus: true, selected: 'wrap' } });
  await preview.show(new Draft().data(text, {}, { handled: 'wrap', beside: 'trim' }));
  await preview.page.getByRole('button', { name: 'Layers' }).click();
  await preview.page.getByRole('button', { name: /^Lower left of “Place of the label”/ }).focus();
  await preview.page.keyboard.press('Enter');
  await preview.post({ type: 'cursor', file: 'draft.piece', offset: text.length - 5 });
  for (const shown of ['.focus .layer', '.handle.held', '.nested-words', '.compared']) expect(await preview.page.locator(shown).count(), shown).toBeGreaterThan(0);
  await preview.page.evaluate(axe);
  const { violations } = (await preview.page.evaluate(() => (window as unknown as { axe: { run: () => Promise<unknown> } }).axe.run())) as AxeRun;
  expect(violations.map(({ id, nodes }) => ({ id, nodes: nodes.map((node) => `${node.html.slice(0, 120)} ${node.failureSummary ?? ''}`) }))).toEqual([]);
  await preview.picture(`board-all-${theme}`);
  await preview.page.context().close();
});

it('says in words what each drawing shows', async () => {
  const preview = await openPreview(browser);
  await preview.show(new Draft().data(shapes));
  const drawing = preview.page.getByRole('img', { name: 'Drawing of Half gusset' });
  expect(await drawing.getAttribute('aria-label')).toBe('Drawing of Half gusset; half on the fold along centre; edges side1, side2, side3, centre; placement line pocket; mark eyelet; 1 notch; grain up');
  await preview.page.context().close();
});

it('says in words what each layout shows, and where each piece lies', async () => {
  const preview = await openPreview(browser);
  await preview.show(new Draft().data(wallet));
  await preview.lays(laysTold(wallet).at(-1));
  await preview.page.getByRole('tab', { name: 'Layouts' }).press('Enter');
  const drawing = preview.page.getByRole('img', { name: 'Cotton canvas, Lay: open, in one layer' });
  expect(await drawing.getAttribute('aria-label')).toMatch(/; 3 pieces, 6 1\/2 in laid; left over /);
  // By keys alone: open the list, go to the first piece, and to its line in the text.
  await preview.page.locator('summary', { hasText: 'Where each piece lies' }).first().press('Enter');
  await preview.sent();
  await preview.page.getByRole('button', { name: '1 Wrap, at 0 in along and' }).press('Enter');
  const [message] = await preview.sent();
  expect(message?.type === 'reveal' && wallet.slice(message.start, message.end)).toMatch(/^cut 1 canvas/);
  await preview.page.context().close();
});

it('keeps lines and words apart from the ground in a theme whose colours are hard to see', async () => {
  const preview = await openPreview(browser, { state: { uri: 'draft.piece', view: 'board' } });
  await preview.show(new Draft().data(shapes));
  const ratios = (): Promise<readonly (readonly [string, number])[]> => preview.page.evaluate(() => {
    const luminance = (text: string): number => {
      const [r = 0, g = 0, b = 0] = (text.match(/[\d.]+/g) ?? []).map(Number).map((value) => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ground = luminance(getComputedStyle(document.body).backgroundColor);
    return ['stitching', 'fold', 'line', 'placement', 'foldline', 'window', 'grain', 'mark'].flatMap((kind) => {
      const one = document.querySelector(`#view-board .whole .part.${kind}:not(.twin)`);
      if (one === null) return [];
      const line = luminance(getComputedStyle(one).stroke);
      return [[kind, (Math.max(line, ground) + 0.05) / (Math.min(line, ground) + 0.05)] as const];
    });
  });
  // Pale on white, then dark on black, as it changes while the page is open.
  for (const [ground, ink, pale] of [['#ffffff', '#333333', '#e0e0c0'], ['#001020', '#e0e0e0', '#102040']] as const) {
    await preview.page.evaluate(([ground, ink, pale]) => {
      const { style } = document.documentElement;
      style.setProperty('--vscode-editor-background', ground ?? '');
      style.setProperty('--vscode-editor-foreground', ink ?? '');
      for (const name of ['descriptionForeground', 'editorWarning-foreground', 'textLink-foreground', 'focusBorder', ...['blue', 'purple', 'green', 'red'].map((one) => `charts-${one}`)]) style.setProperty(`--vscode-${name}`, pale ?? '');
    }, [ground, ink, pale]);
    await expect.poll(async () => Math.min(...(await ratios()).map(([, ratio]) => ratio))).toBeGreaterThanOrEqual(2.99);
    expect((await ratios()).length).toBeGreaterThan(6);
  }
  expect(preview.complaints).toEqual([]);
  await preview.page.context().close();
});
