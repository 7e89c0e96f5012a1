import { describe, expect, it } from 'vitest';
import { bestOf, expectRight, planOf } from './support.ts';

const squares = (size: string, count: number, grain = 'up'): string => `piece square "Square" {\n  outline rectangle ${size} by ${size}\n  grain ${grain}\n  cut ${count} cloth\n}`;
const panel = '  role accent\n  bought in panels of 18 in by 22 in\n  price 3 per panel';

/** Whole squares from an 18 × 22 in panel, as public pages have it and arithmetic confirms. */
const wholeSquares: readonly (readonly [string, number])[] = [['2', 99], ['2 1/2', 56], ['3', 42], ['3 1/2', 30], ['4', 20]];

describe('squares from a panel of 18 × 22 in', () => {
  it.each(wholeSquares)('%s in squares: %i, and one more takes another panel', (size, count) => {
    const full = planOf(panel, squares(size, count));
    expectRight(full);
    expect([bestOf(full).buy.valueOf(), bestOf(full).certain]).toEqual([1, true]);
    const more = planOf(panel, squares(size, count + 1));
    expectRight(more);
    expect([bestOf(more).buy.valueOf(), bestOf(more).certain]).toEqual([2, true]);
  });

  it('repeats a filling for a batch, and costs what the panels cost', () => {
    const plan = planOf(panel, squares('4', 20), {}, 25);
    expectRight(plan);
    expect([bestOf(plan).buy.valueOf(), bestOf(plan).cost?.valueOf(), bestOf(plan).lays.length]).toEqual([25, 75, 1]);
  });
});

describe('squares from a width', () => {
  // A public page: 40 in usable, one yard, 5 in squares.
  it('gives 56 squares of 5 in from 40 in by a yard, and not 57', () => {
    const cloth = '  role main\n  width 44 usable 40\n  bought in lengths of 1 yd';
    const enough = bestOf(planOf(cloth, squares('5', 56)));
    expect([enough.buy.valueOf(), enough.certain]).toEqual([914.4, true]);
    expect(bestOf(planOf(cloth, squares('5', 57))).buy.valueOf()).toBe(1828.8);
  });
});

describe('panels and sheets', () => {
  it('are filled one after another, every one right', () => {
    const plan = planOf('  role accent\n  bought in panels of 18 in by 22 in', `${squares('7', 5)}
piece strip "Strip" {\n  outline rectangle 3 by 16\n  grain up or across\n  cut 6 cloth\n}
piece flap "Flap" {\n  outline polygon from 0, 0 to 8, 0 to 6, 5 to 2, 5\n  grain up\n  cut 5 cloth\n}`);
    expectRight(plan);
    expect(bestOf(plan).unplaced).toEqual([]);
    expect(bestOf(plan).buy.valueOf()).toBeGreaterThanOrEqual(bestOf(plan).noneUnder.valueOf());
  });

  it('leave out what is longer than they are', () => {
    const best = bestOf(planOf(panel, 'piece long "Long" {\n  outline rectangle 4 by 20\n  grain up\n  cut 1 cloth\n}'));
    expect([best.unplaced, best.buy.valueOf()]).toEqual([[0], 0]);
  });

  it('lie across the cloth with the side that is as long as the material is wide', () => {
    const best = bestOf(planOf('  role stabiliser\n  width 20\n  bought in sheets of 20 in by 36 in', squares('6', 1, 'none')));
    expect(best.lays[0]?.cloth.length).toBeCloseTo(36 * 25.4);
    expect(best.lays[0]?.cloth.width).toBeCloseTo(20 * 25.4, 1);
  });
});
