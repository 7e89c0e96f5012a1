import type { ClientCapabilities } from 'vscode-languageserver';

/**
 * What two kinds of editors say of themselves at the start, written down from memory of their documentation, not
 * recorded: one in a terminal that pushes for UTF-8, and one that knows little of the newer parts of the protocol.
 */
export const handshakes: Readonly<Record<string, ClientCapabilities>> = {
  /** From memory: a modal editor with a built-in client; flat in places, rich in others. */
  'a modal editor': {
    general: { positionEncodings: ['utf-8', 'utf-32', 'utf-16'], regularExpressions: { engine: 'ECMAScript', version: 'ES2020' } },
    textDocument: {
      synchronization: { dynamicRegistration: false, willSave: true, willSaveWaitUntil: true, didSave: true },
      publishDiagnostics: { relatedInformation: true, tagSupport: { valueSet: [1, 2] }, dataSupport: true },
      diagnostic: { dynamicRegistration: false },
      completion: {
        completionItem: { snippetSupport: true, commitCharactersSupport: false, preselectSupport: false, deprecatedSupport: true, documentationFormat: ['markdown', 'plaintext'] },
        contextSupport: false,
      },
      hover: { contentFormat: ['markdown', 'plaintext'] },
      signatureHelp: { signatureInformation: { documentationFormat: ['markdown', 'plaintext'], parameterInformation: { labelOffsetSupport: true }, activeParameterSupport: true } },
      definition: { linkSupport: true },
      documentSymbol: { hierarchicalDocumentSymbolSupport: true },
      codeAction: { isPreferredSupport: true, codeActionLiteralSupport: { codeActionKind: { valueSet: ['', 'quickfix', 'refactor', 'source'] } } },
      rename: { prepareSupport: true },
      semanticTokens: { requests: { range: false, full: { delta: true } }, tokenTypes: [], tokenModifiers: [], formats: ['relative'] },
      inlayHint: { dynamicRegistration: true },
    },
    workspace: {
      applyEdit: true, configuration: true, workspaceFolders: true,
      workspaceEdit: { resourceOperations: ['rename', 'create', 'delete'] },
      didChangeWatchedFiles: { dynamicRegistration: true, relativePatternSupport: true },
    },
  },
  /** From memory: an extensible editor whose client asks for plain text, flat symbols and whole edits. */
  'an older client': {
    textDocument: {
      synchronization: { willSave: true, didSave: true },
      publishDiagnostics: { relatedInformation: false },
      completion: { completionItem: { snippetSupport: false, documentationFormat: ['plaintext'] }, contextSupport: true },
      hover: { contentFormat: ['plaintext'] },
      signatureHelp: { signatureInformation: { documentationFormat: ['plaintext'], parameterInformation: { labelOffsetSupport: false } } },
      definition: {},
      documentSymbol: { hierarchicalDocumentSymbolSupport: false },
      rename: {},
    },
    workspace: { applyEdit: true, workspaceEdit: { documentChanges: false }, workspaceFolders: false },
  },
};
