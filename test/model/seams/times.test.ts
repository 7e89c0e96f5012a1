import { describe, expect, it } from 'vitest';
import { pattern } from '../../support/spec.ts';

const piece = (name: string, cuts: string): string => `piece ${name} {\n  outline rectangle 8 by 6\n  edge all raw\n${cuts}\n}\n`;
/** How often each seam is sewn, in the order of the spec: counted on paper, copy by copy. */
const times = (body: string): readonly number[] => pattern(body).table().sewing.map((row) => row.times);

describe('how often a seam is sewn', () => {
  it('is as often as there are copies of both', () => {
    expect(times(`${piece('a', '  cut 4 cloth')}${piece('b', '  cut 4 cloth')}seam s = a.left with b.right`)).toEqual([4]);
    expect(times(`${piece('a', '  cut 1 cloth')}seam s = a.left with a.right`)).toEqual([1]);
    expect(times(`${piece('a', '  cut 2 cloth')}seam s = a.left with a.left`)).toEqual([1]);
    expect(times(`${piece('a', '  cut 6 cloth')}seam s = a.left, a.bottom with a.left, a.bottom`)).toEqual([3]);
  });
  it('is on its own copies, where two seams share an edge', () => {
    // Two fronts, one sewn to each of two different backs.
    expect(times(`${piece('front', '  cut 2 cloth')}${piece('one', '  cut 1 cloth')}${piece('two', '  cut 1 cloth')}seam s = front.left with one.left\nseam t = front.left with two.left`)).toEqual([1, 1]);
    // Four fronts: two of them go to each of the backs, of which there are two.
    expect(times(`${piece('front', '  cut 4 cloth')}${piece('one', '  cut 2 cloth')}${piece('two', '  cut 4 cloth')}seam s = front.left with one.left\nseam t = front.left with two.left`)).toEqual([2, 2]);
  });
  it('is once each in outside and lining', () => {
    expect(times(`${piece('a', '  cut 2 cloth\n  cut 2 lining')}${piece('b', '  cut 2 cloth\n  cut 2 lining')}seam s = a.left with b.left`)).toEqual([4]);
    expect(times(`${piece('a', '  cut 2 cloth\n  cut 2 lining')}${piece('b', '  cut 2 lining')}seam s = a.left with b.left`)).toEqual([2]);
  });
  it('is as often as can be, where the copies don’t come out', () => {
    expect(times(`${piece('a', '  cut 1 cloth')}${piece('b', '  cut 1 cloth')}${piece('c', '  cut 1 cloth')}seam s = a.left with b.left\nseam t = a.left with c.left`)).toEqual([1, 1]);
    expect(times(`piece a {\n  outline rectangle 8 by 6\n  placement at_ = rectangle 2 by 2 at 1, 1\n  edge all raw\n  cut 2 cloth\n}\npiece b {\n  outline rectangle 2 by 2\n  edge all raw\n  cut 3 cloth\n}\nseam s = b.left, b.bottom, b.right, b.top onto a.at_`)).toEqual([3]);
  });
});
