import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

describe('the corners of a rectangle are told of all that is cut', () => {
  const notes = (corner: string, more = ''): readonly (readonly string[])[] => pattern(`piece a {\n  outline rectangle 10 by 8\n  drawn to stitching\n  corner ${corner}\n${more}  cut 1 cloth\n  cut 1 fuse along stitching\n}`, 'unit cm\nallowance 1').rows().map((row) => row.notes);

  it.each([
    // Both sides of a box move out with the edges beside them.
    ['bottom box 2', ['both bottom corners boxed out 2 cm'], ['both bottom corners boxed out 2 cm']],
    ['all box 2 by 1', ['all corners boxed out 2 cm × 1 cm'], ['all corners boxed out 2 cm × 1 cm']],
    ['top_left box 1.5', ['top left corner boxed out 1.5 cm'], ['top left corner boxed out 1.5 cm']],
    // A curve is wider on the cutting line, which its template has.
    ['bottom round 2', ['both bottom corners rounded'], ['both bottom corners rounded 2 cm']],
    ['top chamfer 1', ['both top corners chamfered'], ['both top corners chamfered 1 cm']],
  ])('%s', (corner, cloth, layer) => expect(notes(corner)).toEqual([cloth, layer]));

  it('with a box as wide as it is there, and none where its corners differ', () => {
    // The level side ends 1 cm further out, and the left edge 3 cm: 2 + 3 - 1.
    expect(notes('bottom_left box 2', '  allowance left 3\n')).toEqual([['bottom left corner boxed out 4 cm × 2 cm'], ['bottom left corner boxed out 2 cm']]);
    expect(notes('bottom box 2', '  allowance left 3\n')).toEqual([['both bottom corners boxed out'], ['both bottom corners boxed out 2 cm']]);
    expect(notes('bottom_left box 2', '  edge bottom_left_level as notch_side\n')).toEqual([['bottom left corner boxed out'], ['bottom left corner boxed out 2 cm']]);
  });

  it('and not of another line inside', () => {
    expect(pattern('piece a {\n  outline rectangle 10 by 8\n  corner bottom box 2\n  line core = inset 1\n  cut 1 cloth\n  cut 1 fuse along core\n}', 'unit cm\nallowance none').rows().map((row) => row.notes)).toEqual([['both bottom corners boxed out 2 cm'], []]);
  });
});

it('what is caught folded has no notches, whatever the edge that it is laid on has', () => {
  const rows = pattern(`piece front {
  outline rectangle 20 by 16
  notch left at 5
  edge top raw
  edge bottom raw
  edge right raw
  cut 1 cloth
}
piece back {
  outline rectangle 20 by 16
  notch right at 5
  edge top raw
  edge bottom raw
  edge left raw
  cut 1 cloth
}
piece loop {
  outline rectangle 4 by 6
  foldline middle = upright at 2
  folded middle
  edge left raw
  edge right raw
  edge top raw
  cut 1 cloth
}
seam caught = loop.bottom folded onto front.left from 3 to 5
seam side = front.left with back.right`, 'unit cm\nallowance none').table().sewing.map(({ seam, notches }) => [seam, notches]);
  expect(rows).toEqual([['caught', ''], ['side', '1 notch']]);
});
