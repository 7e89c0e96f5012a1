import type { Answer, Job } from './jobs.ts';
import { sharedLane, type Lane, type OpenLane } from './lane.ts';

/** A job without its number, which it gets when it is begun. */
export type Asked = Job extends infer One ? (One extends Job ? Omit<One, 'id'> : never) : never;

/** What somebody wants done. */
export interface Task {
  readonly asked: (lane: Pick<Lane, 'isApart'>) => Asked;
  /** Lower ones first; one that is under way makes room for a lower one, and is begun again after it. */
  readonly rank: number;
  readonly heard: (answer: Answer) => void;
  /** Called once, at the end. */
  readonly ended: (how: 'done' | 'stopped' | 'failed') => void;
}

interface Running {
  readonly task: Task;
  readonly id: number;
  stop: 'no' | 'for good' | 'to go on later';
}

/** Tasks in their order, one at a time in a lane. */
export class Queue {
  readonly #soon: (run: () => void) => void;
  readonly #log: (why: string) => void;
  #open: OpenLane | undefined;
  #lane: Lane | undefined;
  #running: Running | undefined;
  #waiting: Task[] = [];
  #lastId = 0;
  #hasWorked = false;

  constructor(soon: (run: () => void) => void, open: OpenLane | undefined, log: (why: string) => void) {
    this.#soon = soon;
    this.#open = open;
    this.#log = log;
  }

  /** Whether jobs are done in another thread, as far as is known. */
  get isApart(): boolean {
    return this.#open !== undefined;
  }

  add(task: Task): void {
    this.#waiting.push(task);
    const running = this.#running;
    if (running === undefined) this.#next();
    else if (task.rank < running.task.rank && running.stop === 'no') this.#stop(running, 'to go on later');
  }

  /** Ends a task, whether it waits or is under way. */
  drop(task: Task): void {
    const running = this.#running;
    if (running?.task === task) {
      if (running.stop === 'no') this.#stop(running, 'for good');
      else running.stop = 'for good';
    } else if (this.#waiting.includes(task)) {
      this.#waiting = this.#waiting.filter((one) => one !== task);
      task.ended('stopped');
    }
  }

  #stop(running: Running, how: 'for good' | 'to go on later'): void {
    running.stop = how;
    this.#lane?.stop(running.id);
  }

  #next(): void {
    if (this.#running !== undefined || this.#waiting.length === 0) return;
    const task = this.#waiting.reduce((best, one) => (one.rank < best.rank ? one : best));
    this.#waiting = this.#waiting.filter((one) => one !== task);
    const id = ++this.#lastId;
    this.#running = { task, id, stop: 'no' };
    const lane = (this.#lane ??= this.#openLane());
    lane.begin({ ...task.asked(lane), id });
  }

  #openLane(): Lane {
    if (this.#open !== undefined) {
      try {
        let isThis = true;
        const lane = this.#open((answer) => isThis && this.#hear(answer), (why) => {
          if (!isThis) return;
          isThis = false;
          this.#broken(why);
        });
        return lane;
      } catch (error) {
        this.#log(`Lays are planned in the server’s own thread: ${String(error)}`);
        this.#open = undefined;
      }
    }
    return sharedLane(this.#soon, (answer) => this.#hear(answer));
  }

  #hear(answer: Answer): void {
    this.#hasWorked = true;
    const running = this.#running;
    if (running === undefined || answer.id !== running.id) return;
    if (answer.kind !== 'ended') {
      // What was stopped has nothing to say any more.
      if (running.stop === 'no') running.task.heard(answer);
      return;
    }
    this.#running = undefined;
    if (answer.how === 'failed') this.#log(answer.why);
    if (answer.how === 'stopped' && running.stop === 'to go on later') this.#waiting.push(running.task);
    else running.task.ended(running.stop === 'for good' ? 'stopped' : answer.how);
    this.#next();
  }

  /** A thread that never worked is done without; one that broke at work is replaced, without the task that broke it. */
  #broken(why: string): void {
    this.#log(why);
    this.#lane = undefined;
    const running = this.#running;
    this.#running = undefined;
    if (!this.#hasWorked) this.#open = undefined;
    if (running !== undefined && !this.#hasWorked && running.stop !== 'for good') this.#waiting.push(running.task);
    else running?.task.ended(running.stop === 'for good' ? 'stopped' : 'failed');
    this.#next();
  }
}
