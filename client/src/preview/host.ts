import * as vscode from 'vscode';
import { languageId, type Client } from '../client-options.ts';
import type { BuyingWish, Combination, HostMessage, MoveMessage, PageMessage, PreviewState } from '../../preview/messages.ts';
import { committedPiecesRequest, lookNotification, moveRequest, previewRequest, type CommittedPiecesAnswer, type CommittedPiecesParams, type LaysParams, type LookParams, type MoveAnswer, type MoveParams, type PreviewAnswer, type PreviewParams } from '../../../server/src/lsp/messages.ts';
import { onCommit } from '../git.ts';
import { AskedEarly } from './asked-early.ts';
import { Loading } from './loading.ts';
import { next } from './next.ts';
import { reveal } from './reveal.ts';
import { writeNumbers } from './write-numbers.ts';

/** Milliseconds after the last word of git in which no other came. */
const settled = 400;

/** Milliseconds that others wait for a drawing, where none comes (invented: longer than drawings take). */
const longest = 150;

/** One preview: a panel that shows one pattern and follows its text. */
export class PreviewHost {
  private pattern: string;
  private readonly panel: vscode.WebviewPanel;
  private readonly client: Client;
  private readonly loading: Loading;
  private readonly listeners: readonly vscode.Disposable[];
  private readonly commits: vscode.Disposable[] = [];
  private combination: Combination | undefined;
  /** What is looked at is asked for, and the page says what that is. */
  private buying: BuyingWish | undefined;
  private handled: string | undefined;
  private beside: string | undefined;
  /** Whether the page holds the pieces against what was last committed. */
  private isSinceCommit = false;
  private followsCommits = false;
  private soon: ReturnType<typeof setTimeout> | undefined;
  /** The serial number of what the page was last sent. */
  private known: number | undefined;
  /** How often a page has come up empty, or with another pattern: what was asked for before is of no use to a later one. */
  private pages = 0;
  /** Of which version of the text the page was sent what it has not painted yet, and which it has painted last. */
  private sent: number | undefined;
  private painted: number | undefined;
  private readonly paintings = new vscode.EventEmitter<void>();
  /** What the page was last told of texts that are not saved, and which page that was. */
  private unsaved: string | undefined;
  /** What a page is first told, asked for while the editor makes it. */
  private readonly early: AskedEarly<PreviewParams, PreviewAnswer>;
  private busy = false;
  private again = false;
  private closed = false;
  /** Ends the question that waits for another text. */
  private asked = new vscode.CancellationTokenSource();

  constructor(panel: vscode.WebviewPanel, client: Client, dist: vscode.Uri, state: PreviewState) {
    this.panel = panel;
    this.client = client;
    this.pattern = state.uri;
    this.combination = state.combination;
    this.listeners = [
      panel.webview.onDidReceiveMessage((message: PageMessage) => this.receive(message)),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.sendCursor(textEditor)),
      vscode.window.onDidChangeActiveTextEditor((editor) => this.sendCursor(editor)),
      vscode.workspace.onDidSaveTextDocument(() => this.sendUnsaved()),
      panel.onDidDispose(() => this.end()),
    ];
    panel.webview.options = { enableScripts: true, localResourceRoots: [dist] };
    this.loading = new Loading(panel.webview, (name) => panel.webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString());
    this.loading.start(state.uri);
    panel.title = titleOf(state.uri);
    const params = this.params(false);
    this.early = new AskedEarly(params, client.sendRequest<PreviewAnswer>(previewRequest, params));
  }

  /** The pattern that is shown. */
  get uri(): string {
    return this.pattern;
  }

  /** Follows a pattern that has another address, since it was saved for the first time or renamed. */
  follow(uri: string): Promise<void> {
    this.pattern = uri;
    this.known = undefined;
    this.pages++;
    this.panel.title = titleOf(uri);
    this.send({ type: 'moved', uri });
    return this.refresh().then(() => this.sendCommitted());
  }

  /** The combination that was chosen in it. */
  get chosen(): Combination | undefined {
    return this.combination;
  }

  /** Brings the panel to the front, without taking the cursor from the text. */
  show(): void {
    this.panel.reveal(undefined, true);
  }

  /**
   * Draws the text as it is now, and from then on whenever it is another. While one drawing is being made, any number of
   * wishes ask for only one more.
   */
  async refresh(): Promise<void> {
    if (this.busy) {
      this.again = true;
      return;
    }
    this.busy = true;
    this.asked.cancel();
    const { token } = (this.asked = new vscode.CancellationTokenSource());
    do {
      this.again = false;
      await this.draw(token, false);
      // Both may have been set while the drawing was awaited.
      // eslint-disable-next-line @typescript-eslint/no-unnecessary-condition
    } while (this.again && !this.closed);
    this.busy = false;
    void this.followText(token);
  }

  /** Waits for one drawing after the other. A hidden page asks anew once it is shown, and all do when the server is back. */
  private async followText(token: vscode.CancellationToken): Promise<void> {
    while (!token.isCancellationRequested && this.panel.visible && this.client.isRunning()) {
      await this.draw(token, true);
      // What follows, tables too, would take its time before that.
      if (this.sent !== undefined) await next(this.paintings.event, token);
    }
  }

  /**
   * Ends once a version of the text is on the screen, or nobody looks at it: what is asked for meanwhile would have the processor
   * before it. A drawing that comes to nothing keeps nobody waiting.
   */
  async paints(version: number, token: vscode.CancellationToken): Promise<void> {
    if (this.panel.visible && this.painted !== version) await next(this.paintings.event, token, longest);
  }

  /** Shows what to buy and how it lies, as far as it is known. */
  showLays({ uri, lays }: LaysParams): void {
    this.send({ type: 'lays', uri, lays });
  }

  private async draw(token: vscode.CancellationToken, waits: boolean): Promise<void> {
    const { uri, pages } = this;
    const params = this.params(waits);
    try {
      const answer = (await this.early.take(params)) ?? (await this.client.sendRequest<PreviewAnswer>(previewRequest, params, token));
      // A page that has come up meanwhile needs the whole, and has asked for it.
      if (pages !== this.pages || token.isCancellationRequested) return;
      if (answer === null) return this.send(this.stale('There is nothing to draw: the pattern is empty, or its text is gone.'));
      this.known = answer.update.serial;
      this.sendUnsaved();
      this.sent = answer.version;
      this.send({ type: 'show', uri, ...answer });
    } catch (problem) {
      if (token.isCancellationRequested) return;
      this.client.error('The preview could not be drawn.', problem, false);
      this.send(this.stale('The preview could not be drawn. The output of Piecewright says why.'));
    }
  }

  private params(waits: boolean): PreviewParams {
    const { uri, combination, buying, handled, beside, known } = this;
    return { uri, ...(combination === undefined ? {} : { combination }), ...(buying === undefined ? {} : { buying }), ...(handled === undefined ? {} : { handled }), ...(beside === undefined ? {} : { beside }), ...(known === undefined ? {} : { known }), ...(waits ? { waits } : {}) };
  }

  private stale(reason: string): HostMessage {
    return { type: 'stale', uri: this.uri, reason };
  }

  private async receive(message: PageMessage): Promise<void> {
    switch (message.type) {
      case 'unloaded':
        return this.loading.lost(message.load, this.uri);
      case 'ready':
        this.known = undefined;
        this.pages++;
        await this.refresh();
        return this.sendCursor(vscode.window.activeTextEditor);
      case 'painted':
        if (this.sent !== undefined) this.painted = this.sent;
        this.sent = undefined;
        return this.paintings.fire();
      case 'choose':
        this.combination = message.combination;
        await this.refresh();
        return this.sendCommitted();
      case 'wish':
        this.buying = message.buying;
        return this.buying === undefined ? undefined : this.refresh();
      case 'look':
        return this.client.sendNotification(lookNotification, { uri: this.uri, on: message.on } satisfies LookParams);
      case 'handled':
        this.handled = message.piece ?? undefined;
        return this.refresh();
      case 'beside':
        this.beside = message.choice ?? undefined;
        return this.refresh();
      case 'since':
        this.isSinceCommit = message.committed;
        return this.sendCommitted();
      case 'move':
        return this.move(message);
      case 'reveal':
        await this.active();
        return reveal(message);
    }
  }

  /** Sends the pieces as they were last committed, and again whenever something is committed. */
  private async sendCommitted(): Promise<void> {
    if (!this.isSinceCommit || this.closed) return;
    if (!this.followsCommits) {
      this.followsCommits = true;
      void onCommit(() => this.sendCommittedSoon(), this.commits);
    }
    const { uri, combination } = this;
    const params: CommittedPiecesParams = { uri, ...(combination === undefined ? {} : { combination }) };
    const answer = await this.client.sendRequest<CommittedPiecesAnswer | null>(committedPiecesRequest, params).catch(() => null);
    if (uri === this.uri) this.send({ type: 'committed', combination: combination ?? null, pieces: answer?.pieces ?? null });
  }

  /** Git tells every step of what it does. */
  private sendCommittedSoon(): void {
    clearTimeout(this.soon);
    this.soon = setTimeout(() => void this.sendCommitted(), settled);
  }

  private async move({ asked, piece, handle, to, isLetGo }: MoveMessage): Promise<void> {
    const { uri, combination } = this;
    const params: MoveParams = { uri, piece, handle, to, ...(combination === undefined ? {} : { combination }) };
    const answer = await this.client.sendRequest<MoveAnswer>(moveRequest, params).catch(() => null);
    const changes = isLetGo ? (answer?.changes ?? []) : [];
    const refused = await writeNumbers(changes);
    this.send({ type: 'handle', asked, at: answer?.at ?? null, says: refused ?? answer?.says ?? 'It is not there any more.', isWritten: changes.length > 0 && refused === undefined });
  }

  /** The editor notices a click into the page a moment later, and would then take the cursor back from the text. */
  private active(): Promise<void> {
    if (this.panel.active) return Promise.resolve();
    return new Promise((resolve) => {
      const done = (): void => {
        listener.dispose();
        clearTimeout(longest);
        resolve();
      };
      const listener = this.panel.onDidChangeViewState(done);
      const longest = setTimeout(done, 500);
    });
  }

  private sendCursor(editor: vscode.TextEditor | undefined): void {
    if (editor?.document.languageId !== languageId) return;
    const { document, selection } = editor;
    this.send({ type: 'cursor', file: document.uri.toString(), offset: document.offsetAt(selection.active), version: document.version });
  }

  /** Tells which texts are not saved, where the page does not know it yet. */
  private sendUnsaved(): void {
    const files = vscode.workspace.textDocuments.filter(({ languageId: language, isDirty }) => language === languageId && isDirty).map((document) => document.uri.toString());
    const told = `${this.pages} ${files.join('\n')}`;
    if (told === this.unsaved || !this.panel.visible) return;
    this.unsaved = told;
    this.send({ type: 'unsaved', files });
  }

  /** A hidden page is gone, and asks anew when it is shown again. */
  private send(message: HostMessage): void {
    if (!this.closed && this.panel.visible) void this.panel.webview.postMessage(message);
  }

  private end(): void {
    this.closed = true;
    this.asked.cancel();
    clearTimeout(this.soon);
    for (const listener of [...this.listeners, ...this.commits, this.paintings]) listener.dispose();
  }
}

/** `orchard-wallet.piece, drawn`: several previews may be open. */
const titleOf = (uri: string): string => `${vscode.Uri.parse(uri).path.replace(/^.*\//, '')}, drawn`;
