import * as vscode from 'vscode';
import { showWrittenPage } from './written-page.ts';

/** What the system has a program for that shows it as it is meant to be seen. */
const shownOutside = new Set(['pdf', 'svg', 'xlsx', 'html']);

/**
 * Shows what was written, and not its source: with the program that the system has for it, where the editor runs on it and
 * can ask for that; else in the editor. One that has no viewer for a booklet or a spreadsheet says where it is instead.
 */
export async function openWritten(file: vscode.Uri): Promise<void> {
  const name = file.path.replace(/^.*\//, '');
  const ending = name.replace(/^.*\./, '').toLowerCase();
  if (shownOutside.has(ending) && isOnThisSystem(file) && await vscode.env.openExternal(file)) return;
  if (ending === 'html' || ending === 'svg') {
    const text = new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
    const panel = vscode.window.createWebviewPanel('piecewright.page', name, vscode.ViewColumn.Active, { enableScripts: false, localResourceRoots: [] });
    panel.webview.html = ending === 'html' ? text : pageWith(text);
    return;
  }
  if (ending === 'md' && await shownAsMarkdown(file)) return;
  if (shownOutside.has(ending) && !hasViewer(ending)) return showWrittenPage(file, name, ending);
  await vscode.commands.executeCommand('vscode.open', file);
}

/** Whether the file lies where the user’s own programs find it: an editor in a browser, or of another machine, has it elsewhere. */
const isOnThisSystem = (file: vscode.Uri): boolean => vscode.env.uiKind === vscode.UIKind.Desktop && vscode.env.remoteName === undefined && file.scheme === 'file';

interface Manifest {
  readonly contributes?: { readonly customEditors?: readonly { readonly selector?: readonly { readonly filenamePattern?: string }[] }[] };
}

/** Whether some extension shows files of an ending. */
const hasViewer = (ending: string): boolean => vscode.extensions.all.some(({ packageJSON }) =>
  (packageJSON as Manifest).contributes?.customEditors?.some(({ selector }) => selector?.some(({ filenamePattern }) => filenamePattern?.toLowerCase() === `*.${ending}`)));

/** Whether the extension that comes with the editor shows it; that may be switched off. */
const shownAsMarkdown = (file: vscode.Uri): Promise<boolean> => Promise.resolve(vscode.commands.executeCommand('markdown.showPreview', file)).then(() => true, () => false);

/** A drawing on paper, as wide as there is room for. */
const pageWith = (svg: string): string => `<!doctype html><html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'"><style>body { margin: 0; background: #fff; } svg { max-width: 100%; height: auto; }</style></head><body>${svg}</body></html>`;

/** Says in plain words that a file can’t be written. */
export const tellUnwritten = (file: vscode.Uri, problem: unknown): Thenable<unknown> =>
  vscode.window.showErrorMessage(`${vscode.workspace.asRelativePath(file)} can’t be written, and is as it was. ${problem instanceof Error ? problem.message : String(problem)}`);
