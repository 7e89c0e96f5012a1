import { DocumentHighlightKind, type CallHierarchyItem, type LocationLink, SymbolKind } from 'vscode-languageserver';
import { childrenOf, parentsOf, pieceAt, type PieceItem } from '../language/call-hierarchy.ts';
import { definition } from '../language/definition.ts';
import { highlights } from '../language/highlights.ts';
import { fileOf, nameAt } from '../language/names.ts';
import { references } from '../language/references.ts';
import { prepareRename, rename } from '../language/rename.ts';
import { ErrorCodes, ResponseError } from 'vscode-languageserver';
import type { Snapshot } from '../workspace/snapshot.ts';
import { workspaceEdit } from './edits.ts';
import type { Session, RequestContext } from './session.ts';

/** From names to where they are made and used. */
export function registerNavigation(session: Session): void {
  const { connection } = session;
  connection.onDefinition((params, token) => session.answer(params.textDocument.uri, token, (at) => {
    const found = definition(at.snapshot, at.lines.offsetAt(params.position));
    if (found === undefined) return null;
    const target = at.location(found.target.file, found.target.start, found.target.end);
    if (session.capabilities.textDocument?.definition?.linkSupport !== true) return target;
    const link: LocationLink = {
      originSelectionRange: at.range(found.origin.start, found.origin.end),
      targetUri: target.uri,
      targetRange: at.location(found.whole.file, found.whole.start, found.whole.end).range,
      targetSelectionRange: target.range,
    };
    return [link];
  }));
  connection.onReferences((params, token) => session.answer(params.textDocument.uri, token, async (at) => {
    const offset = at.lines.offsetAt(params.position);
    const uses = references(at.snapshot, await othersFor(session, at, offset), offset, params.context.includeDeclaration);
    return uses.map((use) => at.location(use.file, use.start, use.end));
  }));
  connection.onDocumentHighlight((params, token) => session.answer(params.textDocument.uri, token, (at) =>
    highlights(at.snapshot, at.lines.offsetAt(params.position)).map(({ start, end, declares }) => ({
      range: at.range(start, end), kind: declares ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }))));
  connection.onPrepareRename((params, token) => session.answer(params.textDocument.uri, token, (at) => {
    const found = prepareRename(at.snapshot, at.lines.offsetAt(params.position));
    if (found === undefined) return null;
    if ('refused' in found) throw new ResponseError(ErrorCodes.InvalidRequest, found.refused);
    return { range: at.range(found.start, found.end), placeholder: found.name };
  }));
  connection.onRenameRequest((params, token) => session.answer(params.textDocument.uri, token, async (at) => {
    const offset = at.lines.offsetAt(params.position);
    const changes = rename(at.snapshot, await othersFor(session, at, offset), offset, params.newName);
    if (changes === undefined) return null;
    if ('refused' in changes) throw new ResponseError(ErrorCodes.InvalidRequest, changes.refused);
    return workspaceEdit(session, at.home.folder, changes);
  }));
  registerPieces(session);
}

/** Snapshots of the other patterns that use the file where the name at an offset is declared. */
async function othersFor(session: Session, { snapshot, home: { folder, path } }: RequestContext, offset: number): Promise<readonly Snapshot[]> {
  const found = nameAt(snapshot, offset);
  const file = found && fileOf(found.target);
  if (file === undefined) return [];
  if (!folder.own) await session.folders.loadAll(folder);
  const others: Snapshot[] = [];
  for (const user of [file, ...folder.workspace.usersOf(file)]) {
    if (user === path) continue;
    await session.folders.load({ folder, path: user });
    const other = folder.workspace.snapshot(user);
    if (other !== undefined) others.push(other);
  }
  return others;
}

// ------------------------------------------------------------------------------------------------ pieces from pieces

/** The tree of pieces drawn from pieces is shown as calls: a piece calls the one that it is drawn from. */
function registerPieces(session: Session): void {
  const { callHierarchy } = session.connection.languages;
  const item = (at: RequestContext, piece: PieceItem): CallHierarchyItem => ({
    name: piece.name, detail: piece.title, kind: SymbolKind.Class,
    uri: at.location(at.home.path, 0, 0).uri,
    range: at.range(piece.start, piece.end), selectionRange: at.range(piece.nameRange.start, piece.nameRange.end),
  });
  callHierarchy.onPrepare((params, token) => session.answer(params.textDocument.uri, token, (at) => {
    const piece = pieceAt(at.snapshot, at.lines.offsetAt(params.position));
    return piece === undefined ? null : [item(at, piece)];
  }));
  callHierarchy.onIncomingCalls((params, token) => session.answer(params.item.uri, token, (at) =>
    childrenOf(at.snapshot, params.item.name).map(({ piece, places }) => ({ from: item(at, piece), fromRanges: places.map(({ start, end }) => at.range(start, end)) }))));
  callHierarchy.onOutgoingCalls((params, token) => session.answer(params.item.uri, token, (at) =>
    parentsOf(at.snapshot, params.item.name).map(({ piece, places }) => ({ to: item(at, piece), fromRanges: places.map(({ start, end }) => at.range(start, end)) }))));
}
