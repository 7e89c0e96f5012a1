import * as vscode from 'vscode';
import { listRequest, readRequest, type ReadParams } from '../../server/src/lsp/messages.ts';
import type { Client } from './client-options.ts';

/** Reads files for the server through the editor, so that it works in virtual workspaces too. */
export function answerFileRequests(context: vscode.ExtensionContext, client: Client): void {
  context.subscriptions.push(
    client.onRequest(readRequest, ({ uri }: ReadParams) => read(vscode.Uri.parse(uri))),
    client.onRequest(listRequest, list),
  );
}

/** Only patterns are read, and a missing one is an answer, not a failure. */
async function read(uri: vscode.Uri): Promise<string | null> {
  if (!uri.path.endsWith('.piece')) return null;
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch (problem) {
    if (problem instanceof vscode.FileSystemError) return null;
    throw problem;
  }
}

/** Walks the folders itself, since the editor's own search does not reach every virtual workspace. */
async function list(): Promise<readonly string[]> {
  const found: string[] = [];
  const walk = async (folder: vscode.Uri): Promise<void> => {
    for (const [name, type] of await vscode.workspace.fs.readDirectory(folder)) {
      const uri = vscode.Uri.joinPath(folder, name);
      if (type === vscode.FileType.Directory && !skipped.test(name)) await walk(uri);
      if ((type & vscode.FileType.File) !== 0 && name.endsWith('.piece')) found.push(uri.toString());
    }
  };
  for (const { uri } of vscode.workspace.workspaceFolders ?? []) await walk(uri);
  return found;
}

const skipped = /^(\.|node_modules$)/;
