import * as vscode from 'vscode';
import type { RevealMessage } from '../../preview/messages.ts';

/** Selects the text that a drawn thing comes from, in the editor that shows it already if there is one. */
export async function reveal({ file, start, end }: RevealMessage): Promise<void> {
  const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(file));
  const shown = vscode.window.visibleTextEditors.find((editor) => editor.document === document);
  const selection = new vscode.Range(document.positionAt(start), document.positionAt(end));
  const editor = await vscode.window.showTextDocument(document, { viewColumn: shown?.viewColumn ?? vscode.ViewColumn.One, selection });
  editor.revealRange(selection, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}
