/** What the page of the preview is made of. */
export interface PreviewPage {
  /** The pattern that is shown. */
  readonly pattern: string;
  /** Which of the tries to load it this is, counted from 1. */
  readonly load: number;
  /** Addresses of its style and its script, and where styles may come from. */
  readonly style: string;
  readonly script: string;
  readonly source: string;
  /** What only scripts that are meant to run know. */
  readonly nonce: string;
}

/**
 * The page of the preview: it loads its own script and style, and nothing else. An editor in a browser may lose either while it
 * brings up another page of its own; the page says so then, and is loaded again.
 */
export function previewHtml({ pattern, load, style, script, source, nonce }: PreviewPage): string {
  const policy = `default-src 'none'; style-src ${source}; script-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="${policy}">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <script nonce="${nonce}">
    // The editor gives this out only once.
    const editor = acquireVsCodeApi();
    window.acquireVsCodeApi = () => editor;
    // What is wrong in a script is no matter of loading, and has the window for its target.
    addEventListener('error', ({ target }) => target === window || editor.postMessage({ type: 'unloaded', load: ${load} }), true);
  </script>
  <link rel="stylesheet" href="${style}">
  <title>Pattern preview</title>
</head>
<body data-uri="${attribute(pattern)}">
  <main id="preview"></main>
  <script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}

/** What is shown where the page did not load, however often it was tried. */
export function unloadedHtml(): string {
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="default-src 'none'">
  <title>Pattern preview</title>
</head>
<body>
  <p role="alert">The preview could not be loaded. Close it and open it again.</p>
</body>
</html>`;
}

function attribute(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/"/g, '&quot;').replace(/</g, '&lt;');
}
