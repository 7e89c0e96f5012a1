import * as vscode from 'vscode';
import { changesRequest, committedRequest, type ChangesAnswer, type ChangesParams, type ReadParams } from '../../server/src/lsp/messages.ts';
import { languageId, type Client } from './client-options.ts';
import { committedText, onCommit } from './git.ts';

const scheme = 'piecewright-changes';

/** Milliseconds after the last change of a text in which no other came. */
const settled = 400;

/** Shows what has changed since a pattern was last committed, and follows its text. */
export class Changes implements vscode.TextDocumentContentProvider {
  readonly #client: Client;
  readonly #changed = new vscode.EventEmitter<vscode.Uri>();
  readonly #disposables: vscode.Disposable[] = [];
  /** The pages that are shown, by their addresses, with what each last said. */
  readonly #shown = new Map<string, string>();
  #timer: ReturnType<typeof setTimeout> | undefined;
  #follows = false;
  readonly onDidChange = this.#changed.event;

  constructor(context: vscode.ExtensionContext, client: Client) {
    this.#client = client;
    context.subscriptions.push(
      this.#changed,
      client.onRequest(committedRequest, async ({ uri }: ReadParams) => (await committedText(vscode.Uri.parse(uri))) ?? null),
      vscode.workspace.registerTextDocumentContentProvider(scheme, this),
      vscode.workspace.onDidChangeTextDocument(({ document }) => {
        if (document.languageId === languageId) this.#refreshSoon();
      }),
      vscode.workspace.onDidCloseTextDocument(({ uri }) => this.#shown.delete(uri.toString())),
      { dispose: () => this.#disposables.forEach((one) => void one.dispose()) },
    );
  }

  /** Opens the page of a pattern beside it; where there is nothing to compare with, that is said. */
  async show({ uri }: vscode.TextDocument): Promise<void> {
    const answer = await this.#ask(uri.toString());
    if (answer === null) return;
    if ('refused' in answer) return void vscode.window.showInformationMessage(answer.refused);
    if (!this.#follows) {
      this.#follows = true;
      void onCommit(() => this.#refreshSoon(), this.#disposables);
    }
    const page = pageOf(uri);
    this.#shown.set(page.toString(), answer.markdown);
    this.#changed.fire(page);
    try {
      await vscode.commands.executeCommand('markdown.showPreviewToSide', page);
    } catch {
      // Without the editor's own preview of Markdown, as the text that it is.
      await vscode.window.showTextDocument(page, { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true });
    }
  }

  async provideTextDocumentContent(page: vscode.Uri): Promise<string> {
    const known = this.#shown.get(page.toString());
    if (known !== undefined) return known;
    const answer = await this.#ask(page.query).catch(() => null);
    const text = answer === null ? 'The pattern is gone.' : 'refused' in answer ? answer.refused : answer.markdown;
    this.#shown.set(page.toString(), text);
    return text;
  }

  #ask(uri: string): Promise<ChangesAnswer | null> {
    return this.#client.sendRequest<ChangesAnswer | null>(changesRequest, { uri } satisfies ChangesParams);
  }

  /** Once the texts stand still: what is shown stays until something else is known. */
  #refreshSoon(): void {
    if (this.#shown.size === 0) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#refresh(), settled);
  }

  async #refresh(): Promise<void> {
    for (const address of [...this.#shown.keys()]) {
      const page = vscode.Uri.parse(address);
      // A text that has changed meanwhile is asked about again.
      const answer = await this.#ask(page.query).catch(() => null);
      if (answer === null || !this.#shown.has(address)) continue;
      const text = 'refused' in answer ? answer.refused : answer.markdown;
      if (text === this.#shown.get(address)) continue;
      this.#shown.set(address, text);
      this.#changed.fire(page);
    }
  }
}

/** The page's own address, which says of which pattern it is. */
const pageOf = (pattern: vscode.Uri): vscode.Uri => vscode.Uri.from({ scheme, path: `/Changes in ${pattern.path.replace(/^.*\//, '')}.md`, query: pattern.toString() });
