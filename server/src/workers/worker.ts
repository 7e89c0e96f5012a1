import type { Job, Message, Soon, Work } from './job.ts';
import { Runner } from './runner.ts';

/** Where jobs are done, one at a time. */
export interface Worker<Request> {
  /** Whether it has a thread of its own, so that long steps keep nobody waiting. */
  readonly isApart: boolean;
  readonly begin: (job: Job<Request>) => void;
  /** Stops a job that was begun; its end is told like any other. */
  readonly stop: (id: number) => void;
  /** Ends it for good, in the middle of whatever it does. */
  readonly close: () => void;
}

/**
 * Opens a worker.
 *
 * @param hear called with all that it says
 * @param broken called once, where it can’t work, or no longer
 * @throws where the host has none to give
 */
export type OpenWorker<Request, Reply> = (hear: (message: Message<Reply>) => void, broken: (why: string) => void) => Worker<Request>;

/** A worker in the thread of whoever opens it, between everything else. */
export const sameThread = <Request, Reply>(soon: Soon, work: Work<Request, Reply>): OpenWorker<Request, Reply> => (hear) => {
  const runner = new Runner(soon, work, hear);
  return { isApart: false, begin: (job) => runner.begin(job), stop: (id) => runner.stop(id), close: () => undefined };
};

/** What goes to a worker in another thread. */
export type ToWorker<Request> = { readonly begin: Job<Request> } | { readonly stop: number };

/**
 * Shared between two threads: jobs up to this number are stopped. It is seen in the middle of a step, when no message
 * would be heard.
 */
export interface StopMark {
  readonly buffer: SharedArrayBuffer | undefined;
  readonly set: (id: number) => void;
  readonly has: (id: number) => boolean;
}

/** @param buffer of four bytes; without one, stopping waits for the step’s end */
export function stopMark(buffer: SharedArrayBuffer | undefined): StopMark {
  if (buffer === undefined) return { buffer, set: () => undefined, has: () => false };
  const cells = new Int32Array(buffer);
  return { buffer, set: (id) => void Atomics.store(cells, 0, id), has: (id) => Atomics.load(cells, 0) >= id };
}
