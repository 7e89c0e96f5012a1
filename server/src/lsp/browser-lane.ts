import type { Answer } from '../planner/jobs.ts';
import { stopMark, type OpenLane, type ToPlanner } from '../planner/lane.ts';
import { Runner } from '../planner/runner.ts';

/** The name of a worker that plans tells it from one that serves. */
const role = 'piecewright planner';

/** A lane in a worker within this worker, which runs the same script. Where the host forbids that, it is broken at once. */
export const workerLane: OpenLane = (tell, broken) => {
  // Memory is shared only where the host cuts its pages off from others; without it, stopping waits for the step's end.
  const stops = stopMark(globalThis.crossOriginIsolated ? new SharedArrayBuffer(4) : undefined);
  const worker = new Worker(self.location.href, { name: role });
  worker.onmessage = ({ data }: MessageEvent<Answer>) => tell(data);
  worker.onerror = (event) => {
    event.preventDefault();
    worker.terminate();
    broken(event.message === '' ? 'The planner’s worker could not be started.' : event.message);
  };
  worker.postMessage({ stops: stops.buffer });
  const post = (message: ToPlanner): void => worker.postMessage(message);
  return {
    isApart: true,
    begin: (job) => post({ begin: job }),
    stop: (id) => {
      stops.set(id);
      post({ stop: id });
    },
  };
};

/** Whether this worker was started as a planner; then it serves as one. */
export function servePlanner(worker: DedicatedWorkerGlobalScope, soon: (run: () => void) => void): boolean {
  if (worker.name !== role) return false;
  let runner: Runner | undefined;
  worker.onmessage = ({ data }: MessageEvent<ToPlanner | { readonly stops: SharedArrayBuffer | undefined }>) => {
    if ('stops' in data) runner = new Runner(soon, (answer) => worker.postMessage(answer), stopMark(data.stops).has);
    else if ('begin' in data) runner?.begin(data.begin);
    else runner?.stop(data.stop);
  };
  return true;
}
