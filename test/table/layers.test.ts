import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

describe('layers', () => {
  const where = (lines: string, outline = 'rectangle 8 by 6', facts?: string): readonly string[] =>
    pattern(`piece a "A" {\n  outline ${outline}\n${lines}\n}`, facts).table().fusing.map((row) => row.where);

  it('beside a fold lie on the half that was drawn', () => {
    const beside = (fold: string, patch: string): readonly string[] => where(`  on fold ${fold}\n  line patch = rectangle ${patch}\n  cut 1 cloth on fold\n  cut 1 fuse along patch`, 'rectangle 4 1/4 by 5 3/8');
    // Opened out it is 4 1/4 by 10 3/4, or 8 1/2 by 5 3/8; the drawn half lies on the other side of the fold than its mirror image.
    expect(beside('top', '3 3/4 by 5 at 1/4, 1/4')).toEqual(['5 1/2 in inside the top, 1/4 in inside the bottom, 1/4 in inside left and right']);
    expect(beside('bottom', '3 3/4 by 5 at 1/4, 1/8')).toEqual(['1/4 in inside the top, 5 1/2 in inside the bottom, 1/4 in inside left and right']);
    expect(beside('left', '4 by 4 7/8 at 1/8, 1/4')).toEqual(['1/4 in inside top and bottom, 4 3/8 in inside the left, 1/8 in inside the right (seen from the right side)']);
    expect(beside('right', '4 by 4 7/8 at 1/8, 1/4')).toEqual(['1/4 in inside top and bottom, 1/8 in inside the left, 4 3/8 in inside the right (seen from the right side)']);
  });

  it('say where they lie on what they go on', () => {
    expect(where('  cut 1 cloth\n  cut 1 fuse')).toEqual(['edge to edge']);
    expect(where('  line core = inset 1/2\n  cut 1 cloth\n  cut 1 board along core')).toEqual(['1/2 in inside every edge']);
    expect(where('  line core = inset 1/2\n  cut 1 cloth\n  cut 1 board along core', 'circle across 6')).toEqual(['1/2 in inside every edge']);
    // 8 − 5 and 6 − 5, halved.
    expect(where('  cut 1 cloth\n  cut 1 board sized 5 by 5')).toEqual(['centred: 1 1/2 in inside left and right, 1/2 in inside top and bottom']);
    expect(where('  cut 1 cloth\n  cut 1 board sized 8 by 5')).toEqual(['centred: flush with the left and right, 1/2 in inside top and bottom']);
    expect(where('  line strip = rectangle 8 by 2 at 0, 4\n  cut 1 cloth\n  cut 1 board along strip')).toEqual(['flush with the top and the left and right, 4 in inside the bottom']);
    expect(where('  line patch = rectangle 3 by 2 at 1, 1\n  cut 1 cloth\n  cut 1 board along patch')).toEqual(['3 in inside the top, 1 in inside the bottom, 1 in inside the left, 4 in inside the right (seen from the right side)']);
    expect(where('  cut 1 cloth\n  cut 1 fuse large by 1/4')).toEqual(['standing out 1/4 in all round']);
    // A box round a circle is inside every edge of the box, but not of the circle.
    expect(where('  line core = rectangle 4 by 4\n  cut 1 cloth\n  cut 1 board along core', 'circle across 6')).toEqual(['centred: 1 in inside left and right, 1 in inside top and bottom']);
  });

  it('are measured on the cloth as it is cut', () => {
    expect(where('  line core = inset 1\n  cut 1 cloth along stitching\n  cut 1 board along core', 'rectangle 8 by 6', 'unit in\nallowance 1/2')).toEqual(['1/2 in inside every edge']);
  });

  it('are as many as there is cloth for, and no more', () => {
    const counts = (lines: string): readonly (readonly [string, number])[] => pattern(`piece a "A" {\n  outline rectangle 8 by 6\n${lines}\n}`).table().fusing.map((row) => [row.layer, row.count]);
    expect(counts('  cut 4 cloth\n  cut 2 fuse\n  cut 4 board')).toEqual([['Fusible', 2], ['Board', 4]]);
    expect(counts('  cut 2 cloth\n  cut 4 fuse')).toEqual([['Fusible', 2]]);
  });
});
