/** What a worker is asked to do. Requests and replies are plain data, since they may go from thread to thread. */
export interface Job<Request> {
  /** Jobs are numbered in the order in which they are begun. */
  readonly id: number;
  readonly request: Request;
}

/** What a worker says of a job. */
export type Message<Reply> = { readonly id: number } & (
  | { readonly kind: 'reply'; readonly reply: Reply }
  /** Sent now and then where there is nothing better to say. */
  | { readonly kind: 'at work' }
  | { readonly kind: 'ended'; readonly how: 'done' | 'stopped' }
  | { readonly kind: 'ended'; readonly how: 'failed'; readonly why: string }
);

/**
 * Does what is requested step by step, so that whatever else waits is heard between the steps. A long step asks
 * `isStopped` and ends early, by throwing {@link Stopped} where it has nothing to give.
 */
export type Work<Request, Reply> = (request: Request, isStopped: () => boolean) => Generator<Reply | undefined, void>;

/** Thrown where a job is stopped in the middle of a step. */
export class Stopped extends Error {}

/** Runs something after what is already waiting has had its turn. */
export type Soon = (run: () => void) => void;
