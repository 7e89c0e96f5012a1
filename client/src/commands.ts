import * as vscode from 'vscode';
import { languageId, type Client } from './client-options.ts';
import { exportCuttingTable } from './export.ts';
import { followPatterns } from './last-pattern.ts';
import type { Previews } from './preview/panels.ts';

/** Registers the commands of the palette. */
export function registerCommands(context: vscode.ExtensionContext, client: Client, previews: Previews): void {
  const lastPattern = followPatterns(context);
  /** Runs a command on the pattern that is being worked on. */
  const onPattern = (run: (document: vscode.TextDocument) => unknown): unknown => {
    const document = lastPattern();
    return document === undefined ? vscode.window.showInformationMessage('Open a .piece file first.') : run(document);
  };
  const commands: Readonly<Record<string, () => unknown>> = {
    newPattern,
    insertSnippet: () => onPattern((document) => inText(document, 'editor.action.insertSnippet')),
    openPreview: () => onPattern((document) => previews.open(document.uri)),
    exportCuttingTable: () => onPattern((document) => exportCuttingTable(client, document, previews.shown(document.uri))),
    applySafeFixes: () => onPattern((document) => inText(document, 'editor.action.codeAction', { kind: 'source.fixAll.piecewright', apply: 'first' })),
    restartServer: () => restart(client),
  };
  for (const [name, run] of Object.entries(commands)) {
    context.subscriptions.push(vscode.commands.registerCommand(`piecewright.${name}`, run));
  }
}

/** Opens an empty pattern beside what asks for it. */
async function newPattern(): Promise<void> {
  const document = await vscode.workspace.openTextDocument({ language: languageId, content: '' });
  const { activeTextEditor } = vscode.window;
  // What is no text, such as the walkthrough, stays in sight.
  await vscode.window.showTextDocument(document, activeTextEditor === undefined && hasTabs() ? vscode.ViewColumn.Beside : vscode.ViewColumn.Active);
}

const hasTabs = (): boolean => vscode.window.tabGroups.activeTabGroup.tabs.length > 0;

/** Runs an editor's own command with the cursor in a text. */
async function inText(document: vscode.TextDocument, command: string, ...args: readonly unknown[]): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find((editor) => editor.document === document);
  await vscode.window.showTextDocument(document, shown?.viewColumn ?? vscode.ViewColumn.Active);
  await vscode.commands.executeCommand(command, ...args);
}

async function restart(client: Client): Promise<void> {
  if (client.needsStop()) await client.stop();
  await client.start();
}
