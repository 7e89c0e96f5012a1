import { describe, expect, test, vi } from 'vitest';
import type { MaterialPlan } from '../../server/src/buying/plan.ts';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { needsOf } from '../../server/src/buying/requirements.ts';
import { PlanCache } from '../../server/src/planner/plan-cache.ts';
import type { PlannerReply, PlannerRequest } from '../../server/src/planner/requests.ts';
import { plannerWork } from '../../server/src/planner/work.ts';
import { Stopped, type Message } from '../../server/src/workers/job.ts';
import { sameThread } from '../../server/src/workers/worker.ts';
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

describe('the cache of plans', () => {
  test.each(['market-apron', 'orchard-wallet', 'tidal-crossbody', 'potters-roll'])('%s: every lay is right, and asked for again the very same', (name) => {
    const cache = new PlanCache();
    for (const need of needsOf(patternOf(sample(`${name}.piece`)).resolve(new Map()), 1)) {
      const plan = run(cache.plan(need, options, () => false));
      expectRight(plan);
      expect(run(cache.plan(need, options, () => false)).widths).toBe(plan.widths);
    }
  });

  test('a search that is stopped anywhere leaves nothing unfinished behind', () => {
    const fresh = needs.map((need) => JSON.stringify(run(new PlanCache().plan(need, options, () => false)).best?.lays.map(({ lay }) => lay)));
    for (let after = 1; after < 4000; after = Math.ceil(after * 2.7)) {
      const cache = new PlanCache();
      let asked = 0;
      for (const need of needs) {
        const search = cache.plan(need, options, () => asked++ > after);
        try {
          for (let turn = search.next(); turn.done !== true && asked <= after; turn = search.next()) expectRight(turn.value);
        } catch (error) {
          expect(error).toBeInstanceOf(Stopped);
        }
      }
      needs.forEach((need, index) => {
        const plan = run(cache.plan(need, options, () => false));
        expectRight(plan);
        expect(JSON.stringify(plan.best?.lays.map(({ lay }) => lay))).toBe(fresh[index]);
      });
    }
  });

  test('what is asked with less effort, or another, is what it is without a cache', () => {
    const text = (plan: MaterialPlan): string => JSON.stringify(plan.widths, (_, value: unknown) => (typeof value === 'bigint' ? String(value) : value));
    const efforts = [0.1, 0, 0.03, 0.05, 0];
    const cache = new PlanCache();
    for (const name of ['market-apron', 'tidal-crossbody', 'harvest-bunting']) {
      const some = needsOf(patternOf(sample(`${name}.piece`)).resolve(new Map()), 2);
      for (const effort of efforts) {
        for (const need of some) expect(text(run(cache.plan(need, { ...usualOptions, effort }, () => false)))).toBe(text(run(new PlanCache().plan(need, { ...usualOptions, effort }, () => false))));
      }
    }
  });
});

test('in one thread, what waits gets its turn between the steps', async () => {
  const order: string[] = [];
  const text = sample('market-apron.piece');
  await new Promise<void>((done) => {
    const worker = sameThread((later) => void setImmediate(later), plannerWork())(({ kind }: Message<PlannerReply>) => {
      // On a busy machine a step may take so long that a sign of life comes between.
      if (kind !== 'at work') order.push(kind);
      if (kind === 'ended') done();
    }, () => undefined);
    const request: PlannerRequest = { kind: 'lays', texts: { id: 'a', path: 'a.piece', files: [{ path: 'a.piece', text }, { path: 'studio/materials.piece', text: sample('studio/materials.piece') }] }, combination: {}, articles: 2, widths: '', lay: 'shorter', effort: 0.05 };
    worker.begin({ id: 1, request });
    const between = (): void => {
      if (order.at(-1) === 'ended') return;
      if (order.at(-1) === 'reply') order.push('turn');
      setImmediate(between);
    };
    setImmediate(between);
  });
  expect(order.slice(0, 3)).toEqual(['reply', 'turn', 'reply']);
});
