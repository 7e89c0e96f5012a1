import { LSPErrorCodes, ResponseError, type CancellationToken, type ClientCapabilities, type Connection, type Location, type Range } from 'vscode-languageserver';
import { ErrorCodes } from 'vscode-languageserver';
import { RecentKeys } from '../workspace/recent-keys.ts';
import type { Snapshot } from '../workspace/snapshot.ts';
import { Folders, type Folder, type Home } from './folders.ts';
import type { Host } from './host.ts';
import type { InitializationOptions } from './messages.ts';
import { Lines, type Encoding } from './positions.ts';
import { keyOf } from './uris.ts';

/** What a request is about: a file as it is now, with the way between offsets and the client's positions. */
export interface RequestContext {
  readonly snapshot: Snapshot;
  readonly home: Home;
  readonly lines: Lines;
  readonly range: (start: number, end: number) => Range;
  /** A place in any file of the same folder. */
  readonly location: (path: string, start: number, end: number) => Location;
}

/** One client with its folders and documents. */
export class Session {
  readonly connection: Connection;
  readonly folders: Folders;
  readonly host: Host;
  encoding: Encoding = 'utf-16';
  capabilities: ClientCapabilities = {};
  options: InitializationOptions = {};
  readonly #lines = new Map<string, Lines>();
  /** Lines of texts that are not open are held for a while only. */
  readonly #closedLines = new RecentKeys(64, (key) => this.#lines.delete(key));

  constructor(connection: Connection, host: Host) {
    this.connection = connection;
    this.host = host;
    this.folders = new Folders(host);
  }

  /** The lines of a text that is known by an address; read anew only when the text is another. */
  linesOf(uri: string, text: string): Lines {
    const key = keyOf(uri);
    let lines = this.#lines.get(key);
    if (lines?.text !== text) this.#lines.set(key, (lines = new Lines(text, this.encoding)));
    if (this.folders.document(uri) === undefined) this.#closedLines.use(key);
    else this.#closedLines.remove(key);
    return lines;
  }

  /** A document has been closed. */
  closed(uri: string): void {
    if (this.#lines.has(keyOf(uri))) this.#closedLines.use(keyOf(uri));
  }

  /** How many texts it holds the lines of. */
  get heldLines(): number {
    return this.#lines.size;
  }

  range(lines: Lines, start: number, end: number): Range {
    return { start: lines.positionAt(start), end: lines.positionAt(end) };
  }

  location(folder: Folder, path: string, start: number, end: number): Location {
    const uri = this.folders.uriOf(folder, path);
    return { uri, range: this.range(this.linesOf(uri, folder.workspace.text(path) ?? ''), start, end) };
  }

  /** The file at an address as it is now; undefined where it can't be read. */
  contextOf(home: Home): RequestContext | undefined {
    const snapshot = home.folder.workspace.snapshot(home.path);
    if (snapshot === undefined) return undefined;
    const lines = this.linesOf(this.folders.uriOf(home.folder, home.path), home.folder.workspace.text(home.path) ?? '');
    return {
      snapshot, home, lines,
      range: (start, end) => this.range(lines, start, end),
      location: (path, start, end) => this.location(home.folder, path, start, end),
    };
  }

  /**
   * Answers a request about one file. It waits until the files that this one uses are read; where the text has changed
   * meanwhile, the answer would be about another text and is refused.
   *
   * @returns `null` where there is no such file, an error where the request is cancelled or stale or fails
   */
  async answer<Answer>(uri: string, token: CancellationToken, run: (context: RequestContext) => Answer | Promise<Answer>): Promise<Answer | null | ResponseError<void>> {
    if (token.isCancellationRequested) return cancelled();
    const home = this.folders.home(uri);
    const version = this.folders.document(uri)?.version;
    return this.guarded(async () => {
      if (home.folder.workspace.wanted(home.path).length > 0) await this.folders.load(home);
      if (token.isCancellationRequested) return cancelled();
      if (this.folders.document(uri)?.version !== version) return stale();
      const context = this.contextOf(home);
      return context === undefined ? null : run(context);
    });
  }

  /** Runs something; what goes wrong in it is logged and told, and the server goes on. */
  async guarded<Answer>(run: () => Promise<Answer>): Promise<Answer | ResponseError<void>> {
    try {
      return await run();
    } catch (error) {
      if (error instanceof ResponseError) return error as ResponseError<void>;
      this.log(error);
      return new ResponseError<void>(ErrorCodes.InternalError, error instanceof Error ? error.message : String(error));
    }
  }

  log(error: unknown): void {
    this.connection.console.error(error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

/** Ends an answer that took its time: where nobody waits for it any more, or where it would be about an older text. */
export function checkStillAsked(session: Session, { home, snapshot }: RequestContext, token: CancellationToken): void {
  if (token.isCancellationRequested) throw cancelled();
  if (session.contextOf(home)?.snapshot !== snapshot) throw stale();
}

const stale = (): ResponseError<void> => new ResponseError<void>(LSPErrorCodes.ContentModified, 'The text has changed.');
export const cancelled = (): ResponseError<void> => new ResponseError<void>(LSPErrorCodes.RequestCancelled, 'The request was cancelled.');
