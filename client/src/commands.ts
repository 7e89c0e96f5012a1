import * as vscode from 'vscode';
import snippets from '../language/snippets.json';
import type { Location, Position } from 'vscode-languageclient';
import { showPlacesCommand } from '../../server/src/lsp/messages.ts';
import { languageId, type Client } from './client-options.ts';
import { fixedWords, gapBelow, nothingToFix } from './command-words.ts';
import { Changes } from './changes.ts';
import { exportCuttingTable } from './export.ts';
import { exportPages } from './export-pages.ts';
import { followPatterns } from './last-pattern.ts';
import type { Previews } from './preview/panels.ts';

/** Registers the commands of the palette. */
export function registerCommands(context: vscode.ExtensionContext, client: Client, previews: Previews): void {
  const lastPattern = followPatterns(context);
  const changes = new Changes(context, client);
  /** Runs a command on the pattern that is being worked on. */
  const onPattern = (run: (document: vscode.TextDocument) => unknown): unknown => {
    const document = lastPattern();
    return document === undefined ? vscode.window.showInformationMessage('Open a .piece file first.') : run(document);
  };
  const commands: Readonly<Record<string, (given?: unknown) => unknown>> = {
    newPattern,
    addSnippet: (name) => onPattern((document) => addSnippet(document, name)),
    openPreview: () => onPattern((document) => previews.open(document.uri)),
    exportCuttingTable: () => onPattern((document) => exportCuttingTable(client, document, previews.shown(document.uri))),
    exportPages: () => onPattern((document) => exportPages(client, document, previews.shown(document.uri))),
    showChanges: () => onPattern((document) => changes.show(document)),
    applySafeFixes: () => onPattern(applySafeFixes),
    restartServer: () => restart(client),
  };
  context.subscriptions.push(vscode.commands.registerCommand(showPlacesCommand, (uri: string, position: Position, locations: Location[]) => showPlaces(client, uri, position, locations)));
  for (const [name, run] of Object.entries(commands)) {
    context.subscriptions.push(vscode.commands.registerCommand(`piecewright.${name}`, run));
  }
}

/** Opens a new pattern with a head beside what asks for it: its title is written over. */
async function newPattern(): Promise<void> {
  const document = await vscode.workspace.openTextDocument({ language: languageId, content: '' });
  const { activeTextEditor } = vscode.window;
  // What is no text, such as the walkthrough, stays in sight.
  const editor = await vscode.window.showTextDocument(document, activeTextEditor === undefined && hasTabs() ? vscode.ViewColumn.Beside : vscode.ViewColumn.Active);
  await insertSnippet(editor, 'New pattern');
}

/** Puts in a snippet of the language where the cursor of this very editor is, whichever has the focus by then. */
async function insertSnippet(editor: vscode.TextEditor, name: unknown): Promise<void> {
  const body = Object.entries(snippets).find(([title]) => title === name)?.[1].body;
  if (body !== undefined) await editor.insertSnippet(new vscode.SnippetString(typeof body === 'string' ? body : body.join('\n')));
}

const hasTabs = (): boolean => vscode.window.tabGroups.activeTabGroup.tabs.length > 0;

/** Puts a snippet of the language, by its name, on a line of its own below the text. */
async function addSnippet(document: vscode.TextDocument, name: unknown): Promise<void> {
  const editor = await show(document);
  const last = document.lineAt(document.lineCount - 1);
  const gap = gapBelow(document.getText());
  if (gap !== '') await editor.edit((edit) => edit.insert(last.range.end, gap));
  const end = document.lineAt(document.lineCount - 1).range.end;
  editor.selection = new vscode.Selection(end, end);
  await insertSnippet(editor, name);
}

/** Applies what can be mended without a decision, and says what it did. */
async function applySafeFixes(document: vscode.TextDocument): Promise<void> {
  await show(document);
  const whole = document.validateRange(new vscode.Range(0, 0, document.lineCount, 0));
  const actions = await vscode.commands.executeCommand<readonly vscode.CodeAction[]>('vscode.executeCodeActionProvider', document.uri, whole, 'source.fixAll.piecewright');
  const edit = actions.find((action) => action.edit !== undefined)?.edit;
  if (edit === undefined) return void vscode.window.showInformationMessage(nothingToFix);
  const before = document.getText();
  if (await vscode.workspace.applyEdit(edit)) void vscode.window.showInformationMessage(fixedWords(before, document.getText()));
}

/** Puts the cursor into a text, where it is shown already if it is. */
function show(document: vscode.TextDocument): Thenable<vscode.TextEditor> {
  const shown = vscode.window.visibleTextEditors.find((editor) => editor.document === document);
  return vscode.window.showTextDocument(document, shown?.viewColumn ?? vscode.ViewColumn.Active);
}

/** Lists places as the editor lists the uses of a name. */
async function showPlaces({ protocol2CodeConverter: to }: Client, uri: string, position: Position, locations: readonly Location[]): Promise<void> {
  await vscode.commands.executeCommand('editor.action.showReferences', vscode.Uri.parse(uri), to.asPosition(position), locations.map((one) => to.asLocation(one)));
}

async function restart(client: Client): Promise<void> {
  if (client.needsStop()) await client.stop();
  await client.start();
}
