import { expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

/* A window of 4 in by 2 in, from 2 to 6 and from 2 to 4, in cloth of 8 in by 6 in that is sewn 1/2 in from its edge. */
const faults = (film: string, lines = '', shell = 'without view'): readonly string[] =>
  pattern(`piece a "A" {\n  outline rectangle 8 by 6\n  window view = rectangle 4 by 2 centred at 4, 3\n  ${lines}\n  grain up\n  cut 1 cloth ${shell}\n  cut 1 cork ${film}\n}`, 'unit in\nallowance 1/2').faults;

it('a layer behind a window reaches 1/8 in over its edge all round, or is told of', () => {
  expect(faults('sized 3 by 1 on wrong side')).toEqual(['window-uncovered: sized 3 by 1']);
  expect(faults('sized 4 by 2 on right side')).toEqual(['window-uncovered: sized 4 by 2']);
  // 1/16 in on either side, then 1/8 in.
  expect(faults('sized 4 1/8 by 3 on wrong side')).toEqual(['window-uncovered: sized 4 1/8 by 3']);
  expect(faults('sized 4 1/4 by 2 1/4 on wrong side')).toEqual([]);
  expect(faults('sized 3 by 1 on wrong side', '', '')).toEqual([]);
});

it('so is one along a line, wherever it lies', () => {
  const along = (rectangle: string): readonly string[] => faults('along film on wrong side', `line film = rectangle ${rectangle}`);
  expect(along('4 1/4 by 2 1/4 at 1 7/8, 1 7/8')).toEqual([]);
  expect(along('4 1/4 by 2 1/4 at 2, 1 7/8')).toEqual(['window-uncovered: along film']);
  // It lies above the window, and covers none of it.
  expect(along('4 by 1 at 2, 4 1/2')).toEqual([]);
});

it('a layer with the same window covers nothing, and none is asked to reach into a seam', () => {
  expect(faults('along stitching without view on wrong side')).toEqual([]);
  expect(faults('along stitching on wrong side')).toEqual([]);
  const runsOut = (film: string): readonly string[] => faults(`along film on wrong side`, `window slot = rectangle 2 by 2 at 3, 0\n  line film = rectangle ${film}`, 'without slot');
  // From the seam at 1/2 in up to 2 in the film must be wider and higher, but not reach below the seam.
  expect(runsOut('2 1/4 by 1 5/8 at 2 7/8, 1/2')).toEqual([]);
  expect(runsOut('2 1/4 by 1 1/2 at 2 7/8, 1/2')).toEqual(['window-uncovered: along film']);
  expect(runsOut('2 by 1 5/8 at 3, 1/2')).toEqual(['window-uncovered: along film']);
});
