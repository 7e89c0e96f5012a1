import {
  DiagnosticSeverity, DiagnosticTag, DocumentDiagnosticReportKind, LSPErrorCodes, ResponseError,
  type Diagnostic, type DocumentDiagnosticReport, type WorkspaceDiagnosticReport, type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import { diagnose, type Diagnosis } from '../language/diagnostics.ts';
import type { Code } from '../problems/catalogue.ts';
import type { PatternState } from '../workspace/workspace.ts';
import type { Folder, Home } from './folders.ts';
import { cancelled, type Session, type RequestContext } from './session.ts';
import { keyOf } from './uris.ts';

const severities = { error: DiagnosticSeverity.Error, warning: DiagnosticSeverity.Warning, note: DiagnosticSeverity.Information } as const;

/** The problems of one file, in the client's words. */
export function diagnosticsOf(session: Session, context: RequestContext): readonly Diagnostic[] {
  return diagnose(context.snapshot).map((one) => toDiagnostic(session, context, one));
}

function toDiagnostic(session: Session, context: RequestContext, { found, message, start, end, related }: Diagnosis): Diagnostic {
  return {
    range: context.range(start, end),
    severity: severities[found.severity],
    ...codeOf(session, found.code),
    source: 'piecewright',
    message,
    ...(found.unused ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    ...(related.length === 0 || session.capabilities.textDocument?.publishDiagnostics?.relatedInformation === false
      ? {}
      : { relatedInformation: related.map((one) => ({ location: context.location(one.file, one.start, one.end), message: one.message })) }),
  };
}

/** A problem’s code, and where the language reference has it. */
function codeOf({ options: { referenceUri, referenceAnchors } }: Session, code: Code): Pick<Diagnostic, 'code' | 'codeDescription'> {
  return { code, ...(referenceUri === undefined ? {} : { codeDescription: { href: `${referenceUri}#${referenceAnchors?.[code] ?? code}` } }) };
}

interface Result {
  /** What the file's pattern was made from: as long as that is the same, so are the diagnostics. */
  readonly state: PatternState;
  readonly text: string;
  /** Stays as long as the diagnostics do. */
  readonly id: string;
  readonly items: readonly Diagnostic[];
}

/** Sends and answers diagnostics: to clients that ask for them when they ask, to others as soon as a text changes. */
export class Diagnostics {
  readonly #session: Session;
  readonly #results = new Map<string, Result>();
  readonly #published = new Map<string, string>();
  readonly #changed = new Set<string>();
  /** The addresses of files that are used and not open, and have problems that were sent. */
  readonly #faulty = new Set<string>();
  #lastId = 0;
  #stamp = 0;
  #planned = false;

  readonly #afterwards: () => void;

  /** @param afterwards what else is to be done when texts have changed and no further change is waiting */
  constructor(session: Session, afterwards: () => void) {
    this.#session = session;
    this.#afterwards = afterwards;
  }

  get #clientAsks(): boolean {
    return this.#session.capabilities.textDocument?.diagnostic !== undefined;
  }

  /** A document's text has changed: its own diagnostics are sent anew, and those of documents that use it. */
  documentChanged(uri: string): void {
    this.#changed.add(keyOf(uri));
    this.filesChanged();
  }

  /** Some file's text has changed. */
  filesChanged(): void {
    this.#stamp++;
    if (this.#planned) return;
    this.#planned = true;
    this.#whenQuiet(this.#stamp);
  }

  /** A closed document has no diagnostics of its own any more. */
  documentClosed(uri: string): void {
    const key = keyOf(uri);
    this.#changed.delete(key);
    const home = this.#session.folders.home(uri);
    if (home.folder.own || home.folder.workspace.text(home.path) === undefined) this.#results.delete(key);
    if (this.#published.delete(key) && !this.#clientAsks) void this.#session.connection.sendDiagnostics({ uri, diagnostics: [] });
    this.filesChanged();
  }

  /** Changes that wait already are taken together: two turns without a new one show that none is left. */
  #whenQuiet(stamp: number): void {
    const { soon } = this.#session.host;
    soon(() => soon(() => {
      if (stamp !== this.#stamp) return this.#whenQuiet(this.#stamp);
      this.#planned = false;
      void this.#session.guarded(() => this.#refresh()).then(() => this.#session.guarded(() => Promise.resolve(this.#afterwards())));
    }));
  }

  async #refresh(): Promise<void> {
    const { folders, connection, capabilities } = this.#session;
    const changed = new Set(this.#changed);
    this.#changed.clear();
    if (this.#clientAsks) {
      // The client asks by itself for what it has changed, not for what hangs on it.
      if (capabilities.workspace?.diagnostics?.refreshSupport === true && this.#hasUsers(changed)) void connection.languages.diagnostics.refresh();
      return;
    }
    const stamp = this.#stamp;
    const documents = [...folders.documents()].sort((a, b) => Number(changed.has(b.key)) - Number(changed.has(a.key)));
    for (const { uri, key } of documents) {
      const home = folders.home(uri);
      if (home.folder.workspace.wanted(home.path).length > 0) await folders.load(home);
      // A newer text is on its way and brings its own diagnostics, so these would be late.
      if (stamp !== this.#stamp) {
        for (const one of changed) this.#changed.add(one);
        return;
      }
      const document = folders.document(uri);
      const result = document && this.#resultOf(home);
      if (document === undefined || result === undefined) continue;
      if (!changed.has(key) && this.#published.get(key) === result.id) continue;
      this.#published.set(key, result.id);
      changed.delete(key);
      void connection.sendDiagnostics({ uri, version: document.version, diagnostics: [...result.items] });
    }
    this.#refreshUsed(documents.map(({ uri }) => uri));
  }

  /** The files that the open ones use have their problems, too, for as long as they are used. */
  #refreshUsed(open: readonly string[]): void {
    const { folders, connection } = this.#session;
    const used = new Map<string, Home>();
    for (const uri of open) {
      const { folder, path } = folders.home(uri);
      for (const file of folder.workspace.snapshot(path)?.pattern.world.files ?? []) {
        const of = folders.uriOf(folder, file.path);
        if (folders.document(of) === undefined) used.set(of, { folder, path: file.path });
      }
    }
    for (const uri of this.#faulty) {
      if (used.has(uri) || folders.document(uri) !== undefined) continue;
      this.#faulty.delete(uri);
      this.#published.delete(keyOf(uri));
      void connection.sendDiagnostics({ uri, diagnostics: [] });
    }
    for (const [uri, home] of used) {
      const result = this.#resultOf(home);
      if (result === undefined || this.#published.get(keyOf(uri)) === result.id) continue;
      // Nothing need be said of a file that never had a problem.
      if (result.items.length === 0 && !this.#faulty.delete(uri)) continue;
      if (result.items.length > 0) this.#faulty.add(uri);
      this.#published.set(keyOf(uri), result.id);
      void connection.sendDiagnostics({ uri, diagnostics: [...result.items] });
    }
  }

  #hasUsers(changed: ReadonlySet<string>): boolean {
    const { folders } = this.#session;
    if (changed.size === 0) return true;
    return folders.documents().filter(({ key }) => changed.has(key)).some(({ uri }) => {
      const { folder, path } = folders.home(uri);
      return folder.workspace.usersOf(path).length > 0;
    });
  }

  /** The diagnostics of a file, with an id that stays as long as they do. */
  #resultOf(home: Home): Result | undefined {
    const state = home.folder.workspace.stateOf(home.path);
    if (state === undefined) return undefined;
    const uri = this.#session.folders.uriOf(home.folder, home.path);
    const key = keyOf(uri);
    const before = this.#results.get(key);
    if (before?.state === state) return before;
    const context = this.#session.contextOf(home);
    const items = context === undefined ? [] : diagnosticsOf(this.#session, context);
    const text = JSON.stringify(items);
    const result = { state, text, items, id: before?.text === text ? before.id : String(++this.#lastId) };
    // What is neither open nor in a folder of the client's is asked for once.
    if (!home.folder.own || this.#session.folders.document(uri) !== undefined) this.#results.set(key, result);
    return result;
  }

  /** How many files it holds the diagnostics of. */
  get heldResults(): number {
    return this.#results.size;
  }

  /** Answers a client that asks for one file's diagnostics. */
  async pull(uri: string, previous: string | undefined): Promise<DocumentDiagnosticReport | ResponseError<{ retriggerRequest: boolean }>> {
    const { folders } = this.#session;
    const home = folders.home(uri);
    const version = folders.document(uri)?.version;
    if (home.folder.workspace.wanted(home.path).length > 0) await folders.load(home);
    if (folders.document(uri)?.version !== version) return new ResponseError(LSPErrorCodes.ServerCancelled, 'The text has changed.', { retriggerRequest: true });
    return this.#report(home, previous);
  }

  #report(home: Home, previous: string | undefined): DocumentDiagnosticReport {
    const result = this.#resultOf(home);
    if (result === undefined) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
    if (result.id === previous) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId: result.id };
    return { kind: DocumentDiagnosticReportKind.Full, resultId: result.id, items: [...result.items] };
  }

  /** Answers a client that asks for the diagnostics of all files in its folders. */
  async pullAll(previous: readonly { readonly uri: string; readonly value: string }[], isCancelled: () => boolean): Promise<WorkspaceDiagnosticReport | ResponseError<void>> {
    const { folders, host } = this.#session;
    const known = new Map(previous.map(({ uri, value }) => [keyOf(uri), value]));
    const items: WorkspaceDocumentDiagnosticReport[] = [];
    const met = new Set<string>();
    const opened: readonly Folder[] = folders.all().filter(({ own }) => !own);
    for (const folder of opened) {
      await folders.loadAll(folder);
      for (const path of folder.workspace.paths()) {
        // Others get their turn between files.
        await new Promise<void>((resolve) => host.soon(resolve));
        if (isCancelled()) return cancelled();
        const uri = folders.uriOf(folder, path);
        const home = folders.home(uri);
        if (home.folder !== folder) continue;
        if (folder.workspace.wanted(path).length > 0) await folders.load(home);
        items.push({ ...this.#report(home, known.get(keyOf(uri))), uri, version: folders.document(uri)?.version ?? null });
        known.delete(keyOf(uri));
        met.add(keyOf(uri));
      }
    }
    for (const key of this.#results.keys()) if (!met.has(key) && !folders.documents().some((document) => document.key === key)) this.#results.delete(key);
    // What the client still has of files that are gone is taken back.
    for (const { uri } of previous) if (known.has(keyOf(uri)) && folders.document(uri) === undefined) items.push({ kind: DocumentDiagnosticReportKind.Full, items: [], uri, version: null });
    return { items };
  }
}
