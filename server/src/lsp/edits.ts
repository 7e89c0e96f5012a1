import type { TextEdit, WorkspaceEdit } from 'vscode-languageserver';
import type { Folder } from './folders.ts';
import type { Session } from './session.ts';

/** A change of any file of a folder, by offsets. */
export interface FileChange {
  readonly file: string;
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** Changes in the client's words; for clients that know versions, bound to the texts that they were worked out from. */
export function workspaceEdit(session: Session, folder: Folder, changes: readonly FileChange[]): WorkspaceEdit {
  const byUri = new Map<string, TextEdit[]>();
  for (const { file, start, end, newText } of changes) {
    const { uri, range } = session.location(folder, file, start, end);
    byUri.set(uri, [...(byUri.get(uri) ?? []), { range, newText }]);
  }
  if (session.capabilities.workspace?.workspaceEdit?.documentChanges !== true) return { changes: Object.fromEntries(byUri) };
  return {
    documentChanges: [...byUri].map(([uri, edits]) => ({ textDocument: { uri, version: session.folders.document(uri)?.version ?? null }, edits })),
  };
}
