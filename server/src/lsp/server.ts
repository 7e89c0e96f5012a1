import { TextDocumentSyncKind, DidChangeConfigurationNotification, DidChangeWatchedFilesNotification, type CancellationToken, type Connection, type FileRename, type InitializeParams, type ServerCapabilities, type TextDocumentContentChangeEvent, type WorkspaceEdit } from 'vscode-languageserver';
import { movedUses } from '../language/moved-files.ts';
import { Diagnostics } from './diagnostics.ts';
import { merged, workspaceEdit } from './edits.ts';
import { featureCapabilities, registerFeatures } from './features.ts';
import type { Host } from './host.ts';
import type { InitializationOptions } from './messages.ts';
import { chooseEncoding, withoutMark } from './positions.ts';
import { Planner } from './planner.ts';
import { Previews } from './previews.ts';
import { registerRequests } from './requests.ts';
import { cancelled, Session } from './session.ts';
import { keyOf, pathIn } from './uris.ts';

/** Serves one client over a connection, wherever it runs. */
export function createServer(connection: Connection, host: Host): void {
  const session = new Session(connection, host);
  const previews = new Previews(session);
  const planner = new Planner(session);
  const diagnostics = new Diagnostics(session, () => {
    planner.settled();
    previews.tellChanges();
  });
  serveStart(session, diagnostics);
  serveDocuments(session, previews, diagnostics);
  serveFiles(session, diagnostics);
  serveDiagnostics(session, diagnostics);
  registerFeatures(session, planner);
  registerRequests(session, previews, planner);
  connection.listen();
}

/** What client and server tell one another before all else. */
function serveStart(session: Session, diagnostics: Diagnostics): void {
  const { connection, folders } = session;
  connection.onInitialize((params) => {
    session.capabilities = params.capabilities;
    session.options = optionsOf(params.initializationOptions);
    session.encoding = chooseEncoding(params.capabilities.general?.positionEncodings);
    for (const uri of folderUris(params)) folders.add(uri);
    return { capabilities: capabilitiesFor(session), serverInfo: { name: 'piecewright' } };
  });

  connection.onInitialized(() => {
    const workspace = session.capabilities.workspace;
    if (workspace?.didChangeWatchedFiles?.dynamicRegistration === true) {
      void connection.client.register(DidChangeWatchedFilesNotification.type, { watchers: [{ globPattern: '**/*.piece' }] });
    }
    if (workspace?.didChangeConfiguration?.dynamicRegistration === true) {
      void connection.client.register(DidChangeConfigurationNotification.type, { section: 'piecewright' });
    }
    if (workspace?.workspaceFolders === true) {
      connection.workspace.onDidChangeWorkspaceFolders(({ added, removed }) => {
        for (const { uri } of removed) folders.remove(uri);
        for (const { uri } of added) folders.add(uri);
        diagnostics.filesChanged();
      });
    }
  });
}

function serveDocuments(session: Session, previews: Previews, diagnostics: Diagnostics): void {
  const { connection, folders } = session;
  connection.onDidOpenTextDocument(({ textDocument: { uri, version, text } }) => {
    folders.open({ uri, version, text: withoutMark(text) });
    diagnostics.documentChanged(uri);
  });
  connection.onDidChangeTextDocument(({ textDocument: { uri, version }, contentChanges }) => {
    const before = folders.document(uri);
    if (before === undefined) return;
    folders.open({ uri: before.uri, version, text: changed(session, uri, before.text, contentChanges) });
    diagnostics.documentChanged(uri);
  });
  connection.onDidCloseTextDocument(({ textDocument: { uri } }) => {
    folders.close(uri);
    session.closed(uri);
    previews.closed(uri);
    diagnostics.documentClosed(uri);
  });
}

/** A document's text once the changes to it are made, one after the other. */
function changed(session: Session, uri: string, before: string, changes: readonly TextDocumentContentChangeEvent[]): string {
  let text = before;
  for (const change of changes) {
    if (!('range' in change)) {
      text = withoutMark(change.text);
      continue;
    }
    const lines = session.linesOf(uri, text);
    const start = lines.offsetAt(change.range.start);
    text = text.slice(0, start) + change.text + text.slice(Math.max(start, lines.offsetAt(change.range.end)));
  }
  return text;
}

/** What goes on among the files, opened or not. */
function serveFiles(session: Session, diagnostics: Diagnostics): void {
  const { connection, folders } = session;
  const afterFiles = async (run: () => Promise<unknown>): Promise<void> => {
    await session.guarded(run);
    diagnostics.filesChanged();
  };
  connection.onDidChangeWatchedFiles(({ changes }) => afterFiles(() => Promise.all(changes.map(({ uri, type }) => folders.changed(uri, type === 3)))));
  connection.workspace.onWillRenameFiles(({ files }, token) => session.guarded(() => usesToMove(session, files, token)) as Promise<WorkspaceEdit | null>);
  connection.workspace.onDidRenameFiles(({ files }) => afterFiles(async () => {
    for (const { oldUri } of files) folders.removed(oldUri);
    await Promise.all(files.map(({ newUri }) => (newUri.endsWith('.piece') ? folders.changed(newUri, false) : folders.relist())));
  }));
  connection.workspace.onDidDeleteFiles(({ files }) => afterFiles(() => {
    for (const { uri } of files) folders.removed(uri);
    return Promise.resolve();
  }));
}

/** The changes that keep every `use` pointing to its file, where files are about to be renamed. */
async function usesToMove(session: Session, files: readonly FileRename[], token: CancellationToken): Promise<WorkspaceEdit | null> {
  const { folders } = session;
  const changes: WorkspaceEdit[] = [];
  for (const folder of folders.all()) {
    const moves = files.flatMap(({ oldUri, newUri }) => {
      const [from, to] = [pathIn(folder.key, keyOf(oldUri)), pathIn(folder.key, keyOf(newUri))];
      return from === undefined ? [] : [{ from, to }];
    });
    if (moves.length === 0) continue;
    if (!folder.own) await folders.loadAll(folder);
    if (token.isCancellationRequested) throw cancelled();
    // A file in a folder within this one is that folder’s to change.
    const own = folder.workspace.paths().filter((path) => folders.home(folders.uriOf(folder, path)).folder === folder);
    changes.push(workspaceEdit(session, folder, movedUses(own.flatMap((path) => folder.workspace.file(path) ?? []), moves)));
  }
  return merged(changes);
}

function serveDiagnostics(session: Session, diagnostics: Diagnostics): void {
  const { connection } = session;
  connection.languages.diagnostics.on(async ({ textDocument, previousResultId }, token) => {
    if (token.isCancellationRequested) return cancelled() as never;
    return (await session.guarded(() => diagnostics.pull(textDocument.uri, previousResultId))) as never;
  });
  connection.languages.diagnostics.onWorkspace(async ({ previousResultIds }, token) =>
    (await session.guarded(() => diagnostics.pullAll(previousResultIds, () => token.isCancellationRequested))) as never);
}

function capabilitiesFor(session: Session): ServerCapabilities {
  const files = { filters: [{ pattern: { glob: '**/*.piece' } }, { pattern: { glob: '**', matches: 'folder' as const } }] };
  return {
    positionEncoding: session.encoding,
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: false },
    workspace: {
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: { willRename: files, didRename: files, didDelete: files },
    },
    diagnosticProvider: { identifier: 'piecewright', interFileDependencies: true, workspaceDiagnostics: true },
    ...featureCapabilities(session),
  };
}

function folderUris(params: InitializeParams): readonly string[] {
  if (params.workspaceFolders !== null && params.workspaceFolders !== undefined && params.workspaceFolders.length > 0) return params.workspaceFolders.map(({ uri }) => uri);
  // Older clients know of one folder only, and some leave the field out.
  // eslint-disable-next-line @typescript-eslint/no-deprecated
  const root = params.rootUri as string | null | undefined;
  return root === null || root === undefined ? [] : [root];
}

/** What a client says at the start may be anything. */
function optionsOf(given: unknown): InitializationOptions {
  if (typeof given !== 'object' || given === null) return {};
  const { referenceUri, referenceAnchors, showsPlaces } = given as Record<string, unknown>;
  const places = { showsPlaces: showsPlaces === true };
  if (typeof referenceUri !== 'string') return places;
  const anchors = Object.entries(referenceAnchors ?? {}).filter((entry): entry is [string, string] => typeof entry[1] === 'string');
  return { ...places, referenceUri, referenceAnchors: Object.fromEntries(anchors) };
}
