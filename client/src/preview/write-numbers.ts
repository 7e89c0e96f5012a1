import * as vscode from 'vscode';
import type { MoveChange } from '../../../server/src/lsp/messages.ts';

/** Writes numbers in the place of others, as one edit that is undone by one undo; says why where it can't. */
export async function writeNumbers(changes: readonly MoveChange[]): Promise<string | undefined> {
  if (changes.length === 0) return undefined;
  const edit = new vscode.WorkspaceEdit();
  for (const { uri, start, end, before, text } of changes) {
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
    const range = new vscode.Range(document.positionAt(start), document.positionAt(end));
    // The server may not have the text as it is now.
    if (document.getText(range) !== before) return 'The text has changed meanwhile: nothing was written.';
    edit.replace(document.uri, range, text);
  }
  return (await vscode.workspace.applyEdit(edit)) ? undefined : 'The editor did not take it: nothing was written.';
}
