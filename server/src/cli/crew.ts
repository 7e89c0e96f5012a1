import { availableParallelism } from 'node:os';
import { isMainThread, parentPort, Worker } from 'node:worker_threads';
import { UsageError } from './files.ts';

/** Threads cost about as much to start as a few specs take to check. */
const worthAThread = 8;

/**
 * Does the same job for many inputs, in several threads where that pays, and gives the results in the order of the
 * inputs. Inputs and results must be plain data. The job is run by {@link serveCrew} in the threads.
 */
export async function inParallel<Input, Result>(inputs: readonly Input[], job: (input: Input) => Result, onDone: (done: number) => void): Promise<readonly Result[]> {
  const threads = Math.min(availableParallelism(), Math.floor(inputs.length / worthAThread));
  if (threads < 2 || process.argv[1] === undefined) {
    return inputs.map((input, index) => {
      const result = job(input);
      onDone(index + 1);
      return result;
    });
  }
  const results = new Array<Result>(inputs.length);
  const program = process.argv[1];
  let next = 0;
  let finished = 0;
  await Promise.all(Array.from({ length: threads }, () => new Promise<void>((resolve, reject) => {
    const worker = new Worker(program);
    const handOut = (): void => {
      const index = next++;
      if (index >= inputs.length) {
        void worker.terminate();
        resolve();
        return;
      }
      worker.postMessage({ index, input: inputs[index] });
    };
    worker.on('message', ({ index, result, fault }: Done<Result>) => {
      if (fault !== undefined) {
        next = inputs.length;
        void worker.terminate();
        reject(new UsageError(fault));
        return;
      }
      results[index] = result as Result;
      onDone(++finished);
      handOut();
    });
    worker.on('error', reject);
    handOut();
  })));
  return results;
}

/** In a thread started by {@link inParallel}: does the job for each input sent. */
export function serveCrew<Input, Result>(job: (input: Input) => Result): void {
  if (isMainThread) return;
  parentPort?.on('message', ({ index, input }: { index: number; input: Input }) => {
    parentPort?.postMessage(done(index, () => job(input)));
  });
}

/** What a thread sends back; an error would lose its kind on the way. */
interface Done<Result> {
  readonly index: number;
  readonly result?: Result;
  readonly fault?: string;
}

function done<Result>(index: number, job: () => Result): Done<Result> {
  try {
    return { index, result: job() };
  } catch (error) {
    if (error instanceof UsageError) return { index, fault: error.message };
    throw error;
  }
}
