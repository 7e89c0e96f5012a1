import * as vscode from 'vscode';
import {
  choicesRequest, pagesRequest,
  type ChoicesAnswer, type ChoicesParams, type ChosenOptions, type PagesAnswer, type PagesParams,
} from '../../server/src/lsp/messages.ts';
import { fileName } from '../../server/src/formats/file-name.ts';
import type { Client } from './client-options.ts';
import { openWritten, tellUnwritten } from './open-written.ts';
import { writeWhole } from './whole-file.ts';

type Choices = Extract<ChoicesAnswer, { readonly choices: unknown }>['choices'];
type Made = Extract<PagesAnswer, { readonly files: unknown }>;

const title = 'Export Pages';

interface FormatItem extends vscode.QuickPickItem {
  readonly format: PagesParams['format'];
  readonly ending: string;
}
const formats: readonly FormatItem[] = [
  { label: 'Booklet', description: 'PDF: templates at true scale and all tables', format: 'pdf', ending: 'pdf' },
  { label: 'Page for projectors', description: 'PDF: all templates on one page with a grid', format: 'projector', ending: 'pdf' },
  { label: 'Drawings', description: 'SVG: a file for each template, in a folder', format: 'svg', ending: 'svg' },
  { label: 'Cutter file', description: 'DXF: for cutters and plotters', format: 'dxf', ending: 'dxf' },
  { label: 'Spreadsheet', description: 'XLSX: all tables with real numbers', format: 'xlsx', ending: 'xlsx' },
  { label: 'Whole pattern', description: 'JSON: for other programs', format: 'json', ending: 'json' },
];

const papers: readonly { readonly label: string; readonly description: string; readonly paper: string }[] = [
  { label: 'A4', description: '210 × 297 mm', paper: 'a4' },
  { label: 'Letter', description: '8 1/2 × 11 in', paper: 'letter' },
  { label: 'A3', description: '297 × 420 mm', paper: 'a3' },
  { label: 'A0', description: '841 × 1189 mm', paper: 'a0' },
  { label: 'Roll, 36 in wide', description: '914.4 mm', paper: 'roll-36in' },
];

const pieces: readonly { readonly label: string; readonly description: string; readonly templates: 'all' | 'needed' }[] = [
  { label: 'All templates', description: 'also of pieces that could be cut to measure', templates: 'all' },
  { label: 'Only templates that are needed', description: 'plain rectangles are cut to measure', templates: 'needed' },
];

interface CombinationItem extends vscode.QuickPickItem {
  readonly combination: ChosenOptions;
}

/**
 * Asks what to write and where to, and writes a pattern's pages there, or the files that other programs take.
 *
 * @param shown the combination that the preview shows
 */
export async function exportPages(client: Client, document: vscode.TextDocument, shown: ChosenOptions | undefined): Promise<void> {
  const uri = document.uri.toString();
  const open = await client.sendRequest<ChoicesAnswer | null>(choicesRequest, { uri } satisfies ChoicesParams);
  if (open === null) return;
  if ('problems' in open) return refuse(open.problems);
  const format = await pick(formats, 'As what?');
  if (format === undefined) return;
  const paper = format.format === 'pdf' ? await pick(papers, 'On which paper?') : papers[0];
  const which = paper && (['xlsx', 'json'].includes(format.format) ? pieces[0] : await pick(pieces, 'Which templates?'));
  const combination = which && await chooseCombination(open.choices, shown);
  if (paper === undefined || which === undefined || combination === undefined) return;
  const target = await targetFor(document.uri, format);
  if (target === undefined) return;
  const params: PagesParams = { uri, format: format.format, paper: paper.paper, templates: which.templates, combination };
  const answer = await made(client, params);
  if (answer === null) return;
  if ('problems' in answer) return refuse(answer.problems);
  if ('refused' in answer) return void vscode.window.showWarningMessage(answer.refused);
  const written = await write(answer, target, format, document.uri);
  if (written === undefined) return;
  if (answer.notes.length > 0) void vscode.window.showWarningMessage(answer.notes.join(' '));
  const next = await vscode.window.showInformationMessage(`${format.label}: written to ${vscode.workspace.asRelativePath(target)}.`, 'Open');
  if (next !== undefined) await openWritten(written);
}

const pick = <Item extends vscode.QuickPickItem>(items: readonly Item[], placeHolder: string): Thenable<Item | undefined> => vscode.window.showQuickPick(items, { title, ignoreFocusOut: true, placeHolder });

/** Asks for the pages beside everything else, so that it can be cancelled. */
function made(client: Client, params: PagesParams): Thenable<PagesAnswer | null> {
  return vscode.window.withProgress({ location: vscode.ProgressLocation.Notification, title: 'Making the pages …', cancellable: true }, async (_, token) => {
    try {
      return await client.sendRequest<PagesAnswer | null>(pagesRequest, params, token);
    } catch (problem) {
      if (token.isCancellationRequested) return null;
      throw problem;
    }
  });
}

/** Writes what was made, and says which file to show; none where one can’t be written, which is told. */
async function write({ files }: Made, target: vscode.Uri, { format }: FormatItem, pattern: vscode.Uri): Promise<vscode.Uri | undefined> {
  let first: vscode.Uri | undefined;
  for (const { name, base64 } of files) {
    const file = format === 'svg' ? vscode.Uri.joinPath(target, `${nameOf(pattern)}-${name}`) : target;
    try {
      await writeWhole(vscode.workspace.fs, file, Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0)));
    } catch (problem) {
      void tellUnwritten(file, problem);
      return undefined;
    }
    first ??= file;
  }
  return first;
}

/** Nothing is printed while the pattern has errors: a wrong template would cost cloth. */
async function refuse(problems: readonly string[]): Promise<void> {
  const [first = '', ...more] = problems;
  const others = more.length === 0 ? '' : ` (and ${more.length} more)`;
  const next = await vscode.window.showWarningMessage(`There are no pages while the pattern has errors. ${first}${others}`, 'Show Problems');
  if (next !== undefined) await vscode.commands.executeCommand('workbench.actions.view.problems');
}

/** The options of the choices; of sizes all, over one another, or one. */
async function chooseCombination(choices: Choices, shown: ChosenOptions | undefined): Promise<ChosenOptions | undefined> {
  const chosen: Record<string, string> = {};
  for (const { name, options } of choices) {
    const first = options.find((option) => option === shown?.[name]) ?? options[0] ?? '';
    const words = (option: string): CombinationItem => ({ label: `${name.replaceAll('_', ' ')} ${option.replaceAll('_', ' ')}`, combination: { [name]: option } });
    const ordered = [first, ...options.filter((option) => option !== first)].map(words);
    const items = name === 'size' ? [{ label: 'All sizes', description: 'over one another, each in a layer of its own', combination: {} }, ...ordered] : ordered;
    const picked = items.length === 1 ? items[0] : await pick(items, name === 'size' ? 'Which sizes?' : `Which ${name.replaceAll('_', ' ')}?`);
    if (picked === undefined) return undefined;
    Object.assign(chosen, picked.combination);
  }
  return chosen;
}

const nameOf = (pattern: vscode.Uri): string => fileName(pattern.path.replace(/^.*\//, '').replace(/\.piece$/, ''));

/** Beside the pattern, with its name; an unsaved pattern's pages go to the first workspace folder. */
async function targetFor(pattern: vscode.Uri, { format, ending, label }: FormatItem): Promise<vscode.Uri | undefined> {
  const folder = pattern.scheme === 'untitled' ? (vscode.workspace.workspaceFolders?.[0]?.uri ?? vscode.Uri.file('/')) : vscode.Uri.joinPath(pattern, '..');
  if (format === 'svg') {
    const [picked] = (await vscode.window.showOpenDialog({ title, openLabel: 'Export Here', canSelectFolders: true, canSelectFiles: false, defaultUri: folder })) ?? [];
    return picked;
  }
  const name = `${nameOf(pattern)}${format === 'projector' ? '-projector' : format === 'json' ? '-pattern' : ''}.${ending}`;
  return vscode.window.showSaveDialog({ title, saveLabel: 'Export', defaultUri: vscode.Uri.joinPath(folder, name), filters: { [label]: [ending] } });
}
