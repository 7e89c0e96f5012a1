import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import type { Answer } from '../planner/jobs.ts';
import { stopMark, type OpenLane, type ToPlanner } from '../planner/lane.ts';
import { Runner } from '../planner/runner.ts';

/** Tells a planner's thread from others that the same program may be run in. */
const role = 'piecewright planner';

interface Given {
  readonly role: string;
  readonly stops: SharedArrayBuffer;
}

/** A lane in a thread that runs the same program, which must call {@link servePlanner}. */
export const threadLane = (program: string): OpenLane => (tell, broken) => {
  const stops = stopMark(new SharedArrayBuffer(4));
  // Its output is not passed on: it would get between the server's own messages.
  const worker = new Worker(program, { workerData: { role, stops: stops.buffer }, stdout: true, argv: [] });
  worker.on('message', (answer: Answer) => tell(answer));
  worker.on('error', (error) => broken(error instanceof Error ? error.message : String(error)));
  worker.on('exit', () => broken('The planner’s thread has ended.'));
  worker.unref();
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

/** Whether this thread was started as a planner; then it serves as one. */
export function servePlanner(): boolean {
  const given = workerData as Partial<Given> | null;
  if (isMainThread || given?.role !== role || parentPort === null) return false;
  const port = parentPort;
  const stops = stopMark(given.stops);
  const runner = new Runner((run) => void setImmediate(run), (answer) => port.postMessage(answer), stops.has);
  port.on('message', (message: ToPlanner) => ('begin' in message ? runner.begin(message.begin) : runner.stop(message.stop)));
  return true;
}
