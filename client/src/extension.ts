import * as vscode from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { clientOptions, languageId } from './client-options.ts';
import { start } from './start.ts';
import { registerTasks } from './tasks.ts';

/** Starts the extension where it runs in Node: on the desktop and on remote machines. */
export function activate(context: vscode.ExtensionContext): void {
  const file = (name: string): string => vscode.Uri.joinPath(context.extensionUri, 'dist', name).fsPath;
  const server = { module: file('server.cjs'), transport: TransportKind.ipc };
  registerTasks(context, file('piecewright.cjs'));
  start(context, new LanguageClient(languageId, 'Piecewright', { run: server, debug: server }, clientOptions(context)));
}
