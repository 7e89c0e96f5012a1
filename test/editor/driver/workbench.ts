import path from 'node:path';
import type { Browser, Frame, FrameLocator, Locator, Page } from 'playwright-core';
import { root } from '../fetch/folder.ts';
import type { Host } from '../hosts/host.ts';

/** How grave a marked place is. */
export type Squiggle = 'error' | 'warning' | 'info';

/** What a person does in the editor: open, type, run a command, look. */
export class Workbench {
  readonly page: Page;
  private readonly host: Host;

  private constructor(page: Page, host: Host) {
    this.page = page;
    this.host = host;
  }

  /** Opens a host's page and waits until its window is there. */
  static async open(browser: Browser, host: Host): Promise<Workbench> {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, locale: 'en-US', colorScheme: 'dark', permissions: ['clipboard-read', 'clipboard-write'] });
    const page = await context.newPage();
    page.setDefaultTimeout(40_000);
    await page.goto(host.url);
    const workbench = new Workbench(page, host);
    await workbench.shown();
    return workbench;
  }

  /** Loads the window anew. */
  async reload(): Promise<void> {
    const loaded = this.page.waitForEvent('load');
    await this.runCommand('Developer: Reload Window');
    await loaded;
    await this.shown();
  }

  /** The folder that is open, where it is one of this machine. */
  get folder(): string | undefined {
    return this.host.folder;
  }

  /** The editor's own page of a text in Markdown. */
  markdownPage(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready[src*="markdown-language-features"]').frameLocator('iframe#active-frame');
  }

  /** What a file of the workspace holds; undefined where there is none. */
  savedBytes(file: string): Promise<Uint8Array | undefined> {
    return this.host.read(file);
  }

  /** The text of a file of the workspace as it was last saved; undefined where there is none. */
  async savedText(file: string): Promise<string | undefined> {
    const bytes = await this.host.read(file);
    return bytes === undefined ? undefined : new TextDecoder().decode(bytes);
  }

  /** Saves the active text. */
  async save(): Promise<void> {
    await this.page.keyboard.press('Control+S');
  }

  /** Opens a file of the workspace by its path. */
  async openFile(file: string): Promise<void> {
    const names = file.split('/');
    const name = names.pop() ?? '';
    for (const folder of names) {
      const row = this.explorerRow(folder);
      if ((await row.getAttribute('aria-expanded')) !== 'true') await row.click();
    }
    const tab = this.page.locator('.tab.active', { hasText: name }).first();
    // One that was open already has its tab before it has the focus, and keys would still go to the explorer.
    const text = this.page.locator('.editor-group-container.active .monaco-editor.focused .view-line').first();
    // The tree may move under the pointer while it is filled: then nothing was opened, and is clicked again.
    await untilDone(async () => {
      await this.explorerRow(name).dblclick();
      await tab.waitFor({ timeout: 10_000 });
      await text.waitFor({ timeout: 10_000 });
    });
  }

  /** Gives a file another name, in the explorer. */
  async renameFile(from: string, to: string): Promise<void> {
    const input = this.page.locator('.explorer-folders-view .monaco-inputbox input');
    // The box for the name goes away again where the text that the click shows takes the focus: it is asked for once more.
    await untilDone(async () => {
      await this.explorerRow(from).click();
      await this.explorerRow(from).press('F2');
      await input.fill(to, { timeout: 5000 });
      await input.press('Enter', { timeout: 5000 });
    });
    await this.explorerRow(to).waitFor();
  }

  /** Goes from a preview back to the text, which is in the first group. */
  async focusText(): Promise<void> {
    // A click in a preview may reach the editor after the key that leaves it: whoever presses it again is in the text.
    await untilDone(async () => {
      await this.page.keyboard.press('Control+1');
      await this.page.locator('.editor-group-container.active .monaco-editor.focused').waitFor({ timeout: 8_000 });
    });
  }

  /** Clicks into the active text, so that keys go there. */
  async clickText(): Promise<void> {
    await this.page.locator('.editor-group-container.active .view-lines').click();
    await this.page.locator('.editor-group-container.active .monaco-editor.focused').waitFor();
  }

  /** Puts the cursor at a line and column, both counted from 1. */
  async goTo(line: number, column: number): Promise<void> {
    // A click in a preview may reach the editor only now: then there is no text to go about in, and the box stays.
    await untilDone(async () => {
      await this.page.keyboard.press('Control+G');
      await this.quickInput.fill(`:${line}:${column}`, { timeout: 8_000 });
      await this.page.keyboard.press('Enter');
      await this.quickInput.waitFor({ state: 'hidden', timeout: 8_000 });
    }, async () => {
      await this.page.keyboard.press('Escape');
      await this.focusText();
    });
  }

  /** Types at the cursor, no faster than a person: the editor drops lists whose answers come while keys still arrive. */
  async type(text: string): Promise<void> {
    await this.page.keyboard.type(text, { delay: 40 });
  }

  /** Types at a line and column, both counted from 1, as a person would: the editor's own completions may act. */
  async typeAt(line: number, column: number, text: string): Promise<void> {
    await this.goTo(line, column);
    await this.type(text);
  }

  /** Replaces some characters of a line; line and column are counted from 1. */
  async replaceAt(line: number, column: number, length: number, text: string): Promise<void> {
    await this.goTo(line, column);
    for (let pressed = 0; pressed < length; pressed++) await this.page.keyboard.press('Shift+ArrowRight');
    await this.type(text);
  }

  /** Puts a text in at the cursor as it is. */
  async paste(text: string): Promise<void> {
    await this.page.evaluate((given) => navigator.clipboard.writeText(given), text);
    await this.page.keyboard.press('Control+V');
  }

  /** Where the cursor is, as the status bar says it. */
  cursor(): Promise<string> {
    return this.page.locator('[id="status.editor.selection"]').innerText();
  }

  /**
   * Runs a command of the palette by its full title. The palette goes away again where something else takes the focus, as when
   * a file has just been renamed, and a command that an extension brings may not be there yet: whoever asks again gets it.
   */
  async runCommand(title: string): Promise<void> {
    await untilDone(() => this.#choose(title));
  }

  async #choose(title: string): Promise<void> {
    // A key is lost while nothing has the focus.
    for (let tries = 1; !(await this.quickInput.isVisible()); tries++) {
      await this.page.keyboard.press(tries === 1 ? 'F1' : 'Control+Shift+P');
      await this.quickInput.waitFor({ timeout: 5000 }).catch(() => tries < 4 ? this.page.locator('.part.editor').click() : Promise.reject(new Error('The command palette does not open.')));
    }
    // The same words again would be no other question.
    for (const words of ['>', `>${title}`]) await this.quickInput.fill(words, { timeout: 5000 });
    await this.quickRow(title).click({ timeout: 8000 });
  }

  /** Chooses an entry of the list that is open at the top. */
  async pick(label: string): Promise<void> {
    await this.quickRow(label).click();
  }

  /** Takes the file name that is proposed at the top, and tells it. */
  async acceptFileName(): Promise<string> {
    await this.page.locator('.quick-input-widget', { hasText: /Export Cutting Table|Export Pages|Save As/ }).waitFor();
    const input = this.quickInput;
    await expectFileName(input);
    const name = await input.inputValue();
    await this.page.locator('.quick-input-widget .monaco-button', { hasText: 'OK' }).click();
    await input.waitFor({ state: 'hidden' });
    return name;
  }

  /** The message that is up and says something, once it is. */
  async message(text: RegExp): Promise<Locator> {
    const found = this.page.locator('.notification-toast', { hasText: text });
    await found.waitFor();
    return found;
  }

  /** What is offered at the moment for what is being typed; asked for where the editor has dropped its own question. */
  async suggestions(): Promise<readonly string[]> {
    const rows = this.page.locator('.suggest-widget.visible .monaco-list-row');
    await rows.first().waitFor({ timeout: 5000 }).catch(() => this.page.keyboard.press('Control+Space'));
    return rows.evaluateAll((all) => all.map((row) => row.querySelector('.label-name')?.textContent ?? ''));
  }

  /** What is said of the place at the cursor; empty where it is gone again, as when the text is painted anew. */
  async hover(): Promise<string> {
    const widget = this.page.locator('.monaco-resizable-hover .hover-contents').filter({ visible: true });
    await untilDone(async () => {
      await this.page.keyboard.press('Control+K');
      await this.page.keyboard.press('Control+I');
      await widget.first().waitFor({ timeout: 8_000 });
    });
    const texts = await widget.allInnerTexts();
    await this.page.keyboard.press('Escape');
    return texts.join('\n');
  }

  /** Paints the window in a theme, by the name that the editor lists it by. */
  async theme(name: string): Promise<void> {
    await untilDone(async () => {
      await this.runCommand('Preferences: Color Theme');
      await this.page.locator('.quick-input-list .monaco-list-row').first().waitFor({ timeout: 8_000 });
      await this.quickInput.fill(name, { timeout: 8_000 });
      await this.quickRow(name).click({ timeout: 8_000 });
      await this.quickInput.waitFor({ state: 'hidden', timeout: 8_000 });
    }, () => this.page.keyboard.press('Escape'));
  }

  /** Presses a button of the active group's title bar. */
  async titleButton(name: string): Promise<void> {
    await this.page.locator('.editor-group-container.active .title .editor-actions').getByRole('button', { name }).click();
  }

  /** Waits for a wavy line below some text. */
  async waitForSquiggle(kind: Squiggle = 'error'): Promise<Locator> {
    const marks = this.page.locator(`.monaco-editor .squiggly-${kind}`);
    await marks.first().waitFor();
    return marks;
  }

  /** How many wavy lines for errors are in sight. */
  squiggles(): Promise<number> {
    return this.page.locator('.monaco-editor .squiggly-error').count();
  }

  /** Takes what is proposed to put right the place at the cursor. */
  async fix(title: RegExp): Promise<void> {
    const offered = this.page.locator('.action-widget .monaco-list-row.focused', { hasText: title });
    // While the text is still being read the editor says that there is nothing: whoever asks again is told.
    for (let tries = 1; !(await offered.isVisible()); tries++) {
      await this.page.keyboard.press('Control+.');
      await offered.waitFor({ timeout: 5000 }).catch(() => tries < 6 ? this.page.keyboard.press('Escape') : Promise.reject(new Error(`Nothing is offered like ${title}.`)));
    }
    await this.page.keyboard.press('Enter');
  }

  /** Gives the name at the cursor another. */
  async rename(name: string): Promise<void> {
    const input = this.page.locator('.rename-box input');
    await untilDone(async () => {
      await this.page.keyboard.press('F2');
      await input.fill(name, { timeout: 8_000 });
      await this.page.keyboard.press('Enter');
      await input.waitFor({ state: 'hidden', timeout: 8_000 });
    }, () => this.page.keyboard.press('Escape'));
  }

  /** Takes one of what is offered. */
  async pickSuggestion(label: string): Promise<void> {
    await this.page.locator('.suggest-widget.visible .monaco-list-row', { has: this.page.getByText(label, { exact: true }) }).first().click();
  }

  /** Whether nothing in the active tab waits to be saved. */
  async isSaved(): Promise<boolean> {
    return (await this.page.locator('.editor-group-container.active .tab.active.dirty').count()) === 0;
  }

  /** Opens the Problems panel and reads it. */
  async problemsPanelText(): Promise<string> {
    const panel = this.page.locator('.markers-panel');
    if (!(await panel.isVisible())) await this.page.keyboard.press('Control+Shift+M');
    // Another panel may have come up meanwhile: whoever asks again gets it then.
    return (await panel.isVisible()) ? panel.innerText() : '';
  }

  /** The language that the status bar names. */
  language(): Promise<string> {
    return this.page.locator('[id="status.editor.mode"]').innerText();
  }

  /** The colour of each word on a line of the active editor, as the theme paints it. */
  async colours(line: number): Promise<ReadonlyMap<string, string>> {
    const rows = this.page.locator('.editor-group-container.active .view-line');
    const read = await rows.evaluateAll((all: Element[], index) => {
      const inOrder = all.sort((a, b) => a.getBoundingClientRect().top - b.getBoundingClientRect().top);
      const words = [...(inOrder[index]?.querySelectorAll('span > span') ?? [])];
      return words.map((word): [string, string] => [word.textContent.replace(/\u00a0/g, ' ').trim(), getComputedStyle(word).color]);
    }, line - 1);
    return new Map(read);
  }

  /** What the preview shows. */
  previewFrame(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready[src*="extensionId=piecewright.piecewright"]').frameLocator('iframe#active-frame');
  }

  /** The preview's own page, once it is there. */
  async previewPage(): Promise<Frame> {
    const page = await this.previewFrame().locator('#preview').elementHandle();
    const frame = await page.ownerFrame();
    if (frame === null) throw new Error('The preview has no page.');
    return frame;
  }

  /** Goes to the pieces one by one, since the preview opens at its board, and back to the text. */
  async showPieces(): Promise<void> {
    await this.previewFrame().getByRole('tab', { name: 'Pieces' }).click();
    await this.focusText();
  }

  /** The errors that the preview shows in place of drawings. */
  previewProblems(): Promise<readonly string[]> {
    return this.previewFrame().locator('.banner:not([hidden]), .card.stale').allInnerTexts();
  }

  /** Closes every tab. */
  async closeAll(): Promise<void> {
    await this.runCommand('View: Close All Editors');
    const tabs = this.page.locator('.tabs-container .tab').first();
    const dialog = this.page.locator('.monaco-dialog-box .monaco-button', { hasText: "Don't Save" });
    // Where a test has failed, what it wrote is thrown away, so that the next has an empty window.
    await dialog.or(this.page.locator('.editor-group-container.empty').first()).first().waitFor();
    if (await dialog.isVisible()) await dialog.click();
    await tabs.waitFor({ state: 'detached' });
  }

  /** The extensions that are running, as the editor itself lists them. */
  async runningExtensions(): Promise<string> {
    await this.runCommand('Developer: Show Running Extensions');
    const list = this.page.locator('.runtime-extensions-editor');
    await list.locator('.extension').first().waitFor();
    return list.innerText();
  }

  /** The messages that are up. */
  notifications(): Promise<readonly string[]> {
    return this.page.locator('.notification-list-item-message').allInnerTexts();
  }

  /** A tab by its label. */
  tab(label: string): Locator {
    return this.page.locator('.tabs-container .tab', { hasText: label });
  }

  /** Keeps a picture of the window in build/screenshots/. */
  async screenshot(name: string): Promise<void> {
    await this.page.screenshot({ path: path.join(root, 'build/screenshots', `${name}.png`) });
  }

  private async shown(): Promise<void> {
    await this.page.locator('.monaco-workbench .part.editor').waitFor();
    await this.page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
  }

  /** The files in sight in the explorer whose names begin so. */
  async filesLike(start: string): Promise<readonly string[]> {
    const names = await this.page.locator('.explorer-folders-view .monaco-list-row .label-name').allInnerTexts();
    return names.filter((name) => name.startsWith(start)).sort();
  }

  private explorerRow(name: string): Locator {
    return this.page.locator(`.explorer-folders-view .monaco-list-row[aria-label^="${name}"]`).first();
  }

  private get quickInput(): Locator {
    return this.page.locator('.quick-input-widget input.input');
  }

  private quickRow(label: string): Locator {
    return this.page.locator('.quick-input-list .monaco-list-row', { hasText: label }).first();
  }
}

/**
 * Does what a person would do again where the editor let it go, as when something else took the focus meanwhile.
 *
 * @param back what is done before each further try
 * @throws what the last try threw
 */
async function untilDone(act: () => Promise<void>, back: () => Promise<void> = () => Promise.resolve()): Promise<void> {
  for (let tries = 4; tries > 0; tries--) {
    if (await act().then(() => true, () => false)) return;
    await back();
  }
  await act();
}

/** Waits until a box has a whole file name in it, not only the folder. */
async function expectFileName(input: Locator): Promise<void> {
  await input.evaluate(async (box) => {
    while (!/\.\w+$/.test((box as HTMLInputElement).value)) await new Promise((resolve) => requestAnimationFrame(resolve));
  });
}
