import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test, vi } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { lay } from '../../server/src/cli/lay.ts';
import { renderTable } from '../../server/src/formats/format.ts';
import { PlanCache } from '../../server/src/planner/plan-cache.ts';
import type { PlannerReply, PlannerRequest } from '../../server/src/planner/requests.ts';
import { combinationKey } from '../../server/src/planner/requests.ts';
import { plannerWork } from '../../server/src/planner/work.ts';
import type { BuyingRow } from '../../server/src/table/buying-rows.ts';
import { wholeTables } from '../../server/src/table/whole-table.ts';
import type { PlannerClient } from '../../server/src/planner/client.ts';
import { FiguresBeside } from '../../server/src/planner/figures.ts';
import { ShownLays } from '../../server/src/planner/shown-lays.ts';
import { WorkerPool } from '../../server/src/workers/pool.ts';
import { patternOf, sample, snapshotOfText } from '../support/samples.ts';

vi.setConfig({ testTimeout: 120_000 });

const folder = fileURLToPath(new URL('../../samples/', import.meta.url));
const samples = readdirSync(folder).filter((name) => name.endsWith('.piece'));
const shared = 'studio/materials.piece';

/** What a row says of a purchase; exports tell what is left over among the notes. */
const said = ({ item, width, buy, found, noneUnder, certain, cost, notes, leftovers = [] }: Pick<BuyingRow, 'item' | 'width' | 'buy' | 'found' | 'noneUnder' | 'certain' | 'cost' | 'notes'> & Partial<Pick<BuyingRow, 'leftovers'>>): object =>
  ({ item, width, buy, found, noneUnder, certain, cost, notes: [...notes, ...leftovers] });

async function layTold(name: string, typed: Partial<Parameters<typeof lay>[1]> = {}): Promise<{ readonly rows: readonly BuyingRow[]; readonly planned: string }> {
  let out = '';
  const spy = vi.spyOn(process.stdout, 'write').mockImplementation((text) => ((out += String(text)), true));
  try {
    await lay(`${folder}${name}`, { material: [], choose: [], all: false, articles: '1', width: [], lay: 'shorter', gap: '0', effort: String(usualOptions.effort), verify: false, json: true, ...typed });
  } finally {
    spy.mockRestore();
  }
  const [plan] = (JSON.parse(out) as { plans: { rows: BuyingRow[]; planned: string }[] }).plans;
  return plan ?? { rows: [], planned: '' };
}

/** The last reply of each kind to a request, with whatever was planned before. */
function replied(request: PlannerRequest, cache: PlanCache): PlannerReply | undefined {
  return [...plannerWork(cache)(request, () => false)].filter((reply) => reply !== undefined).at(-1);
}

describe.each(samples)('what to buy for %s', (name) => {
  const text = sample(name);
  const pattern = patternOf(text);
  const [table] = [...wholeTables(pattern, [new Map()])];
  const texts = { id: 'a', path: 'a.piece', files: [{ path: 'a.piece', text }, { path: shared, text: sample(shared) }] };
  const expected = table?.buying.map(said) ?? [];
  // Whatever the planner has planned before, with more and with less effort, changes no answer.
  const cache = new PlanCache();
  for (const effort of [0, 0.3]) replied({ kind: 'lays', texts, combination: {}, articles: 1, widths: '', lay: 'shorter', effort }, cache);

  test('is the same in the table, the lay and an export of the server', async () => {
    expect(expected.length).toBeGreaterThan(0);
    expect((await layTold(name)).rows.map(said)).toEqual(expected);
    const exported = replied({ kind: 'tables', texts, combination: {}, format: 'json', by: 'piece' }, cache);
    expect(exported).toEqual({ kind: 'tables', text: renderTable(table === undefined ? [] : [table], 'json', 'piece') });
  });

  test('is the same in the preview, and beside the text', () => {
    const shown = replied({ kind: 'lays', texts, combination: {}, articles: 1, widths: '', lay: 'shorter', effort: usualOptions.effort }, cache);
    expect(shown?.kind === 'lays' ? shown.lays.purchases.map(said) : []).toEqual(expected);
    const beside = replied({ kind: 'figures', texts, effort: usualOptions.effort }, cache);
    const figures = beside?.kind === 'figures' ? (beside.figures[combinationKey(pattern.resolve(new Map()).combination)] ?? {}) : {};
    const planned = table?.plans ?? [];
    expect(Object.keys(figures)).toEqual(planned.map(({ need }) => need.material.name));
    for (const [index, { need }] of planned.entries()) expect(figures[need.material.name]?.buy).toBe(`buy ${table?.buying[index]?.buy ?? ''}`);
  });
});

test('previews and hints come to ask for the usual effort', async () => {
  const snapshot = snapshotOfText(sample('market-apron.piece'));
  const asked: PlannerRequest[] = [];
  const pool = new WorkerPool<PlannerRequest, PlannerReply>({
    soon: (run) => void setImmediate(run), log: () => undefined, open: undefined,
    work: function* (request) {
      asked.push(request);
      yield request.kind === 'figures' ? { kind: 'figures', figures: {} } : undefined;
    },
  });
  // As if it had a thread of its own: without one, better figures are not looked for.
  Object.defineProperty(pool, 'isApart', { value: true });
  let better = 0;
  const client: PlannerClient = { snapshotOf: () => snapshot, keyOf: (uri) => uri, showLays: () => undefined, onBetterFigures: () => better++, beginLongWork: () => ({ at: () => undefined, end: () => undefined }) };
  new ShownLays(pool, client).show('a', snapshot, {}, { articles: 1, widths: '', lay: 'shorter' });
  await new FiguresBeside(pool, client).figures('a', snapshot);
  await vi.waitUntil(() => asked.length === 3);
  expect(asked.map((request) => [request.kind, 'effort' in request ? request.effort : undefined]).sort()).toEqual([['figures', 0], ['figures', usualOptions.effort], ['lays', usualOptions.effort]]);
  expect(better).toBe(0);
});

describe('what is planned in another manner', () => {
  test('says so beside the fingerprint, on every way out', async () => {
    const pattern = patternOf(sample('market-apron.piece'));
    const [usual] = [...wholeTables(pattern, [new Map()])];
    const [other] = [...wholeTables(pattern, [new Map()], 3, { ...usualOptions, effort: 0 })];
    expect([usual?.manner, other?.manner]).toEqual(['', 'for 3 articles, effort 0']);
    for (const format of ['markdown', 'csv', 'html'] as const) {
      expect(renderTable(other === undefined ? [] : [other], format, 'piece')).toContain('for 3 articles, effort 0');
      expect(renderTable(usual === undefined ? [] : [usual], format, 'piece')).not.toContain('effort');
    }
    expect((await layTold('market-apron.piece', { effort: '0', lay: 'open', width: ['44in', '60in=12.50'], gap: '1/8in' })).planned).toBe('laid open, gap 1/8 in, beside 44 in and 60 in at 12.50 EUR, effort 0');
  });

  test('a figure of a first lay is marked, unless no better one could change it', () => {
    const text = `pattern "T"\nrevision 1\nunit in\nallowance none\nmaterial ticking "Ticking" {\n  width 20 in\n}\npiece patch "Patch" {\n  outline path from 0, 0 {\n    line to 9, 0\n    line to 2, 8\n    close\n  }\n  grain up\n  cut 7 ticking\n}\n`;
    const reply = replied({ kind: 'figures', texts: { id: 'b', path: 'b.piece', files: [{ path: 'b.piece', text }] }, effort: 0 }, new PlanCache());
    const [figures] = reply?.kind === 'figures' ? Object.values(reply.figures) : [];
    expect(figures?.['ticking']?.buy).toMatch(/ \(first lay\)$/);
  });
});
