import { describe, expect, it } from 'vitest';
import { createConnection } from 'vscode-languageserver/node';
import { PassThrough } from 'node:stream';
import { StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver-protocol/node';
import { Diagnostics } from '../../server/src/lsp/diagnostics.ts';
import { Previews } from '../../server/src/lsp/previews.ts';
import { Session } from '../../server/src/lsp/session.ts';
import { memoryHost } from '../support/lsp.ts';

/** The parts of a server that hold something for each document, without a client. */
function parts(folders: readonly string[]): { readonly session: Session; readonly previews: Previews; readonly diagnostics: Diagnostics } {
  const connection = createConnection(new StreamMessageReader(new PassThrough()), new StreamMessageWriter(new PassThrough()));
  const session = new Session(connection, memoryHost(new Map()));
  for (const folder of folders) session.folders.add(folder);
  return { session, previews: new Previews(session), diagnostics: new Diagnostics(session, () => undefined) };
}

describe('a thousand documents that were opened, shown and closed', () => {
  it.each([
    ['in a folder of the client', (index: number) => `file:///work/small_${index}.piece`],
    ['each in a folder of its own', (index: number) => `file:///elsewhere/${index}/small.piece`],
    ['that were never saved', (index: number) => `untitled:Untitled-${index}`],
  ])('leave next to nothing behind: %s', async (_, uriOf) => {
    const { session, previews, diagnostics } = parts(['file:///work']);
    const { folders } = session;
    for (let index = 0; index < 1000; index++) {
      const uri = uriOf(index);
      folders.open({ uri, version: 1, text: `pattern "P"\nrevision 1\nlength a = ${index}\n` });
      const report = await diagnostics.pull(uri, undefined);
      expect('items' in report && report.items.length).toBe(1);
      const home = folders.home(uri);
      const context = session.contextOf(home);
      if (context === undefined) throw new Error('not there');
      previews.asked(uri).preview.update(context.snapshot, new Map(), 1, (path) => path, {});
      folders.close(uri);
      session.closed(uri);
      previews.closed(uri);
      diagnostics.documentClosed(uri);
    }
    expect(folders.all()).toHaveLength(1);
    expect(folders.all()[0]?.workspace.size).toEqual({ patterns: 0, trees: 0, paths: 0 });
    expect(diagnostics.heldResults).toBe(0);
    expect(session.heldLines).toBeLessThanOrEqual(64);
    expect(previews.size).toBeLessThanOrEqual(8);
  });

  it('asking about a file that is not open makes no folder', () => {
    const { session } = parts([]);
    for (let index = 0; index < 100; index++) session.folders.home(`file:///elsewhere/${index}/a.piece`);
    expect(session.folders.all()).toEqual([]);
  });
});
