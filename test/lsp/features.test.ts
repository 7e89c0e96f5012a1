import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type {
  CallHierarchyIncomingCall, CallHierarchyItem, CallHierarchyOutgoingCall, CodeAction, CodeLens, CompletionList, DocumentHighlight, DocumentLink, DocumentSymbol, FoldingRange,
  Hover, InlayHint, Location, Position, Range, SelectionRange, SemanticTokens, SemanticTokensDelta, SignatureHelp, SymbolInformation, TextEdit, WorkspaceEdit,
} from 'vscode-languageserver';
import { Client } from '../support/lsp.ts';

type Encoding = 'utf-8' | 'utf-16' | 'utf-32';

// Each line that is asked about has characters before the place that every encoding counts otherwise.
const name = 'größe\u0301';
const title = '🧵 e\u0301';
const text = [
  `pattern "${title} Pouch"`, 'revision 1', `use "stoff/ka\u0308se.piece"  # ${title}`, 'allowance 3/8', '# first', '# second',
  `length ${name} = 4`, `thing card "${title}" = ${name} - 1 by 2`, '',
  `piece front "${title} Front" {`, `  outline rectangle ${name} by 3`, `  line mitte = level at ${name} / 4`, '  grain up', '  cut 1 canvas', '}', '',
  `piece lining "${title} Lining" from front {`, `  cut 1 canvas note "${title}" when ${name} > 2`, '}', '',
  'check front holds card', '',
].join('\r\n');
const stock = `unit in\r\n\r\nmaterial canvas "${title} Canvas" {\r\n  role main\r\n  width 58 in\r\n}\r\n`;
const main = 'file:///work/main.piece';
const shared = 'file:///work/stoff/ka%CC%88se.piece';
const textDocument = { uri: main };

const width: Readonly<Record<Encoding, (part: string) => number>> = {
  'utf-8': (part) => Buffer.byteLength(part), 'utf-16': (part) => part.length, 'utf-32': (part) => Array.from(part).length,
};

/** Where words stand in a text: the first after other words, if those are given. */
function place(words: string, after = '', encoding: Encoding = 'utf-16', within = text): Range {
  const start = within.indexOf(words, within.indexOf(after) + after.length);
  if (start < 0) throw new Error(`“${words}” is not there`);
  const position = (offset: number): Position => {
    const lines = within.slice(0, offset).split('\r\n');
    return { line: lines.length - 1, character: width[encoding](lines.at(-1) ?? '') };
  };
  return { start: position(start), end: position(start + words.length) };
}

async function start(encoding: Encoding): Promise<Client> {
  const client = await Client.start({
    files: { [main]: text, [decodeURIComponent(shared)]: stock },
    capabilities: { general: { positionEncodings: [encoding] }, textDocument: { documentSymbol: { hierarchicalDocumentSymbolSupport: true }, rename: { prepareSupport: true } } },
  });
  expect((await client.open(main, text)).diagnostics).toEqual([]);
  return client;
}

const changed = (before: string, edits: readonly TextEdit[] | undefined): string => TextDocument.applyEdits(TextDocument.create('', '', 0, before), [...(edits ?? [])]);

describe.each<Encoding>(['utf-16', 'utf-8', 'utf-32'])('places in %s:', (encoding) => {
  let client: Client;
  beforeAll(async () => (client = await start(encoding)));
  afterAll(() => client.end());
  const at = (words: string, after?: string): Range => place(words, after, encoding);
  const ask = <Answer>(method: string, more: object = {}): Promise<Answer> => client.request(`textDocument/${method}`, { textDocument, ...more });
  const uses = [at(name, 'length '), at(name, `${title}" = `), at(name, 'rectangle '), at(name, 'level at '), at(name, 'when ')];
  // Within the name in the line of the card.
  const position = { line: 7, character: at(name, `${title}" = `).start.character + 2 };

  test('the encoding is the one asked for, and counts otherwise than the others', () => {
    expect(client.greeting.capabilities.positionEncoding).toBe(encoding);
    expect(at(name, `${title}" = `)).toEqual({
      'utf-8': { start: { line: 7, character: 24 }, end: { line: 7, character: 33 } },
      'utf-16': { start: { line: 7, character: 21 }, end: { line: 7, character: 27 } },
      'utf-32': { start: { line: 7, character: 20 }, end: { line: 7, character: 26 } },
    }[encoding]);
  });
  test('hover', async () => expect(await ask<Hover>('hover', { position })).toEqual({ range: uses[1], contents: { kind: 'markdown', value: `**${name}**, a length\n\n\`4\` = **4 in (10.2 cm)**\n` } }));
  test('definition', async () => expect(await ask('definition', { position })).toEqual({ uri: main, range: uses[0] }));
  test('definition in another file', async () => expect(await ask('definition', { position: at('canvas').start })).toEqual({ uri: shared, range: place('canvas', '', encoding, stock) }));
  test('references', async () => {
    const found = (includeDeclaration: boolean): Promise<Location[]> => ask('references', { position, context: { includeDeclaration } });
    expect((await found(true)).map((one) => one.range)).toEqual(uses);
    expect((await found(false)).map((one) => one.range)).toEqual(uses.slice(1));
  });
  test('highlights', async () => expect(await ask<DocumentHighlight[]>('documentHighlight', { position })).toEqual(uses.map((range, index) => ({ range, kind: index === 0 ? 3 : 2 }))));
  test('rename', async () => {
    expect(await ask('prepareRename', { position })).toEqual({ range: uses[1], placeholder: name });
    expect(await ask<WorkspaceEdit>('rename', { position, newName: 'breite\u0301' })).toEqual({ changes: { [main]: uses.map((range) => ({ range, newText: 'breite\u0301' })) } });
  });
  test('completion', async () => {
    const { items } = await ask<CompletionList>('completion', { position });
    // What stands before the cursor is what is replaced.
    expect(items.find((one) => one.label === name)).toMatchObject({ detail: 'length = 4', textEdit: { range: { start: uses[1]?.start, end: position }, newText: name } });
  });
  test('selection', async () => {
    const [first] = await ask<SelectionRange[]>('selectionRange', { positions: [position] });
    const ranges: Range[] = [];
    for (let one = first; one !== undefined; one = one.parent) ranges.push(one.range);
    expect(ranges).toEqual([uses[1], at(`${name} - 1`), at(`thing card "${title}" = ${name} - 1 by 2`), at(text)]);
  });
  test('links', async () => expect(await ask<DocumentLink[]>('documentLink')).toEqual([{ range: at('stoff/ka\u0308se.piece'), target: shared }]));
  test('symbols of the document', async () => {
    const symbols = await ask<DocumentSymbol[]>('documentSymbol');
    expect(symbols.map((one) => one.name)).toEqual([`${title} Pouch`, name, 'card', 'front', 'lining', 'front holds card']);
    expect(symbols[1]).toMatchObject({ kind: 14, detail: 'length = 4', range: at(`length ${name} = 4`), selectionRange: uses[0] });
    expect(symbols[3]?.children).toMatchObject([{ name: 'mitte', range: at(`line mitte = level at ${name} / 4`), selectionRange: at('mitte') }]);
  });
  test('hints', async () => expect(await ask<InlayHint[]>('inlayHint', { range: at(text) })).toEqual([
    { position: at('cut 1 canvas').end, label: '4 in wide, 3 in high', paddingLeft: true }, { position: at(`when ${name} > 2`).end, label: '4 in wide, 3 in high', paddingLeft: true },
  ]));
  test('edits of an action', async () => {
    const range = at('3', `rectangle ${name} by `);
    const [extract] = await ask<CodeAction[]>('codeAction', { range, context: { diagnostics: [], only: ['refactor.extract'] } });
    expect(extract?.edit?.changes?.[main]).toContainEqual({ range, newText: expect.stringMatching(/^\w+$/) as string });
  });
  test('calls', async () => {
    const [item] = await ask<CallHierarchyItem[]>('prepareCallHierarchy', { position: at('front', 'from ').start });
    expect(item).toMatchObject({ name: 'front', detail: `${title} Front`, uri: main, selectionRange: at('front', 'piece ') });
    const incoming = await client.request<CallHierarchyIncomingCall[]>('callHierarchy/incomingCalls', { item });
    expect(incoming).toMatchObject([{ from: { name: 'lining', selectionRange: at('lining') }, fromRanges: [at('front', 'from ')] }]);
    const outgoing = await client.request<CallHierarchyOutgoingCall[]>('callHierarchy/outgoingCalls', { item: incoming[0]?.from });
    expect(outgoing).toMatchObject([{ to: { name: 'front' }, fromRanges: [at('front', 'from ')] }]);
    expect(await client.request('callHierarchy/outgoingCalls', { item })).toEqual([]);
  });
  test('tokens', async () => {
    const { data } = await ask<SemanticTokens>('semanticTokens/full');
    const spans = spansOf(data);
    for (const range of uses) expect(spans).toContainEqual([range.start.line, range.start.character, range.end.character - range.start.character, 'variable']);
    const some = await ask<SemanticTokens>('semanticTokens/range', { range: { start: { line: 7, character: 0 }, end: { line: 7, character: 99 } } });
    expect(spansOf(some.data)).toEqual(spans.filter(([line]) => line === 7));
  });
  const spansOf = (data: readonly number[]): unknown[][] => {
    const { tokenTypes } = client.greeting.capabilities.semanticTokensProvider?.legend ?? { tokenTypes: [] };
    let [line, character] = [0, 0];
    return Array.from({ length: data.length / 5 }, (_, index) => {
      const [down = 0, right = 0, length, type = 0] = data.slice(index * 5);
      [line, character] = [line + down, down === 0 ? character + right : right];
      return [line, character, length, tokenTypes[type]];
    });
  };
});

describe('answers', () => {
  let client: Client;
  beforeAll(async () => (client = await start('utf-16')));
  afterAll(() => client.end());
  const ask = <Answer>(method: string, more: object = {}): Promise<Answer> => client.request(`textDocument/${method}`, { textDocument, ...more });

  /** Asks about another text, and puts the first one back. */
  async function meanwhile<Result>(other: string, run: () => Promise<Result>): Promise<Result> {
    await client.replace(main, other);
    const result = await run();
    await client.replace(main, text);
    return result;
  }
  const actions = async (range: Range, only?: string[]): Promise<CodeAction[]> => ask('codeAction', { range, context: { diagnostics: [], ...(only === undefined ? {} : { only }) } });
  const after = (before: string, action: CodeAction | undefined): string => changed(before, action?.edit?.changes?.[main]);

  test('folding', async () => expect(await ask<FoldingRange[]>('foldingRange')).toEqual([{ startLine: 4, endLine: 5, kind: 'comment' }, { startLine: 9, endLine: 14 }, { startLine: 16, endLine: 18 }]));
  test('lenses', async () => expect((await ask<CodeLens[]>('codeLens')).map(({ range, command }) => [range, command?.title])).toEqual([
    [place('front'), 'cut 1 from “canvas”'], [place('front'), 'used by 1 piece'], [place('lining'), 'cut 1 from “canvas”'],
  ]));
  test('symbols of the workspace, in files that are not open too', async () => {
    const find = (query: string): Promise<SymbolInformation[]> => client.request('workspace/symbol', { query });
    expect(await find('lining')).toEqual([{ name: 'lining', kind: 5, location: { uri: main, range: place('lining') } }]);
    expect(await find('canvas')).toEqual([{ name: 'canvas', kind: 26, location: { uri: shared, range: place('canvas', '', 'utf-16', stock) } }]);
  });
  test('signatures', async () => {
    const active = async (position: Position): Promise<unknown> => {
      const help = await ask<SignatureHelp>('signatureHelp', { position });
      const [first] = help.signatures;
      const label = first?.parameters?.[help.activeParameter ?? 99]?.label;
      return [first?.label.split(' ')[0], Array.isArray(label) ? first?.label.slice(...label) : undefined];
    };
    expect(await active(place(`${name} by 3`).start)).toEqual(['outline', 'WIDTH']);
    expect(await active(place('3', 'by ').start)).toEqual(['outline', 'HEIGHT']);
  });

  test('a quick fix mends what it says', async () => {
    const broken = text.replace('cut 1 canvas note', 'cut 1 canvaz note');
    const [fix] = await meanwhile(broken, () => actions(place('canvaz', '', 'utf-16', broken)));
    expect(fix).toMatchObject({ title: 'Change to “canvas”', kind: 'quickfix' });
    expect(after(broken, fix)).toBe(text);
  });
  test('all safe fixes at once, for whoever asks for them by name', async () => {
    const broken = `${text}length spare${name} = 1\r\n`;
    const { all, unasked } = await meanwhile(broken, async () => ({ all: await actions(place(name), ['source.fixAll']), unasked: await actions(place(name)) }));
    expect(all).toMatchObject([{ title: 'Apply all safe fixes', kind: 'source.fixAll.piecewright' }]);
    expect(after(broken, all[0])).toBe(text);
    expect(unasked.map((one) => one.kind)).not.toContain('source.fixAll.piecewright');
  });
  test('a refactoring gives a length a name', async () => {
    const [extract, ...others] = await actions(place('3', `rectangle ${name} by `), ['refactor.extract']);
    expect(others).toEqual([]);
    expect(extract).toMatchObject({ title: 'Name this length', kind: 'refactor.extract' });
    expect(after(text, extract)).toMatch(new RegExp(`length (\\w+) = 3\r\n[^]*rectangle ${name} by \\1\r\n`, 'u'));
  });

  const untidy = text.replace('  grain up', 'grain   up').replace(`card "${title}" =`, `card   "${title}"   =`);
  const options = { tabSize: 2, insertSpaces: true };
  test('formatting', async () => {
    expect(changed(untidy, await meanwhile(untidy, () => ask<TextEdit[]>('formatting', { options })))).toBe(text);
    expect(await ask('formatting', { options })).toEqual([]);
  });
  test('formatting of a range leaves the rest', async () => {
    const range = place('grain', '', 'utf-16', untidy);
    expect(changed(untidy, await meanwhile(untidy, () => ask<TextEdit[]>('rangeFormatting', { range, options })))).toBe(untidy.replace('grain   up', '  grain up'));
  });
  test('formatting while typing indents the new line', async () => {
    const typed = text.replace('  grain up\r\n', '  grain up\r\n\r\n');
    const edits = await meanwhile(typed, () => ask<TextEdit[]>('onTypeFormatting', { position: { line: 13, character: 0 }, ch: '\n', options }));
    expect(edits).toEqual([{ range: { start: { line: 13, character: 0 }, end: { line: 13, character: 0 } }, newText: '  ' }]);
  });

  test('the changes of the tokens give those of the new text', async () => {
    const { data, resultId } = await ask<SemanticTokens>('semanticTokens/full');
    const { edits, fresh } = await meanwhile(text.replace('  grain up\r\n', `  grain up\r\n  notch top at ${name} / 4\r\n`), async () => ({
      edits: (await ask<SemanticTokensDelta>('semanticTokens/full/delta', { previousResultId: resultId })).edits,
      fresh: (await ask<SemanticTokens>('semanticTokens/full')).data,
    }));
    const made = [...data];
    for (const { start: from, deleteCount, data: added } of [...edits].reverse()) made.splice(from, deleteCount, ...(added ?? []));
    expect(edits.reduce((sum, one) => sum + (one.data?.length ?? 0), 0)).toBeLessThan(fresh.length / 4);
    expect(fresh).not.toEqual(data);
    expect(made).toEqual(fresh);
  });
});
