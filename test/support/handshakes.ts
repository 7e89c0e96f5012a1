import { readFileSync } from 'node:fs';
import type { InitializeParams } from 'vscode-languageserver';
import type { Client } from './lsp.ts';

/**
 * What real editors sent to the server, recorded from Debian’s packages: Neovim 0.12.4 (in sid), with the
 * settings of the README; Helix 25.07.1 (in sid), with those of the README; Emacs 28.2 with Eglot 1.9 (in bookworm), with
 * a plain mode for `.piece`. A script between editor and server wrote down every message while a pattern was opened, asked
 * about, renamed in, broken, mended and formatted, by keys or by the editor's own commands.
 *
 * Left out are the editor's answers, what it cancelled, and the text that it opened. Folders, ids of processes and
 * machines are replaced. So is the pattern: `handshakes/opened.piece` has other names, words and sizes than the one that
 * was opened then, in the same places, and the names that the messages repeat are changed with it. Nothing else is.
 */
export interface Handshake {
  readonly editor: string;
  readonly client: string;
  readonly messages: readonly [Message & { readonly params: InitializeParams }, ...Message[]];
}

interface Message {
  /** Of a request; a notification has none. */
  readonly id?: number;
  readonly method: string;
  readonly params?: Readonly<Record<string, unknown>> | null;
}

export interface Answered {
  readonly method: string;
  readonly answer: unknown;
}

export const root = 'file:///work';
export const opened = `${root}/opened.piece`;
export const openedText = readFileSync(new URL('handshakes/opened.piece', import.meta.url), 'utf8');

export const handshake = (name: string): Handshake => JSON.parse(readFileSync(new URL(`handshakes/${name}.json`, import.meta.url), 'utf8')) as Handshake;

/** Sends all that an editor sent after its greeting, each after the answer to the one before. */
export async function play(client: Client, { messages }: Handshake): Promise<readonly Answered[]> {
  const answers: Answered[] = [];
  const results = new Map<string, unknown>();
  for (const { id, method, params } of messages) {
    // The client of the tests has said these; the last would end this very process.
    if (['initialize', 'initialized', 'exit'].includes(method)) continue;
    if (id === undefined) {
      await client.connection.sendNotification(method, method === 'textDocument/didOpen' ? withText(params) : params);
      continue;
    }
    // Ids of results are the server's own, and others each time.
    const kept = method.replace('/delta', '');
    const previousResultId = results.get(kept);
    const answer = await client.request(method, params && 'previousResultId' in params ? { ...params, previousResultId } : params);
    if (typeof answer === 'object' && answer !== null && 'resultId' in answer) results.set(kept, answer.resultId);
    answers.push({ method, answer });
  }
  return answers;
}

function withText(params: Message['params']): unknown {
  return { ...params, textDocument: { ...(params?.['textDocument'] as object), text: openedText } };
}
