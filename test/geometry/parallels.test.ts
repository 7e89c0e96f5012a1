import { expect, test } from 'vitest';
import { leftPart, rowsWithin, stretchesWithin } from '../../server/src/geometry/parallels.ts';
import { polylineLength } from '../../server/src/geometry/measure.ts';

const square = [{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 10 }, { x: 0, y: 10 }];
/** A square with a notch of 4 by 4 in the middle of its top. */
const hollow = [{ x: 0, y: 0 }, { x: 10, y: 0 }, { x: 10, y: 10 }, { x: 7, y: 10 }, { x: 7, y: 6 }, { x: 3, y: 6 }, { x: 3, y: 10 }, { x: 0, y: 10 }];
const level = [{ x: 4, y: 5 }, { x: 5, y: 5 }] as const;
const lengths = (rows: readonly (readonly (readonly { x: number; y: number }[])[])[]): readonly (readonly number[])[] => rows.map((row) => row.map((run) => Math.round(polylineLength(run) * 1e6) / 1e6));

test('a line goes through a polygon however short it is drawn, moved to its left', () => {
  expect(stretchesWithin(square, level, 0)).toEqual([[{ x: 0, y: 5 }, { x: 10, y: 5 }]]);
  expect(stretchesWithin(square, level, 3)).toEqual([[{ x: 0, y: 8 }, { x: 10, y: 8 }]]);
  expect(stretchesWithin(square, level, 6)).toEqual([]);
});
test('a hollow parts it in two', () => {
  expect(lengths([stretchesWithin(hollow, level, 3)])).toEqual([[3, 3]]);
});
test('rows lie so far apart, from the right of the line on, and none along the border', () => {
  expect(rowsWithin(square, level, 2.5).map(([run]) => run?.[0]?.y)).toEqual([2.5, 5, 7.5]);
  expect(lengths(rowsWithin(hollow, level, 2))).toEqual([[10], [10], [10], [3, 3], [3, 3]]);
  // On a square, diagonals 5/√2 apart: one of 10√2, two of 5√2 (Pythagoras).
  const [short, long] = [5 * Math.SQRT2, 10 * Math.SQRT2].map((length) => Math.round(length * 1e6) / 1e6);
  expect(lengths(rowsWithin(square, [{ x: 1, y: 1 }, { x: 3, y: 3 }], 5 / Math.SQRT2))).toEqual([[short], [long], [short]]);
});
test('of a stretch what lies left of a line, or on it, is kept', () => {
  const up = [{ x: 5, y: 0 }, { x: 5, y: 1 }] as const;
  expect(leftPart([{ x: 0, y: 2 }, { x: 10, y: 2 }], up)).toEqual([{ x: 0, y: 2 }, { x: 5, y: 2 }]);
  expect(leftPart([{ x: 10, y: 2 }, { x: 0, y: 2 }], up)).toEqual([{ x: 5, y: 2 }, { x: 0, y: 2 }]);
  expect(leftPart([{ x: 5, y: 2 }, { x: 5, y: 4 }], up)).toEqual([{ x: 5, y: 2 }, { x: 5, y: 4 }]);
  expect(leftPart([{ x: 6, y: 2 }, { x: 8, y: 4 }], up)).toBeUndefined();
});
