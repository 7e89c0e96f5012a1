import * as vscode from 'vscode';
import type { InitializationOptions } from '../../server/src/lsp/messages.ts';
import text from '../../grammar/reference.md';

const scheme = 'piecewright-reference';

/** Where each problem’s code leads to: the line of the language reference that describes it. */
export const referenceOptions: InitializationOptions = {
  referenceUri: `${scheme}:/Piecewright%20reference.md`,
  referenceAnchors: Object.fromEntries(text.split('\n').flatMap((line, index) => {
    const code = /^### ([a-z-]+)$/.exec(line)?.[1];
    return code === undefined ? [] : [[code, `L${index + 1}`]];
  })),
};

/** Shows the language reference, which is shipped with the extension, as a text that can’t be changed. */
export function registerReference(context: vscode.ExtensionContext): void {
  context.subscriptions.push(vscode.workspace.registerTextDocumentContentProvider(scheme, { provideTextDocumentContent: () => text }));
}
