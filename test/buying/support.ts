import { expect } from 'vitest';
import { planMaterial, usualOptions, type BuyingOptions, type MaterialPlan, type WidthPlan } from '../../server/src/buying/plan.ts';
import { needsOf, type MaterialNeed, type Requirement } from '../../server/src/buying/requirements.ts';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';
import type { Pattern } from '../../server/src/model/pattern.ts';
import { analyse } from '../support/spec.ts';

/** Effort of quick tests: first lays alone. */
export const quick: BuyingOptions = { ...usualOptions, effort: 0 };

/** A spec of one material, `cloth`, with its facts and some pieces. */
export const specOf = (facts: string, pieces: string, more = ''): Pattern =>
  analyse(`pattern "Test"\nrevision 1\nunit in\nallowance none\n${more}\nmaterial cloth "Cloth" {\n${facts}\n}\n${pieces}\n`).pattern;

export function needOf(pattern: Pattern, articles = 1, material = 'cloth'): MaterialNeed {
  const need = needsOf(pattern.resolve(new Map()), articles).find((one) => one.material.name === material);
  if (need === undefined) throw new Error(`Nothing is cut from ${material}: ${pattern.problems.map((one) => one.message).join('; ')}`);
  return need;
}

/** The only requirement of a spec with one cut line. */
export function requirementOf(facts: string, piece: string): Requirement {
  const { requirements } = needOf(specOf(facts, piece));
  expect(requirements).toHaveLength(1);
  return requirements[0] as Requirement;
}

export const planOf = (facts: string, pieces: string, options: Partial<BuyingOptions> = {}, articles = 1): MaterialPlan =>
  planMaterial(needOf(specOf(facts, pieces), articles), { ...quick, ...options });

export function bestOf(plan: MaterialPlan): WidthPlan {
  if (plan.best === undefined) throw new Error('Nothing was planned');
  return plan.best;
}

/** Every lay is right piece against piece, holds all that is requested, and no bound is above the shortest. */
export function expectRight(plan: MaterialPlan): void {
  for (const width of plan.widths) {
    expect(width.noneUnder.compare(width.shortest)).toBeLessThanOrEqual(0);
    expect(width.buy.compare(width.noneUnder.sub(1))).toBeGreaterThan(0);
    for (const found of width.lays) {
      expect(verifyLay(found.problem, found.lay)).toEqual([]);
      expect(found.lay.length).toBeLessThanOrEqual(found.cloth.length + 0.06);
    }
    plan.need.requirements.forEach((requirement, number) => {
      if (width.unplaced.includes(number)) return;
      const { asDrawn, mirrored, either } = requirement.count;
      const [drawn, flipped] = cutFrom(width, number);
      const spare = width.lays.flatMap((found) => found.spares).filter((one) => one.requirement === number).reduce((sum, one) => sum + one.count, 0);
      expect(drawn + flipped).toBe(asDrawn + mirrored + either + spare);
      expect(drawn).toBeGreaterThanOrEqual(asDrawn);
      expect(flipped).toBeGreaterThanOrEqual(mirrored);
    });
  }
}

/** How many of a requirement come out of a plan's lays as drawn and how many flipped, opened out and both layers counted. */
function cutFrom(width: WidthPlan, number: number): readonly [number, number] {
  let [drawn, flipped] = [0, 0];
  for (const found of width.lays) {
    for (const placement of found.lay.placements) {
      if (found.requirementOf[placement.piece] !== number) continue;
      const piece = found.problem.pieces[placement.piece];
      if (found.manner === 'open' || piece?.onFold === true || piece?.single === true) {
        if (placement.mirrored) flipped += found.times;
        else drawn += found.times;
      } else {
        drawn += found.times;
        flipped += found.times;
      }
    }
  }
  return [drawn, flipped];
}
