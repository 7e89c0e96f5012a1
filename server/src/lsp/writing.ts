import { CompletionItemKind, InsertTextFormat, MarkupKind, type CompletionItem, type MarkupContent } from 'vscode-languageserver';
import { completion } from '../language/completion.ts';
import type { Completion, CompletionKind } from '../language/completion-items.ts';
import { contextAt } from '../language/context.ts';
import { hover } from '../language/hover.ts';
import { nameAt } from '../language/names.ts';
import { signature } from '../language/signature.ts';
import { combinationKey } from '../planner/requests.ts';
import type { Planner } from './planner.ts';
import { checkStillAsked, type Session, type RequestContext } from './session.ts';

const kinds: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  keyword: CompletionItemKind.Keyword, value: CompletionItemKind.Variable, material: CompletionItemKind.TypeParameter, piece: CompletionItemKind.Class,
  supply: CompletionItemKind.Interface, seam: CompletionItemKind.Interface, thing: CompletionItemKind.Struct, edge: CompletionItemKind.Property, line: CompletionItemKind.Property,
  mark: CompletionItemKind.Property, measure: CompletionItemKind.Field, choice: CompletionItemKind.Enum, option: CompletionItemKind.EnumMember,
  function: CompletionItemKind.Function, unit: CompletionItemKind.Unit, word: CompletionItemKind.EnumMember, file: CompletionItemKind.File,
};

/** Help while a text is being written. */
export function registerWriting(session: Session, planner: Planner): void {
  const { connection } = session;
  connection.onCompletion((params, token) => session.answer(params.textDocument.uri, token, async (at) => {
    const offset = at.lines.offsetAt(params.position);
    const context = contextAt(at.snapshot, offset);
    // A space typed to indent a line asks for nothing.
    if (params.context?.triggerCharacter === ' ' && context.before === '') return { isIncomplete: false, items: [] };
    const { folder } = at.home;
    if (context.within === 'text' && !folder.own) await session.folders.loadAll(folder);
    const items = completion(at.snapshot, offset, folder.workspace.paths());
    return { isIncomplete: false, items: items.map((item, index) => completionItem(session, at, item, index)) };
  }));
  connection.onHover((params, token) => session.answer(params.textDocument.uri, token, async (at) => {
    const offset = at.lines.offsetAt(params.position);
    const figures = isMaterial(at.snapshot, offset) ? await planner.figures(params.textDocument.uri, at) : undefined;
    checkStillAsked(session, at, token);
    const found = hover(at.snapshot, offset, (material, combination) => figures?.[combinationKey(combination)]?.[material]?.sentence);
    if (found === undefined) return null;
    const formats = session.capabilities.textDocument?.hover?.contentFormat;
    return { contents: markup(found.markdown, formats === undefined || formats.includes(MarkupKind.Markdown)), range: at.range(found.start, found.end) };
  }));
  connection.onSignatureHelp((params, token) => session.answer(params.textDocument.uri, token, (at) => {
    const found = signature(at.snapshot, at.lines.offsetAt(params.position));
    if (found === undefined) return null;
    const { label, documentation, parameters, active } = found;
    return {
      signatures: [{ label, documentation, parameters: parameters.map((one) => ({ label: [one.start, one.end] as [number, number], documentation: one.documentation })) }],
      activeSignature: 0,
      // Beyond the last parameter none is marked.
      activeParameter: active ?? parameters.length,
    };
  }));
}

/** Only what is said of a material has to wait for lays. */
function isMaterial(snapshot: RequestContext['snapshot'], offset: number): boolean {
  const target = nameAt(snapshot, offset)?.target;
  return target?.kind === 'named' && target.declaration.tree.kind === 'material';
}

function completionItem(session: Session, at: RequestContext, item: Completion, index: number): CompletionItem {
  const able = session.capabilities.textDocument?.completion?.completionItem;
  const snippet = item.isSnippet && able?.snippetSupport === true;
  const newText = snippet ? item.insert : item.isSnippet ? plain(item.insert) : item.insert;
  return {
    label: item.label,
    kind: kinds[item.kind],
    sortText: String(index).padStart(4, '0'),
    textEdit: { range: at.range(item.start, item.end), newText },
    ...(snippet ? { insertTextFormat: InsertTextFormat.Snippet } : {}),
    ...(item.detail === '' ? {} : { detail: item.detail }),
    ...(item.documentation === '' ? {} : { documentation: markup(item.documentation, able?.documentationFormat?.includes(MarkupKind.Markdown) === true) }),
    ...(item.commit.length > 0 && able?.commitCharactersSupport === true ? { commitCharacters: [...item.commit] } : {}),
  };
}

/** A snippet for editors that know none: its first proposals as they are. */
function plain(snippet: string): string {
  return snippet.replace(/\$\{\d+\|([^,|]*)[^|]*\|\}/g, '$1').replace(/\$\{\d+:([^}]*)\}/g, '$1').replace(/\$\d+/g, '').replace(/\t/g, '  ');
}

/** Markdown, or the same without its marks. */
function markup(text: string, markdown: boolean): MarkupContent {
  if (markdown) return { kind: MarkupKind.Markdown, value: text };
  return { kind: MarkupKind.PlainText, value: text.replace(/```\w*\n?/g, '').replace(/\*\*|`/g, '').trim() };
}
