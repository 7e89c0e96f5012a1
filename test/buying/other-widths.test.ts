import { expect, test } from 'vitest';
import { readWidths } from '../../server/src/buying/other-widths.ts';

const read = (text: string, unit: 'in' | 'cm' = 'in'): unknown => {
  const { widths, unread } = readWidths(text, unit);
  return { widths: widths.map(({ nominal, price }) => [nominal.valueOf(), price?.valueOf()]), unread };
};

test('widths with units, in the file’s own unit, and with prices', () => {
  expect(read('44, 60 in = 12.50; 1.5 m')).toEqual({ widths: [[1117.6, undefined], [1524, 12.5], [1500, undefined]], unread: [] });
  expect(read('140', 'cm')).toEqual({ widths: [[1400, undefined]], unread: [] });
  expect(read('')).toEqual({ widths: [], unread: [] });
});

test('a width that is said twice counts once', () => expect(read('60 in, 5 ft')).toEqual({ widths: [[1524, undefined]], unread: [] }));

test('what can’t be read is given back', () => {
  expect(read('wide, -3, 0, 44 = x, 1/0, 44 = 1 = 2, 20000 cm')).toEqual({ widths: [], unread: ['wide', '-3', '0', '44 = x', '1/0', '44 = 1 = 2', '20000 cm'] });
});

test('more than anyone compares are left out, and said to be', () => expect(read('10, 11, 12, 13, 14, 15, 16')).toMatchObject({ unread: ['16'] }));
