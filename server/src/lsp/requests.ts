import { ErrorCodes, ResponseError, type CancellationToken } from 'vscode-languageserver';
import { diagnose } from '../language/diagnostics.ts';
import type { Combination } from '../model/query/query.ts';
import { changesSince, committedPieces } from './changes.ts';
import {
  changesRequest, choicesRequest, committedPiecesRequest, exportRequest, lookNotification, moveRequest, pagesRequest, previewRequest,
  type ChangesAnswer, type ChangesParams, type ChoicesAnswer, type ChoicesParams, type ChosenOptions, type CommittedPiecesAnswer, type CommittedPiecesParams, type ExportAnswer, type ExportParams, type LookParams, type MoveAnswer, type MoveParams, type PagesAnswer, type PagesParams, type PreviewAnswer, type PreviewParams,
} from './messages.ts';
import { pageFormats } from '../formats/pages.ts';
import type { Pattern } from '../model/pattern.ts';
import { usualMargin, type PageOptions } from '../pages/options.ts';
import { paperNamed } from '../pages/paper.ts';
import { combinationCount, missingOption, tooManyCombinations } from '../table/combinations.ts';
import { moveOf } from '../preview/handles/shown.ts';
import type { Planner } from './planner.ts';
import type { Previews } from './previews.ts';
import { cancelled, type Session, type RequestContext } from './session.ts';

/** The requests of the product's own client. */
export function registerRequests(session: Session, previews: Previews, planner: Planner): void {
  const { connection } = session;
  connection.onRequest(previewRequest, async (params: PreviewParams, token: CancellationToken) => {
    if (params.waits === true) await session.guarded(() => previews.changed(params.uri, token));
    const shown = previews.asked(params.uri);
    return session.answer<PreviewAnswer>(params.uri, token, (at) => {
      const { snapshot, home } = at;
      shown.snapshot = snapshot;
      if (snapshot.pattern.world.names.size === 0) return null;
      const version = session.folders.document(params.uri)?.version ?? 0;
      const update = shown.preview.update(snapshot, combinationOf(params.combination), version, (path) => session.folders.uriOf(home.folder, path), params);
      // What takes its time begins once what is waited for has been sent.
      const { buying } = params;
      if (buying !== undefined && buying !== null && !shown.preview.owesTables(snapshot)) session.host.soon(() => planner.show(params.uri, at, params.combination, buying));
      return { version, update };
    });
  });
  connection.onRequest<MoveAnswer, void>(moveRequest, (params: MoveParams, token: CancellationToken) => session.answer<MoveAnswer>(params.uri, token, (at) => moveFor(session, at, params)));
  connection.onNotification(lookNotification, ({ uri, on }: LookParams) => planner.look(uri, on));
  connection.onRequest(choicesRequest, (params: ChoicesParams, token: CancellationToken) => session.answer<ChoicesAnswer>(params.uri, token, (at) => {
    const problems = errorsOf(at);
    return problems.length > 0 ? { problems } : { choices: [...at.snapshot.pattern.choices].map(([name, options]) => ({ name, options })) };
  }));
  connection.onRequest(exportRequest, (params: ExportParams, token: CancellationToken) => session.answer<ExportAnswer>(params.uri, token, async (at) => {
    const problems = errorsOf(at);
    if (problems.length > 0) return { problems };
    const { pattern } = at.snapshot;
    const refused = refusal(pattern, params.combination);
    if (refused !== undefined) return { refused };
    const text = await planner.tables(params.uri, at, params, (stop) => token.onCancellationRequested(stop));
    if (token.isCancellationRequested) throw cancelled();
    if (text === undefined) throw new ResponseError(ErrorCodes.InternalError, 'The table could not be worked out.');
    return { text };
  }));
  connection.onRequest(changesRequest, ({ uri }: ChangesParams, token: CancellationToken) => session.answer<ChangesAnswer>(uri, token, (at) => changesSince(session, planner, uri, at, token)));
  connection.onRequest(committedPiecesRequest, ({ uri, combination }: CommittedPiecesParams) => session.guarded<CommittedPiecesAnswer>(() => committedPieces(session, uri, combinationOf(combination))));
  connection.onRequest<PagesAnswer | null, void>(pagesRequest, (params: PagesParams, token: CancellationToken) => session.answer<PagesAnswer>(params.uri, token, (at) => pagesFor(planner, at, params, token)));
}

function moveFor(session: Session, { snapshot, home }: RequestContext, { combination, piece, handle, to: [x, y] }: MoveParams): MoveAnswer {
  const move = moveOf(snapshot.pattern, { piece, combination: combinationOf(combination), id: handle }, { x, y });
  const changes = move?.changes.map(({ place, before, text }) => {
    const found = snapshot.locate(place);
    return found && { uri: session.folders.uriOf(home.folder, found.file), start: found.start, end: found.end, before, text };
  });
  return move === undefined || changes === undefined || !changes.every((change) => change !== undefined) ? null : { at: [move.at.x, move.at.y], says: move.says, changes };
}

async function pagesFor(planner: Planner, at: RequestContext, params: PagesParams, token: CancellationToken): Promise<PagesAnswer> {
  const problems = errorsOf(at);
  if (problems.length > 0) return { problems };
  const { pattern } = at.snapshot;
  const refused = missingOption(pattern, Object.entries(params.combination ?? {}));
  if (refused !== undefined) return { refused };
  const paper = paperNamed(params.paper ?? 'a4');
  if (paper === undefined || !pageFormats.includes(params.format)) return { refused: 'There is no such paper or format.' };
  if (![...pattern.world.names.values()].some(({ tree }) => tree.kind === 'piece')) return { refused: 'The pattern has no piece, so there is nothing to print.' };
  const size = params.combination?.['size'];
  const options: PageOptions = { paper, orientation: 'auto', margin: usualMargin, templates: params.templates === 'needed' ? 'needed' : 'all', ...(size === undefined ? {} : { sizes: [size] }) };
  const made = await planner.pages(params.uri, at, params, options, (stop) => token.onCancellationRequested(stop));
  if (token.isCancellationRequested) throw cancelled();
  if (made === undefined) throw new ResponseError(ErrorCodes.InternalError, 'The pages could not be made.');
  return { files: made.files.map(({ name, content }) => ({ name, base64: base64Of(content) })), notes: made.notes };
}

/** Bytes as text, in runs that a call can take as arguments. */
function base64Of(bytes: Uint8Array): string {
  let signs = '';
  for (let at = 0; at < bytes.length; at += 8192) signs += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(signs);
}

/** Why tables can’t be written for what was chosen: an option may have gone since it was offered. */
const refusal = (pattern: Pattern, combination: ExportParams['combination']): string | undefined =>
  combination === 'all' ? tooManyCombinations(combinationCount(pattern.choices.values())) : missingOption(pattern, Object.entries(combination ?? {}));

const errorsOf = (at: RequestContext): readonly string[] =>
  diagnose(at.snapshot).filter(({ found }) => found.severity === 'error').map(({ start, message }) => `Line ${at.lines.positionAt(start).line + 1}: ${message}`);

const combinationOf = (chosen: ChosenOptions | undefined): Combination => new Map(Object.entries(chosen ?? {}));
