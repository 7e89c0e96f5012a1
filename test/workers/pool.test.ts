import { describe, expect, test } from 'vitest';
import { Stopped, type Job, type Message, type Work } from '../../server/src/workers/job.ts';
import { WorkerPool, type Task } from '../../server/src/workers/pool.ts';
import type { Worker } from '../../server/src/workers/worker.ts';

/** Says twice what it is asked. */
const twice: () => Work<string, string> = () => function* (request) {
  yield `${request}${request}`;
};

interface Opened {
  readonly begun: Job<string>[];
  readonly stopped: number[];
  readonly tell: (message: Message<string>) => void;
  readonly breakIt: (why: string) => void;
  isClosed: boolean;
}

/** A pool whose workers' jobs end when the test says so. */
function staged(size = 1): { readonly pool: WorkerPool<string, string>; readonly opened: Opened[]; readonly log: string[] } {
  const [opened, log]: [Opened[], string[]] = [[], []];
  const pool = new WorkerPool<string, string>({
    soon: (later) => void setImmediate(later), work: twice(), size, log: (why) => log.push(why),
    open: (tell, breakIt): Worker<string> => {
      const one: Opened = { begun: [], stopped: [], tell, breakIt, isClosed: false };
      opened.push(one);
      return { isApart: true, begin: (job) => one.begun.push(job), stop: (id) => one.stopped.push(id), close: () => (one.isClosed = true) };
    },
  });
  return { pool, opened, log };
}

const taskOf = (rank: number, name: string, heard: string[]): Task<string, string> => ({
  rank,
  request: () => name,
  heard: (reply) => heard.push(`${name} ${reply ?? 'at work'}`),
  ended: (how) => heard.push(`${name} ${how}`),
});

describe('a pool of one worker', () => {
  test('what is more urgent makes what is under way wait, and it is begun again', () => {
    const { pool, opened } = staged();
    const heard: string[] = [];
    pool.add(taskOf(2, 'slow', heard));
    pool.add(taskOf(0, 'urgent', heard));
    const [worker] = opened;
    expect(worker?.stopped).toEqual([1]);
    worker?.tell({ id: 1, kind: 'at work' });
    worker?.tell({ id: 1, kind: 'ended', how: 'stopped' });
    worker?.tell({ id: 2, kind: 'ended', how: 'done' });
    expect(worker?.begun.map(({ id, request }) => [id, request])).toEqual([[1, 'slow'], [2, 'urgent'], [3, 'slow']]);
    worker?.tell({ id: 3, kind: 'ended', how: 'done' });
    expect(heard).toEqual(['urgent done', 'slow done']);
    expect(opened).toHaveLength(1);
  });

  test('what is dropped says nothing any more, whether it waits or is under way', () => {
    const { pool, opened } = staged();
    const heard: string[] = [];
    const [first, second] = [taskOf(1, 'first', heard), taskOf(1, 'second', heard)];
    pool.add(first);
    pool.add(second);
    pool.drop(second);
    pool.drop(first);
    opened[0]?.tell({ id: 1, kind: 'reply', reply: 'late' });
    opened[0]?.tell({ id: 1, kind: 'ended', how: 'done' });
    expect(heard).toEqual(['second stopped', 'first stopped']);
  });

  test('a thread that can’t be started is done without', async () => {
    const { pool, opened, log } = staged();
    const heard: string[] = [];
    const ended = new Promise<void>((done) => pool.add({ ...taskOf(1, 'only', heard), ended: (how) => (heard.push(how), done()) }));
    opened[0]?.breakIt('forbidden');
    await ended;
    expect(log).toEqual(['forbidden']);
    expect(heard).toEqual(['only onlyonly', 'done']);
    expect(pool.isApart).toBe(false);
  });

  test('a thread that breaks at its work is replaced, without the task that broke it', () => {
    const { pool, opened } = staged();
    const heard: string[] = [];
    pool.add(taskOf(1, 'bad', heard));
    pool.add(taskOf(1, 'good', heard));
    opened[0]?.tell({ id: 1, kind: 'at work' });
    opened[0]?.breakIt('out of memory');
    opened[1]?.tell({ id: 2, kind: 'ended', how: 'done' });
    expect(opened.map(({ begun }) => begun.map(({ request }) => request))).toEqual([['bad'], ['good']]);
    expect(heard).toEqual(['bad at work', 'bad failed', 'good done']);
  });
});

describe('a pool of several', () => {
  test('opens no more workers than it may, and hands each the next task', () => {
    const { pool, opened } = staged(2);
    const heard: string[] = [];
    for (const name of ['a', 'b', 'c', 'd']) pool.add(taskOf(0, name, heard));
    expect(opened.map(({ begun }) => begun.map(({ request }) => request))).toEqual([['a'], ['b']]);
    opened[1]?.tell({ id: 2, kind: 'ended', how: 'done' });
    opened[0]?.tell({ id: 1, kind: 'ended', how: 'done' });
    opened[0]?.tell({ id: 4, kind: 'ended', how: 'done' });
    expect(opened.map(({ begun }) => begun.map(({ request }) => request))).toEqual([['a', 'd'], ['b', 'c']]);
    expect(heard).toEqual(['b done', 'a done', 'd done']);
  });

  test('closes them all', () => {
    const { pool, opened } = staged(2);
    for (const name of ['a', 'b', 'c']) pool.add(taskOf(0, name, []));
    pool.close();
    expect(opened.map(({ isClosed }) => isClosed)).toEqual([true, true]);
  });
});

test('what is thrown fails the task that threw, and no other', async () => {
  const log: string[] = [];
  const pool = new WorkerPool<string, string>({
    soon: (later) => void setImmediate(later), open: undefined, log: (why) => log.push(why),
    work: function* (request) {
      if (request === 'bad') throw new Error('It broke.');
      if (request === 'stopped') throw new Stopped();
      yield request;
    },
  });
  const ends = ['good', 'bad', 'stopped', 'good'].map((name) => new Promise<string>((resolve) => pool.add({ rank: 0, request: () => name, heard: () => undefined, ended: (how, why) => resolve(`${how} ${why?.split('\n')[0] ?? ''}`) })));
  expect(await Promise.all(ends)).toEqual(['done ', 'failed Error: It broke.', 'stopped ', 'done ']);
  expect(log).toHaveLength(1);
});
