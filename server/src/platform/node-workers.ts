import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Message, Work } from '../workers/job.ts';
import { Runner } from '../workers/runner.ts';
import { stopMark, type OpenWorker, type ToWorker } from '../workers/worker.ts';

interface Given {
  readonly role: string;
  readonly stops: SharedArrayBuffer;
}

/**
 * Workers in threads of their own that run the same program, which must call {@link serveInThread}.
 *
 * @param role tells these threads from others that the program may be run in
 * @param mostMegabytes that one may hold; it is broken where it would hold more
 */
export const threadsOf = <Request, Reply>(program: string, role: string, mostMegabytes?: number): OpenWorker<Request, Reply> => (hear, broken) => {
  const stops = stopMark(new SharedArrayBuffer(4));
  // Its output is not passed on: it would get between the program’s own messages.
  const thread = new Worker(program, { workerData: { role, stops: stops.buffer }, stdout: true, argv: [], resourceLimits: mostMegabytes === undefined ? {} : { maxOldGenerationSizeMb: mostMegabytes } });
  let isClosed = false;
  thread.on('message', (message: Message<Reply>) => {
    // A thread with nothing to do keeps no program from ending.
    if (message.kind === 'ended') thread.unref();
    hear(message);
  });
  thread.on('error', (error) => broken(error instanceof Error ? error.message : String(error)));
  thread.on('exit', () => {
    if (!isClosed) broken('A thread has ended.');
  });
  thread.unref();
  const post = (message: ToWorker<Request>): void => thread.postMessage(message);
  return {
    isApart: true,
    begin: (job) => {
      thread.ref();
      post({ begin: job });
    },
    stop: (id) => {
      stops.set(id);
      post({ stop: id });
    },
    close: () => {
      isClosed = true;
      void thread.terminate();
    },
  };
};

/** Whether this thread was started for a role; then it serves in it. */
export function serveInThread<Request, Reply>(role: string, work: () => Work<Request, Reply>): boolean {
  const given = workerData as Partial<Given> | null;
  if (isMainThread || given?.role !== role || parentPort === null) return false;
  const port = parentPort;
  const runner = new Runner((run) => void setImmediate(run), work(), (message) => port.postMessage(message), stopMark(given.stops).has);
  port.on('message', (message: ToWorker<Request>) => ('begin' in message ? runner.begin(message.begin) : runner.stop(message.stop)));
  // So that a thread that its first job breaks is told from one that can’t be started.
  port.postMessage({ id: 0, kind: 'at work' } satisfies Message<Reply>);
  return true;
}
