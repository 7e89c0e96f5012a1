import * as vscode from 'vscode';
import { State } from 'vscode-languageclient';
import type { Client } from '../client-options.ts';
import type { Combination, PreviewState } from '../../preview/messages.ts';
import { laysNotification, type LaysParams } from '../../../server/src/lsp/messages.ts';
import { followFirstSaves } from './first-save.ts';
import { PreviewHost } from './host.ts';

const viewType = 'piecewright.preview';

/** The previews that are open. */
export interface Previews {
  /** Opens the preview of a pattern beside its text, or shows the one that is open. */
  readonly open: (pattern: vscode.Uri) => void;
  /** What was chosen in the preview of a pattern. */
  readonly shown: (pattern: vscode.Uri) => Combination | undefined;
  /** Ends once the preview of a text shows it as it is now, where there is one. */
  readonly paints: (text: vscode.TextDocument, token: vscode.CancellationToken) => Promise<void>;
}

/** Keeps the open previews, one for a pattern, and brings them back after the editor is reloaded. */
export function registerPreviews(context: vscode.ExtensionContext, client: Client): Previews {
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');
  const hosts = new Map<string, PreviewHost>();

  const add = (panel: vscode.WebviewPanel, state: PreviewState): void => {
    panel.iconPath = {
      light: vscode.Uri.joinPath(context.extensionUri, 'client/media/piece-light.svg'),
      dark: vscode.Uri.joinPath(context.extensionUri, 'client/media/piece-dark.svg'),
    };
    const host = new PreviewHost(panel, client, dist, state);
    hosts.set(host.uri, host);
    panel.onDidDispose(() => hosts.delete(host.uri));
  };

  const open = (pattern: vscode.Uri): void => {
    const uri = pattern.toString();
    const host = hosts.get(uri);
    if (host !== undefined) return host.show();
    const beside = { viewColumn: columnBeside(uri), preserveFocus: true };
    add(vscode.window.createWebviewPanel(viewType, '', beside), { uri });
  };

  const restore = (panel: vscode.WebviewPanel, state: unknown): Promise<void> => {
    if (isState(state)) add(panel, state);
    else panel.dispose();
    return Promise.resolve();
  };

  /** Goes on with a pattern under its new address; one that is shown there already stays as it is. */
  const move = (from: string, to: string): void => {
    const host = hosts.get(from);
    if (host === undefined || hosts.has(to)) return;
    hosts.delete(from);
    hosts.set(to, host);
    void host.follow(to);
  };

  const refreshAll = (): void => {
    for (const host of hosts.values()) void host.refresh();
  };

  context.subscriptions.push(
    client.onDidChangeState(({ newState }) => newState === State.Running && refreshAll()),
    vscode.window.registerWebviewPanelSerializer(viewType, { deserializeWebviewPanel: restore }),
    vscode.workspace.onDidRenameFiles(({ files }) => {
      for (const { oldUri, newUri } of files) {
        for (const uri of [...hosts.keys()]) {
          const path = vscode.Uri.parse(uri).path;
          // A folder may be what was renamed.
          if (path === oldUri.path || path.startsWith(`${oldUri.path}/`)) move(uri, newUri.with({ path: newUri.path + path.slice(oldUri.path.length) }).toString());
        }
      }
    }),
    ...followFirstSaves((uri) => hosts.has(uri), move),
    client.onNotification(laysNotification, (params: LaysParams) => hosts.get(params.uri)?.showLays(params)),
  );
  const paints: Previews['paints'] = async ({ uri, version }, token) => hosts.get(uri.toString())?.paints(version, token);
  return { open, paints, shown: (pattern) => hosts.get(pattern.toString())?.chosen };
}

/** The column to the right of a text, wherever the focus is: the walkthrough, say, has a column of its own. */
function columnBeside(uri: string): vscode.ViewColumn {
  const group = vscode.window.tabGroups.all.find(({ tabs }) => tabs.some(({ input }) => input instanceof vscode.TabInputText && input.uri.toString() === uri));
  const { Two, Three, Four, Five, Six, Seven, Eight, Nine, Beside } = vscode.ViewColumn;
  return group === undefined ? Beside : ([Two, Three, Four, Five, Six, Seven, Eight, Nine][group.viewColumn - 1] ?? Beside);
}

function isState(state: unknown): state is PreviewState {
  return typeof state === 'object' && state !== null && 'uri' in state && typeof state.uri === 'string';
}
