import { PassThrough } from 'node:stream';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter, type MessageConnection } from 'vscode-languageserver-protocol/node';
import type { ClientCapabilities, Diagnostic, InitializeParams, InitializeResult, PublishDiagnosticsParams } from 'vscode-languageserver';
import { createConnection } from 'vscode-languageserver/node';
import type { Host } from '../../server/src/lsp/host.ts';
import { createServer } from '../../server/src/lsp/server.ts';
import { keyOf, pathIn } from '../../server/src/lsp/uris.ts';

/** Files in memory, by their addresses. */
export function memoryHost(files: Map<string, string>): Host {
  return {
    read: (uri) => {
      const text = files.get(keyOf(uri));
      return Promise.resolve(text === undefined ? undefined : { text });
    },
    list: (folder) => Promise.resolve([...files.keys()].filter((uri) => pathIn(keyOf(folder), uri) !== undefined).sort()),
    soon: (run) => void setImmediate(run),
  };
}

export interface Setup {
  readonly files?: Readonly<Record<string, string>>;
  readonly host?: Host;
  readonly folders?: readonly string[];
  readonly capabilities?: ClientCapabilities;
  readonly options?: unknown;
  /** Said as it is, in place of the folders, capabilities and options. */
  readonly greeting?: InitializeParams;
}

/** A client that talks to a server over real JSON-RPC streams, within this process. */
export class Client {
  readonly connection: MessageConnection;
  readonly greeting: InitializeResult;
  readonly files: Map<string, string>;
  readonly published: PublishDiagnosticsParams[] = [];
  readonly logged: string[] = [];
  readonly asked: string[] = [];
  #waiting: { readonly fits: (one: PublishDiagnosticsParams) => boolean; readonly done: (one: PublishDiagnosticsParams) => void }[] = [];
  #versions = new Map<string, number>();

  private constructor(connection: MessageConnection, greeting: InitializeResult, files: Map<string, string>) {
    this.connection = connection;
    this.greeting = greeting;
    this.files = files;
    connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      this.#waiting = this.#waiting.filter(({ fits, done }) => {
        if (!fits(params)) return true;
        done(params);
        return false;
      });
    });
    connection.onNotification('window/logMessage', ({ message }: { message: string }) => void this.logged.push(message));
  }

  static async start({ files = {}, host, folders = ['file:///work'], capabilities = {}, options, greeting: said }: Setup = {}): Promise<Client> {
    const toServer = new PassThrough();
    const toClient = new PassThrough();
    const held = new Map(Object.entries(files));
    createServer(createConnection(new StreamMessageReader(toServer), new StreamMessageWriter(toClient)), host ?? memoryHost(held));
    const connection = createMessageConnection(new StreamMessageReader(toClient), new StreamMessageWriter(toServer));
    const asked: string[] = [];
    for (const method of ['client/registerCapability', 'workspace/diagnostic/refresh', 'workspace/inlayHint/refresh', 'workspace/codeLens/refresh']) {
      connection.onRequest(method, () => {
        asked.push(method);
        return null;
      });
    }
    connection.listen();
    const greeting = await connection.sendRequest<InitializeResult>('initialize', said ?? {
      processId: null, rootUri: folders[0] ?? null, capabilities, initializationOptions: options,
      workspaceFolders: folders.map((uri) => ({ uri, name: uri })),
    });
    const client = new Client(connection, greeting, held);

    Object.defineProperty(client, 'asked', { value: asked });
    await connection.sendNotification('initialized', {});
    return client;
  }

  open(uri: string, text: string): Promise<PublishDiagnosticsParams> {
    this.#versions.set(uri, 1);
    const published = this.#next(uri, 1);
    void this.connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'piecewright', version: 1, text } });
    return published;
  }

  /** Puts a whole new text in place of the old one. */
  replace(uri: string, text: string): Promise<PublishDiagnosticsParams> {
    return this.change(uri, [{ text }]);
  }

  change(uri: string, contentChanges: readonly unknown[]): Promise<PublishDiagnosticsParams> {
    const version = (this.#versions.get(uri) ?? 0) + 1;
    this.#versions.set(uri, version);
    const published = this.#next(uri, version);
    void this.connection.sendNotification('textDocument/didChange', { textDocument: { uri, version }, contentChanges });
    return published;
  }

  close(uri: string): void {
    void this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  request<Answer>(method: string, params: unknown): Promise<Answer> {
    return this.connection.sendRequest<Answer>(method, params);
  }

  /** The next diagnostics of a document that aren’t older than a version. */
  #next(uri: string, version: number): Promise<PublishDiagnosticsParams> {
    return this.when((one) => one.uri === uri && (one.version ?? 0) >= version);
  }

  when(fits: (one: PublishDiagnosticsParams) => boolean): Promise<PublishDiagnosticsParams> {
    return new Promise((done) => this.#waiting.push({ fits, done }));
  }

  end(): void {
    this.connection.dispose();
  }
}

export const codesOf = (diagnostics: readonly Diagnostic[]): readonly unknown[] => diagnostics.map((one) => one.code);
