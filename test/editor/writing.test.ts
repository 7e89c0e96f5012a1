import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';
import { placeOf } from './driver/place.ts';
import { workspace } from './setup.ts';

const sample = (file: string): string => readFileSync(path.join(workspace, file), 'utf8');

inEachHost('writing a pattern', (workbench, kind) => {
  it('marks a fault, says what is wrong and puts it right', async () => {
    const text = sample('orchard-wallet.piece');
    await workbench().openFile('orchard-wallet.piece');
    await workbench().replaceAt(...placeOf(text, 'cut 1 |poplin\n  cut 1 crisp'), 'poplin'.length, 'popln');
    await workbench().waitForSquiggle();
    await expect.poll(() => workbench().problemsPanelText()).toContain('There is no material called “popln”. Did you mean “poplin”?');
    await workbench().screenshot(`fault-${kind}`);
    await workbench().goTo(...placeOf(text, 'cut 1 p|oplin\n  cut 1 crisp'));
    await workbench().fix(/poplin/);
    await expect.poll(() => workbench().squiggles()).toBe(0);
    await expect.poll(() => workbench().problemsPanelText()).not.toContain('popln');
    await workbench().save();
    // The text is the same again, so that the fix has done just what was to be done.
    await expect.poll(() => workbench().isSaved()).toBe(true);
    expect(await workbench().savedText('orchard-wallet.piece')).toBe(text);
  });

  it('tells a value in inches and centimetres, and how it came about', async () => {
    await workbench().openFile('orchard-wallet.piece');
    await workbench().goTo(...placeOf(sample('orchard-wallet.piece'), 'rectangle w|rap_w by'));
    let said = '';
    await expect.poll(async () => (said = await workbench().hover())).toMatch(/15 in\b/);
    expect(said).toContain('38.1 cm');
    expect(said).toMatch(/panel_w/);
    expect(said).toMatch(/panels/);
  });

  it('offers the materials after a count', async () => {
    await workbench().openFile('first.piece');
    const text = sample('first.piece');
    await workbench().goTo(...placeOf(text, '  cut 2 canvas|'));
    await workbench().page.keyboard.press('Enter');
    await workbench().type('cut 1 ');
    await expect.poll(() => workbench().suggestions()).toContain('canvas');
    await workbench().pickSuggestion('canvas');
    await workbench().save();
    await expect.poll(() => workbench().savedText('first.piece')).toBe(text.replace('  cut 2 canvas\n', '  cut 2 canvas\n  cut 1 canvas\n'));
  });

  it('formats a text', async () => {
    await workbench().openFile('unfinished.piece');
    const text = sample('unfinished.piece');
    await workbench().replaceAt(...placeOf(text, 'outline rectangle'), 'outline '.length, 'outline    ');
    await workbench().replaceAt(...placeOf(text, 'length ease = 1/4 in'), 'length ease = '.length, 'length   ease=');
    await workbench().save();
    await expect.poll(() => workbench().savedText('unfinished.piece')).not.toBe(text);
    await workbench().runCommand('Format Document');
    // The command doesn't say when it is through.
    await expect.poll(async () => {
      await workbench().save();
      return workbench().savedText('unfinished.piece');
    }).toBe(text);
  });

  it('renames a material in every file that uses it', async () => {
    const before = sample('orchard-wallet.piece');
    await workbench().openFile('orchard-wallet.piece');
    await workbench().goTo(...placeOf(before, 'cut 1 c|anvas'));
    await workbench().rename('duck');
    await workbench().runCommand('File: Save All Files');
    for (const file of ['orchard-wallet.piece', 'studio/materials.piece', 'market-apron.piece']) {
      const renamed = sample(file).replace(/\bcanvas\b(?!")/g, 'duck');
      expect(renamed).not.toBe(sample(file));
      // Titles and comments are no names.
      await expect.poll(() => workbench().savedText(file), { message: file }).toBe(renamed);
    }
  });
});
