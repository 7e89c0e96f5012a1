import { expect, it } from 'vitest';
import { pattern } from '../../support/spec.ts';

/** Two gores: the right side of the one leans in by `lean`, the left side of the other out or in; both 12 high, hem below. */
const gores = (lean: number, other: number, seam: string): readonly string[] => pattern(`piece one {
  outline polygon from 0, 0 to 10, 0 to ${10 - lean}, 12 to 0, 12
  edge side2 as side
  edge all raw
  cut 1 cloth
}
piece two {
  outline polygon from ${other}, 0 to 20, 0 to 20, 12 to 0, 12
  edge side4 as side
  edge all raw
  cut 1 cloth
}
seam s = one.side from start to end with two.side from end to start within 1 ${seam}`, 'unit in\nallowance none\ndrawn to stitching').problems.filter(({ code }) => code === 'corner-kinked').map(({ message }) => message);

/** The angle of a side that leans by so much on a height of 12 (trigonometry, not the program's). */
const leaning = (by: number): number => Math.round(((Math.atan2(12, by) * 180) / Math.PI) * 10) / 10;

it('angles that make a straight line are smooth at both ends', () => {
  expect(gores(3, 3, 'smooth')).toEqual([]);
});
it('those that don’t are told with both, at the end that is asked of', () => {
  const start = `At the start of “s” the outline doesn’t run on smoothly: one.side meets one.side1 at ${leaning(3)}° and two.side meets two.side1 at 90°, together ${leaning(3) + 90}° instead of 180°, so that it comes to a point there.`;
  const end = `At the end of “s” the outline doesn’t run on smoothly: one.side meets one.side3 at ${180 - leaning(3)}° and two.side meets two.side3 at 90°, together ${270 - leaning(3)}° instead of 180°, so that it has a notch there.`;
  expect(gores(3, 0, 'smooth')).toEqual([start, end]);
  expect(gores(3, 0, 'smooth at start')).toEqual([start]);
  expect(gores(3, 0, 'smooth at end')).toEqual([end]);
});
it('a bend of three degrees is allowed unless something else is said', () => {
  // 12 tan 2.9° is 0.608, and 12 tan 3.1° is 0.65.
  expect(gores(0.6, 0, 'smooth')).toEqual([]);
  expect(gores(0.66, 0, 'smooth')).toHaveLength(2);
  expect(gores(0.66, 0, 'smooth within 4 deg')).toEqual([]);
  expect(gores(0.6, 0, 'smooth within 2 deg')).toHaveLength(2);
});
it('a run that ends within an edge has 180 degrees there', () => {
  const messages = pattern(`piece one {
  outline rectangle 10 by 12
  edge all raw
  cut 1 cloth
}
piece two {
  outline rectangle 10 by 6
  edge all raw
  cut 1 cloth
}
seam s = one.left from 0 to 6 with two.right smooth at end`, 'unit in\nallowance none\ndrawn to stitching').problems.filter(({ code }) => code === 'corner-kinked').map(({ message }) => message);
  expect(messages).toEqual(['At the end of “s” the outline doesn’t run on smoothly: one.left runs on (180°) and two.right meets two.top at 90°, together 270° instead of 180°, so that it has a notch there.']);
});
it('where the spec leaves open which ends meet, they meet as smoothly as they can', () => {
  const messages = (turn: string): readonly string[] => pattern(`piece one {
  outline polygon from 0, 0 to 10, 0 to 7, 12 to 0, 12
  edge side2 as side
  edge all raw
  cut 1 cloth
}
seam s = one.side with one.side ${turn}smooth`, 'unit in\nallowance none\ndrawn to stitching').problems.filter(({ code }) => code === 'corner-kinked').map(({ message }) => message);
  // Start meets end: the acute angle lies at the obtuse one.
  expect(messages('')).toEqual([]);
});
