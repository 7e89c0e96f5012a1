import { CodeActionKind, type CodeAction, type Diagnostic, type TextEdit } from 'vscode-languageserver';
import { fixAll } from '../language/fix-all.ts';
import { fixes } from '../language/fixes.ts';
import { format } from '../language/format.ts';
import { formatTyping } from '../language/format-typing.ts';
import { refactorings } from '../language/refactor/refactorings.ts';
import type { Action, TextEdit as OffsetEdit } from '../language/results.ts';
import { workspaceEdit } from './edits.ts';
import type { Session, RequestContext } from './session.ts';

/** The kind of the action that applies all safe fixes. */
export const fixAllKind = `${CodeActionKind.SourceFixAll}.piecewright`;

const kinds: Readonly<Record<Action['kind'], CodeActionKind>> = { fix: CodeActionKind.QuickFix, extract: CodeActionKind.RefactorExtract, rewrite: CodeActionKind.RefactorRewrite };

/** Changes of the text on demand. */
export function registerEditing(session: Session): void {
  const { connection } = session;
  const edits = (at: RequestContext, list: readonly OffsetEdit[]): TextEdit[] => list.map(({ start, end, newText }) => ({ range: at.range(start, end), newText }));
  connection.onDocumentFormatting((params, token) => session.answer(params.textDocument.uri, token, (at) => edits(at, format(at.snapshot))));
  connection.onDocumentRangeFormatting((params, token) => session.answer(params.textDocument.uri, token, (at) =>
    edits(at, format(at.snapshot, { start: at.lines.offsetAt(params.range.start), end: at.lines.offsetAt(params.range.end) }))));
  connection.onDocumentOnTypeFormatting((params, token) => session.answer(params.textDocument.uri, token, (at) =>
    edits(at, formatTyping(at.snapshot, at.lines.offsetAt(params.position), params.ch))));
  connection.onCodeAction((params, token) => session.answer(params.textDocument.uri, token, (at) => {
    const { only, diagnostics } = params.context;
    const wanted = (kind: string): boolean => only === undefined || only.some((one) => kind === one || kind.startsWith(`${one}.`));
    const selection = { start: at.lines.offsetAt(params.range.start), end: at.lines.offsetAt(params.range.end) };
    const actions: CodeAction[] = [];
    if (wanted(CodeActionKind.QuickFix)) {
      for (const fix of fixes(at.snapshot, selection)) {
        const told = diagnostics.filter((one) => one.code === fix.problem.code && touches(at, one, selection));
        actions.push({ ...toAction(session, at, fix), ...(told.length === 0 ? {} : { diagnostics: told }), ...(fix.safe ? { isPreferred: true } : {}) });
      }
    }
    if (wanted(CodeActionKind.RefactorExtract) || wanted(CodeActionKind.RefactorRewrite)) {
      actions.push(...refactorings(at.snapshot, selection).filter(({ kind }) => wanted(kinds[kind])).map((action) => toAction(session, at, action)));
    }
    // Offered only to who asks for it: it is a command of its own, not help with one line.
    if (only !== undefined && wanted(fixAllKind)) {
      const all = fixAll(at.snapshot);
      if (all.length > 0) actions.push({ title: 'Apply all safe fixes', kind: fixAllKind, edit: workspaceEdit(session, at.home.folder, all.map((edit) => ({ ...edit, file: at.home.path }))) });
    }
    return actions;
  }));
}

function toAction(session: Session, at: RequestContext, { title, kind, edits }: Action): CodeAction {
  return { title, kind: kinds[kind], edit: workspaceEdit(session, at.home.folder, edits) };
}

function touches(at: RequestContext, { range }: Diagnostic, selection: { readonly start: number; readonly end: number }): boolean {
  return at.lines.offsetAt(range.start) <= selection.end && at.lines.offsetAt(range.end) >= selection.start;
}
