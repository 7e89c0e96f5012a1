import { afterEach, describe, expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-languageserver-protocol/node';
import type { ClientCapabilities, DocumentDiagnosticReport, Hover, Location, WorkspaceDiagnosticReport, WorkspaceEdit } from 'vscode-languageserver';
import { Client, codesOf, memoryHost, type Setup } from '../support/lsp.ts';
import { pouch, materials } from '../support/pouch.ts';

const main = 'file:///work/main.piece';
const stock = 'file:///work/materials.piece';
const files = { [main]: pouch, [stock]: materials };

let client: Client | undefined;
const start = async (setup: Setup = {}): Promise<Client> => (client = await Client.start({ files, ...setup }));
afterEach(() => client?.end());

const at = (text: string, words: string, inside = 0): { line: number; character: number } => {
  const offset = text.indexOf(words) + inside;
  const before = text.slice(0, offset).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
};

describe('diagnostics that are sent', () => {
  test('a good pattern has none, and reads what it uses', async () => {
    const editor = await start();
    expect((await editor.open(main, pouch)).diagnostics).toEqual([]);
  });

  test('a fault is sent at once, with where and what, and taken back when it is mended', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const position = at(pouch, 'crisp', 3);
    const { version, diagnostics } = await editor.change(main, [{ range: { start: position, end: position }, text: 'x' }]);
    expect(version).toBe(2);
    expect(diagnostics.map(({ code, message, range, source, severity }) => ({ code, message, range, source, severity }))).toEqual([{
      code: 'unknown-name', source: 'piecewright', severity: 1,
      message: 'There is no material called “crixsp”. Did you mean “crisp”?',
      range: { start: { line: position.line, character: position.character - 3 }, end: { line: position.line, character: position.character + 3 } },
    }]);
    const { diagnostics: mended } = await editor.change(main, [{ range: { start: position, end: { ...position, character: position.character + 1 } }, text: '' }]);
    expect(mended).toEqual([]);
  });

  test('what has no effect is tagged, what belongs to it is pointed at, and codes lead to the reference', async () => {
    const editor = await start({ options: { referenceUri: 'https://docs.test/reference' } });
    const { diagnostics } = await editor.open(main, `${pouch}length spare = 1\nlength base = 2\n`);
    const unused = diagnostics.find((one) => one.code === 'unused-name');
    expect(unused?.tags).toEqual([1]);
    expect(unused?.codeDescription).toEqual({ href: 'https://docs.test/reference#unused-name' });
    const twice = diagnostics.find((one) => one.code === 'duplicate-name');
    expect(twice?.relatedInformation).toEqual([{ location: { uri: main, range: { start: at(pouch, 'base'), end: at(pouch, 'base', 4) } }, message: 'First declared here.' }]);
  });

  test('an edit of a shared file tells the open patterns that use it', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    await editor.open(stock, materials);
    const told = editor.when((one) => one.uri === main);
    await editor.replace(stock, materials.replace('material canvas', 'material linen'));
    expect(codesOf((await told).diagnostics)).toContain('unknown-name');
  });

  test('files that the open ones use have their problems, too, until they are used no more', async () => {
    const editor = await start({ files: { ...files, [stock]: materials.replace('width', 'wide') } });
    const faulty = editor.when(({ uri, diagnostics }) => uri === stock && codesOf(diagnostics).includes('unreadable-line'));
    await editor.open(main, pouch);
    await faulty;
    const cleared = editor.when(({ uri, diagnostics }) => uri === stock && diagnostics.length === 0);
    void editor.replace(main, pouch.replace('use "materials.piece"', ''));
    await cleared;
  });

  test('a lens lists its places where the client can', async () => {
    const lenses = async (options: object): Promise<readonly { readonly command: { readonly title: string; readonly command: string; readonly arguments?: readonly unknown[] } }[]> => {
      const editor = await start({ options });
      await editor.open(main, pouch);
      return editor.request('textDocument/codeLens', { textDocument: { uri: main } });
    };
    const shown = (await lenses({ showsPlaces: true })).find(({ command }) => command.title.startsWith('used'));
    expect(shown?.command.command).toBe('piecewright.showPlaces');
    const [uri, position, places] = shown?.command.arguments ?? [];
    expect([uri, position]).toEqual([main, expect.objectContaining({ line: expect.any(Number) as number })]);
    expect(places).toContainEqual({ uri: main, range: expect.anything() as unknown });
    expect((await lenses({})).every(({ command }) => command.command === '')).toBe(true);
  });

  test('a burst of changes is answered once, with the last', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    editor.published.length = 0;
    let last;
    for (let index = 0; index < 30; index++) last = editor.replace(main, `${pouch}length spare${index} = 1\n`);
    const { diagnostics } = (await last) ?? { diagnostics: [] };
    expect(diagnostics.map((one) => one.message)).toEqual(['The length “spare29” is never used.']);
    expect(editor.published.length).toBeLessThan(5);
  });

  test('a closed document is cleared', async () => {
    const editor = await start();
    await editor.open(main, `${pouch}length spare = 1\n`);
    const cleared = editor.when((one) => one.uri === main && one.diagnostics.length === 0);
    editor.close(main);
    expect((await cleared).version).toBeUndefined();
  });

  test('an enormous text gets one plain word', async () => {
    const editor = await start();
    const { diagnostics } = await editor.open(main, 'length a = 1\n'.repeat(400_000));
    expect(codesOf(diagnostics)).toEqual(['file-too-long']);
  });
});

describe('diagnostics that are asked for', () => {
  const capabilities: ClientCapabilities = { textDocument: { diagnostic: {} }, workspace: { diagnostics: { refreshSupport: true } } };
  const pull = (editor: Client, previousResultId?: string): Promise<DocumentDiagnosticReport> => editor.request('textDocument/diagnostic', { textDocument: { uri: main }, ...(previousResultId === undefined ? {} : { previousResultId }) });

  test('keep their id until they change; nothing is sent unasked', async () => {
    const editor = await start({ capabilities });
    void editor.open(main, `${pouch}length spare = 1\n`);
    const first = await pull(editor);
    expect(first.kind === 'full' && codesOf(first.items)).toEqual(['unused-name']);
    const id = first.kind === 'full' ? first.resultId : undefined;
    expect(await pull(editor, id)).toEqual({ kind: 'unchanged', resultId: id });
    void editor.replace(main, `${pouch}length spare = 1\n# a comment at the end changes no problem\n`);
    expect(await pull(editor, id)).toEqual({ kind: 'unchanged', resultId: id });
    void editor.replace(main, pouch);
    expect(await pull(editor, id)).toMatchObject({ kind: 'full', items: [] });
    expect(editor.published).toEqual([]);
  });

  test('of the whole workspace, open or not', async () => {
    const editor = await start({ capabilities, files: { ...files, 'file:///work/bad.piece': 'length a = b\n' } });
    const all = await editor.request<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds: [] });
    expect(all.items.map(({ uri, kind }) => [uri, kind])).toEqual([['file:///work/bad.piece', 'full'], [main, 'full'], [stock, 'full']]);
    const previousResultIds = all.items.map(({ uri, resultId }) => ({ uri, value: resultId }));
    editor.files.delete('file:///work/bad.piece');
    void editor.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: 'file:///work/bad.piece', type: 3 }] });
    const again = await editor.request<WorkspaceDiagnosticReport>('workspace/diagnostic', { previousResultIds });
    expect(again.items.map(({ uri, kind }) => [uri, kind])).toEqual([[main, 'unchanged'], [stock, 'unchanged'], ['file:///work/bad.piece', 'full']]);
  });

  test('the client is asked to ask again for what uses a changed file', async () => {
    const editor = await start({ capabilities });
    void editor.open(main, pouch);
    void editor.open(stock, materials);
    await pull(editor);
    void editor.replace(stock, `${materials}length more = 1\n`);
    await expect.poll(() => editor.asked).toContain('workspace/diagnostic/refresh');
  });
});

describe('positions', () => {
  const text = 'note "🧵 é e\u0301"\nlength a = b\nnote "🧵" # 🧵\r\nlength größe\u0301 = \tc\n';
  async function columns(positionEncodings: ('utf-8' | 'utf-16' | 'utf-32')[]): Promise<unknown> {
    const editor = await start({ capabilities: { general: { positionEncodings } } });
    const { diagnostics } = await editor.open('file:///work/x.piece', text);
    const c = diagnostics.filter((one) => one.code === 'unknown-name').map(({ range }) => [range.start.line, range.start.character, range.end.character]);
    // An edit beyond what is not ASCII lands in the right place.
    const column = { 'utf-16': 9, 'utf-8': 11, 'utf-32': 8 }[editor.greeting.capabilities.positionEncoding as 'utf-8' | 'utf-16' | 'utf-32'];
    await editor.change('file:///work/x.piece', [{ range: { start: { line: 2, character: column - 1 }, end: { line: 2, character: column - 1 } }, text: '!' }]);
    const tokens = await editor.request<{ data: number[] }>('textDocument/semanticTokens/full', { textDocument: { uri: 'file:///work/x.piece' } });
    return { encoding: editor.greeting.capabilities.positionEncoding, c, tokens: tokens.data.length };
  }
  test('in UTF-16 unless the client can’t', async () => {
    expect(await columns(['utf-8', 'utf-16'])).toMatchObject({ encoding: 'utf-16', c: [[1, 11, 12], [3, 17, 18]] });
  });
  test('in UTF-8', async () => expect(await columns(['utf-8'])).toMatchObject({ encoding: 'utf-8', c: [[1, 11, 12], [3, 20, 21]] }));
  test('in UTF-32', async () => expect(await columns(['utf-32'])).toMatchObject({ encoding: 'utf-32', c: [[1, 11, 12], [3, 17, 18]] }));
});

describe('requests', () => {
  test('that are cancelled while they wait end as cancelled', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const source = new CancellationTokenSource();
    const answer = editor.connection.sendRequest('textDocument/hover', { textDocument: { uri: main }, position: at(pouch, 'canvas') }, source.token);
    source.cancel();
    await expect(answer).rejects.toMatchObject({ code: -32800 });
    await expect(editor.request('textDocument/hover', { textDocument: { uri: main }, position: at(pouch, 'canvas', 1) })).resolves.toMatchObject({ contents: { kind: 'markdown' } });
  });

  test('about a text that has changed meanwhile are refused as stale', async () => {
    let release: (() => void) | undefined;
    const held = new Promise<void>((done) => (release = done));
    const memory = memoryHost(new Map(Object.entries(files)));
    const editor = await start({ host: { ...memory, read: async (uri, folder) => (await held, memory.read(uri, folder)) } });
    void editor.open(main, pouch);
    const answer = editor.request('textDocument/hover', { textDocument: { uri: main }, position: at(pouch, 'canvas') });
    const refused = expect(answer).rejects.toMatchObject({ code: -32801 });
    const changed = editor.replace(main, `${pouch}# more\n`);
    // Its refusal shows that the server has taken the change before it.
    await expect(editor.request('piecewright/nothing', {})).rejects.toMatchObject({ code: -32601 });
    release?.();
    await refused;
    expect((await changed).diagnostics).toEqual([]);
  });

  test('that fail are logged and answered, and the server goes on', async () => {
    const memory = memoryHost(new Map(Object.entries(files)));
    let broken = true;
    const editor = await start({ host: { ...memory, read: (uri, folder) => (broken ? Promise.reject(new Error('the disk is on fire')) : memory.read(uri, folder)) } });
    void editor.connection.sendNotification('textDocument/didOpen', { textDocument: { uri: main, languageId: 'piecewright', version: 1, text: pouch } });
    await expect(editor.request('textDocument/hover', { textDocument: { uri: main }, position: at(pouch, 'canvas') })).rejects.toMatchObject({ code: -32603, message: 'the disk is on fire' });
    await expect.poll(() => editor.logged.join('\n')).toContain('the disk is on fire');
    broken = false;
    await expect(editor.request<Hover>('textDocument/hover', { textDocument: { uri: main }, position: at(pouch, 'canvas', 1) })).resolves.toMatchObject({ range: { start: at(pouch, 'canvas') } });
  });

  test('about files that are not there have no answer', async () => {
    const editor = await start();
    expect(await editor.request('textDocument/documentSymbol', { textDocument: { uri: 'file:///work/none.piece' } })).toBeNull();
  });

  test('with positions beyond the text are answered', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    for (const method of ['hover', 'completion', 'signatureHelp', 'definition', 'documentHighlight', 'prepareRename']) {
      for (const position of [{ line: 9999, character: 9999 }, { line: 0, character: 9999 }]) {
        await editor.request(`textDocument/${method}`, { textDocument: { uri: main }, position });
      }
    }
  });

  test('to rename go through all files, with the versions of the open ones', async () => {
    const editor = await start({ capabilities: { workspace: { workspaceEdit: { documentChanges: true } } }, files: { ...files, 'file:///work/b.piece': 'use "materials.piece"\npiece p {\n  outline rectangle 2 by 2\n  cut 1 canvas\n}\n' } });
    await editor.open(main, pouch);
    const edit = await editor.request<WorkspaceEdit>('textDocument/rename', { textDocument: { uri: main }, position: at(pouch, 'canvas', 1), newName: 'linen' });
    expect(edit.documentChanges?.map((one) => ('textDocument' in one ? [one.textDocument.uri, one.textDocument.version, one.edits.length] : []))).toEqual([
      ['file:///work/b.piece', null, 1], [main, 1, 2], [stock, null, 1],
    ]);
    await expect(editor.request('textDocument/rename', { textDocument: { uri: main }, position: at(pouch, 'canvas', 1), newName: 'crisp' })).rejects.toMatchObject({ message: 'The name “crisp” is already taken.' });
  });
});

describe('files', () => {
  test('the text of an open document counts before it is saved', async () => {
    const editor = await start();
    await editor.open(stock, materials.replace('material canvas', 'material linen'));
    expect(codesOf((await editor.open(main, pouch)).diagnostics)).toContain('unknown-name');
    const told = editor.when((one) => one.uri === main && one.diagnostics.length === 0);
    editor.close(stock);
    await told;
  });

  test('changed, deleted and renamed files on disk are noticed', async () => {
    const editor = await start();
    await editor.open(main, pouch);
    const watched = (type: number): void => void editor.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri: stock, type }] });
    let told = editor.when((one) => codesOf(one.diagnostics).includes('missing-file'));
    editor.files.delete(stock);
    watched(3);
    await told;
    told = editor.when((one) => one.diagnostics.length === 0);
    editor.files.set(stock, materials);
    watched(1);
    await told;
    told = editor.when((one) => codesOf(one.diagnostics).includes('missing-file'));
    editor.files.delete(stock);
    editor.files.set('file:///work/cloth.piece', materials);
    void editor.connection.sendNotification('workspace/didRenameFiles', { files: [{ oldUri: stock, newUri: 'file:///work/cloth.piece' }] });
    await told;
    told = editor.when((one) => one.diagnostics.length === 0);
    void editor.replace(main, pouch.replace('materials.piece', 'cloth.piece'));
    await told;
  });

  test('a file that is to be renamed or moved is followed by the uses that name it, and its own', async () => {
    const shared = 'use "deep/colours.piece"\nmaterial x {\n  width 20\n}\n';
    const editor = await start({
      capabilities: { workspace: { workspaceEdit: { documentChanges: true } } },
      files: { ...files, 'file:///work/sub/b.piece': '# Käse 🧵\nuse "../materials.piece"\n', 'file:///work/list.piece': shared, 'file:///work/deep/colours.piece': 'length a = 1\n' },
    });
    await editor.open(main, pouch);
    const ask = async (oldUri: string, newUri: string): Promise<unknown> => {
      const edit = await editor.request<WorkspaceEdit | null>('workspace/willRenameFiles', { files: [{ oldUri, newUri }] });
      return edit && edit.documentChanges?.map((one) => ('textDocument' in one ? [one.textDocument.uri, one.textDocument.version, ...one.edits.map((text) => ('newText' in text ? text.newText : ''))] : []));
    };
    expect(await ask(stock, 'file:///work/sub/cloth%20list.piece')).toEqual([[main, 1, '"sub/cloth list.piece"'], ['file:///work/sub/b.piece', null, '"cloth list.piece"']]);
    expect(await ask('file:///work/list.piece', 'file:///work/deep/er/list.piece')).toEqual([['file:///work/list.piece', null, '"../colours.piece"']]);
    expect(await ask('file:///work/deep', 'file:///work/shallow')).toEqual([['file:///work/list.piece', null, '"shallow/colours.piece"']]);
    // What nobody names, and what leaves the folder.
    expect(await ask(main, 'file:///work/other.piece')).toBeNull();
    expect(await ask(stock, 'file:///away/materials.piece')).toBeNull();
    // Applied, it makes the same pattern.
    const edit = await editor.request<WorkspaceEdit | null>('workspace/willRenameFiles', { files: [{ oldUri: stock, newUri: 'file:///work/cloth.piece' }] });
    const [change] = edit?.documentChanges ?? [];
    editor.files.set('file:///work/cloth.piece', materials);
    editor.files.delete(stock);
    void editor.connection.sendNotification('workspace/didRenameFiles', { files: [{ oldUri: stock, newUri: 'file:///work/cloth.piece' }] });
    const [text] = change !== undefined && 'edits' in change ? change.edits : [];
    if (text === undefined || !('newText' in text)) throw new Error('There is no edit');
    expect((await editor.change(main, [{ range: text.range, text: text.newText }])).diagnostics).toEqual([]);
  });

  test('a mark of byte order in a file that the client reads is no part of its text', async () => {
    const editor = await start({ files: { ...files, [stock]: `\uFEFF${materials}` } });
    expect((await editor.open(main, pouch)).diagnostics).toEqual([]);
    const found = await editor.request<Location>('textDocument/definition', { textDocument: { uri: main }, position: at(pouch, 'canvas', 1) });
    expect(found.range.start).toEqual(at(materials, 'canvas'));
    const first = await editor.request<Location>('textDocument/documentSymbol', { textDocument: { uri: stock } });
    expect(JSON.stringify(first)).toContain('"line":1,"character":0');
  });

  test('an unsaved document uses the files of the first folder', async () => {
    const editor = await start();
    expect((await editor.open('untitled:Untitled-1', pouch)).diagnostics).toEqual([]);
    const found = await editor.request<Location>('textDocument/definition', { textDocument: { uri: 'untitled:Untitled-1' }, position: at(pouch, 'canvas', 1) });
    expect(found.uri).toBe(stock);
    const own = await editor.request<Location>('textDocument/definition', { textDocument: { uri: 'untitled:Untitled-1' }, position: at(pouch, 'base / 2', 1) });
    expect(own.uri).toBe('untitled:Untitled-1');
  });

  test('an unsaved document without any folder is checked on its own', async () => {
    const editor = await start({ folders: [] });
    expect(codesOf((await editor.open('untitled:Untitled-1', pouch)).diagnostics)).toContain('missing-file');
  });

  test('a file outside of all folders has its own folder to work in', async () => {
    const editor = await start({ files: { ...files, 'file:///away/materials.piece': materials } });
    expect((await editor.open('file:///away/bag.piece', pouch)).diagnostics).toEqual([]);
    expect(codesOf((await editor.open('file:///away/bag2.piece', pouch.replace('materials.piece', '../work/materials.piece'))).diagnostics)).toContain('file-outside');
  });

  test('a name with spaces and signs is spelled as the client spells it', async () => {
    const uri = 'file:///work/my%20bag%20%26%20more.piece';
    const editor = await start();
    await editor.open(uri, pouch);
    const found = await editor.request<Location[]>('textDocument/references', { textDocument: { uri }, position: at(pouch, 'base / 2', 1), context: { includeDeclaration: true } });
    expect(new Set(found.map((one) => one.uri))).toEqual(new Set([uri]));
  });

  test('of two folders, one in the other, each sees its own paths', async () => {
    const editor = await start({ folders: ['file:///work', 'file:///work/sub'], files: { ...files, 'file:///work/sub/materials.piece': materials } });
    expect((await editor.open('file:///work/sub/bag.piece', pouch)).diagnostics).toEqual([]);
    expect((await editor.open('file:///work/outer.piece', pouch.replace('materials.piece', 'sub/materials.piece'))).diagnostics).toEqual([]);
    const told = editor.when((one) => one.uri === 'file:///work/outer.piece' && one.diagnostics.length > 0);
    void editor.open('file:///work/sub/materials.piece', materials.replace('material canvas', 'material linen'));
    expect(codesOf((await told).diagnostics)).toContain('unknown-name');
  });
});

test('line ends, tabs and marks of byte order are no matter', async () => {
  const editor = await start({ files: { [stock]: materials.replaceAll('\n', '\r\n') } });
  expect((await editor.open(main, `\uFEFF${pouch.replaceAll('\n', '\r\n').replaceAll('  ', '\t')}`)).diagnostics).toEqual([]);
  const { diagnostics } = await editor.change(main, [{ range: { start: { line: 13, character: 999 }, end: { line: 14, character: 0 } }, text: ' ' }]);
  expect(codesOf(diagnostics)).toContain('unreadable-line');
});
