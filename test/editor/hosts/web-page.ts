import { settingsFor } from './host.ts';

/** The page that opens the web workbench with the extensions under test. */
export function workbenchPage(port: number, scheme: string, trusted: boolean): string {
  const host = `vsc.localhost:${port}`;
  const extension = (path: string): object => ({ scheme: 'http', authority: host, path });
  const options = {
    productConfiguration: {
      nameShort: 'Editor',
      nameLong: 'Editor',
      applicationName: 'editor',
      dataFolderName: '.editor',
      version: '1.137.0',
      quality: 'stable',
      webEndpointUrlTemplate: `http://${host}/code`,
      webviewContentExternalBaseUrlTemplate: `http://{{uuid}}.${host}/code/out/vs/workbench/contrib/webview/browser/pre/`,
      extensionEnabledApiProposals: {},
    },
    configurationDefaults: settingsFor({ trusted }),
    additionalBuiltinExtensions: [extension('/files'), extension('/ext')],
    enableWorkspaceTrust: !trusted,
    workspace: { folderUri: { $mid: 1, scheme, path: '/workspace' } },
  };
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <link rel="icon" href="data:,">
  <link rel="stylesheet" href="/code/out/vs/workbench/workbench.web.main.internal.css">
</head>
<body>
  <script>globalThis._VSCODE_FILE_ROOT = location.origin + '/code/out/';</script>
  <script type="module">
    await import('/code/out/nls.messages.js');
    const { create, URI } = await import('/code/out/vs/workbench/workbench.web.main.internal.js');
    const { workspace, ...options } = ${JSON.stringify(options)};
    create(document.body, {
      ...options,
      workspaceProvider: { workspace: { folderUri: URI.revive(workspace.folderUri) }, trusted: ${trusted}, open: async () => false },
    });
  </script>
</body>
</html>`;
}
