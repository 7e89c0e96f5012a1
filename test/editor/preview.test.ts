import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import type { Locator } from 'playwright-core';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';
import { placeOf } from './driver/place.ts';
import { workspace } from './setup.ts';

const sample = (file: string): string => readFileSync(path.join(workspace, file), 'utf8');
const wallet = 'orchard-wallet.piece';
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

inEachHost('the preview', (workbench, kind) => {
  const frame = (): ReturnType<ReturnType<typeof workbench>['previewFrame']> => workbench().previewFrame();
  const card = (name: string): Locator => frame().locator(`.card[data-piece="${name}"]`);
  const tab = (name: string): Locator => frame().getByRole('tab', { name });
  const figure = (name: string, what: string): Locator => card(name).getByRole('button', { name: what });

  it('opens from the title bar beside the text', async () => {
    await workbench().openFile(wallet);
    await workbench().titleButton('Open Preview');
    await frame().locator('.on-board[data-piece="packet_pocket"] .drawing .part').first().waitFor({ state: 'attached' });
    expect(await tab('Board').getAttribute('aria-selected')).toBe('true');
    await workbench().screenshot(`preview-board-${kind}`);
    await workbench().showPieces();
    await card('packet_pocket').locator('.drawing .part').first().waitFor({ state: 'attached' });
    expect(await frame().locator('.card').count()).toBe(sample(wallet).match(/^piece /gm)?.length);
    expect(await workbench().previewProblems()).toEqual([]);
    await workbench().screenshot(`preview-dark-${kind}`);
  });

  it('lights the piece at the cursor', async () => {
    await workbench().goTo(...placeOf(sample(wallet), 'window v|iew'));
    await expect.poll(() => frame().locator('.card.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')))).toEqual(['label_frame']);
  });

  it('leads from a name, a number and a drawn line to the text', async () => {
    const lands = async (on: string): Promise<void> => {
      const [line] = placeOf(sample(wallet), on);
      await expect.poll(() => workbench().cursor()).toContain(`Ln ${line},`);
    };
    await card('edging').getByRole('button', { name: 'Edging strip', exact: true }).click();
    await lands('piece edging');
    await figure('wrap', 'Cut width').click();
    await lands('outline rectangle wrap_w');
    const line = card('wrap').locator('.whole:has(.part.foldline)').first();
    const at = await line.evaluate((group) => {
      const own = group.querySelector('.part:not(.twin)') as SVGPathElement;
      const point = own.getPointAtLength(own.getTotalLength() * 0.3).matrixTransform(own.getScreenCTM() ?? undefined);
      const box = own.ownerSVGElement?.getBoundingClientRect() ?? new DOMRect();
      return { x: point.x - box.left, y: point.y - box.top };
    });
    await card('wrap').locator('svg').click({ position: at });
    await lands('foldline last_fold');
  });

  it('draws and lists another choice, and another size', async () => {
    expect(await card('leaf').locator('.cuts').innerText()).toContain('Cotton canvas');
    await frame().getByLabel('Edging', { exact: true }).selectOption('felt');
    await expect.poll(() => card('leaf').locator('.cuts').innerText()).toBe('1 × Wool felt');
    await tab('Cutting table').click();
    expect(await frame().locator('#view-table').innerText()).toContain('Wool felt');
    await tab('Pieces').click();
    await frame().getByLabel('Edging', { exact: true }).selectOption('bias');
    await expect.poll(() => card('leaf').locator('.cuts').innerText()).toContain('Cotton canvas');
  });

  it('keeps the last good drawing, marked, while a piece is broken', async () => {
    const [line, column] = placeOf(sample(wallet), '|wrap_w by wallet_h');
    await workbench().focusText();
    const drawn = await card('wrap').locator('.drawing .part.cutting').first().getAttribute('d');
    await workbench().replaceAt(line, column, 'wrap_w'.length, '*');
    await card('wrap').locator('.flag', { hasText: 'before your last edits' }).waitFor();
    expect(await card('wrap').getAttribute('class')).toContain('stale');
    expect(await card('wrap').locator('.drawing .part.cutting').first().getAttribute('d')).toBe(drawn);
    await workbench().screenshot(`preview-broken-${kind}`);
    await workbench().runCommand('File: Revert File');
    await expect.poll(() => card('wrap').getAttribute('class')).not.toContain('stale');
  });

  it('follows a change of the text at once', async () => {
    const [line, column] = placeOf(sample(wallet), 'panel_w = |4 1/2');
    await figure('wrap', 'Cut width 15 in').waitFor();
    await workbench().replaceAt(line, column, 1, '5');
    await figure('wrap', 'Cut width 18 in').waitFor();
    await workbench().runCommand('File: Revert File');
    await figure('wrap', 'Cut width 15 in').waitFor();
  });

  it('lights on the board what hangs on a value, and shows what an edit of it did until that is saved or taken back', async () => {
    await tab('Board').click();
    await workbench().focusText();
    const [line, column] = placeOf(sample(wallet), 'panel_w = |4 1/2');
    await workbench().goTo(line, column);
    const lit = (): Promise<readonly (string | null)[]> => frame().locator('.on-board.lit').evaluateAll((all) => all.map((one) => one.getAttribute('data-piece')));
    await expect.poll(lit).toEqual(expect.arrayContaining(['wrap', 'inside']));
    expect(await frame().locator('.about').innerText()).toMatch(/^panel_w = 4 1\/2 in · /);
    expect(await frame().locator('.since').isVisible()).toBe(false);
    await workbench().replaceAt(line, column, 1, '5');
    const was = frame().locator('.on-board[data-piece="wrap"] .was');
    await was.waitFor();
    expect(await was.innerText()).toContain('Cut width 18 in, was 15 in');
    expect(await frame().locator('.on-board[data-piece="wrap"] .ghost').count()).toBe(1);
    await workbench().screenshot(`preview-ghost-${kind}`);
    await workbench().runCommand('File: Revert File');
    await was.waitFor({ state: 'detached' });
    expect(await frame().locator('.ghost').count()).toBe(0);
    // Once it is saved that is what the next edit is held against.
    for (const [digit, back] of [['5', '4'], ['4', '5']] as const) {
      await workbench().replaceAt(line, column, 1, digit);
      await was.waitFor();
      expect(await was.innerText()).toContain(back === '4' ? 'Cut width 18 in, was 15 in' : 'Cut width 15 in, was 18 in');
      await workbench().save();
      await was.waitFor({ state: 'detached' });
    }
    await workbench().showPieces();
  });

  it('is without fault for a checker of accessibility, in every kind of theme', async () => {
    for (const [theme, name] of [['Light Modern', 'light'], ['Dark High Contrast', 'high-contrast'], ['Light High Contrast', 'high-contrast-light'], ['Dark Modern', 'dark']] as const) {
      await workbench().theme(theme);
      const kinds = { light: 'vscode-light', dark: 'vscode-dark', 'high-contrast': 'vscode-high-contrast', 'high-contrast-light': 'vscode-high-contrast-light' };
      await frame().locator(`body.${kinds[name]}`).waitFor();
      await workbench().screenshot(`preview-${name}-${kind}`);
      await frame().locator('html').evaluate(axe);
      const found = await frame().locator('html').evaluate(async () => {
        const { violations } = await (window as unknown as { axe: { run: () => Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }> } }).axe.run();
        return violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').map(({ id, nodes }) => [id, ...nodes.map(({ html }) => html.slice(0, 120))]);
      });
      expect(found, theme).toEqual([]);
    }
  });

  // The themes are the same files in both, and the page is.
  it.skipIf(kind === 'web')('keeps every kind of line and word apart from its ground in every theme that the editor brings', async () => {
    await tab('Board').click();
    await workbench().focusText();
    const faults: string[] = [];
    for (const theme of ['Light+', 'Dark+', 'Light (Visual Studio)', 'Dark (Visual Studio)', 'Abyss', 'Kimbie Dark', 'Monokai', 'Monokai Dimmed', 'Quiet Light', 'Red', 'Solarized Dark', 'Solarized Light', 'Tomorrow Night Blue', 'Dark Modern']) {
      await workbench().theme(theme);
      await frame().locator('html').evaluate(() => new Promise((resolve) => setTimeout(resolve, 300)));
      await frame().locator('html').evaluate(axe);
      const found = await frame().locator('html').evaluate(async () => {
        const luminance = (text: string): number => {
          const [r = 0, g = 0, b = 0] = (text.match(/[\d.]+/g) ?? []).map(Number).map((value) => (value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4));
          return 0.2126 * r + 0.7152 * g + 0.0722 * b;
        };
        const ground = luminance(getComputedStyle(document.body).backgroundColor);
        const lines = [...document.querySelectorAll('#view-board .whole .part:not(.twin)')].map((one) => [one.getAttribute('class'), luminance(getComputedStyle(one).stroke)] as const)
          .filter(([, line]) => (Math.max(line, ground) + 0.05) / (Math.min(line, ground) + 0.05) < 2.99).map(([kind]) => `line ${kind ?? ''}`);
        const { violations } = await (window as unknown as { axe: { run: () => Promise<{ violations: { id: string; impact: string; nodes: { html: string }[] }[] }> } }).axe.run();
        return [...new Set([...lines, ...violations.filter(({ impact }) => impact === 'serious' || impact === 'critical').flatMap(({ id, nodes }) => nodes.map(({ html }) => `${id} ${html.slice(0, 100)}`))])];
      });
      faults.push(...found.map((fault) => `${theme}: ${fault}`));
    }
    expect(faults).toEqual([]);
    await workbench().showPieces();
  });

  it('comes back with its view, its scale and its choice', async () => {
    await frame().getByLabel('Edging', { exact: true }).selectOption('felt');
    await frame().getByRole('button', { name: 'Larger' }).click();
    await frame().getByRole('button', { name: 'Larger' }).click();
    const scale = await frame().locator('#view-pieces output').innerText();
    await tab('Cutting table').click();
    await workbench().focusText();
    await workbench().reload();
    await frame().locator('#view-table', { hasText: '7/8 in × 23 in' }).first().waitFor();
    expect(await tab('Cutting table').getAttribute('aria-selected')).toBe('true');
    expect(await frame().getByLabel('Edging', { exact: true }).inputValue()).toBe('felt');
    await workbench().screenshot(`preview-table-${kind}`);
    await tab('Pieces').click();
    expect(await frame().locator('#view-pieces output').innerText()).toBe(scale);
  });

  it('says what to buy, and how it lies, for as many as are made', async () => {
    const canvas = frame().locator('#view-buying tr', { hasText: 'Cotton canvas' }).first();
    await tab('To buy').click();
    await expect.poll(() => canvas.innerText()).toMatch(/\b1\/4 yd/);
    await frame().getByLabel('Articles').fill('12');
    await frame().getByLabel('Articles').press('Enter');
    await expect.poll(() => canvas.innerText()).not.toMatch(/\b1\/4 yd/);
    await workbench().screenshot(`preview-buying-${kind}`);
    await tab('Layouts').click();
    await frame().locator('#view-layouts svg').first().waitFor();
    await workbench().screenshot(`preview-layouts-${kind}`);
  });

  it('shows the sizes of a pattern that comes in sizes', async () => {
    await workbench().closeAll();
    await workbench().openFile('market-apron.piece');
    await workbench().titleButton('Open Preview');
    await workbench().showPieces();
    const width = async (): Promise<string> => (await figure('skirt', 'Cut width').getAttribute('aria-label')) ?? '';
    const small = await width();
    await frame().getByLabel('size', { exact: true }).selectOption('XL');
    await expect.poll(width).not.toBe(small);
  });
});
