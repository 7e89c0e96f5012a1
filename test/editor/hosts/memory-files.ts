import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';

/**
 * The scheme of the workspace that lives in the browser's memory. The editor trusts what is in such workspaces, but for
 * one scheme.
 */
export const schemeFor = (trusted: boolean): string => (trusted ? 'memory' : 'vscode-vfs');

/** Below this path of its own site the extension tells the server what is written. */
export const writtenPath = '/written';

/** The manifest of the extension that provides the workspace. */
export const manifestFor = (scheme: string): object => ({
  name: 'memory-files',
  publisher: 'test',
  version: '0.0.0',
  engines: { vscode: '^1.100.0' },
  browser: './extension.js',
  capabilities: { virtualWorkspaces: true, untrustedWorkspaces: { supported: true } },
  activationEvents: [`onFileSystem:${scheme}`],
});

/** The text of that extension: a file system in memory that starts with a copy of a folder. */
export function extensionText(scheme: string, folder: string): string {
  return `(${provideMemoryFiles.toString()})(require('vscode'), exports, ${JSON.stringify(scheme)}, ${JSON.stringify(writtenPath)}, ${JSON.stringify(textsIn(folder))});`;
}

function textsIn(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  return Object.fromEntries(
    files.map((entry) => {
      const file = path.join(entry.parentPath, entry.name);
      return [`/workspace/${path.relative(folder, file).split(path.sep).join('/')}`, readFileSync(file, 'utf8')];
    }),
  );
}

/** Runs in the browser: it may use nothing from this file but its arguments. */
function provideMemoryFiles(
  vscode: typeof import('vscode'),
  extension: { activate?: (context: import('vscode').ExtensionContext) => void },
  scheme: string,
  writtenPath: string,
  texts: Record<string, string>,
): void {
  type Entry = { data: Uint8Array | undefined; time: number };
  const entries = new Map<string, Entry>();
  const parent = (at: string): string => at.slice(0, Math.max(1, at.lastIndexOf('/')));
  const addFolder = (at: string): void => {
    if (entries.has(at)) return;
    if (at !== '/') addFolder(parent(at));
    entries.set(at, { data: undefined, time: Date.now() });
  };
  addFolder('/');
  for (const [at, text] of Object.entries(texts)) {
    addFolder(parent(at));
    entries.set(at, { data: new TextEncoder().encode(text), time: Date.now() });
  }

  let site: import('vscode').Uri | undefined;
  const changes = new vscode.EventEmitter<import('vscode').FileChangeEvent[]>();
  const tell = (uri: import('vscode').Uri, type: import('vscode').FileChangeType): void => changes.fire([{ uri, type }]);
  const find = (uri: import('vscode').Uri): Entry => {
    const entry = entries.get(uri.path);
    if (entry === undefined) throw vscode.FileSystemError.FileNotFound(uri);
    return entry;
  };
  const typeOf = (entry: Entry): import('vscode').FileType => (entry.data === undefined ? vscode.FileType.Directory : vscode.FileType.File);
  const remove = (at: string): void => {
    for (const key of [...entries.keys()]) if (key === at || key.startsWith(`${at}/`)) entries.delete(key);
  };

  const keep = async (at: string, data: Uint8Array): Promise<void> => {
    if (site !== undefined) await fetch(site.with({ path: writtenPath + at }).toString(true), { method: 'POST', body: data.slice() });
  };

  const provider: import('vscode').FileSystemProvider = {
    onDidChangeFile: changes.event,
    watch: () => ({ dispose: () => undefined }),
    stat: (uri) => {
      const entry = find(uri);
      return { type: typeOf(entry), ctime: entry.time, mtime: entry.time, size: entry.data?.length ?? 0 };
    },
    readDirectory: (uri) => {
      find(uri);
      return [...entries]
        .filter(([at]) => at !== '/' && parent(at) === uri.path)
        .map(([at, entry]) => [at.slice(at.lastIndexOf('/') + 1), typeOf(entry)]);
    },
    createDirectory: (uri) => {
      addFolder(uri.path);
      tell(uri, vscode.FileChangeType.Created);
    },
    readFile: (uri) => {
      const { data } = find(uri);
      if (data === undefined) throw vscode.FileSystemError.FileIsADirectory(uri);
      return data;
    },
    writeFile: async (uri, data, options) => {
      const known = entries.has(uri.path);
      if (known && options.create && !options.overwrite) throw vscode.FileSystemError.FileExists(uri);
      if (!known && !options.create) throw vscode.FileSystemError.FileNotFound(uri);
      entries.set(uri.path, { data, time: Date.now() });
      await keep(uri.path, data);
      tell(uri, known ? vscode.FileChangeType.Changed : vscode.FileChangeType.Created);
    },
    delete: (uri) => {
      find(uri);
      remove(uri.path);
      tell(uri, vscode.FileChangeType.Deleted);
    },
    rename: async (from, to, { overwrite }) => {
      const { data } = find(from);
      if (entries.has(to.path) && !overwrite) throw vscode.FileSystemError.FileExists(to);
      if (data !== undefined) await keep(to.path, data);
      for (const [at, entry] of [...entries]) {
        if (at === from.path || at.startsWith(`${from.path}/`)) entries.set(to.path + at.slice(from.path.length), entry);
      }
      remove(from.path);
      tell(from, vscode.FileChangeType.Deleted);
      tell(to, vscode.FileChangeType.Created);
    },
  };
  extension.activate = (context) => {
    site = context.extensionUri;
    context.subscriptions.push(vscode.workspace.registerFileSystemProvider(scheme, provider));
  };
}
