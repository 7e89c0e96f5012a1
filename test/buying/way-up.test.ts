import { describe, expect, it } from 'vitest';
import { planMaterial } from '../../server/src/buying/plan.ts';
import { shortest, type Squares, type Wish } from './brute-force.ts';
import { bestOf, expectRight, needOf, quick, specOf } from './support.ts';

const cloth = (width: number): string => `  role main\n  width ${width} usable ${width}\n  bought in lengths of 1`;
const other = (role: string, width: number): string => `material other "Other" {\n  role ${role}\n  width ${width} usable ${width}\n  bought in lengths of 1\n}`;
/** No turn and no flip brings it on to itself: three squares high, two wide at its foot. */
const boot = (lines: string): string => `piece boot "Boot" {\n  outline polygon from 0, 0 to 2, 0 to 2, 1 to 1, 1 to 1, 3 to 0, 3\n  grain up\n${lines}\n}`;

/** The same in squares along and across the cloth, as it lies with its top forwards, and turned. */
const up: Squares = [[0, 0], [0, 1], [1, 0], [2, 0]];
const turned: Squares = up.map(([along, across]) => [2 - along, 1 - across] as const);

describe('a piece that lies this way up', () => {
  const turnsOf = (lines: string, material: string, role = 'lining'): readonly number[] | undefined => needOf(specOf(cloth(9), `${other(role, 9)}\n${boot(lines)}`), 1, material).requirements[0]?.turns;

  it.each([
    ['  cut 1 cloth this way up\n  cut 1 other', [0], [0, 180]],
    ['  cut 1 other\n  cut 1 cloth this way up', [0], [0, 180]],
    ['  cut 1 cloth\n  cut 1 other this way up', [0, 180], [0]],
    ['  this way up\n  cut 1 cloth\n  cut 1 other', [0], [0]],
  ])('%s', (lines, ofCloth, ofOther) => {
    expect([turnsOf(lines, 'cloth'), turnsOf(lines, 'other')]).toEqual([ofCloth, ofOther]);
  });

  it('binds nothing that is fused behind it, unless its own line says so', () => {
    expect(turnsOf('  this way up\n  cut 1 cloth\n  cut 1 other', 'other', 'fusible')).toEqual([0, 180]);
    expect(turnsOf('  cut 1 cloth\n  cut 1 other this way up', 'other', 'fusible')).toEqual([0]);
  });

  // Tried against every lay on a grid of inches (test/buying/brute-force.ts), whose lays share no code with the program’s.
  it.each([[2, 3], [3, 3], [4, 4], [5, 3]])('takes no less than it must, and the others of its piece no more than they need: %i of each on cloth %i wide', (count, width) => {
    const spec = specOf(cloth(width), `${other('lining', width)}\n${boot(`  cut ${count} cloth this way up\n  cut ${count} other`)}`);
    const wish = (shapes: readonly Squares[]): readonly Wish[] => [{ choices: [[{ lying: { shapes, onFold: false }, count }]] }];
    const found = ['cloth', 'other'].map((material) => {
      const plan = planMaterial(needOf(spec, 1, material), { ...quick, effort: 0.2 });
      expectRight(plan);
      return Math.round(bestOf(plan).shortest.div('25.4').valueOf() * 100) / 100;
    });
    expect(found).toEqual([shortest(wish([up]), width, 30), shortest(wish([up, turned]), width, 30)]);
    expect(found[1]).toBeLessThan(found[0] ?? 0);
  });
});
