import * as vscode from 'vscode';
import { languageId } from '../client-options.ts';

/**
 * Notices that a text without a file has got one. The editor doesn’t say so: it closes the one and opens another of the
 * same words, in either order, and the closed one may be empty by then.
 *
 * @param isFollowed whether anyone wants to know of a text
 */
export function followFirstSaves(isFollowed: (uri: string) => boolean, moved: (from: string, to: string) => void): readonly vscode.Disposable[] {
  const words = new Map<string, string>();
  const note = (document: vscode.TextDocument): void => {
    const text = document.getText();
    if (document.isUntitled && text !== '') words.set(document.uri.toString(), text);
  };
  const look = (): void => {
    const open = vscode.workspace.textDocuments;
    for (const [uri, text] of words) {
      if (!isFollowed(uri) || open.some((document) => document.uri.toString() === uri && document.getText() === text)) continue;
      const saved = open.find((document) => !document.isUntitled && document.languageId === languageId && document.getText() === text);
      if (saved === undefined) continue;
      words.delete(uri);
      moved(uri, saved.uri.toString());
    }
  };
  for (const document of vscode.workspace.textDocuments) note(document);
  return [
    vscode.workspace.onDidOpenTextDocument((document) => {
      note(document);
      look();
    }),
    vscode.workspace.onDidChangeTextDocument(({ document }) => {
      if (document.languageId === languageId) note(document);
    }),
    vscode.workspace.onDidSaveTextDocument(look),
    vscode.workspace.onDidCloseTextDocument(look),
  ];
}
