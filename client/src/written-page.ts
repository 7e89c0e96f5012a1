import * as vscode from 'vscode';
import { escapeMarkup } from '../../server/src/formats/escape.ts';

/** What a file is for that no editor shows, by its ending. */
const uses: Readonly<Record<string, string>> = {
  pdf: 'Open it with a PDF viewer to print it: at 100 %, the first sheet of templates first, and measure its test squares before the others.',
  xlsx: 'Open it with a program for spreadsheets.',
};

/**
 * A page that says where a file lies which the editor can’t show, and hands it to the browser, whose downloads lead to the
 * program that can.
 */
export function showWrittenPage(file: vscode.Uri, name: string, ending: string): void {
  const panel = vscode.window.createWebviewPanel('piecewright.page', name, vscode.ViewColumn.Active, { enableScripts: true, localResourceRoots: [] });
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  panel.webview.onDidReceiveMessage(async () => {
    try {
      // An editor’s server reads into bytes of a kind of its own, which no page is handed.
      await panel.webview.postMessage({ name, bytes: new Uint8Array(await vscode.workspace.fs.readFile(file)) });
    } catch (problem) {
      void vscode.window.showErrorMessage(`${vscode.workspace.asRelativePath(file)} can’t be read. ${problem instanceof Error ? problem.message : String(problem)}`);
    }
  });
  panel.webview.html = `<!doctype html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${nonce}'; script-src 'nonce-${nonce}'">
  <title>${escapeMarkup(name)}</title>
  <style nonce="${nonce}">${style}</style>
</head>
<body>
  <h1>${escapeMarkup(name)}</h1>
  <p>It is written to <code>${escapeMarkup(placeOf(file))}</code>, and this editor has nothing to show it with. ${uses[ending] ?? ''}</p>
  <button type="button">Download</button>
  <script nonce="${nonce}">${script}</script>
</body>
</html>`;
}

/** Where it lies in words that lead there: on this machine or on the one that the editor’s server runs on. */
const placeOf = (file: vscode.Uri): string => (file.scheme === 'file' ? file.fsPath : vscode.workspace.asRelativePath(file));

const style = `
body { max-width: 40em; padding: 1em 2em; line-height: 1.5; }
h1 { font-size: 1.4em; overflow-wrap: anywhere; }
code { overflow-wrap: anywhere; }
button { font: inherit; padding: .4em 1.2em; border: 1px solid var(--vscode-contrastBorder, transparent); color: var(--vscode-button-foreground); background: var(--vscode-button-background); cursor: pointer; }
button:hover { background: var(--vscode-button-hoverBackground); }
button:focus-visible { outline: 1px solid var(--vscode-focusBorder); outline-offset: 2px; }`;

/** What runs in the page. The link stands nowhere in it, so that the editor doesn’t take a click on it for one that leads elsewhere. */
const script = `
const editor = acquireVsCodeApi();
document.querySelector('button').addEventListener('click', () => editor.postMessage('download'));
addEventListener('message', ({ data: { name, bytes } }) => {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(new Blob([bytes]));
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
});`;
