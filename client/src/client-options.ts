import * as vscode from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { InitializationOptions } from '../../server/src/lsp/messages.ts';
import { referenceOptions } from './reference.ts';

/** The language's id in the editor. */
export const languageId = 'piecewright';

/** What the client is on every host: the desktop's and the browser's differ only in how they reach the server. */
export type Client = BaseLanguageClient;

/** The client's options; the watcher ends with the extension. */
export function clientOptions(context: vscode.ExtensionContext): LanguageClientOptions {
  const fileEvents = vscode.workspace.createFileSystemWatcher('**/*.piece');
  context.subscriptions.push(fileEvents);
  return { documentSelector: [{ language: languageId }], synchronize: { fileEvents }, initializationOptions: { ...referenceOptions, showsPlaces: true } satisfies InitializationOptions };
}
