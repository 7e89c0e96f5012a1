import { availableParallelism } from 'node:os';
import { setFlagsFromString } from 'node:v8';
import { threadsOf } from '../platform/node-workers.ts';
import type { Work } from '../workers/job.ts';
import { WorkerPool } from '../workers/pool.ts';
import type { OpenWorker } from '../workers/worker.ts';

/** What became of one request: its result, or why there is none. */
export type Outcome<Result> = { readonly result: Result } | { readonly fault: string };

/** A thread costs about as much to start as a few specs take to be worked out. */
const worthAThread = 8;

/** Megabytes of results that a thread may hold: a spec within the limits takes far less, and one that doesn’t costs only itself. */
const mostMegabytes = 1024;

/**
 * Works many requests out, in several threads where that pays. Results come in the order of the requests, whichever is done
 * first; one that brings its thread down costs only its own result.
 *
 * @param open opens one thread
 * @param onDone called with each that is done, as soon as it is, and with how many are
 */
export async function outcomes<Request, Result>(requests: readonly Request[], work: Work<Request, Result>, open: OpenWorker<Request, Result> | undefined, onDone: (done: number, outcome: Outcome<Result>) => void = () => undefined): Promise<readonly Outcome<Result>[]> {
  const threads = Math.min(availableParallelism(), Math.floor(requests.length / worthAThread));
  const pool = new WorkerPool<Request, Result>({ soon: (run) => void setImmediate(run), work, size: threads, open: requests.length < 2 * worthAThread ? undefined : open, log: () => undefined });
  const one = (request: Request): Promise<Outcome<Result>> => new Promise((resolve) => {
    let outcome: Outcome<Result> | undefined;
    pool.add({
      rank: 0,
      request: () => request,
      heard: (result) => (outcome = result === undefined ? outcome : { result }),
      ended: (_, why) => resolve(outcome ?? { fault: why ?? 'it gave no result' }),
    });
  });
  const found: Outcome<Result>[] = [];
  let next = 0;
  let done = 0;
  // No more are begun than there are threads for, so that a long list is not held twice.
  const lane = async (): Promise<void> => {
    for (let at = next++; at < requests.length; at = next++) {
      const request = requests[at];
      if (request === undefined) continue;
      const outcome = await one(request);
      found[at] = outcome;
      onDone(++done, outcome);
    }
  };
  try {
    await Promise.all(Array.from({ length: Math.max(1, threads) }, lane));
    return found;
  } finally {
    pool.close();
  }
}

/** Threads that run this same program. */
export function programThreads<Request, Result>(role: string): OpenWorker<Request, Result> | undefined {
  const [, program] = process.argv;
  if (program === undefined) return undefined;
  optimiseLittle();
  return threadsOf<Request, Result>(program, role, mostMegabytes);
}

/** The engines that are known to have the settings below: V8 of Node 20 to 24. Others would say that they don’t. */
const knownEngines = [11, 12, 13];

/**
 * Every thread compiles for itself, and of the many functions that a spec goes through none runs for long: left alone, the
 * engine takes as much processor time to optimise them as the specs take themselves. So it is to begin later and to make less of
 * each; the figures are those that took the least time for some hundred specs on V8 11 (`test/bench/catalogue-thread.ts`).
 * Results are the same.
 */
export function optimiseLittle(): void {
  if (!knownEngines.includes(parseInt(process.versions.v8, 10))) return;
  setFlagsFromString('--interrupt-budget=500000');
  setFlagsFromString('--max-inlined-bytecode-size-cumulative=200');
}
