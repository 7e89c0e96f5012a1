import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { generateSpec } from '../support/generate.ts';
import { Client } from '../support/lsp.ts';

/**
 * What a server holds that runs all day: edits on a pattern of about 300 pieces with its preview, lays of a smaller one
 * that are called off as it changes, and other documents opened and closed meanwhile. Prints what the process holds after collecting garbage,
 * as it goes; at the end no more than half as much again as at the start.
 *
 *   npm run soak -- [--edits=200000] [--addresses=2500]
 */
const option = (name: string, usual: number): number => Number(process.argv.slice(2).find((one) => one.startsWith(`--${name}=`))?.slice(name.length + 3) ?? usual);

const [edits, addresses] = [option('edits', 200_000), option('addresses', 2500)];
/** Edits that are on their way at once, as when somebody types faster than is answered. */
const together = 20;
const main = 'file:///work/large.piece';
/** Small, since its lays are planned in this very thread. */
const other = 'file:///work/bag.piece';

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc') as () => void;

function megabytes(): number {
  for (let turn = 0; turn < 3; turn++) collect();
  return process.memoryUsage().heapUsed / 1e6;
}

const whole = generateSpec(3400);
const lines = whole.split('\n');
const linesWith = (words: string): readonly number[] => lines.flatMap((line, index) => (line.includes(words) ? [index] : []));
const [notes, formulas, grains, pieces] = [linesWith('Score along'), linesWith('length w'), linesWith('  grain up'), linesWith('  notch top')];

interface Edit {
  readonly line: number;
  readonly character: number;
  readonly removed: number;
  readonly text: string;
}

/** Words typed and taken back, each at another place: a note, a formula, a name of an option, a line that can't be read, a path. */
function* typing(): Generator<Edit> {
  const options = lines.findIndex((line) => line.startsWith('choice closing'));
  for (let round = 0; ; round++) {
    const at = (of: readonly number[]): number => of[(round * 37) % of.length] ?? 0;
    const endOf = (line: number): readonly [number, number] => [line, (lines[line] ?? '').length];
    const words = `word_${round}`;
    const places: readonly (readonly [readonly [number, number], string])[] = [
      [[at(notes), (lines[at(notes)] ?? '').indexOf('Score')], `${words} `], [endOf(at(formulas)), ` + 1/${round + 2}`], [endOf(options), ` or ${words}`], [endOf(at(grains)), ' or across'],
      [endOf(at(pieces)), `\n  cut 1 ${words}`], [endOf(2), `\nuse "${words}.piece"`],
    ];
    for (const [[line, character], text] of places) {
      const letters = Array.from(text);
      // A new line is taken back as a whole.
      if (text.startsWith('\n')) {
        yield { line, character, removed: 0, text: '\n' };
        for (const [index, letter] of letters.slice(1).entries()) yield { line: line + 1, character: index, removed: 0, text: letter };
        for (let index = letters.length - 2; index >= 0; index--) yield { line: line + 1, character: index, removed: 1, text: '' };
        yield { line, character, removed: -1, text: '' };
        continue;
      }
      for (const [index, letter] of letters.entries()) yield { line, character: character + index, removed: 0, text: letter };
      for (let index = letters.length - 1; index >= 0; index--) yield { line, character: character + index, removed: 1, text: '' };
    }
  }
}

const changeOf = ({ line, character, removed, text }: Edit): unknown => ({
  range: { start: { line, character }, end: removed < 0 ? { line: line + 1, character: 0 } : { line, character: character + removed } }, text,
});

async function soak(): Promise<void> {
  const client = await Client.start({ files: {}, folders: ['file:///work'], capabilities: { textDocument: { publishDiagnostics: { versionSupport: true } } } });
  const startOver = (): void => void client.published.splice(0);
  const ask = (method: string, more: object = {}): Promise<unknown> => client.request(method, { textDocument: { uri: main }, uri: main, ...more }).catch(() => undefined);
  const plan = async (round: number): Promise<void> => {
    await client.replace(other, `${generateSpec(100)}# ${round}\n`);
    void client.request('piecewright/preview', { uri: other, buying: { articles: 1 + (round % 3) } });
  };
  const look = async (): Promise<void> => {
    await ask('piecewright/preview', { combination: { size: 'M', closing: 'tab' } });
    await ask('textDocument/semanticTokens/full');
    await ask('textDocument/hover', { position: { line: formulas[0] ?? 0, character: 8 } });
  };

  await client.open(main, whole);
  await client.open(other, generateSpec(100));
  await look();
  await plan(0);
  startOver();
  const first = megabytes();
  console.log(`${'edits'.padStart(8)} ${'addresses'.padStart(9)} ${'MB'.padStart(7)}  seconds`);
  console.log(`${'0'.padStart(8)} ${'0'.padStart(9)} ${first.toFixed(1).padStart(7)}`);
  const started = performance.now();
  const typed = typing();
  let opened = 0;
  let most = first;
  const step = Math.max(together, Math.round(edits / 20));
  for (let done = 0; done < edits; ) {
    let published: Promise<unknown> | undefined;
    for (let index = 0; index < together; index++, done++) published = client.change(main, [changeOf(typed.next().value as Edit)]);
    // Asked for, and of no use any more once the next edits are there.
    if (done % 200 === 0) void look();
    if (done % 2000 === 0) await plan(done);
    await published;
    for (; opened < Math.floor((done / edits) * addresses); opened++) {
      const uri = `file:///${opened % 3 === 0 ? 'work' : `other/folder_${opened}`}/small_${opened}.piece`;
      await client.open(uri, `${generateSpec(60)}# ${opened}\n`);
      await client.request('piecewright/preview', { uri });
      client.close(uri);
    }
    startOver();
    if (done % step >= together) continue;
    const now = megabytes();
    most = Math.max(most, now);
    console.log(`${String(done).padStart(8)} ${String(opened).padStart(9)} ${now.toFixed(1).padStart(7)}  ${((performance.now() - started) / 1000).toFixed(0)}`);
  }
  client.end();
  console.log(`at most ${(most / first).toFixed(2)} times as much as at the start`);
  process.exitCode = most <= 1.5 * first ? 0 : 1;
}

await soak();
process.exit();
