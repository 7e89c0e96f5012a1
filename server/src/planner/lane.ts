import type { Answer, Job } from './jobs.ts';
import { Runner } from './runner.ts';

/** Where jobs are done, one at a time. */
export interface Lane {
  /** Whether it has a thread of its own, so that long steps keep nobody waiting. */
  readonly isApart: boolean;
  readonly begin: (job: Job) => void;
  /** Stops a job that was begun; its end is told like any other. */
  readonly stop: (id: number) => void;
}

/** @param broken told once where the lane can’t work, or no longer */
export type OpenLane = (tell: (answer: Answer) => void, broken: (why: string) => void) => Lane;

/** A lane in the server's own thread, between everything else. */
export const sharedLane = (soon: (run: () => void) => void, tell: (answer: Answer) => void): Lane => {
  const runner = new Runner(soon, tell);
  return { isApart: false, begin: (job) => runner.begin(job), stop: (id) => runner.stop(id) };
};

/** What goes to a planner in another thread. */
export type ToPlanner = { readonly begin: Job } | { readonly stop: number };

/**
 * Shared between two threads: jobs up to this number are stopped. It is seen in the middle of a step, when no message
 * would be heard.
 */
export interface StopMark {
  readonly buffer: SharedArrayBuffer | undefined;
  readonly set: (id: number) => void;
  readonly has: (id: number) => boolean;
}

export function stopMark(buffer: SharedArrayBuffer | undefined): StopMark {
  if (buffer === undefined) return { buffer, set: () => undefined, has: () => false };
  const cells = new Int32Array(buffer);
  return { buffer, set: (id) => void Atomics.store(cells, 0, id), has: (id) => Atomics.load(cells, 0) >= id };
}
