import { spawn } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { generateCatalogue } from '../support/catalogue.ts';

/**
 * How long a catalogue takes: its check, and its check with tables and quick lays, anew, again, and after one edit in a list that
 * a twentieth of its specs share; its comparison with what it was; and all of it with one list that every spec uses, after edits
 * of something in it that a twentieth of them cut, and of the price of what all of them cut. Every second run must say the same
 * as a clean one.
 *
 *   npm run bench:catalogue [-- SPECS [RUNS]]
 *
 * It measures the program in dist/. Processor time and peak memory are of the whole process, all threads together.
 */

const [count, runs] = [Number(process.argv[2] ?? 1000), Number(process.argv[3] ?? 3)];
const program = fileURLToPath(new URL('../../dist/piecewright.cjs', import.meta.url));
const home = mkdtempSync(join(tmpdir(), 'piecewright-bench-'));
const noting = join(home, 'noting.cjs');
writeFileSync(noting, "if (require('node:worker_threads').isMainThread) process.on('exit', () => require('node:fs').writeFileSync(process.env.NOTED_IN, JSON.stringify(process.resourceUsage())));");

interface Run {
  readonly seconds: number;
  readonly processor: number;
  readonly megabytes: number;
  readonly said: string;
}

async function run(folder: string, ...args: readonly string[]): Promise<Run> {
  const notes = join(home, 'notes.json');
  const begun = performance.now();
  const said = await new Promise<string>((resolve, reject) => {
    const child = spawn(process.execPath, ['--require', noting, program, ...args], { cwd: folder, env: { ...process.env, NOTED_IN: notes } });
    let text = '';
    for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', (more: string) => (text += more));
    child.on('error', reject).on('close', (code) => (code === null || code > 1 ? reject(new Error(text)) : resolve(`${text}Exit status ${code}`)));
  });
  const seconds = (performance.now() - begun) / 1000;
  const used = JSON.parse(readFileSync(notes, 'utf8')) as NodeJS.ResourceUsage;
  return { seconds, processor: (used.userCPUTime + used.systemCPUTime) / 1e6, megabytes: used.maxRSS / 1024, said };
}

const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? NaN;

async function measured(what: string, once: (index: number) => Promise<Run>): Promise<void> {
  const found: Run[] = [];
  for (let index = 0; index < runs; index++) found.push(await once(index));
  const of = (value: (one: Run) => number): number => median(found.map(value));
  console.log(`${what.padEnd(58)} ${of((one) => one.seconds).toFixed(2).padStart(7)} s ${(count / of((one) => one.seconds)).toFixed(0).padStart(6)} specs/s ${of((one) => one.processor).toFixed(2).padStart(7)} s of processors ${Math.max(...found.map((one) => one.megabytes)).toFixed(0).padStart(5)} MB at most`);
}

/** All files below a folder with what they say. */
const texts = (folder: string): string => JSON.stringify(readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile()).map((one) => join(one.parentPath, one.name)).sort().map((file) => [file.slice(folder.length), readFileSync(file, 'utf8')]));

function expectSame(what: string, one: string, other: string): void {
  if (one !== other) throw new Error(`${what}: a run out of the cache says otherwise than a clean one.`);
}

/** What stands in an output folder and what is said out of a cache must be the same as without it. */
async function expectAsClean(folder: string, name: string | number): Promise<void> {
  const [kept, clean] = [await run(folder, ...table, ...out(name), ...cache(name)), await run(folder, ...table, ...out(`${name}-clean`), '--no-cache')];
  expectSame('Tables', texts(join(home, `out-${name}`)), texts(join(home, `out-${name}-clean`)));
  expectSame('Problems', kept.said.replace(`out-${name}`, ''), clean.said.replace(`out-${name}-clean`, ''));
}

const catalogue = join(home, 'catalogue');
const joined = join(home, 'joined');
const alike = join(home, 'alike');
const files = generateCatalogue(count);
write(catalogue, files);
write(joined, inOneList(files));
write(alike, inFirstList(files));
cpSync(catalogue, join(home, 'before'), { recursive: true });
const price = (to: number, list: string): void => writeFileSync(list, readFileSync(list, 'utf8').replace(/price \d+\.50 per yd/, `price ${to}.50 per yd`));

const usable = (to: number, list: string): void => writeFileSync(list, readFileSync(list, 'utf8').replace(/usable [\d.]+ in/, `usable ${to} in`));

/** The same catalogue with one list for all: every spec cuts the same cloth. */
function inFirstList(files: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  return new Map([...files].filter(([path]) => !/^stock\/list[1-9]/.test(path)).map(([path, text]) => [path.replace('list0', 'all'), text.replace(/stock\/list\d+/, 'stock/all')]));
}

/** The same catalogue with all lists in one: what is in each has its number after its name. */
function inOneList(files: ReadonlyMap<string, string>): ReadonlyMap<string, string> {
  const numbered = (text: string, list: string): string => text.replace(/\b(?:canvas|poplin|crisp|fleece|card)\b/g, (name) => `${name}${list}`);
  const lists = [...files].flatMap(([path, text]) => {
    const list = /^stock\/list(\d+)/.exec(path)?.[1];
    return list === undefined ? [] : [numbered(text.replace('unit in\n', ''), list)];
  });
  const specs = [...files].flatMap(([path, text]): (readonly [string, string])[] => {
    const list = /stock\/list(\d+)/.exec(text)?.[1];
    return list === undefined ? [] : [[path, numbered(text.replace(/stock\/list\d+/, 'stock/all'), list)]];
  });
  return new Map([...specs, ['stock/all.piece', `unit in\n${lists.join('\n')}`]]);
}

function write(folder: string, files: ReadonlyMap<string, string>): void {
  for (const [path, text] of files) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
}

const out = (name: string | number): readonly string[] => ['--output', join(home, `out-${name}`)];
const cache = (name: string | number): readonly string[] => ['--cache', join(home, `cache-${name}`)];
const table = ['table', '.', '--effort', '0'];

try {
  console.log(`${count} specs that share 20 lists, ${availableParallelism()} processors, load ${loadavg().map((one) => one.toFixed(1)).join(' ')}; medians of ${runs} runs`);
  await measured('check, anew', async (index) => run(catalogue, 'check', ...cache(`check-${index}`)));
  await measured('check, again', async (index) => run(catalogue, 'check', ...cache(`check-${index}`)));
  await measured('check and tables with quick lays, anew', async (index) => run(catalogue, ...table, ...out(index), ...cache(index)));
  await measured('check and tables with quick lays, again', async (index) => run(catalogue, ...table, ...out(index), ...cache(index)));
  await measured('check and tables, after one edit in a shared list', async (index) => {
    price(40 + index, join(catalogue, 'stock/list0.piece'));
    return run(catalogue, ...table, ...out(0), ...cache(0));
  });
  await expectAsClean(catalogue, 0);
  await measured('comparison with what it was before that edit, anew', async (index) => run(home, 'compare', 'before', 'catalogue', '--effort', '0', ...cache(`compare-${index}`)));
  await measured('comparison, again', async (index) => run(home, 'compare', 'before', 'catalogue', '--effort', '0', ...cache(`compare-${index}`)));
  let next = 40;
  for (const [folder, name, edit, what] of [[joined, 'joined', usable, 'a twentieth cut'], [alike, 'alike', price, 'all cut, its price']] as const) {
    for (const [kind, args] of [['check', ['check']], ['check and tables', [...table, ...out(name)]]] as const) {
      await run(folder, ...args, ...cache(name));
      await measured(`${kind}, after one edit of what ${what}`, async () => {
        edit(next++, join(folder, 'stock/all.piece'));
        return run(folder, ...args, ...cache(name));
      });
    }
    await expectAsClean(folder, name);
  }
  console.log(`load ${loadavg().map((one) => one.toFixed(1)).join(' ')}`);
} finally {
  rmSync(home, { recursive: true, force: true });
}
