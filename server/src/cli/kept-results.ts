import type { Work } from '../workers/job.ts';
import { outcomes, programThreads, type Outcome } from './catalogue.ts';
import { UsageError } from './files.ts';
import type { IsShape, ResultCache } from './result-cache.ts';
import { sha256 } from './spec-texts.ts';

/** Something that is worked out of texts, for many specs one after another. */
export interface Job<Request, Result> {
  /** The name of the threads that do it, and of its results among others. */
  readonly role: string;
  /**
   * Reads what a request is about.
   *
   * @throws UsageError where it can’t be
   */
  readonly read: (request: Request) => Material<Result>;
  /** Whether something from an earlier run looks like a result. */
  readonly isResult: IsShape<Result>;
}

/** What was read for a request. */
export interface Material<Result> {
  /** All that the result follows from, in few letters, with whatever was asked of it. */
  readonly content: string;
  /** An earlier result of the same content with what else has changed; undefined where it is none. The same where left out. */
  readonly renew?: (earlier: Result) => Result | undefined;
  readonly compute: () => {
    readonly result: Result;
    /** Whether it really follows from nothing else. */
    readonly isWhole: boolean;
  };
}

/** A request as a thread is asked it. */
interface Asked<Request> {
  readonly request: Request;
  readonly program: string;
}

/** What a thread answers: a result as it is kept, so that it is the same whether it was; an error would lose its kind on the way. */
type Answer = { readonly body: string; readonly key: string | undefined } | { readonly fault: string };

const keyOf = (program: string, role: string, content: string): string => sha256(JSON.stringify([program, role, content]));

/** How a thread works a request out. */
export const workOf = <Request, Result>({ role, read }: Job<Request, Result>): Work<Asked<Request>, Answer> => function* ({ request, program }) {
  try {
    const { content, compute } = read(request);
    const { result, isWhole } = compute();
    // By what was read here: the file may be another by now than when its result was looked for.
    yield { body: JSON.stringify(result), key: isWhole ? keyOf(program, role, content) : undefined };
  } catch (error) {
    if (!(error instanceof UsageError)) throw error;
    yield { fault: error.message };
  }
};

/**
 * The results of requests in their order: those of an earlier run where nothing that they follow from has changed, the others
 * worked out meanwhile, and kept for the next run.
 *
 * @param onDone called with each that is there, as soon as it is: how many are, and its number
 */
export async function keptOutcomes<Request, Result>(job: Job<Request, Result>, requests: readonly Request[], cache: ResultCache | undefined, onDone: (done: number, at: number, outcome: Outcome<Result>) => void): Promise<readonly Outcome<Result>[]> {
  const program = cache?.program ?? '';
  const found: Outcome<Result>[] = [];
  const missing: number[] = [];
  const writes: Promise<void>[] = [];
  let done = 0;
  const add = (at: number, outcome: Outcome<Result>): void => onDone(++done, at, (found[at] = outcome));
  const asked = async function* (): AsyncGenerator<Asked<Request>> {
    for (const [at, request] of requests.entries()) {
      const kept = cache && earlier(job, request, cache);
      if (kept !== undefined) add(at, kept);
      else {
        missing.push(at);
        yield { request, program };
      }
      // Whoever has done something is to be heard, and to go on.
      if (cache !== undefined) await turn();
    }
  };
  await outcomes<Asked<Request>, Answer>(asked(), workOf(job), programThreads(job.role), (index, answer) => {
    if (cache !== undefined && 'result' in answer && 'key' in answer.result && answer.result.key !== undefined) writes.push(cache.put(answer.result.key, answer.result.body));
    add(missing[index] ?? -1, 'fault' in answer ? answer : 'fault' in answer.result ? answer.result : { result: JSON.parse(answer.result.body) as Result });
  });
  await Promise.all(writes);
  cache?.end();
  return found;
}

/** The end of this turn of what waits. */
const turn = (): Promise<void> => new Promise((resolve) => void setImmediate(resolve));

function earlier<Request, Result>({ role, read, isResult }: Job<Request, Result>, request: Request, cache: ResultCache): Outcome<Result> | undefined {
  try {
    const { content, renew } = read(request);
    const kept = cache.get(keyOf(cache.program, role, content), isResult);
    const result = kept === undefined || renew === undefined ? kept : renew(kept);
    return result === undefined ? undefined : { result };
  } catch (error) {
    // Whoever works it out will say so.
    if (error instanceof UsageError) return undefined;
    throw error;
  }
}
