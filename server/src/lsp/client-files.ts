import type { Connection } from 'vscode-languageserver';
import type { Host } from './host.ts';
import { listRequest, readRequest, type ReadParams } from './messages.ts';
import { keyOf, pathIn } from './uris.ts';

/** Reads files by asking the client for them. A client that doesn't know these requests has no files to give. */
export function clientFiles(connection: Connection): Pick<Host, 'read' | 'list'> {
  const ask = async <Answer>(method: string, params?: ReadParams): Promise<Answer | undefined> => {
    try {
      return await connection.sendRequest<Answer>(method, params);
    } catch {
      return undefined;
    }
  };
  return {
    read: async (uri) => {
      const text = hasPath(uri) ? await ask<string | null>(readRequest, { uri }) : undefined;
      return text === null || text === undefined ? undefined : { text };
    },
    list: async (folder) => {
      const uris = hasPath(folder) ? await ask<readonly string[]>(listRequest) : undefined;
      return (uris ?? []).filter((uri) => pathIn(keyOf(folder), keyOf(uri)) !== undefined);
    },
  };
}

/** Addresses such as `untitled:Untitled-1` name no file; some file systems have paths, but no authority before them. */
const hasPath = (uri: string): boolean => uri.includes(':/');
