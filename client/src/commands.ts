import * as vscode from 'vscode';
import { languageId, type Client } from './client-options.ts';
import { exportCuttingTable } from './export.ts';
import type { Previews } from './preview/panels.ts';

/** Registers the commands of the palette. */
export function registerCommands(context: vscode.ExtensionContext, client: Client, previews: Previews): void {
  const commands: Readonly<Record<string, () => unknown>> = {
    openPreview: () => onPattern((document) => previews.open(document.uri)),
    exportCuttingTable: () => onPattern((document) => exportCuttingTable(client, document)),
    applySafeFixes: () =>
      vscode.commands.executeCommand('editor.action.codeAction', { kind: 'source.fixAll.piecewright', apply: 'first' }),
    restartServer: () => restart(client),
  };
  for (const [name, run] of Object.entries(commands)) {
    context.subscriptions.push(vscode.commands.registerCommand(`piecewright.${name}`, run));
  }
}

/** Runs a command on the pattern in the active editor. */
function onPattern(run: (document: vscode.TextDocument) => unknown): unknown {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId === languageId) return run(document);
  return vscode.window.showInformationMessage('Open a .piece file first.');
}

async function restart(client: Client): Promise<void> {
  if (client.needsStop()) await client.stop();
  await client.start();
}
