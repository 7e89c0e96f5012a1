import * as vscode from 'vscode';
import { BrowserMessageReader, BrowserMessageWriter, LanguageClient, type MessageTransports } from 'vscode-languageclient/browser';
import { clientOptions, languageId } from './client-options.ts';
import { start } from './start.ts';

/** Starts the extension where it runs in a browser worker; the server gets a worker of its own. */
export function activate(context: vscode.ExtensionContext): void {
  const address = vscode.Uri.joinPath(context.extensionUri, 'dist', 'server-web.js').toString(true);
  let worker: Worker | undefined;
  const end = (): void => worker?.terminate();
  // Called anew at every start of the server. Given as transports: the editor has a class `Worker` of its own, in which
  // the client would not know a worker again.
  const server = (): Promise<MessageTransports> => {
    end();
    worker = new Worker(address);
    return Promise.resolve({ reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) });
  };
  context.subscriptions.push({ dispose: end });
  start(context, new LanguageClient(languageId, 'Piecewright', server, clientOptions(context)));
}
