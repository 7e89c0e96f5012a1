import { expect, test } from 'vitest';
import { itemAt, pairs, sides } from '../../server/src/geometry/lists.ts';

test('an item is given by its place, and a place outside the list is refused', () => {
  expect(itemAt(['a', 'b'], 1)).toBe('b');
  expect(() => itemAt(['a', 'b'], 2)).toThrow(RangeError);
  expect(() => itemAt(new Float64Array(0), 0)).toThrow(RangeError);
});

test('pairs end with the last item, sides with the first again', () => {
  expect(pairs(['a', 'b', 'c'])).toEqual([['a', 'b'], ['b', 'c']]);
  expect(sides(['a', 'b', 'c'])).toEqual([['a', 'b'], ['b', 'c'], ['c', 'a']]);
  expect([pairs([]), sides([]), pairs(['a'])]).toEqual([[], [], []]);
  expect(sides(['a'])).toEqual([['a', 'a']]);
});
