import {
  CodeLensRefreshRequest, FoldingRangeKind, InlayHintRefreshRequest, SemanticTokensBuilder, SymbolKind,
  type CodeLens, type DocumentSymbol, type Position, type SelectionRange, type SymbolInformation,
} from 'vscode-languageserver';
import { codeLenses } from '../language/code-lens.ts';
import { folding } from '../language/folding.ts';
import { inlayHints } from '../language/inlay-hints.ts';
import { links } from '../language/links.ts';
import { selectionSteps } from '../language/selection.ts';
import { semanticTokens, tokenModifiers, tokenTypes, type Token } from '../language/semantic-tokens.ts';
import { symbols, type FileSymbol, type SymbolKind as Kind } from '../language/symbols.ts';
import { workspaceSymbols } from '../language/workspace-symbols.ts';
import { showPlacesCommand } from './messages.ts';
import { RecentKeys } from '../workspace/recent-keys.ts';
import { combinationKey } from '../planner/requests.ts';
import type { Planner } from './planner.ts';
import { cancelled, checkStillAsked, type Session, type RequestContext } from './session.ts';
import { keyOf } from './uris.ts';

const kinds: Readonly<Record<Kind, SymbolKind>> = {
  pattern: SymbolKind.Package, piece: SymbolKind.Class, material: SymbolKind.TypeParameter, supply: SymbolKind.Interface, value: SymbolKind.Constant,
  thing: SymbolKind.Struct, choice: SymbolKind.Enum, option: SymbolKind.EnumMember, check: SymbolKind.Event, edge: SymbolKind.Property,
  line: SymbolKind.Property, mark: SymbolKind.Property, seam: SymbolKind.Interface, step: SymbolKind.Event,
};

/** What helps to read a text. */
export function registerReading(session: Session, planner: Planner): void {
  registerSymbols(session);
  registerTokens(session);
  registerHints(session, planner);
  const { connection } = session;
  connection.onFoldingRanges((params, token) => session.answer(params.textDocument.uri, token, (at) =>
    folding(at.snapshot).map(({ start, end, kind }) => ({
      startLine: at.lines.positionAt(start).line,
      endLine: at.lines.positionAt(end).line,
      ...(kind === 'comments' ? { kind: FoldingRangeKind.Comment } : kind === 'uses' ? { kind: FoldingRangeKind.Imports } : {}),
    }))));
  connection.onSelectionRanges((params, token) => session.answer(params.textDocument.uri, token, (at) =>
    params.positions.map((position) => selectionAt(at, position))));
  connection.onDocumentLinks((params, token) => session.answer(params.textDocument.uri, token, (at) =>
    links(at.snapshot).map(({ start, end, path }) => ({ range: at.range(start, end), target: session.folders.uriOf(at.home.folder, path) }))));
}

function selectionAt(at: RequestContext, position: Position): SelectionRange {
  const offset = at.lines.offsetAt(position);
  let selection: SelectionRange | undefined;
  // From the whole inwards, since each is told which one holds it.
  for (const { start, end } of [...selectionSteps(at.snapshot, offset)].sort((a, b) => b.end - b.start - (a.end - a.start))) {
    selection = { range: at.range(start, end), ...(selection === undefined ? {} : { parent: selection }) };
  }
  return selection ?? { range: at.range(offset, offset) };
}

// ------------------------------------------------------------------------------------------------ symbols

function registerSymbols(session: Session): void {
  const { connection, folders } = session;
  connection.onDocumentSymbol((params, token) => session.answer<DocumentSymbol[] | SymbolInformation[]>(params.textDocument.uri, token, (at) => {
    const found = symbols(at.snapshot.file);
    if (session.capabilities.textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true) return found.map((symbol) => documentSymbol(at, symbol));
    const flat = (symbol: FileSymbol, container?: string): SymbolInformation[] => [
      { name: symbol.name, kind: kinds[symbol.kind], location: at.location(at.home.path, symbol.start, symbol.end), ...(container === undefined ? {} : { containerName: container }) },
      ...symbol.children.flatMap((child) => flat(child, symbol.name)),
    ];
    return found.flatMap((symbol) => flat(symbol));
  }));
  connection.onWorkspaceSymbol((params, token) => session.guarded(async () => {
    const found: SymbolInformation[] = [];
    for (const folder of folders.all()) {
      if (!folder.own) await folders.loadAll(folder);
      if (token.isCancellationRequested) return cancelled();
      const paths = folder.workspace.paths().filter((path) => folders.home(folders.uriOf(folder, path)).folder === folder);
      const files = paths.map((path) => folder.workspace.file(path)).filter((file) => file !== undefined);
      for (const { file, symbol, container } of workspaceSymbols(files, params.query)) {
        found.push({ name: symbol.name, kind: kinds[symbol.kind], location: session.location(folder, file, symbol.nameStart, symbol.nameEnd), ...(container === undefined ? {} : { containerName: container }) });
      }
    }
    return found;
  }));
}

function documentSymbol(at: RequestContext, symbol: FileSymbol): DocumentSymbol {
  return {
    name: symbol.name,
    ...(symbol.detail === '' ? {} : { detail: symbol.detail }),
    kind: kinds[symbol.kind],
    range: at.range(Math.min(symbol.start, symbol.nameStart), Math.max(symbol.end, symbol.nameEnd)),
    selectionRange: at.range(symbol.nameStart, symbol.nameEnd),
    children: symbol.children.map((child) => documentSymbol(at, child)),
  };
}

// ------------------------------------------------------------------------------------------------ tokens

function registerTokens(session: Session): void {
  const builders = new Map<string, SemanticTokensBuilder>();
  const recent = new RecentKeys(64, (key) => builders.delete(key));
  const builderFor = (uri: string): SemanticTokensBuilder => {
    const key = keyOf(uri);
    recent.use(key);
    let builder = builders.get(key);
    if (builder === undefined) builders.set(key, (builder = new SemanticTokensBuilder()));
    return builder;
  };
  const push = (builder: SemanticTokensBuilder, at: RequestContext, tokens: readonly Token[]): void => {
    for (const { start, length, type, modifiers } of tokens) {
      const from = at.lines.positionAt(start);
      const bits = modifiers.reduce((sum, modifier) => sum | (1 << tokenModifiers.indexOf(modifier)), 0);
      builder.push(from.line, from.character, at.lines.positionAt(start + length).character - from.character, tokenTypes.indexOf(type), bits);
    }
  };
  const { semanticTokens: on } = session.connection.languages;
  const empty = { data: [] };
  on.on(async (params, token) => (await session.answer(params.textDocument.uri, token, (at) => {
    const builder = builderFor(params.textDocument.uri);
    // Begins a new result whatever the id.
    builder.previousResult('');
    push(builder, at, semanticTokens(at.snapshot));
    return builder.build();
  })) ?? empty);
  on.onDelta(async (params, token) => (await session.answer(params.textDocument.uri, token, (at) => {
    const builder = builderFor(params.textDocument.uri);
    builder.previousResult(params.previousResultId);
    push(builder, at, semanticTokens(at.snapshot));
    return builder.buildEdits();
  })) ?? empty);
  on.onRange(async (params, token) => (await session.answer(params.textDocument.uri, token, (at) => {
    const [start, end] = [at.lines.offsetAt(params.range.start), at.lines.offsetAt(params.range.end)];
    const builder = new SemanticTokensBuilder();
    push(builder, at, semanticTokens(at.snapshot).filter((one) => one.start + one.length >= start && one.start <= end));
    return builder.build();
  })) ?? empty);
}

// ------------------------------------------------------------------------------------------------ hints

interface Settings {
  readonly sizes: boolean;
  readonly totals: boolean;
  readonly codeLens: boolean;
  readonly valueLenses: boolean;
}

function registerHints(session: Session, planner: Planner): void {
  const { connection } = session;
  let settings: Promise<Settings> | undefined;
  const current = (): Promise<Settings> => (settings ??= readSettings(session));
  const refreshHints = (): void => {
    if (session.capabilities.workspace?.inlayHint?.refreshSupport === true) void connection.sendRequest(InlayHintRefreshRequest.type);
  };
  planner.onBetterFigures = refreshHints;
  connection.onDidChangeConfiguration(() => {
    settings = undefined;
    const { workspace } = session.capabilities;
    refreshHints();
    if (workspace?.codeLens?.refreshSupport === true) void connection.sendRequest(CodeLensRefreshRequest.type);
  });
  connection.languages.inlayHint.on((params, token) => session.answer(params.textDocument.uri, token, async (at) => {
    const { sizes, totals } = await current();
    const [start, end] = [at.lines.offsetAt(params.range.start), at.lines.offsetAt(params.range.end)];
    let hints = inlayHints(at.snapshot, { start, end }, { sizes, totals });
    if (hints.some(({ kind }) => kind === 'total')) {
      const figures = await planner.hintFigures(params.textDocument.uri, at);
      checkStillAsked(session, at, token);
      hints = inlayHints(at.snapshot, { start, end }, { sizes, totals, toBuy: (material, combination) => figures?.[combinationKey(combination)]?.[material]?.buy });
    }
    return hints.map((hint) => ({ position: at.lines.positionAt(hint.at), label: hint.text, paddingLeft: true }));
  }));
  connection.onCodeLens((params, token) => session.answer(params.textDocument.uri, token, async (at) => {
    const { codeLens, valueLenses } = await current();
    if (!codeLens) return [];
    return codeLenses(at.snapshot, { values: valueLenses }).map(({ start, end, title, places }): CodeLens => {
      const range = at.range(start, end);
      // There is no command that every editor knows for going to places; to others these are words alone.
      if (places.length === 0 || session.options.showsPlaces !== true) return { range, command: { title, command: '' } };
      const locations = places.map((place) => at.location(place.file, place.start, place.end));
      return { range, command: { title, command: showPlacesCommand, arguments: [params.textDocument.uri, range.start, locations] } };
    });
  }));
}

async function readSettings(session: Session): Promise<Settings> {
  if (session.capabilities.workspace?.configuration !== true) return { sizes: true, totals: true, codeLens: true, valueLenses: false };
  const given: unknown = await session.connection.workspace.getConfiguration('piecewright').catch(() => undefined);
  const section = (value: unknown, name: string): unknown => (typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined);
  return {
    sizes: section(section(given, 'inlayHints'), 'sizes') !== false,
    totals: section(section(given, 'inlayHints'), 'totals') !== false,
    codeLens: section(given, 'codeLens') !== false,
    valueLenses: section(given, 'codeLensOnValues') === true,
  };
}
