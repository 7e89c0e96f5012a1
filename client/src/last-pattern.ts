import * as vscode from 'vscode';
import { languageId } from './client-options.ts';

/**
 * Follows which pattern was edited last, so that the preview and the walkthrough, which take the cursor from the text, can
 * still say “this pattern”.
 */
export function followPatterns(context: vscode.ExtensionContext): () => vscode.TextDocument | undefined {
  let last: vscode.TextDocument | undefined;
  const note = (editor: vscode.TextEditor | undefined): void => {
    if (editor?.document.languageId === languageId) last = editor.document;
  };
  note(vscode.window.activeTextEditor);
  context.subscriptions.push(
    vscode.window.onDidChangeActiveTextEditor(note),
    // A new text is given its language after it is shown.
    vscode.workspace.onDidOpenTextDocument((document) => {
      if (document === vscode.window.activeTextEditor?.document) note(vscode.window.activeTextEditor);
    }),
  );
  return () => (last?.isClosed === false && last.languageId === languageId ? last : undefined);
}
