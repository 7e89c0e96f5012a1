import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter, type MessageConnection } from 'vscode-languageserver-protocol/node';
import { generateSpec } from '../support/generate.ts';

/**
 * How long it takes from a keystroke to its diagnostics, through the whole server over its standard streams.
 *
 *   node test/bench/run.mjs server [--lines=2000,10000] [--edits=200] [command and arguments of a server]
 *
 * Without a command it measures the server in dist/. Every keystroke waits for the diagnostics of the one before.
 */

interface Keystroke {
  readonly line: number;
  readonly character: number;
  readonly removed: number;
  readonly text: string;
}

const uri = 'file:///bench/large.piece';

function option(name: string, usual: string): string {
  return process.argv.slice(2).find((one) => one.startsWith(`--${name}=`))?.slice(name.length + 3) ?? usual;
}

function serverCommand(): readonly string[] {
  const given = process.argv.slice(2).filter((one) => !/^--(?:lines|edits)=/.test(one));
  return given.length > 0 ? given : [process.execPath, fileURLToPath(new URL('../../dist/server.cjs', import.meta.url)), '--stdio'];
}

/** Typing at places spread over the text: into a note, into a formula, a new line letter by letter, and all taken back. */
function keystrokes(text: string, count: number): readonly Keystroke[] {
  const lines = text.split('\n');
  const find = (from: number, needle: string): number => {
    const below = lines.findIndex((line, index) => index >= from && line.includes(needle));
    return below >= 0 ? below : lines.findIndex((line) => line.includes(needle));
  };
  const strokes: Keystroke[] = [];
  const insert = (line: number, character: number, typed: string): void => {
    Array.from(typed).forEach((letter, index) => strokes.push({ line, character: character + index, removed: 0, text: letter }));
    for (let index = typed.length - 1; index >= 0; index--) strokes.push({ line, character: character + index, removed: 1, text: '' });
  };
  for (let round = 0; strokes.length < count; round++) {
    const from = Math.floor((((round * 37) % 101) / 101) * lines.length);
    const note = find(from, 'Score along');
    insert(note, (lines[note] ?? '').indexOf('Score'), 'Mark it. ');
    const formula = find(from, 'length w');
    insert(formula, (lines[formula] ?? '').length, ' + 1/16');
    const grain = find(from, '  grain up');
    insert(grain, (lines[grain] ?? '').length, ' or across');
  }
  return strokes.slice(0, count);
}

/** Answers to what the server asks of its client; nothing of it matters here. */
function beClient(connection: MessageConnection): void {
  connection.onRequest('client/registerCapability', () => null);
  connection.onRequest('window/workDoneProgress/create', () => null);
  connection.onRequest('workspace/configuration', ({ items }: { items: readonly unknown[] }) => items.map(() => null));
}

async function measure(command: readonly string[], lineCount: number, count: number): Promise<void> {
  const [program = '', ...args] = command;
  const child = spawn(program, args, { stdio: ['pipe', 'pipe', 'inherit'] });
  const connection = createMessageConnection(new StreamMessageReader(child.stdout), new StreamMessageWriter(child.stdin));
  beClient(connection);
  let awaited: { readonly version: number; readonly done: () => void } | undefined;
  connection.onNotification('textDocument/publishDiagnostics', (published: { uri: string; version?: number }) => {
    if (published.uri !== uri || (published.version ?? Infinity) < (awaited?.version ?? 0)) return;
    awaited?.done();
    awaited = undefined;
  });
  const published = (version: number): Promise<void> => new Promise((done) => (awaited = { version, done }));
  connection.listen();
  await connection.sendRequest('initialize', {
    processId: process.pid, rootUri: null, workspaceFolders: null,
    capabilities: { textDocument: { publishDiagnostics: { versionSupport: true, relatedInformation: true }, synchronization: {} } },
  });
  await connection.sendNotification('initialized', {});

  const text = generateSpec(lineCount);
  const opened = published(1);
  const before = performance.now();
  await connection.sendNotification('textDocument/didOpen', { textDocument: { uri, languageId: 'piecewright', version: 1, text } });
  await opened;
  const opening = performance.now() - before;

  const warmUp = 40;
  const times: number[] = [];
  let version = 1;
  for (const { line, character, removed, text: typed } of keystrokes(text, count + warmUp)) {
    version++;
    const answered = published(version);
    const start = performance.now();
    void connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ range: { start: { line, character }, end: { line, character: character + removed } }, text: typed }],
    });
    await answered;
    times.push(performance.now() - start);
  }
  const sorted = times.slice(warmUp).sort((a, b) => a - b);
  const at = (share: number): string => (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? NaN).toFixed(1);
  console.log(`${String(lineCount).padStart(6)} lines: opened in ${opening.toFixed(0)} ms; ${sorted.length} keystrokes: median ${at(0.5)} ms, p95 ${at(0.95)} ms, most ${at(1)} ms`);
  await connection.sendRequest('shutdown');
  const ended = once(child, 'exit');
  await connection.sendNotification('exit');
  await ended;
  connection.dispose();
}

const command = serverCommand();
for (const lines of option('lines', '2000,10000').split(',').map(Number)) await measure(command, lines, Number(option('edits', '200')));
