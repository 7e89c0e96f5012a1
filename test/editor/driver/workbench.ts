import path from 'node:path';
import type { Browser, FrameLocator, Locator, Page } from 'playwright-core';
import { root } from '../fetch/folder.ts';
import type { Host } from '../hosts/host.ts';

/** How grave a marked place is. */
export type Squiggle = 'error' | 'warning' | 'info';

/** What a person does in the editor: open, type, run a command, look. */
export class Workbench {
  readonly page: Page;

  private constructor(page: Page) {
    this.page = page;
  }

  /** Opens a host's page and waits until its window is there. */
  static async open(browser: Browser, host: Host): Promise<Workbench> {
    const context = await browser.newContext({ viewport: { width: 1400, height: 900 }, locale: 'en-US', colorScheme: 'dark' });
    const page = await context.newPage();
    page.setDefaultTimeout(60_000);
    await page.goto(host.url);
    const workbench = new Workbench(page);
    await page.locator('.monaco-workbench .part.editor').waitFor();
    await page.locator('.explorer-folders-view .monaco-list-row').first().waitFor();
    return workbench;
  }

  /** Opens a file of the workspace by its path. */
  async openFile(file: string): Promise<void> {
    const names = file.split('/');
    const name = names.pop() ?? '';
    for (const folder of names) {
      const row = this.explorerRow(folder);
      if ((await row.getAttribute('aria-expanded')) !== 'true') await row.click();
    }
    await this.explorerRow(name).dblclick();
    await this.page.locator('.tab.active', { hasText: name }).waitFor();
    await this.page.locator('.editor-group-container.active .view-line').first().waitFor();
  }

  /** Puts the cursor at a line and column, both counted from 1. */
  async goTo(line: number, column: number): Promise<void> {
    await this.page.keyboard.press('Control+G');
    await this.quickInput.fill(`:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.quickInput.waitFor({ state: 'hidden' });
  }

  /** Types at a line and column, both counted from 1, as a person would: the editor's own completions may act. */
  async typeAt(line: number, column: number, text: string): Promise<void> {
    await this.goTo(line, column);
    await this.page.keyboard.type(text);
  }

  /** Runs a command of the palette by its full title. */
  async runCommand(title: string): Promise<void> {
    await this.page.keyboard.press('F1');
    await this.quickInput.fill(`>${title}`);
    await this.pick(title);
  }

  /** Chooses an entry of the list that is open at the top. */
  async pick(label: string): Promise<void> {
    await this.quickRow(label).click();
  }

  /** Waits for a wavy line below some text. */
  async waitForSquiggle(kind: Squiggle = 'error'): Promise<Locator> {
    const marks = this.page.locator(`.monaco-editor .squiggly-${kind}`);
    await marks.first().waitFor();
    return marks;
  }

  /** Opens the Problems panel and reads it. */
  async problemsPanelText(): Promise<string> {
    const panel = this.page.locator('.markers-panel');
    if (!(await panel.isVisible())) await this.page.keyboard.press('Control+Shift+M');
    await panel.waitFor();
    return panel.innerText();
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
      return words.map((word): [string, string] => [(word.textContent ?? '').replace(/\u00a0/g, ' ').trim(), getComputedStyle(word).color]);
    }, line - 1);
    return new Map(read);
  }

  /** What the preview shows. */
  previewFrame(): FrameLocator {
    return this.page.frameLocator('iframe.webview.ready[src*="extensionId=piecewright.piecewright"]').frameLocator('iframe#active-frame');
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
