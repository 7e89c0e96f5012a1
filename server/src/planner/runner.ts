import type { Answer, Job } from './jobs.ts';
import { Kept, Stopped } from './cache.ts';
import { work } from './work.ts';

/** Milliseconds between signs of life. */
const between = 150;

/** Does one job at a time in short turns, between which whatever else waits is heard. */
export class Runner {
  readonly #kept = new Kept();
  readonly #soon: (run: () => void) => void;
  readonly #tell: (answer: Answer) => void;
  readonly #stoppedElsewhere: (id: number) => boolean;
  #running: number | undefined;
  #isStopped = false;

  /** @param stoppedElsewhere asked often, in the middle of long steps: whether a job is stopped by another thread */
  constructor(soon: (run: () => void) => void, tell: (answer: Answer) => void, stoppedElsewhere: (id: number) => boolean = () => false) {
    this.#soon = soon;
    this.#tell = tell;
    this.#stoppedElsewhere = stoppedElsewhere;
  }

  begin(job: Job): void {
    const { id } = job;
    this.#running = id;
    this.#isStopped = false;
    const isStopped = (): boolean => this.#isStopped || this.#stoppedElsewhere(id);
    const steps = work(job, this.#kept, isStopped);
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
        if (value !== undefined) this.#tell(value);
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
