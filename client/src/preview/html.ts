import * as vscode from 'vscode';

/** The page of the preview: it loads its own script and style, and nothing else. */
export function previewHtml(webview: vscode.Webview, dist: vscode.Uri, pattern: string): string {
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  const address = (name: string): string => webview.asWebviewUri(vscode.Uri.joinPath(dist, name)).toString();
  const policy = `default-src 'none'; style-src ${webview.cspSource}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="${policy}">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <link rel="stylesheet" href="${address('preview.css')}">
  <title>Pattern preview</title>
</head>
<body data-uri="${attribute(pattern)}">
  <main id="preview"></main>
  <script nonce="${nonce}" src="${address('preview.js')}"></script>
</body>
</html>`;
}

function attribute(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/"/g, '&quot;').replace(/</g, '&lt;');
}
