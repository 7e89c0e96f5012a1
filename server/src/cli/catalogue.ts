import { availableParallelism } from 'node:os';
import { setFlagsFromString } from 'node:v8';
import { threadsOf } from '../platform/node-workers.ts';
import { holdSignals } from '../platform/whole-file.ts';
import type { Work } from '../workers/job.ts';
import { WorkerPool } from '../workers/pool.ts';
import type { OpenWorker } from '../workers/worker.ts';

/** What became of one request: its result, or why there is none. */
export type Outcome<Result> = { readonly result: Result } | { readonly fault: string };

/** A thread costs about as much to start as so many specs take to be worked out. */
const worthAThread = 8;

/** Megabytes of results that a thread may hold: a spec within the limits takes far less, and one that doesn’t costs only itself. */
const mostMegabytes = 1024;

/**
 * Works many requests out, in several threads where that pays, while more of them are found. One that brings its thread down
 * costs only its own result.
 *
 * @param open opens one thread
 * @param onDone called with the number of each and what came of it, as soon as it is done
 */
export async function outcomes<Request, Result>(requests: AsyncIterable<Request> | Iterable<Request>, work: Work<Request, Result>, open: OpenWorker<Request, Result> | undefined, onDone: (at: number, outcome: Outcome<Result>) => void): Promise<void> {
  const most = open === undefined ? 0 : availableParallelism();
  const poolOf = (size: number): WorkerPool<Request, Result> => new WorkerPool({ soon: (run) => void setImmediate(run), work, size, open: size === 0 ? undefined : open, log: () => undefined });
  const [here, apart] = [poolOf(0), poolOf(most)];
  const waiting: (readonly [number, Request])[] = [];
  const lanes: Promise<void>[] = [];
  let [threads, working, isLooking] = [0, 0, true];
  let release: (() => void) | undefined;
  // No more are begun than there are threads for, so that a long list is not held twice.
  const lane = async (pool: WorkerPool<Request, Result>): Promise<void> => {
    working++;
    const begin = (): { readonly at: number; readonly outcome: Promise<Outcome<Result>> } | undefined => {
      const next = waiting.shift();
      return next && { at: next[0], outcome: outcomeIn(pool, next[1]) };
    };
    for (let one = begin(); one !== undefined; ) {
      const { at, outcome } = one;
      const came = await outcome;
      // The thread has the next before anything is made of what it did.
      one = begin();
      onDone(at, came);
    }
    working--;
  };
  const share = (): void => {
    // Whoever looks for more has a processor of its own.
    const room = isLooking ? most - 1 : most;
    while (waiting.length > 0 && (working < threads || (threads < room && waiting.length >= worthAThread * (threads + 1)))) {
      threads = Math.max(threads, working + 1);
      // This thread only hands out and takes in.
      release ??= holdSignals();
      lanes.push(lane(apart));
    }
  };
  try {
    let count = 0;
    for await (const request of requests) {
      waiting.push([count++, request]);
      share();
    }
    isLooking = false;
    share();
    if (threads === 0) await lane(here);
    await Promise.all(lanes);
  } finally {
    release?.();
    apart.close();
  }
}

const outcomeIn = <Request, Result>(pool: WorkerPool<Request, Result>, request: Request): Promise<Outcome<Result>> => new Promise((resolve) => {
  let outcome: Outcome<Result> | undefined;
  pool.add({
    rank: 0,
    request: () => request,
    heard: (result) => (outcome = result === undefined ? outcome : { result }),
    ended: (_, why) => resolve(outcome ?? { fault: why ?? 'it gave no result' }),
  });
});

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
