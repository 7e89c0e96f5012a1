import { describe, expect, test, vi } from 'vitest';
import type { MaterialPlan } from '../../server/src/buying/plan.ts';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { needsOf } from '../../server/src/buying/requirements.ts';
import type { Answer, Job } from '../../server/src/planner/jobs.ts';
import { Kept, Stopped } from '../../server/src/planner/cache.ts';
import { sharedLane, type Lane } from '../../server/src/planner/lane.ts';
import { Queue, type Task } from '../../server/src/planner/queue.ts';
import { expectRight } from '../buying/support.ts';
import { patternOf, sample } from '../support/samples.ts';

vi.setConfig({ testTimeout: 60_000 });

const pattern = patternOf(sample('market-apron.piece'));
const needs = needsOf(pattern.resolve(new Map()), 2);
const options = { ...usualOptions, effort: 0.03 };

function run(search: Generator<MaterialPlan, MaterialPlan>): MaterialPlan {
  for (;;) {
    const turn = search.next();
    if (turn.done === true) return turn.value;
  }
}

describe('plans that are kept', () => {
  test.each(['market-apron', 'harbour-folio', 'tidal-crossbody', 'potters-roll'])('%s: every lay is right, and asked for again the very same', (name) => {
    const kept = new Kept();
    for (const need of needsOf(patternOf(sample(`${name}.piece`)).resolve(new Map()), 1)) {
      const plan = run(kept.plan(need, options, () => false));
      expectRight(plan);
      expect(run(kept.plan(need, options, () => false)).widths).toBe(plan.widths);
      // Less effort is content with more.
      expect(run(kept.plan(need, { ...options, effort: 0 }, () => false)).widths).toBe(plan.widths);
    }
  });

  test('a search that is stopped anywhere leaves nothing unfinished behind', () => {
    const fresh = needs.map((need) => JSON.stringify(run(new Kept().plan(need, options, () => false)).best?.lays.map(({ lay }) => lay)));
    for (let after = 1; after < 4000; after = Math.ceil(after * 2.7)) {
      const kept = new Kept();
      let asked = 0;
      for (const need of needs) {
        const search = kept.plan(need, options, () => asked++ > after);
        try {
          for (let turn = search.next(); turn.done !== true && asked <= after; turn = search.next()) expectRight(turn.value);
        } catch (error) {
          expect(error).toBeInstanceOf(Stopped);
        }
      }
      needs.forEach((need, index) => {
        const plan = run(kept.plan(need, options, () => false));
        expectRight(plan);
        expect(JSON.stringify(plan.best?.lays.map(({ lay }) => lay))).toBe(fresh[index]);
      });
    }
  });
});

describe('the queue', () => {
  /** A lane whose jobs end when the test says so. */
  function staged(): { readonly queue: Queue; readonly begun: Job[]; readonly stopped: number[]; readonly tell: (answer: Answer) => void; readonly breakIt: (why: string) => void; readonly log: string[] } {
    const [begun, stopped, log]: [Job[], number[], string[]] = [[], [], []];
    let [tell, breakIt]: [(answer: Answer) => void, (why: string) => void] = [() => undefined, () => undefined];
    const queue = new Queue((later) => setImmediate(later), (one, broken): Lane => {
      [tell, breakIt] = [one, broken];
      return { isApart: true, begin: (job) => begun.push(job), stop: (id) => stopped.push(id) };
    }, (why) => log.push(why));
    return { queue, begun, stopped, log, tell: (answer) => tell(answer), breakIt: (why) => breakIt(why) };
  }
  const taskOf = (rank: number, path: string, heard: string[]): Task => ({
    rank,
    asked: () => ({ kind: 'figures', texts: { id: path, path, files: [{ path, text: '' }] }, effort: 0 }),
    heard: ({ kind }) => heard.push(`${path} ${kind}`),
    ended: (how) => heard.push(`${path} ${how}`),
  });

  test('what is more urgent makes what is under way wait, and it is begun again', () => {
    const { queue, begun, stopped, tell } = staged();
    const heard: string[] = [];
    queue.add(taskOf(2, 'slow', heard));
    queue.add(taskOf(0, 'urgent', heard));
    expect(stopped).toEqual([1]);
    tell({ id: 1, kind: 'at work' });
    tell({ id: 1, kind: 'ended', how: 'stopped' });
    tell({ id: 2, kind: 'ended', how: 'done' });
    expect(begun.map(({ id, texts }) => [id, texts.path])).toEqual([[1, 'slow'], [2, 'urgent'], [3, 'slow']]);
    tell({ id: 3, kind: 'ended', how: 'done' });
    expect(heard).toEqual(['urgent done', 'slow done']);
  });

  test('what is dropped says nothing any more, whether it waits or is under way', () => {
    const { queue, tell } = staged();
    const heard: string[] = [];
    const [first, second] = [taskOf(1, 'first', heard), taskOf(1, 'second', heard)];
    queue.add(first);
    queue.add(second);
    queue.drop(second);
    queue.drop(first);
    tell({ id: 1, kind: 'figures', figures: {} });
    tell({ id: 1, kind: 'ended', how: 'done' });
    expect(heard).toEqual(['second stopped', 'first stopped']);
  });

  test('a thread that can’t be started is done without', async () => {
    const { queue, breakIt, log } = staged();
    const heard: string[] = [];
    const ended = new Promise<void>((done) => queue.add({ ...taskOf(1, 'only', heard), ended: (how) => (heard.push(how), done()) }));
    breakIt('forbidden');
    await ended;
    expect(log).toEqual(['forbidden']);
    expect(heard).toEqual(['only figures', 'done']);
    expect(queue.isApart).toBe(false);
  });

  test('a thread that breaks at its work is replaced, without the task that broke it', () => {
    const { queue, begun, tell, breakIt } = staged();
    const heard: string[] = [];
    queue.add(taskOf(1, 'bad', heard));
    queue.add(taskOf(1, 'good', heard));
    tell({ id: 1, kind: 'at work' });
    breakIt('out of memory');
    tell({ id: 2, kind: 'ended', how: 'done' });
    expect(begun.map(({ texts }) => texts.path)).toEqual(['bad', 'good']);
    expect(heard).toEqual(['bad at work', 'bad failed', 'good done']);
  });

  test('in one thread, what waits gets its turn between the steps', async () => {
    const order: string[] = [];
    const text = sample('market-apron.piece');
    await new Promise<void>((done) => {
      const lane = sharedLane((later) => void setImmediate(later), ({ kind }) => {
        // On a busy machine a step may take so long that a sign of life comes between.
        if (kind !== 'at work') order.push(kind);
        if (kind === 'ended') done();
      });
      lane.begin({ id: 1, kind: 'lays', texts: { id: 'a', path: 'a.piece', files: [{ path: 'a.piece', text }, { path: 'studio/materials.piece', text: sample('studio/materials.piece') }] }, combination: {}, articles: 2, widths: '', lay: 'shorter', effort: 0.05 });
      const between = (): void => {
        if (order.at(-1) === 'ended') return;
        if (order.at(-1) === 'lays') order.push('turn');
        setImmediate(between);
      };
      setImmediate(between);
    });
    expect(order.slice(0, 3)).toEqual(['lays', 'turn', 'lays']);
  });
});
