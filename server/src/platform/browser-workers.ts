import type { Message, Soon, Work } from '../workers/job.ts';
import { Runner } from '../workers/runner.ts';
import { stopMark, type OpenWorker, type ToWorker } from '../workers/worker.ts';

type Start = { readonly stops: SharedArrayBuffer | undefined };

/**
 * Workers within this worker that run the same script, which must call {@link serveInWorker}. Where the host forbids
 * that, they are broken at once.
 *
 * @param role their name, which tells them from others that run the script
 */
export const workersOf = <Request, Reply>(script: string, role: string): OpenWorker<Request, Reply> => (hear, broken) => {
  // Memory is shared only where the host cuts its pages off from others; without it, stopping waits for the step’s end.
  const stops = stopMark(globalThis.crossOriginIsolated ? new SharedArrayBuffer(4) : undefined);
  const worker = new Worker(script, { name: role });
  worker.onmessage = ({ data }: MessageEvent<Message<Reply>>) => hear(data);
  worker.onerror = (event) => {
    event.preventDefault();
    worker.terminate();
    broken(event.message === '' ? 'The worker could not be started.' : event.message);
  };
  worker.postMessage({ stops: stops.buffer } satisfies Start);
  const post = (message: ToWorker<Request>): void => worker.postMessage(message);
  return {
    isApart: true,
    begin: (job) => post({ begin: job }),
    stop: (id) => {
      stops.set(id);
      post({ stop: id });
    },
    close: () => worker.terminate(),
  };
};

/** Whether this worker was started for a role; then it serves in it. */
export function serveInWorker<Request, Reply>(worker: DedicatedWorkerGlobalScope, soon: Soon, role: string, work: () => Work<Request, Reply>): boolean {
  if (worker.name !== role) return false;
  let runner: Runner<Request, Reply> | undefined;
  worker.onmessage = ({ data }: MessageEvent<ToWorker<Request> | Start>) => {
    if ('stops' in data) runner = new Runner(soon, work(), (message) => worker.postMessage(message), stopMark(data.stops).has);
    else if ('begin' in data) runner?.begin(data.begin);
    else runner?.stop(data.stop);
  };
  return true;
}
