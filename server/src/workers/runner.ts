import { Stopped, type Job, type Message, type Soon, type Work } from './job.ts';

/** Milliseconds between signs of life. */
const between = 150;

/** Does one job at a time in short turns, between which whatever else waits is heard. */
export class Runner<Request, Reply> {
  readonly #soon: Soon;
  readonly #work: Work<Request, Reply>;
  readonly #tell: (message: Message<Reply>) => void;
  readonly #stoppedElsewhere: (id: number) => boolean;
  #running: number | undefined;
  #isStopped = false;

  /** @param stoppedElsewhere asked often, in the middle of long steps: whether a job is stopped by another thread */
  constructor(soon: Soon, work: Work<Request, Reply>, tell: (message: Message<Reply>) => void, stoppedElsewhere: (id: number) => boolean = () => false) {
    this.#soon = soon;
    this.#work = work;
    this.#tell = tell;
    this.#stoppedElsewhere = stoppedElsewhere;
  }

  /** Begins a job. What it throws ends that job alone, and is told. */
  begin({ id, request }: Job<Request>): void {
    this.#running = id;
    this.#isStopped = false;
    const isStopped = (): boolean => this.#isStopped || this.#stoppedElsewhere(id);
    const steps = this.#work(request, isStopped);
    let told = performance.now();
    const end = (ended: { readonly how: 'done' | 'stopped' } | { readonly how: 'failed'; readonly why: string }): void => {
      this.#running = undefined;
      this.#tell({ id, kind: 'ended', ...ended });
    };
    const turn = (): void => {
      try {
        if (isStopped()) return end({ how: 'stopped' });
        const { done, value } = steps.next();
        if (isStopped()) return end({ how: 'stopped' });
        if (done === true) return end({ how: 'done' });
        if (value !== undefined) this.#tell({ id, kind: 'reply', reply: value });
        else if (performance.now() - told > between) this.#tell({ id, kind: 'at work' });
        else return this.#soon(turn);
        told = performance.now();
        this.#soon(turn);
      } catch (error) {
        end(error instanceof Stopped ? { how: 'stopped' } : { how: 'failed', why: error instanceof Error ? (error.stack ?? error.message) : String(error) });
      }
    };
    this.#soon(turn);
  }

  stop(id: number): void {
    if (id === this.#running) this.#isStopped = true;
  }
}
