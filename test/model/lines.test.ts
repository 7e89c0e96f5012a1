import { describe, expect, it } from 'vitest';
import { polygonArea } from '../../server/src/geometry/measure.ts';
import type { InnerLine } from '../../server/src/model/piece/piece.ts';
import { pattern } from '../support/spec.ts';

const piece = (lines: string, facts = 'unit in\nallowance 1/2', outline = 'rectangle 8 by 6'): ReturnType<typeof pattern> =>
  pattern(`piece a {\n  outline ${outline}\n${lines}\n  cut 1 cloth\n}`, facts);
const line = (found: ReturnType<typeof pattern>, name = 'l'): InnerLine => {
  const one = found.shape('a').lines.find((other) => other.name === name);
  if (one === undefined) throw new Error(`no line ${name}: ${found.faults.join('\n')}`);
  return one;
};
const box = ({ points }: InnerLine): readonly number[] => {
  const round = (value: number): number => Math.round((value / 25.4) * 1e6) / 1e6;
  const [xs, ys] = [points.map((point) => point.x), points.map((point) => point.y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)].map(round);
};

describe('insets', () => {
  it('lie so far within the cutting line', () => {
    expect(box(line(piece('  line l = inset 1')))).toEqual([1, 1, 7, 5]);
  });

  it('or within the stitching line', () => {
    expect(box(line(piece('  line l = inset 1 from stitching')))).toEqual([1.5, 1.5, 6.5, 4.5]);
    expect(box(line(piece('  drawn to stitching\n  line l = inset 1 from cutting')))).toEqual([0.5, 0.5, 7.5, 5.5]);
  });

  it('or differently at some edges', () => {
    expect(box(line(piece('  line l = inset 1 except top 2, left 0')))).toEqual([0, 1, 7, 4]);
    expect(piece('  line l = inset 1 except tp 2').only('unknown-part').message).toContain('top');
  });

  it('stay on a fold', () => {
    const found = piece('  on fold left\n  line l = inset 1');
    expect(box(line(found))).toEqual([0, 1, 7, 5]);
    expect(line(found).rectangle?.width.div('25.4').valueOf()).toBe(14);
  });

  it('must be more than nothing, and leave something', () => {
    expect(piece('  line l = inset 0').only('inset-not-positive').marked).toBe('0');
    expect(piece('  line l = inset -1/4').only('inset-not-positive').marked).toBe('-1/4');
    expect(piece('  line l = inset 3').only('inset-vanishes').marked).toBe('inset 3');
  });
});

describe('lines across', () => {
  it('run from edge to edge', () => {
    expect(box(line(piece('  foldline l = level at 2')))).toEqual([0, 2, 8, 2]);
    expect(box(line(piece('  foldline l = upright at 3')))).toEqual([3, 0, 3, 6]);
    // A triangle 8 wide and 6 high is 4 wide at half its height.
    expect(box(line(piece('  foldline l = level at 3', 'unit in\nallowance none', 'polygon from 0, 0 to 8, 0 to 4, 6')))).toEqual([2, 3, 6, 3]);
  });

  it('must meet the piece', () => {
    const found = piece('  foldline l = level at 8 1/2');
    expect(found.only('outside-piece').message).toBe('The line reaches 2 1/2 in outside its piece.');
    expect(piece('  foldline l = upright at -1').only('outside-piece').marked).toBe('-1');
  });
});

describe('placements and windows', () => {
  it('stand where they are put, by their corner or their middle, else in the middle', () => {
    expect(box(line(piece('  placement l = rectangle 2 by 1 at 1, 3')))).toEqual([1, 3, 3, 4]);
    expect(box(line(piece('  placement l = rectangle 2 by 1 centred at 4, 3')))).toEqual([3, 2.5, 5, 3.5]);
    expect(box(line(piece('  placement l = rectangle 2 by 1')))).toEqual([3, 2.5, 5, 3.5]);
    expect(box(line(piece('  placement l = circle across 2 centred at 4, 3')))).toEqual([3, 2, 5, 4]);
  });

  it('may be open runs, paths or polygons', () => {
    expect(line(piece('  placement l = from 1, 1 to 3, 1 to 3, 4')).closed).toBe(false);
    expect(line(piece('  placement l = polygon from 1, 1 to 3, 1 to 3, 4')).closed).toBe(true);
    expect(line(piece('  placement l = path from 1, 1 {\n    line to 3, 1\n    arc to 3, 3 radius 1 left\n  }')).closed).toBe(false);
    const closed = line(piece('  placement l = path from 1, 1 {\n    line to 3, 1\n    arc to 3, 3 radius 1 left\n    line to 1, 3\n    close\n  }'));
    expect(closed.closed).toBe(true);
    expect(Math.abs(polygonArea(closed.points)) / 25.4 ** 2).toBeCloseTo(4 + Math.PI / 2, 2);
  });

  it('must lie in their piece', () => {
    const found = piece('  placement l = rectangle 2 by 1 at 7, 3').only('outside-piece');
    expect(found.message).toBe('The placement line “l” reaches 1 in outside its piece.');
    expect(piece('  window l = rectangle 2 by 1 at 1, -1/2').only('outside-piece').message).toContain('window “l” reaches 1/2 in');
    expect(piece('  window l = from 1, 1 to 3, 3').only('window-open').severity).toBe('error');
  });

  it('have names of their own', () => {
    expect(piece('  line top = inset 1').only('duplicate-name').marked).toBe('top');
    expect(piece('  line l = inset 1\n  line l = inset 2').only('duplicate-name').marked).toBe('l');
    expect(piece('  line cutting = inset 1').only('duplicate-name').marked).toBe('cutting');
    expect(piece('  line l = inset 1\n  mark l at 2, 2').only('duplicate-name').marked).toBe('l');
  });
});

describe('notches', () => {
  const at = (notch: string, facts?: string): readonly number[] => {
    const found = piece(`  ${notch}`, facts);
    const one = found.shape('a').notches[0];
    if (one === undefined) throw new Error(found.faults.join('\n'));
    return [one.point.x / 25.4, one.point.y / 25.4, one.inward.x, one.inward.y].map((value) => Math.round(value * 1e6) / 1e6 || 0);
  };
  it('lie so far along an edge, from the left or from below', () => {
    expect(at('notch bottom at 2')).toEqual([2, 0, 0, 1]);
    expect(at('notch top at 2')).toEqual([2, 6, 0, -1]);
    expect(at('notch left at 2')).toEqual([0, 2, 1, 0]);
    expect(at('notch right at 2')).toEqual([8, 2, -1, 0]);
  });

  it('or from the other end, or at a share', () => {
    expect(at('notch top at 2 from end')).toEqual([6, 6, 0, -1]);
    expect(at('notch left at 2 from end')).toEqual([0, 4, 1, 0]);
    expect(at('notch top at 25%')).toEqual([2, 6, 0, -1]);
    expect(at('notch top at 25% from end')).toEqual([6, 6, 0, -1]);
    expect(at('notch top at 5 cm')[0]).toBeCloseTo(50 / 25.4, 6);
  });

  it('lie on the cutting line, square out from where they are on the line drawn', () => {
    expect(at('notch top at 2', 'unit in\nallowance 1/2\ndrawn to stitching')).toEqual([2, 6.5, 0, -1]);
    expect(at('notch left at 2', 'unit in\nallowance 1/2\ndrawn to stitching')).toEqual([-0.5, 2, 1, 0]);
  });

  it('must lie on their edge', () => {
    expect(piece('  notch top at 8 1/4').only('off-edge').message).toBe('This notch lies beyond the edge “top”, which is 8 in long.');
    expect(piece('  notch top at 120%').only('off-edge').marked).toBe('120%');
    expect(piece('  notch tip at 1').only('unknown-part').marked).toBe('tip');
  });
});

describe('marks', () => {
  it('stand at their point, drilled or not, with the snap that they are for', () => {
    const found = piece('  mark eye for snap 14 mm at 2, 3\n  drill hole at 1, 1');
    expect(found.shape('a').marks.map(({ name, use, snap }) => [name, use, snap?.valueOf()])).toEqual([['eye', 'mark', 14], ['hole', 'drill', undefined]]);
  });

  it('must lie in their piece', () => {
    expect(piece('  mark eye at 9, 3').only('outside-piece').message).toBe('The mark “eye” reaches 1 in outside its piece.');
    expect(piece('  drill eye at 9, 3').only('outside-piece').message).toContain('drill hole “eye”');
  });
});

describe('a shape without a position', () => {
  it('lies in the middle of what is drawn, however wide the allowances', () => {
    const { marks } = pattern('piece a "A" {\n  outline rectangle 8 by 6\n  allowance top 3\n  placement label = rectangle 4 by 2\n  cut 1 cloth\n}', 'unit in\ndrawn to stitching\nallowance 1/2').table();
    // From the cut edge: 1/2 and then (8 − 4)/2; 1/2 and then (6 − 2)/2.
    expect(marks.map(({ mark, fromLeft, fromBelow }) => [mark, fromLeft?.text, fromBelow?.text])).toEqual([['label', '2 1/2 in', '2 1/2 in']]);
  });
});
