import { fork, type ChildProcess } from 'node:child_process';
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { generators, mainPath, type HostileInput } from '../support/hostile/inputs.ts';
import { Random } from '../support/hostile/random.ts';
import { stepsOf } from '../support/hostile/subject.ts';

/**
 * Looks for inputs that throw, hang or take too much: made from a seed, each tried in a process of its own that may be
 * ended. What it finds is written to build/fuzz/ and told with the seed that makes it again.
 *
 *   npm run fuzz -- [--seed 1] [--minutes 1] [--only many-names-generator] [--keep-going]
 *
 * No step (the diagnostics of a text, a hover, a table …) may take more than two seconds of processor time, and none
 * more than 500 MB, whatever an input of less than a million characters says.
 */
const mostSeconds = 2;
const mostMegabytes = 500;
/** Without a word for so long, by the wall clock, the process hangs. */
const hangSeconds = 40;
/** A process is replaced after so many inputs. */
const inputsEach = 25;

interface Order {
  readonly generator: string;
  readonly seed: number;
}

interface Report {
  readonly step: string;
  readonly seconds?: number;
  readonly fault?: string;
  readonly isDone?: boolean;
}

const inputOf = ({ generator, seed }: Order): HostileInput => {
  const make = generators[generator];
  if (make === undefined) throw new Error(`There is no generator “${generator}”: use ${Object.keys(generators).join(', ')}`);
  return make(new Random(seed));
};

// ------------------------------------------------------------------------------------------------ the child

const tell = (report: Report): void => void process.send?.(report);

function serve(): void {
  process.on('message', (order: Order) => {
    for (const { name, run } of stepsOf(inputOf(order))) {
      tell({ step: name });
      const before = process.cpuUsage();
      let fault: string | undefined;
      try {
        run();
      } catch (error) {
        fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
      }
      const { user, system } = process.cpuUsage(before);
      tell({ step: name, seconds: (user + system) / 1e6, ...(fault === undefined ? {} : { fault }) });
    }
    tell({ step: 'end', isDone: true });
  });
}

// ------------------------------------------------------------------------------------------------ the parent

class Child {
  readonly #process: ChildProcess;
  used = 0;

  constructor() {
    this.#process = fork(fileURLToPath(import.meta.url), ['--child'], { execArgv: [`--max-old-space-size=${mostMegabytes}`], stdio: ['ignore', 'ignore', 'ignore', 'ipc'] });
  }

  /** What went wrong with an input; undefined where nothing did. */
  try(order: Order, slowest: (report: Report) => void): Promise<string | undefined> {
    this.used++;
    return new Promise((resolve) => {
      let step = 'start';
      let timer: NodeJS.Timeout | undefined;
      const end = (why: string | undefined): void => {
        clearTimeout(timer);
        this.#process.removeAllListeners();
        resolve(why);
      };
      const watch = (): void => {
        clearTimeout(timer);
        timer = setTimeout(() => end(`${step}: no answer for ${hangSeconds} s`), hangSeconds * 1000);
      };
      watch();
      this.#process.on('exit', (code, signal) => end(`${step}: the process ended (${signal ?? code ?? ''}), perhaps for want of memory`));
      this.#process.on('message', (report: Report) => {
        watch();
        step = report.step;
        if (report.isDone === true) return end(undefined);
        if (report.seconds === undefined) return;
        slowest(report);
        if (report.fault !== undefined) return end(`${step}: ${report.fault}`);
        if (report.seconds > mostSeconds) end(`${step}: ${report.seconds.toFixed(1)} s`);
      });
      this.#process.send(order);
    });
  }

  end(): void {
    this.#process.kill('SIGKILL');
  }
}

function option(name: string, usual: string): string {
  const args = process.argv.slice(2);
  const at = args.indexOf(`--${name}`);
  return (at < 0 ? args.find((one) => one.startsWith(`--${name}=`))?.slice(name.length + 3) : args[at + 1]) ?? usual;
}

async function main(): Promise<void> {
  const [first, minutes, only] = [Number(option('seed', '1')), Number(option('minutes', '1')), option('only', '')];
  const names = only === '' ? Object.keys(generators) : only.split(',');
  const keepGoing = process.argv.includes('--keep-going');
  const ends = performance.now() + minutes * 60_000;
  const most = new Map<string, number>();
  let finds = 0;
  let inputs = 0;
  let child = new Child();
  let seed = first;
  for (; performance.now() < ends; seed++) {
    for (const generator of names) {
      if (performance.now() >= ends) break;
      if (child.used >= inputsEach) {
        child.end();
        child = new Child();
      }
      inputs++;
      const why = await child.try({ generator, seed }, ({ seconds = 0 }) => void most.set(generator, Math.max(most.get(generator) ?? 0, seconds)));
      if (why === undefined) continue;
      finds++;
      child.end();
      child = new Child();
      const folder = fileURLToPath(new URL(`../fuzz/${generator}-${seed}/`, import.meta.url));
      const { others, texts } = inputOf({ generator, seed });
      mkdirSync(folder, { recursive: true });
      writeFileSync(`${folder}${mainPath}`, texts.at(-1) ?? '');
      console.log(`${generator}, seed ${seed}: ${why.split('\n').slice(0, 4).join('\n  ')}\n  ${texts.length} texts, the last of ${texts.at(-1)?.length ?? 0} characters, and ${others.size} other files`);
      if (!keepGoing) break;
    }
    if (finds > 0 && !keepGoing) break;
  }
  child.end();
  console.log(`${inputs} inputs, seeds ${first} to ${seed}: ${finds === 0 ? 'nothing found' : `${finds} found`}`);
  for (const [generator, seconds] of most) console.log(`  ${generator.padEnd(14)} slowest step ${seconds.toFixed(2)} s`);
  process.exitCode = finds === 0 ? 0 : 1;
}

if (process.argv.includes('--child')) serve();
else await main();
