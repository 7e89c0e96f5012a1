import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { verifyLay } from '../../server/src/lay/verify/verify.ts';
import { bestOf, expectRight, needOf, planOf, quick, specOf } from './support.ts';
import { firstPlan } from '../../server/src/buying/plan.ts';

const felt = (sold: string): string => `  role non-fray\n${sold}`;
const sheet = (width: number, height: number): string => felt(`  bought in sheets of ${width} by ${height}`);

/** Whether the spec is told that the piece is too large, and whether the lay leaves it out. */
function tried(facts: string, pieces: string): { readonly told: boolean; readonly leftOut: boolean } {
  const pattern = specOf(facts, pieces);
  const told = pattern.problems.some(({ code }) => code === 'too-wide' || code === 'too-large');
  const plan = firstPlan(needOf(pattern), quick);
  const best = bestOf(plan);
  for (const found of best.lays) expect(verifyLay(found.problem, found.lay)).toEqual([]);
  return { told, leftOut: best.unplaced.length > 0 };
}

describe('a piece that may lie in any turn', () => {
  // Seven sides that grow shorter: only with the shortest along the cloth is it narrow enough.
  const many = 'piece leaf "Leaf" {\n  outline polygon from 0, 0 to 5, 1 to 9, 3 to 12, 6 to 14, 10 to 14.8, 13 to 15, 15 to 10, 14 to 6, 12 to 3, 9 to 1, 5\n  cut 1 cloth\n}';

  it('is laid in every turn that the check of its size looks at', () => {
    const corners = fc.array(fc.record({ x: fc.integer({ min: 0, max: 96 }), y: fc.integer({ min: 0, max: 96 }) }), { minLength: 7, maxLength: 12 });
    const sides = fc.integer({ min: 24, max: 104 });
    let [out, inside] = [0, 0];
    fc.assert(fc.property(corners, sides, sides, fc.constantFrom('', ' mirrored'), fc.boolean(), (points, width, height, clause, inLengths) => {
      const [cx, cy] = [points.reduce((sum, { x }) => sum + x, 0) / points.length, points.reduce((sum, { y }) => sum + y, 0) / points.length];
      const around = [...points].sort((a, b) => Math.atan2(a.y - cy, a.x - cx) - Math.atan2(b.y - cy, b.x - cx));
      const piece = `piece leaf "Leaf" {\n  outline polygon from ${around.map(({ x, y }) => `${x}/8, ${y}/8`).join(' to ')}\n  cut 1 cloth${clause}\n}`;
      const pattern = specOf(inLengths ? felt(`  width ${width}/8`) : felt(`  bought in sheets of ${width}/8 by ${height}/8`), piece);
      if (pattern.problems.some(({ severity, code }) => severity === 'error' && code !== 'too-wide' && code !== 'too-large')) return;
      const { told, leftOut } = tried(inLengths ? felt(`  width ${width}/8`) : felt(`  bought in sheets of ${width}/8 by ${height}/8`), piece);
      expect(leftOut).toBe(told);
      if (leftOut) out++;
      else inside++;
    }), { numRuns: 250 });
    expect(out).toBeGreaterThan(20);
    expect(inside).toBeGreaterThan(20);
  }, 60_000);

  it('of many sides is not left out of a sheet that it passes for', () => {
    for (let side = 8; side <= 16; side += 0.25) expect(tried(sheet(side, 22), many).leftOut).toBe(tried(sheet(side, 22), many).told);
  });
});

describe('the widest that fits', () => {
  const rectangle = (width: string): string => `piece part "Part" {\n  outline rectangle ${width} by 6\n  grain up\n  cut 1 cloth\n}`;
  const cloth = '  role main\n  width 44 usable 42\n  bought in lengths of 1/4 yd';

  // Three hundredths of a millimetre are far below what anyone cuts, and above what rounding may come to.
  it.each([['42', false], ['42 in + 0.03 mm', true], ['42 in - 0.03 mm', false]])('is the usable width: %s', (width, leftOut) => {
    expect(tried(cloth, rectangle(width))).toEqual({ told: leftOut, leftOut });
  });

  it.each([['21', 6], ['21 in + 0.06 mm', 12]])('twice is half of it: two of %s take %i in', (width, long) => {
    const plan = planOf(cloth, rectangle(width).replace('cut 1', 'cut 2'));
    expectRight(plan);
    expect(bestOf(plan).shortest.div(25.4).valueOf()).toBeCloseTo(long, 3);
  });

  it.each([['21', []], ['21 in + 0.03 mm', [0]]])('folded is half of it: %s', (width, unplaced) => {
    expect(bestOf(planOf(cloth, rectangle(width).replace('cut 1', 'cut 2'), { lay: 'folded' })).unplaced).toEqual(unplaced);
  });

  it.each([['18', 1, []], ['18 in + 0.03 mm', 0, [0]]])('is a panel’s own length: %s', (long, panels, unplaced) => {
    const best = bestOf(planOf('  role accent\n  bought in panels of 18 in by 22 in', `piece part "Part" {\n  outline rectangle 22 by ${long}\n  grain up\n  cut 1 cloth\n}`));
    expect([best.buy.valueOf(), best.unplaced]).toEqual([panels, unplaced]);
  });

  it('two of them end to end in a panel are no longer than it', () => {
    const panel = '  role accent\n  bought in panels of 18 in by 22 in';
    const two = (long: string): number => bestOf(planOf(panel, `piece part "Part" {\n  outline rectangle 22 by ${long}\n  grain up\n  cut 2 cloth\n}`)).buy.valueOf();
    expect([two('9'), two('9 in + 0.03 mm')]).toEqual([1, 2]);
  });
});
