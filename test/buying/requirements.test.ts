import { describe, expect, it } from 'vitest';
import { simplified } from '../../server/src/buying/simplify.ts';
import { boundsOfPoints } from '../../server/src/geometry/measure.ts';
import { areaOf } from '../../server/src/lay/bounds/outline.ts';
import { requirementOf } from './support.ts';

const plain = '  role main\n  width 44 usable 42\n  faces differ';
const rectangle = (body: string): string => `piece part "Part" {\n  outline rectangle 6 by 4\n${body}\n}`;
/** A corner is cut off, so that no flip brings it on to itself. */
const lopsided = (body: string): string => `piece part "Part" {\n  outline polygon from 0, 0 to 6, 0 to 6, 2 to 3, 4 to 0, 4\n${body}\n}`;

describe('turns', () => {
  const sizeOf = (points: readonly { x: number; y: number }[]): readonly number[] => {
    const box = boundsOfPoints(points);
    return [box.maxX - box.minX, box.maxY - box.minY].map((side) => Math.round((side / 25.4) * 1e6) / 1e6);
  };

  it('lays the grain along the cloth, which is x here and upright in the model', () => {
    const up = requirementOf(plain, rectangle('  grain up\n  cut 1 cloth'));
    expect(sizeOf(up.outline)).toEqual([4, 6]);
    expect(up.turns).toEqual([0, 180]);
    const across = requirementOf(plain, rectangle('  grain across\n  cut 1 cloth'));
    expect(sizeOf(across.outline)).toEqual([6, 4]);
    expect(across.turns).toEqual([0, 180]);
  });

  it('turns a piece across only where it may lie so', () => {
    const either = requirementOf(plain, rectangle('  grain up or across\n  cut 1 cloth'));
    expect([...either.turns].sort((a, b) => a - b)).toEqual([0, 90, 180, 270]);
  });

  it('turns nothing upside down on one-way cloth', () => {
    expect(requirementOf(`${plain}\n  direction one way`, rectangle('  grain up\n  cut 1 cloth')).turns).toEqual([0]);
    expect([...requirementOf(`${plain}\n  direction one way`, rectangle('  grain up or across\n  cut 1 cloth')).turns].sort((a, b) => a - b)).toEqual([0, 90]);
  });

  it('keeps what has a way up from lying sideways on one-way cloth', () => {
    expect(requirementOf(`${plain}\n  direction one way`, rectangle('  grain up or across\n  this way up\n  cut 1 cloth')).turns).toEqual([0]);
  });

  it('lays a bias piece slantwise: a square of 6 in lies on its corner', () => {
    const bias = requirementOf(plain, 'piece part "Part" {\n  outline rectangle 6 by 6\n  grain bias\n  cut 1 cloth\n}');
    const diagonal = Math.round(6 * Math.SQRT2 * 1e6) / 1e6;
    expect(sizeOf(bias.outline)).toEqual([diagonal, diagonal]);
    expect(bias.turns).toEqual([0, 180]);
  });

  it('turns a slanting grain back: 30° to the left of upright brings a level side to 60° on the cloth', () => {
    const slanting = requirementOf(plain, 'piece part "Part" {\n  outline rectangle 6 by 1\n  grain 30 deg\n  cut 1 cloth\n}');
    const [a, b] = slanting.outline;
    const angle = (Math.atan2((b?.y ?? 0) - (a?.y ?? 0), (b?.x ?? 0) - (a?.x ?? 0)) * 180) / Math.PI;
    expect((angle + 360) % 180).toBeCloseTo(60, 6);
    expect(slanting.turns).toEqual([0, 180]);
  });

  it('tries the quarters and the long sides where any turn is allowed, of either hand', () => {
    const free = requirementOf('  role non-fray\n  width 27', 'piece part "Part" {\n  outline polygon from 0, 0 to 6, 0 to 3, 4\n  cut 1 cloth\n}');
    expect(free.turns).toEqual(expect.arrayContaining([0, 90, 180, 270]));
    for (const turn of free.turns) expect(free.turns.some((other) => Math.abs(((turn + other) % 360)) < 0.01 || Math.abs(((turn + other) % 360) - 360) < 0.01)).toBe(true);
    // 4 in up and 3 in along: the slanting sides lie at 53.13°.
    expect(free.turns.some((turn) => Math.abs((turn % 90) - 53.13) < 0.01 || Math.abs((turn % 90) - 36.87) < 0.01)).toBe(true);
  });
});

describe('hands', () => {
  const count = (facts: string, piece: string): string => {
    const { asDrawn, mirrored, either } = requirementOf(facts, piece).count;
    return `${asDrawn} as drawn, ${mirrored} mirrored, ${either} either`;
  };

  it('flips nothing on cloth with a right side, unless flipping changes nothing', () => {
    expect(count(plain, lopsided('  cut 3 cloth'))).toBe('3 as drawn, 0 mirrored, 0 either');
    expect(count(plain, lopsided('  cut 3 cloth mirrored'))).toBe('0 as drawn, 3 mirrored, 0 either');
    expect(count(plain, lopsided('  cut 4 cloth twins'))).toBe('2 as drawn, 2 mirrored, 0 either');
    expect(count(plain, rectangle('  cut 3 cloth'))).toBe('0 as drawn, 0 mirrored, 3 either');
  });

  it('flips freely where both faces are alike', () => {
    expect(count('  role foam\n  width 44\n  faces alike', lopsided('  cut 4 cloth twins'))).toBe('0 as drawn, 0 mirrored, 4 either');
  });
});

describe('glued layers', () => {
  const shell = 'material shell "Shell" {\n  role main\n  width 44\n}\n';
  const glued = '  role fusible\n  width 20';
  it('are of one hand seen on the glue: “as drawn glue up” and “flipped glue down” are the same', () => {
    const piece = (clause: string): string => `${shell}${lopsided(`  cut 1 shell${clause}\n  cut 1 cloth${clause}`)}`;
    const { count } = requirementOf(glued, piece(''));
    expect([count.asDrawn, count.mirrored, count.either]).toEqual([1, 0, 0]);
    const mirrored = requirementOf(glued, piece(' mirrored')).count;
    expect([mirrored.asDrawn, mirrored.mirrored, mirrored.either]).toEqual([0, 1, 0]);
  });
});

describe('halves on a fold', () => {
  const half = (body: string): string => `piece part "Part" {\n  outline path from 0, 0 {\n    line to 5, 0 as hem\n    line to 3, 8 as side\n    line to 0, 8 as top\n    close as centre\n  }\n  on fold centre\n${body}\n}`;

  it('lie with the fold edge on y = 0, and are half the piece', () => {
    const { half: laid, outline } = requirementOf(plain, half('  grain up\n  cut 1 cloth on fold'));
    expect(laid).toBeDefined();
    expect(2 * areaOf(laid?.outline ?? [])).toBeCloseTo(areaOf(outline), 0);
    expect(Math.min(...(laid?.outline ?? []).map((point) => point.y))).toBe(0);
    const onFold = (laid?.outline ?? []).filter((point) => point.y === 0).map((point) => point.x);
    expect(Math.max(...onFold) - Math.min(...onFold)).toBeCloseTo(8 * 25.4, 2);
    expect(laid?.turns).toEqual([0, 180]);
  });

  it('cannot lie on a lengthwise fold when the fold runs across the grain', () => {
    expect(requirementOf(plain, half('  grain across\n  cut 1 cloth on fold')).half).toBeUndefined();
    expect(requirementOf(plain, half('  grain across or up\n  cut 1 cloth on fold'.replace('across or up', 'up or across'))).half).toBeDefined();
  });
});

describe('simplified outlines', () => {
  it('stay within the tolerance of a circle, with far fewer corners', () => {
    const circle = Array.from({ length: 720 }, (_, i) => ({ x: 60 * Math.cos((i * Math.PI) / 360), y: 60 * Math.sin((i * Math.PI) / 360) }));
    const simple = simplified(circle, 0.05);
    expect(simple.length).toBeLessThan(150);
    for (const [index, a] of simple.entries()) {
      const b = simple[(index + 1) % simple.length] as { x: number; y: number };
      expect(60 - Math.hypot((a.x + b.x) / 2, (a.y + b.y) / 2)).toBeLessThan(0.051);
    }
  });
});
