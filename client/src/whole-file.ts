import type * as vscode from 'vscode';

/** What is asked of the editor’s files. */
export type Files = Pick<vscode.FileSystem, 'writeFile' | 'rename' | 'delete' | 'stat'>;

/** `vscode.FileType.SymbolicLink`, by its number so that this runs without an editor. */
const symbolicLink = 64;

/**
 * Writes a file whole or not at all: beside its place first, then into it, so that a full disk or a crash leaves what was
 * there before. A link stays one, and what it leads to is written.
 *
 * @param mark tells this writing from any other at the same time
 */
export async function writeWhole(files: Files, file: vscode.Uri, bytes: Uint8Array, mark = Date.now().toString(36)): Promise<void> {
  const known = await files.stat(file).then(({ type }) => type, () => 0);
  if ((known & symbolicLink) !== 0) return files.writeFile(file, bytes);
  const beside = file.with({ path: `${file.path}.${mark}.part` });
  try {
    await files.writeFile(beside, bytes);
    await files.rename(beside, file, { overwrite: true });
  } catch (problem) {
    await files.delete(beside).then(undefined, () => undefined);
    throw problem;
  }
}
