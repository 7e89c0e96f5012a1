import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Locator } from 'playwright-core';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';
import { placeOf } from './driver/place.ts';
import { workspace } from './setup.ts';

const wallet = 'orchard-wallet.piece';
const text = readFileSync(path.join(workspace, wallet), 'utf8');
const box = (name: string): string => `piece ${name} {\n  outline rectangle 4 by 3\n}\n`;

inEachHost('a preview through thick and thin', (workbench, kind) => {
  const frame = (): ReturnType<ReturnType<typeof workbench>['previewFrame']> => workbench().previewFrame();
  const card = (name: string): Locator => frame().locator(`.card[data-piece="${name}"]`);

  it('goes on with a pattern that is renamed', async () => {
    await workbench().openFile('first.piece');
    await workbench().titleButton('Open Preview');
    await workbench().showPieces();
    await frame().locator('.card').first().waitFor();
    await workbench().renameFile('first.piece', 'second.piece');
    await workbench().tab('second.piece, drawn').waitFor();
    await workbench().openFile('second.piece');
    await workbench().page.keyboard.press('Control+End');
    await workbench().paste(`\n${box('added')}`);
    await card('added').waitFor();
    await workbench().runCommand('File: Revert File');
    await workbench().closeAll();
    await workbench().renameFile('second.piece', 'first.piece');
  });

  it('goes on with a pattern that is saved for the first time', async () => {
    await workbench().runCommand('Piecewright: New Pattern');
    await workbench().page.locator('.editor-group-container.active .view-line', { hasText: 'unit' }).waitFor();
    // Over the head that a new pattern comes with.
    await workbench().clickText();
    await workbench().page.keyboard.press('Control+A');
    await workbench().paste(`pattern "New"\nrevision 1\nunit in\nallowance 1/4\n${box('front')}`);
    await workbench().runCommand('Piecewright: Open Preview');
    await workbench().showPieces();
    await card('front').waitFor();
    await workbench().focusText();
    await workbench().save();
    await workbench().acceptFileName();
    await workbench().page.locator('.tab.active:not(.dirty)', { hasText: '.piece' }).first().waitFor();
    await workbench().paste(box('back'));
    await card('back').waitFor();
    expect(await workbench().previewProblems()).toEqual([]);
    await workbench().runCommand('File: Revert File');
    await workbench().closeAll();
  });

  it('keeps the last good drawing while it is hidden', async () => {
    await workbench().openFile(wallet);
    await workbench().titleButton('Open Preview');
    await workbench().showPieces();
    await card('wrap').locator('.drawing .part').first().waitFor({ state: 'attached' });
    await workbench().tab(`${wallet}, drawn`).click();
    await workbench().openFile('market-apron.piece');
    await frame().locator('h1').waitFor({ state: 'detached' });
    await workbench().focusText();
    const [line, column] = placeOf(text, '|wrap_w by wallet_h');
    await workbench().replaceAt(line, column, 'wrap_w'.length, '*');
    await workbench().waitForSquiggle();
    await workbench().tab(`${wallet}, drawn`).click();
    await card('wrap').locator('.flag', { hasText: 'before your last edits' }).waitFor();
    await card('wrap').locator('.drawing .part').first().waitFor({ state: 'attached' });
    await workbench().focusText();
    await workbench().runCommand('File: Revert File');
    await expect.poll(() => card('wrap').getAttribute('class')).not.toContain('stale');
    await workbench().closeAll();
  });

  it('comes back after a reload without its text being open', async () => {
    await workbench().openFile(wallet);
    await workbench().titleButton('Open Preview');
    await workbench().showPieces();
    await card('wrap').waitFor();
    await workbench().focusText();
    await workbench().runCommand('View: Close Editor');
    await workbench().tab(`${wallet}, drawn`).waitFor();
    await workbench().reload();
    await card('wrap').waitFor();
    await workbench().screenshot(`preview-alone-${kind}`);
    await workbench().closeAll();
  });

  it('leads from a problem’s code to the reference', async () => {
    await workbench().openFile('unfinished.piece');
    await expect.poll(() => workbench().problemsPanelText()).toContain('lid_height');
    await workbench().page.locator('.markers-panel a', { hasText: 'unknown-name' }).first().click({ modifiers: ['Control'] });
    await workbench().tab('Piecewright reference.md').waitFor();
    await expect.poll(() => workbench().cursor()).not.toContain('Ln 1,');
    await workbench().screenshot(`reference-${kind}`);
    await workbench().closeAll();
  });

  it('shows lenses and hints as the settings have them, at once', async () => {
    const lenses = workbench().page.locator('.monaco-editor .codelens-decoration a, .monaco-editor .codelens-decoration span');
    const set = async (json: string): Promise<void> => {
      await workbench().runCommand('Preferences: Open Workspace Settings (JSON)');
      await workbench().page.locator('.monaco-editor.focused[data-uri*="settings.json"]').waitFor();
      await workbench().page.keyboard.press('Control+A');
      await workbench().paste(json);
      await expect.poll(() => workbench().isSaved()).toBe(false);
      await workbench().save();
      await expect.poll(() => workbench().savedText('.vscode/settings.json')).toBe(json);
    };
    const atPiece = async (): Promise<void> => {
      await workbench().openFile(wallet);
      await workbench().goTo(...placeOf(text, 'piece |wrap'));
    };
    await atPiece();
    await lenses.filter({ visible: true }).first().waitFor();
    await set('{ "piecewright.codeLens": false, "piecewright.inlayHints.sizes": false }');
    await atPiece();
    // The editor shows those that it knows until it has asked.
    await expect.poll(() => lenses.count()).toBe(0);
    await set('{}');
    await atPiece();
    await lenses.filter({ visible: true }).first().waitFor();
  });
});
