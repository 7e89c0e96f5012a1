import { CodeActionKind, type ServerCapabilities } from 'vscode-languageserver';
import { tokenModifiers, tokenTypes } from '../language/semantic-tokens.ts';
import { fixAllKind, registerEditing } from './editing.ts';
import { registerNavigation } from './navigation.ts';
import type { Planner } from './planner.ts';
import { registerReading } from './reading.ts';
import type { Session } from './session.ts';
import { registerWriting } from './writing.ts';

/** What the server can do with a text, for its greeting. */
export function featureCapabilities(session: Session): ServerCapabilities {
  return {
    completionProvider: { triggerCharacters: ['.', ' ', '"', '/'] },
    hoverProvider: true,
    signatureHelpProvider: { triggerCharacters: [' ', '(', ','] },
    definitionProvider: true,
    referencesProvider: true,
    documentHighlightProvider: true,
    renameProvider: session.capabilities.textDocument?.rename?.prepareSupport === true ? { prepareProvider: true } : true,
    documentSymbolProvider: true,
    workspaceSymbolProvider: true,
    documentLinkProvider: { resolveProvider: false },
    callHierarchyProvider: true,
    foldingRangeProvider: true,
    selectionRangeProvider: true,
    semanticTokensProvider: { legend: { tokenTypes: [...tokenTypes], tokenModifiers: [...tokenModifiers] }, full: { delta: true }, range: true },
    inlayHintProvider: true,
    codeLensProvider: { resolveProvider: false },
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] },
    codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.RefactorExtract, CodeActionKind.RefactorRewrite, fixAllKind] },
  };
}

export function registerFeatures(session: Session, planner: Planner): void {
  registerNavigation(session);
  registerWriting(session, planner);
  registerReading(session, planner);
  registerEditing(session);
}
