import { afterEach, describe, expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver-protocol/node';
import { applied, type Delta } from '../../server/src/preview/difference.ts';
import type { PreviewUpdate } from '../../server/src/lsp/messages.ts';
import type { PreviewData } from '../../server/src/preview/drawing-data.ts';
import { placeNow } from '../../server/src/preview/places.ts';
import { Client } from '../support/lsp.ts';
import { pouch, materials } from '../support/pouch.ts';

const main = 'file:///work/main.piece';
const stock = 'file:///work/materials.piece';

let client: Client | undefined;
const start = async (): Promise<Client> => (client = await Client.start({ files: { [main]: pouch, [stock]: materials } }));
afterEach(() => client?.end());

describe('the product’s own requests', () => {
  /** A question for the preview's next drawing, held at the server until there is one. */
  function heldPreview(editor: Client): { readonly answer: Promise<{ readonly update: PreviewUpdate } | null>; readonly isAnswered: () => boolean } {
    let isAnswered = false;
    const answer = editor.request<{ readonly update: PreviewUpdate } | null>('piecewright/preview', { uri: main, waits: true });
    void answer.then(() => (isAnswered = true));
    return { answer, isAnswered: () => isAnswered };
  }

  test('a table, or the errors that leave none', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const { text } = await editor.request<{ text: string }>('piecewright/export', { uri: main, format: 'csv', by: 'piece', combination: { size: 'L' } });
    expect(text).toContain('Front');
    await editor.replace(main, pouch.replace('cut 1 canvas', 'cut 1 canvaz'));
    expect(await editor.request('piecewright/export', { uri: main, format: 'csv', by: 'piece' })).toEqual({ problems: ['Line 19: There is no material called “canvaz”. Did you mean “canvas”?'] });
  });

  test('a drawing, and whoever waits the next that is another', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const answer = await editor.request<{ version: number; update: PreviewUpdate }>('piecewright/preview', { uri: main });
    expect(answer.version).toBe(1);
    expect(JSON.parse(answer.update.data)).toMatchObject({ title: 'Pouch' });
    const waiting = editor.request<{ version: number; update: PreviewUpdate }>('piecewright/preview', { uri: main, known: answer.update.serial, waits: true });
    // Whatever else is asked meanwhile does not end it.
    await editor.request('piecewright/preview', { uri: main, known: answer.update.serial });
    let isAnswered = false;
    void waiting.then(() => (isAnswered = true));
    await editor.request('piecewright/choices', { uri: main });
    expect(isAnswered).toBe(false);
    await editor.replace(main, pouch.replace('"Pouch"', '"Case"'));
    expect((await waiting).version).toBe(2);
    expect((await waiting).update.data).toContain('"Case"');
  });

  test('to nobody who waits for another document than the one that is edited', async () => {
    const other = 'file:///work/other.piece';
    const editor = await start();
    await editor.open(main, pouch);
    await editor.open(other, pouch);
    await editor.request('piecewright/preview', { uri: main });
    const held = heldPreview(editor);
    await editor.replace(other, pouch.replace('"Pouch"', '"Case"'));
    await editor.request('piecewright/choices', { uri: main });
    expect(held.isAnswered()).toBe(false);
    await editor.replace(main, pouch.replace('"Pouch"', '"Purse"'));
    expect((await held.answer)?.update.data).toContain('"Purse"');
  });

  test('once that a pattern is gone, and then not before it is there again', async () => {
    const editor = await start();
    const changed = async (type: number): Promise<void> => {
      await editor.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: main, type }] });
      // Its answer shows that the server has taken the change before it.
      await editor.request('piecewright/choices', { uri: stock });
    };
    expect(await editor.request('piecewright/preview', { uri: main })).not.toBeNull();
    const gone = heldPreview(editor);
    editor.files.delete(main);
    await changed(3);
    expect(await gone.answer).toBeNull();
    const back = heldPreview(editor);
    await editor.request('piecewright/choices', { uri: stock });
    expect(back.isAnswered()).toBe(false);
    editor.files.set(main, pouch);
    await changed(1);
    expect((await back.answer)?.update.data).toContain('"Pouch"');
  });

  test('what is drawn first to who waits for it, and its tables when they ask again', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const ask = async (more: object): Promise<{ version: number; update: PreviewUpdate }> => editor.request('piecewright/preview', { uri: main, ...more });
    const read = ({ update }: { update: PreviewUpdate }, before?: unknown): PreviewData => (update.since === undefined ? JSON.parse(update.data) : applied(before, JSON.parse(update.data) as Delta)) as PreviewData;
    const heights = ({ pieces, table }: PreviewData): readonly (string | undefined)[] => [pieces[0]?.finished.height.text, table.cuts[0]?.measured.height.text];
    const first = await ask({});
    const whole = read(first);
    expect(heights(whole)).toEqual(['3 1/4 in', '4 in']);
    const edited = async (text: string, { update: { serial } }: { update: PreviewUpdate }): Promise<{ version: number; update: PreviewUpdate }> => {
      const waiting = ask({ known: serial, waits: true });
      await editor.replace(main, text);
      return waiting;
    };
    const higher = pouch.replace('base / 2 + 1', 'base / 2 + 2');
    const drawn = await edited(higher, first);
    const one = read(drawn, whole);
    expect(heights(one)).toEqual(['4 1/4 in', '4 in']);
    // Another text before that: its drawing comes first, too.
    await editor.replace(main, `# A word above.\n${pouch.replace('base / 2 + 1', 'base / 2 + 3')}`);
    const again = await ask({ known: drawn.update.serial, waits: true });
    const two = read(again, one);
    expect([again.version, ...heights(two)]).toEqual([3, '5 1/4 in', '4 in']);
    // What either refers to is there, and where it is now.
    const [front, canvas] = [placeNow(two, two.pieces[0]?.place), placeNow(two, two.table.cuts[0]?.materialPlace)];
    expect([front?.start, canvas]).toEqual([16 + pouch.indexOf('front'), { file: stock, start: materials.indexOf('canvas'), end: materials.indexOf('canvas') + 6 }]);
    const tables = await ask({ known: again.update.serial, waits: true });
    const three = read(tables, two);
    expect([tables.version, ...heights(three)]).toEqual([3, '5 1/4 in', '6 in']);
    // All that was told along the way comes to the same as the whole.
    const same = await ask({});
    expect(three).toEqual(read(same));
    // Nothing more is owed: the next waits for another text. Whoever asks without waiting gets both at once.
    const last = await edited(pouch, same);
    expect([last.version, ...heights(read(last, three))]).toEqual([4, '3 1/4 in', '6 in']);
    expect(heights(read(await ask({ known: last.update.serial }), read(last, three)))).toEqual(['3 1/4 in', '4 in']);
    // A text that is gone is told once, and owes nothing.
    const shorter = await edited(higher, await ask({}));
    await editor.replace(main, '');
    expect(await ask({ known: shorter.update.serial, waits: true })).toBeNull();
    const held = heldPreview(editor);
    await editor.request('piecewright/choices', { uri: main });
    expect(held.isAnswered()).toBe(false);
    await editor.replace(main, pouch);
    expect((await held.answer)?.update.data).toContain('"Pouch"');
  });

  test('at once to who waits for what has already come, and nothing to who has given up', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    await editor.request('piecewright/preview', { uri: main });
    await editor.replace(main, pouch.replace('"Pouch"', '"Case"'));
    expect(await editor.request('piecewright/preview', { uri: main, waits: true })).toMatchObject({ version: 2 });
    const given = new CancellationTokenSource();
    const waiting = editor.connection.sendRequest('piecewright/preview', { uri: main, waits: true }, given.token);
    given.cancel();
    await expect(waiting).rejects.toMatchObject({ code: -32800 });
  });

  test('the handles of a piece, and what to write where one is moved', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const { update } = await editor.request<{ update: PreviewUpdate }>('piecewright/preview', { uri: main, handled: 'front' });
    const { handles } = JSON.parse(update.data) as { handles: { piece: string; list: { id: string }[] } };
    expect(handles).toMatchObject({ piece: 'front', by: '1/8 in' });
    expect(handles.list.map(({ id }) => id)).toContain('mark catch');
    const start1 = pouch.indexOf('1, 2\n');
    const ask = { uri: main, piece: 'front', combination: { size: 'L' }, handle: 'mark catch', to: [25.4 * 1.26, 25.4 * 2] };
    expect(await editor.request('piecewright/move', ask)).toEqual({ at: [25.4 * 1.25, 25.4 * 2], says: 'x 1 1/4 in, y 2 in', changes: [{ uri: main, start: start1, end: start1 + 1, before: '1', text: '1 1/4' }] });
    expect(await editor.request('piecewright/move', { ...ask, handle: 'mark clasp' })).toBeNull();
  });

  test('only what has changed of a drawing, to whoever has the rest', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const ask = async (known?: number): Promise<PreviewUpdate> => (await editor.request<{ update: PreviewUpdate }>('piecewright/preview', { uri: main, ...(known === undefined ? {} : { known }) })).update;
    const first = await ask();
    expect(first.since).toBeUndefined();
    await editor.replace(main, pouch.replace('"Pouch"', '"Case"'));
    const second = await ask(first.serial);
    expect(second.since).toBe(first.serial);
    expect(second.data.length).toBeLessThan(first.data.length / 5);
    const whole = await ask();
    expect(whole.since).toBeUndefined();
    expect(applied(JSON.parse(first.data), JSON.parse(second.data) as Delta)).toEqual(JSON.parse(whole.data));
    // Whoever has something older than what was last sent gets the whole, too.
    expect((await ask(first.serial)).since).toBeUndefined();
    const same = await ask(whole.serial + 1);
    expect(applied(JSON.parse(whole.data), JSON.parse(same.data) as Delta)).toEqual(JSON.parse(whole.data));
  });
});
