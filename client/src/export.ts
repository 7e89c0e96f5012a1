import * as vscode from 'vscode';
import type { Client } from './client-options.ts';

/** The request for a pattern's cutting table. */
export const cuttingTableRequest = 'piecewright/cuttingTable';
export interface CuttingTableParams {
  readonly uri: string;
}
/** The table as comma-separated text, or `null` when the pattern's errors leave none. */
export type CuttingTableAnswer = { readonly text: string } | null;

/** Asks where to, and writes the cutting table there. */
export async function exportCuttingTable(client: Client, document: vscode.TextDocument): Promise<void> {
  const answer = await client.sendRequest<CuttingTableAnswer>(cuttingTableRequest, { uri: document.uri.toString() } satisfies CuttingTableParams);
  if (answer === null) {
    await vscode.window.showWarningMessage('There is no cutting table yet: the pattern has errors. See the Problems panel.');
    return;
  }
  const target = await vscode.window.showSaveDialog({
    title: 'Export Cutting Table',
    saveLabel: 'Export',
    defaultUri: tableUri(document.uri),
    filters: { 'Comma-separated values': ['csv'] },
  });
  if (target === undefined) return;
  await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(answer.text));
  const open = await vscode.window.showInformationMessage(`The cutting table is in ${vscode.workspace.asRelativePath(target)}.`, 'Open');
  if (open !== undefined) await vscode.window.showTextDocument(target);
}

/** Beside the pattern, with its name; an unsaved pattern's table goes to the first workspace folder. */
function tableUri(pattern: vscode.Uri): vscode.Uri {
  const name = `${pattern.path.replace(/^.*\//, '').replace(/\.piece$/, '')}-cutting-table.csv`;
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (pattern.scheme === 'untitled') return folder === undefined ? vscode.Uri.file(`/${name}`) : vscode.Uri.joinPath(folder, name);
  return vscode.Uri.joinPath(pattern, '..', name);
}
