import * as vscode from 'vscode';
import {
  choicesRequest, exportRequest,
  type ChoicesAnswer, type ChoicesParams, type ChosenOptions, type ExportAnswer, type ExportFormat, type ExportParams,
} from '../../server/src/lsp/messages.ts';
import { limits } from '../../server/src/problems/limits.ts';
import type { Client } from './client-options.ts';
import { openWritten, tellUnwritten } from './open-written.ts';
import { writeWhole } from './whole-file.ts';

type Combination = NonNullable<ExportParams['combination']>;
type Choices = Extract<ChoicesAnswer, { readonly choices: unknown }>['choices'];

/** A combination that a table may be wanted for. */
interface CombinationItem extends vscode.QuickPickItem {
  readonly combination: Combination;
}

const formats: readonly { readonly label: string; readonly description: string; readonly format: ExportFormat; readonly ending: string }[] = [
  { label: 'Markdown', description: 'to read and to print', format: 'markdown', ending: 'md' },
  { label: 'CSV', description: 'what to cut, for a spreadsheet', format: 'csv', ending: 'csv' },
  { label: 'HTML', description: 'one page for a browser', format: 'html', ending: 'html' },
  { label: 'JSON', description: 'for programs', format: 'json', ending: 'json' },
];
const groupings: readonly { readonly label: string; readonly by: ExportParams['by'] }[] = [
  { label: 'Piece by piece', by: 'piece' },
  { label: 'Material by material', by: 'material' },
];

/**
 * Asks what to write and where to, and writes the cutting table there.
 *
 * @param shown the combination that the preview shows, to be offered first
 */
export async function exportCuttingTable(client: Client, document: vscode.TextDocument, shown: ChosenOptions | undefined): Promise<void> {
  const uri = document.uri.toString();
  const open = await client.sendRequest<ChoicesAnswer | null>(choicesRequest, { uri } satisfies ChoicesParams);
  if (open === null) return;
  if ('problems' in open) return refuse(open.problems);
  const title = 'Export Cutting Table';
  const format = await vscode.window.showQuickPick(formats, { title, ignoreFocusOut: true, placeHolder: 'In which format?' });
  if (format === undefined) return;
  const grouping = format.format === 'json' ? groupings[0] : await vscode.window.showQuickPick(groupings, { title, ignoreFocusOut: true, placeHolder: 'In which order?' });
  if (grouping === undefined) return;
  const wanted = await chooseCombination(title, open.choices, shown);
  if (wanted === undefined) return;
  const target = await vscode.window.showSaveDialog({ title, saveLabel: 'Export', defaultUri: tableUri(document.uri, format.ending), filters: { [format.label]: [format.ending] } });
  if (target === undefined) return;

  const params: ExportParams = { uri, format: format.format, by: grouping.by, combination: wanted };
  const answer = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Notification, title: 'Writing the cutting table …', cancellable: true },
    async (_, token) => {
      try {
        return await client.sendRequest<ExportAnswer | null>(exportRequest, params, token);
      } catch (problem) {
        if (token.isCancellationRequested) return null;
        throw problem;
      }
    },
  );
  if (answer === null) return;
  if ('problems' in answer) return refuse(answer.problems);
  if ('refused' in answer) return void vscode.window.showWarningMessage(answer.refused);
  try {
    await writeWhole(vscode.workspace.fs, target, new TextEncoder().encode(answer.text));
  } catch (problem) {
    return void tellUnwritten(target, problem);
  }
  const next = await vscode.window.showInformationMessage(`The cutting table is in ${vscode.workspace.asRelativePath(target)}.`, 'Open');
  if (next !== undefined) await openWritten(target);
}

/** A wrong table would cost cloth, so there is none while the pattern has errors. */
async function refuse(problems: readonly string[]): Promise<void> {
  const [first = '', ...more] = problems;
  const others = more.length === 0 ? '' : ` (and ${more.length} more)`;
  const next = await vscode.window.showWarningMessage(`There is no cutting table while the pattern has errors. ${first}${others}`, 'Show Problems');
  if (next !== undefined) await vscode.commands.executeCommand('workbench.actions.view.problems');
}

async function chooseCombination(title: string, choices: Choices, shown: ChosenOptions | undefined): Promise<Combination | undefined> {
  if (choices.length === 0) return {};
  const given = new Map(choices.map(({ name, options }) => [name, options.find((option) => option === shown?.[name]) ?? options[0] ?? '']));
  const count = choices.reduce((product, { options }) => product * options.length, 1);
  // More than that nobody picks from a list, or reads.
  const isMany = count > limits.combinations;
  const others = isMany ? [] : combinationsOf(choices).filter((one) => choices.some(({ name }) => one[name] !== given.get(name)));
  const items: readonly CombinationItem[] = [
    { ...combinationItem(Object.fromEntries(given)), ...(shown === undefined ? {} : { description: 'as in the preview' }) },
    ...(isMany ? [] : [{ label: 'Every combination', description: `${count} tables in one file`, combination: 'all' } as const]),
    ...others.map(combinationItem),
  ];
  return (await vscode.window.showQuickPick(items, { title, ignoreFocusOut: true, placeHolder: 'Of which size and choices?' }))?.combination;
}

/** All combinations, the first choice changing slowest. */
function combinationsOf(choices: Choices): readonly ChosenOptions[] {
  return choices.reduce<readonly ChosenOptions[]>((found, { name, options }) => found.flatMap((one) => options.map((option) => ({ ...one, [name]: option }))), [{}]);
}

const combinationItem = (combination: ChosenOptions): CombinationItem => ({
  label: Object.entries(combination).map(([name, option]) => `${name.replaceAll('_', ' ')} ${option.replaceAll('_', ' ')}`).join(', '),
  combination,
});

/** Beside the pattern, with its name; an unsaved pattern's table goes to the first workspace folder. */
function tableUri(pattern: vscode.Uri, ending: string): vscode.Uri {
  const name = `${pattern.path.replace(/^.*\//, '').replace(/\.piece$/, '')}-cutting-table.${ending}`;
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (pattern.scheme === 'untitled') return folder === undefined ? vscode.Uri.file(`/${name}`) : vscode.Uri.joinPath(folder, name);
  return vscode.Uri.joinPath(pattern, '..', name);
}
