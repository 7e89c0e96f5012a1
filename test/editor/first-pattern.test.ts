import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, it } from 'vitest';
import { inEachHost } from './driver/each-host.ts';
import { root } from './fetch/folder.ts';

/** The example that a step of the walkthrough shows. */
function example(step: string): string {
  const text = /```\n([^]*?)```/.exec(readFileSync(path.join(root, `client/walkthrough/${step}.md`), 'utf8'))?.[1];
  if (text === undefined) throw new Error(`The step “${step}” shows no example.`);
  return text;
}

// Each test goes on from where the one before has ended.
inEachHost('the walkthrough from an empty text to a table', (workbench, kind) => {
  const step = async (title: string, button?: string): Promise<void> => {
    const page = workbench().page;
    const shown = page.locator('.gettingStartedContainer .getting-started-step', { hasText: title });
    await shown.waitFor();
    if (!(await shown.evaluate((one) => one.classList.contains('expanded')))) await shown.getByText(title, { exact: true }).first().click();
    if (button !== undefined) await shown.getByRole('button', { name: button }).click();
  };
  const text = (): ReturnType<ReturnType<typeof workbench>['page']['locator']> => workbench().page.locator('.editor-group-container .monaco-editor[data-uri*="Untitled"]');
  const lines = async (): Promise<readonly string[]> => (await text().locator('.view-line').allTextContents()).map((line) => line.replace(/\u00a0/g, ' '));

  it('opens', async () => {
    await workbench().runCommand('Welcome: Open Walkthrough...');
    await workbench().pick('Your first pattern');
    await step('Start a pattern');
    await workbench().screenshot(`walkthrough-${kind}`);
  });

  it('starts a pattern', async () => {
    await step('Start a pattern', 'New pattern');
    await text().waitFor();
    await expect.poll(() => workbench().language()).toBe('Piecewright');
    await expect.poll(lines).toEqual(example('create').trimEnd().split('\n'));
  });

  it('writes a material and a piece from snippets', async () => {
    await step('Write the first piece', 'Add a material');
    await text().locator('.view-line', { hasText: 'material' }).waitFor();
    await step('Write the first piece', 'Add a piece');
    await text().locator('.view-line', { hasText: 'cut' }).waitFor();
    await workbench().screenshot(`walkthrough-text-${kind}`);
  });

  it('looks at the problems', async () => {
    await step('Look at the problems', 'Show problems');
    await workbench().page.locator('.markers-panel').waitFor();
    expect(await workbench().squiggles()).toBe(0);
    await step('Look at the problems', 'Apply all safe fixes');
    await workbench().message(/There is nothing that can be fixed without a decision of yours/);
  });

  it('sees the pieces', async () => {
    await step('See the pieces', 'Open preview');
    await workbench().previewFrame().locator('.on-board[data-piece="front"] .drawing .part').first().waitFor({ state: 'attached' });
    // Beside the text, which is still to be seen.
    const shown = await workbench().page.locator('.editor-group-container .monaco-editor[data-uri*="Untitled"]').boundingBox();
    const drawn = await workbench().page.locator('iframe.webview.ready').last().boundingBox();
    expect(shown && drawn && shown.x + shown.width <= drawn.x + 2 && shown.width > 100).toBe(true);
    await workbench().screenshot(`walkthrough-preview-${kind}`);
  });

  it('exports the cutting table', async () => {
    await step('Export the cutting table', 'Export cutting table…');
    await workbench().pick('CSV');
    await workbench().pick('Piece by piece');
    expect(await workbench().acceptFileName()).toMatch(/Untitled-1-cutting-table\.csv$/);
    await workbench().message(/The cutting table is in Untitled-1-cutting-table\.csv/);
    expect(await workbench().savedText('Untitled-1-cutting-table.csv')).toMatch(/Front,Cotton canvas,1,8 in × 6 in/);
    await workbench().screenshot(`walkthrough-done-${kind}`);
  });
});
