import type { Message, Soon, Work } from './job.ts';
import { sameThread, type OpenWorker, type Worker } from './worker.ts';

/** What somebody asks to be done. */
export interface Task<Request, Reply> {
  /** Called when it is begun. */
  readonly request: (worker: Pick<Worker<Request>, 'isApart'>) => Request;
  /** Lower ones first; one that is under way makes room for a lower one, and is begun again after it. */
  readonly rank: number;
  /** Called with every reply, and with `undefined` as a sign of life. */
  readonly heard: (reply: Reply | undefined) => void;
  /** Called once, at the end. */
  readonly ended: (how: 'done' | 'stopped' | 'failed', why?: string) => void;
}

export interface PoolOptions<Request, Reply> {
  readonly soon: Soon;
  readonly work: Work<Request, Reply>;
  /** Opens another thread; without it, or where that can’t be done, the work is done between everything else. */
  readonly open: OpenWorker<Request, Reply> | undefined;
  /** Most workers at a time; one if left out. A worker is opened when there is something to do for it. */
  readonly size?: number;
  /** Told what goes wrong with workers, and with tasks. */
  readonly log: (why: string) => void;
}

interface Running<Request, Reply> {
  readonly task: Task<Request, Reply>;
  readonly id: number;
  stop: 'no' | 'for good' | 'to go on later';
}

/** A worker with what it does just now. */
interface Place<Request, Reply> {
  worker: Worker<Request> | undefined;
  running: Running<Request, Reply> | undefined;
}

/** Tasks in their order, done by a few workers. */
export class WorkerPool<Request, Reply> {
  readonly #options: PoolOptions<Request, Reply>;
  #open: OpenWorker<Request, Reply> | undefined;
  readonly #places: Place<Request, Reply>[] = [];
  #waiting: Task<Request, Reply>[] = [];
  #lastId = 0;
  #hasWorked = false;

  constructor(options: PoolOptions<Request, Reply>) {
    this.#options = options;
    this.#open = options.open;
  }

  /** Whether jobs are done in another thread, as far as can be told. */
  get isApart(): boolean {
    return this.#open !== undefined;
  }

  add(task: Task<Request, Reply>): void {
    this.#waiting.push(task);
    const place = this.#freePlace();
    if (place !== undefined) return this.#begin(place);
    const least = this.#places.flatMap(({ running }) => (running?.stop === 'no' ? [running] : [])).reduce<Running<Request, Reply> | undefined>((a, b) => (a === undefined || b.task.rank > a.task.rank ? b : a), undefined);
    if (least !== undefined && task.rank < least.task.rank) this.#stop(least, 'to go on later');
  }

  /** Ends a task, whether it waits or is under way. */
  drop(task: Task<Request, Reply>): void {
    const running = this.#places.find((place) => place.running?.task === task)?.running;
    if (running !== undefined) {
      if (running.stop === 'no') this.#stop(running, 'for good');
      else running.stop = 'for good';
    } else if (this.#waiting.includes(task)) {
      this.#waiting = this.#waiting.filter((one) => one !== task);
      task.ended('stopped');
    }
  }

  /** Ends every worker for good; nothing is told of what they were doing. */
  close(): void {
    this.#waiting = [];
    for (const { worker } of this.#places.splice(0)) worker?.close();
  }

  #freePlace(): Place<Request, Reply> | undefined {
    const free = this.#places.find(({ running }) => running === undefined);
    if (free !== undefined || this.#places.length >= (this.#open === undefined ? 1 : (this.#options.size ?? 1))) return free;
    const place = { worker: undefined, running: undefined };
    this.#places.push(place);
    return place;
  }

  #stop(running: Running<Request, Reply>, how: 'for good' | 'to go on later'): void {
    running.stop = how;
    this.#places.find((place) => place.running === running)?.worker?.stop(running.id);
  }

  #begin(place: Place<Request, Reply>): void {
    if (place.running !== undefined || this.#waiting.length === 0) return;
    const task = this.#waiting.reduce((best, one) => (one.rank < best.rank ? one : best));
    this.#waiting = this.#waiting.filter((one) => one !== task);
    const id = ++this.#lastId;
    place.running = { task, id, stop: 'no' };
    const worker = (place.worker ??= this.#openWorker(place));
    worker.begin({ id, request: task.request(worker) });
  }

  #openWorker(place: Place<Request, Reply>): Worker<Request> {
    if (this.#open !== undefined) {
      try {
        let isThis = true;
        return this.#open((message) => isThis && this.#hear(place, message), (why) => {
          if (!isThis) return;
          isThis = false;
          this.#broken(place, why);
        });
      } catch (error) {
        this.#options.log(`No other thread can be opened, so the work is done in this one: ${String(error)}`);
        this.#open = undefined;
      }
    }
    return sameThread(this.#options.soon, this.#options.work)((message) => this.#hear(place, message), () => undefined);
  }

  #hear(place: Place<Request, Reply>, message: Message<Reply>): void {
    this.#hasWorked = true;
    const { running } = place;
    if (running === undefined || message.id !== running.id) return;
    if (message.kind !== 'ended') {
      // What was stopped has nothing to say any more.
      if (running.stop === 'no') running.task.heard(message.kind === 'reply' ? message.reply : undefined);
      return;
    }
    place.running = undefined;
    if (message.how === 'failed') this.#options.log(message.why);
    if (message.how === 'stopped' && running.stop === 'to go on later') this.#waiting.push(running.task);
    else if (running.stop === 'for good') running.task.ended('stopped');
    else running.task.ended(message.how, message.how === 'failed' ? message.why : undefined);
    this.#begin(place);
  }

  /** A thread that never worked is done without; one that broke at work is replaced, without the task that broke it. */
  #broken(place: Place<Request, Reply>, why: string): void {
    this.#options.log(why);
    const { running } = place;
    place.worker = undefined;
    place.running = undefined;
    if (!this.#hasWorked) this.#open = undefined;
    if (running !== undefined && !this.#hasWorked && running.stop !== 'for good') this.#waiting.push(running.task);
    else if (running?.stop === 'for good') running.task.ended('stopped');
    else running?.task.ended('failed', why);
    this.#begin(place);
  }
}
