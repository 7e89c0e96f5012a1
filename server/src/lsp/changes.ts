import { ErrorCodes, ResponseError, type CancellationToken, type Connection } from 'vscode-languageserver';
import { limits } from '../problems/limits.ts';
import { libraryOf } from '../model/names/files.ts';
import { Analyst } from '../model/pattern.ts';
import type { Combination } from '../model/query/query.ts';
import { previewData } from '../preview/drawing.ts';
import { parseFile } from '../syntax/parse.ts';
import { snapshotOf } from '../workspace/snapshot.ts';
import { usesOf } from '../workspace/workspace.ts';
import { committedRequest, type ChangesAnswer, type CommittedPiecesAnswer, type ReadParams } from './messages.ts';
import type { Planner } from './planner.ts';
import { cancelled, type RequestContext, type Session } from './session.ts';

/** What is different in a pattern since it was last committed, with the files that it used then as they were. */
export async function changesSince(session: Session, planner: Planner, uri: string, at: RequestContext, token: CancellationToken): Promise<ChangesAnswer> {
  const { connection, folders } = session;
  const files = await committedFiles(at.home.path, (path) => committed(connection, folders.uriOf(at.home.folder, path)));
  if (files.length === 0) return { refused: 'There is nothing to compare with: no earlier version of this pattern has been committed, or no git is at hand.' };
  const markdown = await planner.comparison(uri, at, { path: at.home.path, files }, (stop) => token.onCancellationRequested(stop));
  if (token.isCancellationRequested) throw cancelled();
  if (markdown === undefined) throw new ResponseError(ErrorCodes.InternalError, 'The changes could not be worked out.');
  return { markdown };
}

/** A pattern's pieces as they were last committed, in the options that it had then. */
export async function committedPieces({ connection, folders }: Session, uri: string, combination: Combination): Promise<CommittedPiecesAnswer> {
  const home = folders.home(uri);
  const files = await committedFiles(home.path, (path) => committed(connection, folders.uriOf(home.folder, path)));
  const texts = new Map(files.map(({ path, text }) => [path, text]));
  const root = texts.get(home.path);
  if (root === undefined) return { pieces: null };
  const pattern = new Analyst().analyse(parseFile(home.path, root), libraryOf(texts));
  return { pieces: previewData(snapshotOf(pattern), combination).pieces };
}

interface CommittedFile {
  readonly path: string;
  readonly text: string;
}

/** A file and all that it used, itself or by way of others; nothing where it is not there itself. */
async function committedFiles(root: string, read: (path: string) => Promise<string | null>): Promise<readonly CommittedFile[]> {
  const [files, met]: [CommittedFile[], Set<string>] = [[], new Set([root])];
  for (const path of met) {
    if (files.length > limits.files) break;
    const text = await read(path);
    if (text === null) continue;
    files.push({ path, text });
    for (const used of usesOf(parseFile(path, text))) met.add(used);
  }
  return files.some(({ path }) => path === root) ? files : [];
}

/** A client that doesn't know this request has no earlier versions to give, and what it says may be anything. */
async function committed(connection: Connection, uri: string): Promise<string | null> {
  try {
    const text: unknown = await connection.sendRequest(committedRequest, { uri } satisfies ReadParams);
    return typeof text === 'string' ? text : null;
  } catch {
    return null;
  }
}
