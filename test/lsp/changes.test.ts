import { afterEach, describe, expect, it, vi } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare } from '../../server/src/compare/comparison.ts';
import { comparisonMarkdown } from '../../server/src/formats/comparison-markdown.ts';
import { libraryOf } from '../../server/src/model/names/files.ts';
import { Analyst } from '../../server/src/model/pattern.ts';
import type { PreviewPiece } from '../../server/src/preview/drawing-data.ts';
import { previewData } from '../../server/src/preview/drawing.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { snapshotOf } from '../../server/src/workspace/snapshot.ts';
import { materials, spec } from '../compare/changes.ts';
import { Client } from '../support/lsp.ts';

vi.setConfig({ testTimeout: 30_000 });
const uri = 'file:///work/case.piece';
const wide = spec.replace('revision 1', 'revision 2').replace('3 1/2 for S', '3 3/4 for S');
const dear = materials.replace('price 12', 'price 15').replace('usable 42', 'usable 40');
let client: Client | undefined;
afterEach(() => {
  client?.end();
  client = undefined;
});

/** A client with the case as it is now, and what it says of earlier versions, by path. */
async function open(now: Readonly<Record<string, string>>, committed: Readonly<Record<string, unknown>>): Promise<{ client: Client; asked: string[] }> {
  client = await Client.start({ files: Object.fromEntries(Object.entries(now).map(([path, text]) => [`file:///work/${path}`, text])) });
  const asked: string[] = [];
  client.connection.onRequest('piecewright/committed', ({ uri: of }: { uri: string }) => {
    asked.push(of.replace('file:///work/', ''));
    return committed[asked.at(-1) ?? ''] ?? null;
  });
  await client.open(uri, now['case.piece'] ?? '');
  return { client, asked };
}

const pattern = (files: Readonly<Record<string, string>>): ReturnType<Analyst['analyse']> => new Analyst().analyse(parseFile('case.piece', files['case.piece'] ?? ''), libraryOf(new Map(Object.entries(files))));

describe('what has changed since the last commit', () => {
  it('is what the command line says of the two, with what was used as it was', async () => {
    const [before, now] = [{ 'case.piece': spec, 'stock.piece': materials }, { 'case.piece': wide, 'stock.piece': dear }];
    const { client: one, asked } = await open(now, before);
    const answer = await one.connection.sendRequest<{ markdown: string }>('piecewright/changes', { uri });
    expect(answer.markdown).toBe(comparisonMarkdown(compare(pattern(before), pattern(now), usualOptions)));
    expect(answer.markdown).toContain('| Canvas | price | 12 per yd | 15 per yd |');
    expect(asked).toEqual(['case.piece', 'stock.piece']);
  });

  it('follows what is typed, and says where nothing is different', async () => {
    const before = { 'case.piece': spec, 'stock.piece': materials };
    const { client: one } = await open(before, before);
    expect(await one.connection.sendRequest('piecewright/changes', { uri })).toMatchObject({ markdown: expect.stringContaining('**Glasses case: no change**') });
    await one.replace(uri, wide);
    expect(await one.connection.sendRequest('piecewright/changes', { uri })).toMatchObject({ markdown: expect.stringContaining('## Glasses case: revision 1 → revision 2') });
  });

  it('is refused in words where there is no earlier version, and no lie of a client breaks the server', async () => {
    const { client: one } = await open({ 'case.piece': spec, 'stock.piece': materials }, { 'case.piece': null, 'stock.piece': materials });
    const refused = { refused: expect.stringContaining('There is nothing to compare with') };
    expect(await one.connection.sendRequest('piecewright/changes', { uri })).toEqual(refused);
    one.connection.onRequest('piecewright/committed', () => ({ text: 7 }));
    expect(await one.connection.sendRequest('piecewright/changes', { uri })).toEqual(refused);
    one.connection.onRequest('piecewright/committed', () => { throw new Error('No.'); });
    expect(await one.connection.sendRequest('piecewright/changes', { uri })).toEqual(refused);
    expect(await one.connection.sendRequest('piecewright/changes', { uri: 'file:///work/none.piece' })).toBeNull();
  });

  it('says what can’t be compared for errors, and stops following files that use one another', async () => {
    const round = { 'case.piece': 'use "b.piece"\nlength a = x\n', 'b.piece': 'use "case.piece"\n' };
    const { client: one, asked } = await open({ 'case.piece': spec, 'stock.piece': materials }, round);
    expect(await one.connection.sendRequest('piecewright/changes', { uri })).toMatchObject({ markdown: expect.stringContaining('The earlier pattern has') });
    expect(asked).toEqual(['case.piece', 'b.piece']);
  });
});

describe('the pieces as they were last committed', () => {
  const before = { 'case.piece': spec, 'stock.piece': materials };
  const widths = ({ pieces }: { pieces: readonly { name: string; cut: { width: { text: string } } }[] | null }): readonly string[] | undefined => pieces?.map(({ name, cut }) => `${name} ${cut.width.text}`);

  it('are drawn as the preview draws them, in what is chosen, whatever is typed now', async () => {
    const { client: one } = await open({ 'case.piece': wide, 'stock.piece': dear }, before);
    for (const size of ['S', 'L']) {
      const answer = await one.connection.sendRequest<{ pieces: readonly PreviewPiece[] }>('piecewright/committedPieces', { uri, combination: { size } });
      expect(answer.pieces).toEqual(JSON.parse(JSON.stringify(previewData(snapshotOf(pattern(before)), new Map([['size', size]])).pieces)));
    }
    await one.replace(uri, `${wide}\npiece broken {`);
    expect(widths(await one.connection.sendRequest('piecewright/committedPieces', { uri, combination: { size: 'S', gone: 'yes' } }))).toEqual(widths({ pieces: previewData(snapshotOf(pattern(before)), new Map([['size', 'S']])).pieces }));
  });

  it('are none where there is no earlier version', async () => {
    const { client: one } = await open({ 'case.piece': spec, 'stock.piece': materials }, { 'stock.piece': materials });
    expect(await one.connection.sendRequest('piecewright/committedPieces', { uri })).toEqual({ pieces: null });
  });
});
