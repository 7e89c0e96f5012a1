import { describe, expect, test } from 'vitest';
import { boundsOfPoints } from '../../../server/src/geometry/measure.ts';
import { stepDrawings } from '../../../server/src/table/step-drawings.ts';
import { pattern } from '../../support/spec.ts';

const facts = 'unit cm\nallowance 1\ndrawn to stitching';
const pieces = (more = '') => `piece front "Front" {\n  outline rectangle 10 by 6\n  edge all raw\n${more}\n  cut 1 cloth\n}\npiece back "Back" {\n  outline rectangle 10 by 6\n  edge all raw\n${more}\n  cut 1 cloth\n}\n`;
/** Round three sides: 6, 10 and 6 long. */
const round = 'seam s "Round" = front.left, front.bottom, front.right with back.right, back.bottom, back.left';
const made = (seam: string, more?: string) => pattern(`${pieces(more)}${seam}\nstep "Sew." does s`, facts);
const told = (seam: string): string | undefined => made(seam).table().sewing[0]?.open;
const from = (seam: string): number => Math.round(pattern(`${pieces()}${seam}\nlength asked = s.open_from`, facts).value('asked').amount.valueOf() * 1e4) / 1e5;

/** What the step's picture draws of each piece, by the boxes of its lines in centimetres. */
function drawn(seam: string, more?: string): readonly (readonly string[])[] {
  const { pattern: found } = made(seam, more);
  const [step] = stepDrawings(found.resolve(new Map()), found.display);
  return (step?.pieces ?? []).map(({ lines }) => lines.map(({ points }) => {
    const { minX, minY, maxX, maxY } = boundsOfPoints(points);
    return [minX, minY, maxX, maxY].map((at) => String(Math.round(at) / 10)).join(' ');
  }));
}

describe('where an opening lies', () => {
  test('is its middle, along the seam from its start', () => {
    expect(from(`${round} open 4 at 50%`)).toBe((22 - 4) / 2);
    expect(from(`${round} open 4 at 2`)).toBe(0);
    expect(from(`${round} open 4 at 20`)).toBe(18);
  });
  test('or along one of its edges, as notches are measured', () => {
    // The second run goes down the right side, then along the bottom from right to left: 3 from the left is 6 + 7 along it.
    expect(from(`${round} open 4 on back.bottom at 3`)).toBe(6 + 7 - 2);
    // The first goes down the left side, then from left to right.
    expect(from(`${round} open 4 on front.bottom at 3`)).toBe(6 + 3 - 2);
    expect(from(`${round} open 2 on back.left at 25%`)).toBe(6 + 10 + 1.5 - 1);
  });
  test('is told by the edge that it is on, or along the whole', () => {
    expect(told(`${round} open 4`)).toBe('of it 4 cm left open');
    expect(told(`${round} open 4 at 50%`)).toBe('of it 4 cm left open, in the middle of Back: bottom');
    expect(told(`${round} open 4 on back.bottom at 3`)).toBe('of it 4 cm left open, on Back: bottom, 1 cm to 5 cm from its left end');
    expect(told(`${round} open 14 at 50%`)).toBe('of it 14 cm left open, in its middle');
    expect(told(`${round} open 8 at 5`)).toBe('of it 8 cm left open, from 1 cm to 9 cm along it');
  });
});

test('an opening that begins where a dart is closed begins behind it', () => {
  // Closed, the dart from 4 to 6 lies at 4, and what is sewn from 4 to 6 is the cloth from 6 to 8.
  expect(made('seam s = front.bottom with back.bottom open 2 at 5', '  dart d on bottom at 5 wide 2 deep 2').table().sewing.find(({ seam }) => seam === 's')?.open).toBe('of it 2 cm left open, on Back: bottom, 6 cm to 8 cm from its left end');
});

describe('the picture of its step draws a seam only where it is sewn', () => {
  test('on both pieces, which lie mirrored to one another', () => {
    expect(drawn(`${round} open 4 on back.bottom at 3`)).toEqual([
      ['0 0 0 6', '0 0 5 0', '9 0 10 0', '10 0 10 6'],
      ['10 0 10 6', '5 0 10 0', '0 0 1 0', '0 0 0 6'],
    ]);
  });
  test('of edges that are sewn to their own like, as on the copy that it is measured on', () => {
    const { pattern: found } = pattern('piece p "Piece" {\n  outline rectangle 10 by 6\n  edge all raw\n  cut 2 cloth\n}\nseam s = p.bottom, p.right with p.bottom, p.left open 2 on p.bottom at 2\nseam t = p.top with p.top open 2 at 2\nstep "1" does s\nstep "2" does t', facts);
    const [, second] = stepDrawings(found.resolve(new Map()), found.display);
    expect(second?.pieces.flatMap(({ lines }) => lines.map(({ points }) => points.map(({ x }) => Math.round(x) / 10)))).toEqual([[1, 0], [10, 3]]);
  });
  test('all of it where nothing says where it lies', () => {
    expect(drawn(`${round} open 4`)).toEqual([['0 0 0 6', '0 0 10 0', '10 0 10 6'], ['10 0 10 6', '0 0 10 0', '0 0 0 6']]);
  });
  test('of two edges without a direction, from where they are measured', () => {
    expect(drawn('seam s = front.bottom with back.bottom open 4 at 3')).toEqual([['0 0 1 0', '5 0 10 0'], ['0 0 1 0', '5 0 10 0']]);
    // An upper edge is drawn from right to left, but measured from its left.
    expect(drawn('seam s = front.top with back.top open 4 at 3')).toEqual([['0 6 1 6', '5 6 10 6'], ['0 6 1 6', '5 6 10 6']]);
  });
  test('of edges that meet turned, as their notches say, from the other end', () => {
    // 2 from the left of the front meets 2 from the right of the back: what is open from 1 to 5 there is open from 5 to 9 here.
    const piece = (name: string, notch: number): string => `piece ${name} "${name}" {\n  outline rectangle 10 by 6\n  edge all raw\n  notch bottom at ${notch}\n  cut 1 cloth\n}\n`;
    const { pattern: found } = pattern(`${piece('front', 2)}${piece('back', 8)}seam s = front.bottom with back.bottom open 4 at 3\nstep "Sew." does s`, facts);
    const [step] = stepDrawings(found.resolve(new Map()), found.display);
    expect(step?.pieces.map(({ lines }) => lines.map(({ points }) => points.map(({ x }) => Math.round(x) / 10)))).toEqual([[[0, 5], [9, 10]], [[0, 1], [5, 10]]]);
  });
  test('with ease spread evenly, and over a dart', () => {
    expect(drawn('seam s = front.bottom with back.bottom from 0 to 8 eased by 2 open 4 at 3')[0]).toEqual(['0 0 1.3 0', '6.3 0 10 0']);
    // Eight are sewn, of which 3 to 5 stay open: in the cloth from 3 to 7, since the dart takes 4 to 6.
    expect(drawn('seam s = front.bottom with back.bottom open 2 at 50%', '  dart d on bottom at 5 wide 2 deep 2')[0]).toEqual(['0 0 3 0', '7 0 10 0']);
  });
});

test('an opening lies within its seam, on an edge of it', () => {
  const faults = (seam: string): readonly string[] => made(seam).faults.filter((fault) => !fault.startsWith('left-out') && !fault.startsWith('edges-left'));
  expect(faults(`${round} open 4 at 1`)).toEqual(['open-beyond: 1']);
  expect(faults(`${round} open 4 at 21`)).toEqual(['open-beyond: 21']);
  expect(faults(`${round} open 4 on back.top at 3`)).toEqual(['open-elsewhere: back.top']);
  expect(faults(`${round} open 22 at 50%`)).toEqual(['open-too-long: 22']);
  expect(faults(`${round} open 4 on back.left at 5`)).toEqual(['open-beyond: 5']);
  expect(pattern(`${pieces()}${round} open 4\nlength asked = s.open_from`, facts).faults).toContain('wrong-thing: open_from');
});
