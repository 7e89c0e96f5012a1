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

/** Several changes as one; `null` where there is nothing to change. */
export function merged(edits: readonly WorkspaceEdit[]): WorkspaceEdit | null {
  const documentChanges = edits.flatMap((edit) => edit.documentChanges ?? []);
  const changes = Object.fromEntries(edits.flatMap((edit) => Object.entries(edit.changes ?? {})));
  if (documentChanges.length > 0) return { documentChanges };
  return Object.keys(changes).length > 0 ? { changes } : null;
}
