import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldedQuestions } from '../../server/src/buying/folded.ts';
import { firstPlan, planMaterial, planning, usualOptions } from '../../server/src/buying/plan.ts';
import { boundOf, KeptLays, contentKey, layOut, type LaidOut } from '../../server/src/buying/lay-out.ts';
import { needsOf } from '../../server/src/buying/requirements.ts';
import { patternOf, sample } from '../support/samples.ts';
import { bestOf, expectRight, needOf, planOf, quick, specOf } from './support.ts';

const cloth = '  role main\n  width 44 usable 42\n  faces differ\n  bought in lengths of 1/8 yd';
const rectangle = (width: number | string, height: number | string, count: number, more = ''): string =>
  `piece part_${String(width).replace(/\W/g, '_')}_${String(height).replace(/\W/g, '_')} "Part" {\n  outline rectangle ${width} by ${height}\n  grain up\n  cut ${count} cloth${more}\n}\n`;
const lopsided = (count: number, more = ''): string => `piece flap "Flap" {\n  outline polygon from 0, 0 to 9, 0 to 9, 3 to 4, 7 to 0, 7\n  grain up\n  cut ${count} cloth${more}\n}\n`;
const halfDrawn = `piece skirt "Skirt" {\n  outline rectangle 10 by 12\n  on fold left\n  grain up\n  cut 1 cloth on fold\n}\n`;

describe('samples', () => {
  const names = ['orchard-wallet', 'market-apron', 'potters-roll', 'tidal-crossbody', 'harvest-bunting'];
  it.each(names)('%s: first lays are right, open, folded and whichever is shorter', (name) => {
    const pattern = patternOf(sample(`${name}.piece`));
    for (const combination of pattern.combinations()) {
      for (const need of needsOf(pattern.resolve(combination), 1)) {
        for (const lay of ['open', 'folded', 'shorter'] as const) expectRight(firstPlan(need, { ...quick, lay }));
      }
    }
  }, 60_000);

  it.each(names)('%s: more articles never need less', (name) => {
    const pattern = patternOf(sample(`${name}.piece`));
    const bought = [1, 2, 5].map((articles) => needsOf(pattern.resolve(new Map()), articles).map((need) => {
      const plan = firstPlan(need, quick);
      expectRight(plan);
      return bestOf(plan).buy.valueOf();
    }));
    bought.slice(1).forEach((more, index) => {
      more.forEach((buy, material) => { expect(buy).toBeGreaterThanOrEqual(bought[index]?.[material] ?? 0); });
    });
  }, 60_000);

  it('keeps a gap between pieces', () => {
    for (const need of needsOf(patternOf(sample('orchard-wallet.piece')).resolve(new Map()), 2)) {
      const plan = firstPlan(need, { ...quick, gap: 3.175 });
      expectRight(plan);
      for (const found of bestOf(plan).lays) expect(found.problem.gap).toBe(3.175);
    }
  });
});

describe('any pieces', () => {
  const side = fc.integer({ min: 8, max: 160 });
  const piece = fc.record({ w: side, h: side, count: fc.integer({ min: 1, max: 6 }), kind: fc.constantFrom('rectangle', 'lopsided', 'half'), grain: fc.constantFrom('up', 'across', 'up or across', 'bias', 'none'), hand: fc.constantFrom('', ' mirrored') });
  const text = (pieces: readonly { w: number; h: number; count: number; kind: string; grain: string; hand: string }[]): string => pieces.map(({ w, h, count, kind, grain, hand }, index) => {
    const [x, y] = [`${w}/8`, `${h}/8`];
    const outline = kind === 'lopsided' ? `polygon from 0, 0 to ${x}, 0 to ${x}, ${y} * 0.4 to ${x} * 0.6, ${y} to 0, ${y}` : `rectangle ${x} by ${y}`;
    return `piece p${index} "P${index}" {\n  outline ${outline}\n${kind === 'half' ? `  on fold ${index % 2 === 0 ? 'left' : 'top'}\n` : ''}  grain ${grain}\n  cut ${count} cloth${kind === 'half' ? ' on fold' : hand}\n}`;
  }).join('\n');
  const facts = fc.record({ direction: fc.constantFrom('two ways', 'one way', 'any'), faces: fc.constantFrom('differ', 'alike'), shrinks: fc.integer({ min: 0, max: 9 }), step: fc.constantFrom('1/8 yd', '10 cm', '1/4 yd'), fold: fc.constantFrom('', '', 'fold lengthwise', 'fold crosswise', 'fold partial 7', 'fold partial 19') });

  it('are laid right, or said not to fit', () => {
    fc.assert(fc.property(fc.array(piece, { minLength: 1, maxLength: 5 }), facts, fc.constantFrom('open', 'folded', 'shorter' as const), fc.constantFrom(0, 3.175), (pieces, { direction, faces, shrinks, step, fold }, lay, gap) => {
      const material = `  role main\n  width 44 usable 42\n  faces ${faces}\n  direction ${direction}\n  shrinks ${shrinks}%\n  bought in lengths of ${step}\n  ${fold}`;
      const plan = planOf(material, text(pieces), { lay: lay as 'open', gap });
      expectRight(plan);
      if (lay === 'shorter') expect(bestOf(plan).unplaced).toEqual([]);
    }), { numRuns: 80 });
  }, 60_000);
});

describe('folded lays', () => {
  const only = (pieces: string) => {
    const { questions } = foldedQuestions(needOf(specOf(cloth, pieces)), 1066.8, 0);
    expect(questions).toHaveLength(1);
    return questions[0]!;
  };

  it('cut twins as one pair, with nothing to spare', () => {
    const question = only(lopsided(4, ' twins'));
    expect(question.problem.pieces[0]?.count).toEqual({ asDrawn: 0, mirrored: 0, either: 2 });
    expect(question.spares).toEqual([]);
    expect(question.problem.width).toBeCloseTo(533.4, 1);
  });

  it('leave a spare of what is needed in one hand, or in an odd number', () => {
    expect(only(lopsided(3)).spares).toEqual([{ requirement: 0, count: 3 }]);
    expect(only(rectangle(5, 7, 3)).spares).toEqual([{ requirement: 0, count: 1 }]);
  });

  it('put what is drawn as half on the fold: a skirt 20 in wide takes 10 in of the folded width', () => {
    const plan = planOf(cloth, halfDrawn, { lay: 'folded' });
    expectRight(plan);
    const [found] = bestOf(plan).lays;
    expect(found?.manner).toBe('folded');
    expect(found?.problem.pieces[0]?.onFold).toBe(true);
    expect(found?.lay.placements.map((placement) => placement.y)).toEqual([0]);
    expect(found?.lay.length).toBeCloseTo(12 * 25.4, 3);
  });

  it('are chosen where they are shorter, and only then', () => {
    // 42 in hold two pieces 20 in wide and 2 in of nothing; folded, two pairs of 10 in lie in one row as well.
    const pairs = planOf(cloth, rectangle(20, 12, 2), { lay: 'shorter' });
    expect(bestOf(pairs).shortest.div(25.4).valueOf()).toBeCloseTo(12, 3);
    const single = planOf(cloth, rectangle(30, 12, 1), { lay: 'shorter' });
    expect(bestOf(single).lays[0]?.manner).toBe('open');
    expect(bestOf(planOf(cloth, rectangle(30, 12, 1), { lay: 'folded' })).unplaced).toEqual([0]);
  });

  it('take the lesser bound of both ways into account', () => {
    for (const pieces of [lopsided(4, ' twins'), halfDrawn + rectangle(20, 6, 3)]) {
      const under = (lay: 'open' | 'folded' | 'shorter'): number => bestOf(planOf(cloth, pieces, { lay })).noneUnder.valueOf();
      expect(under('shorter')).toBeLessThanOrEqual(Math.min(under('open'), under('folded')) + 1e-6);
    }
  });
});

describe('the search', () => {
  const need = needOf(specOf(cloth, lopsided(7) + rectangle(5, 9, 6) + rectangle(3, 16, 5)));

  it('has a first plan, then only better ones, and the same every time', () => {
    const found: number[] = [];
    const plan = planMaterial(need, { ...usualOptions, effort: 0.02 }, undefined, (better) => { found.push(bestOf(better).shortest.valueOf()); });
    expectRight(plan);
    expect(found.length).toBeGreaterThan(1);
    expect([...found].sort((a, b) => b - a)).toEqual(found);
    expect(found.at(0)).toBe(bestOf(firstPlan(need, quick)).shortest.valueOf());
    expect(planMaterial(need, { ...usualOptions, effort: 0.02 })).toEqual(plan);
  });

  it('ends where the caller has seen enough', () => {
    let seen = 0;
    planMaterial(need, { ...usualOptions, effort: 5 }, undefined, () => ++seen === 2);
    expect(seen).toBe(2);
  });

  it('ends where the purchase is certain', () => {
    const strip = needOf(specOf(cloth, rectangle(40, 20, 1)));
    const steps = [...planning(strip, { ...usualOptions, effort: 1000 })];
    expect(bestOf(steps.at(-1) as (typeof steps)[number]).certain).toBe(true);
  });

  it('keeps finished lays by their content, whatever pieces are called', () => {
    const cache = new Map<string, readonly LaidOut[]>();
    const first = firstPlan(need, quick, cache);
    expect(cache.size).toBeGreaterThan(0);
    const [problem] = bestOf(first).lays.map((found) => found.problem);
    if (problem === undefined) throw new Error('Nothing was laid');
    const renamed = { ...problem, pieces: problem.pieces.map((piece) => ({ ...piece, id: 'x' })) };
    expect(contentKey(renamed, 0)).toBe(contentKey(problem, 0));
    expect(contentKey({ ...problem, gap: 1 }, 0)).not.toBe(contentKey(problem, 0));
    expect(layOut(renamed, 0, cache)).toBe(cache.get(contentKey(problem, 0))?.at(-1));
  });

  it('reckons a bound once, and the plan is what it is without that', () => {
    const kept = new KeptLays();
    expect(firstPlan(need, quick, kept)).toEqual(firstPlan(need, quick));
    const [[key, bound] = ['', 0]] = kept.bounds;
    const [problem] = bestOf(firstPlan(need, quick)).lays.map((found) => found.problem);
    if (problem === undefined) throw new Error('Nothing was laid');
    expect([kept.bounds.has(contentKey(problem, 0)), bound > 0, key === '']).toEqual([true, true, false]);
    kept.bounds.set(contentKey(problem, 0), 12_345);
    expect(boundOf(problem, kept)).toBe(12_345);
    expect(boundOf(problem)).toBeLessThan(12_345);
  });
});

describe('too much', () => {
  it('splits a batch into alike lays and still counts every piece', () => {
    const plan = planOf(cloth, rectangle(2, 3, 4001) + lopsided(7));
    expectRight(plan);
    expect(bestOf(plan).lays.some((found) => found.times > 1)).toBe(true);
  });

  it('leaves out what nobody would cut', () => {
    expect(bestOf(planOf(cloth, rectangle(2, 3, 10_000), {}, 1000)).unplaced).toEqual([0]);
  });

  it('has nothing to plan without a width, and doesn’t fail', () => {
    const plan = planOf('  role main', rectangle(2, 3, 1));
    expect([plan.widths, plan.best]).toEqual([[], undefined]);
  });
});

describe('several widths', () => {
  it('stand side by side, the cheapest first choice where prices are known', () => {
    const priced = `${cloth}\n  price 10 per yd`;
    const inches = (text: number): { nominal: ReturnType<typeof millimetres>; price: undefined } => ({ nominal: millimetres(text), price: undefined });
    const plan = planOf(priced, rectangle(26, 30, 2), { widths: [inches(54), inches(60)] });
    expectRight(plan);
    expect(plan.widths.map((width) => width.usable.div(25.4).valueOf())).toEqual([42, 52, 58]);
    expect(bestOf(plan)).toBe(plan.widths[1]);
    const dear = planOf(priced, rectangle(26, 30, 2), { widths: [{ ...inches(54), price: millimetres(1) }] });
    expect(bestOf(dear)).toBe(dear.widths[0]);
  });
});

const millimetres = (inches: number) => bestOf(planOf(`  role main\n  width ${inches}`, rectangle(1, 1, 1))).nominal ?? (() => { throw new Error('no width'); })();
