import type * as vscode from 'vscode';
import type { Client } from './client-options.ts';
import { registerCommands } from './commands.ts';
import { answerFileRequests } from './files.ts';
import { registerPreviews } from './preview/panels.ts';
import { registerReference } from './reference.ts';

/** Wires the client to the editor and starts the server; what is the same on every host. */
export function start(context: vscode.ExtensionContext, client: Client): void {
  const previews = registerPreviews(context, client);
  // What is wrong is told after what is drawn: the editor marks it in the text for a frame of its own.
  client.middleware.provideDiagnostics = async (text, before, token, ask) => {
    if (!('scheme' in text)) await previews.paints(text, token);
    return ask(text, before, token);
  };
  registerReference(context);
  registerCommands(context, client, previews);
  answerFileRequests(context, client);
  context.subscriptions.push({ dispose: () => void client.dispose() });
  // Not waited for: a server that doesn't start must not keep “Restart Server” from working.
  client.start().catch((problem: unknown) => client.error('The server of Piecewright did not start.', problem, 'force'));
}
