import { describe, expect, it } from 'vitest';
import { columnWidths } from '../../server/src/pages/booklet/columns.ts';
import { linesOf } from '../../server/src/pages/letters/letters.ts';

const heads = ['Seam', 'Edges', 'Other edges', 'Length'];
const rows = [
  ['Side of the wall', 'Wall: left', 'Wall: right', '11 cm'],
  ['Base', 'Wall: bottom, gathered to what the base has round it', 'Base: edge', 'about 44 cm'],
  ['Rim', 'Wall: top', 'Rim: bottom, with its casing, which is turned before it is sewn', '44 cm'],
  ['Loop', 'Loop: both ends, folded in four along its length', 'Rim: top', '2 cm'],
];
const [size, gap, width] = [3, 3, 100];

/** How many lines a table takes, by the function that sets it. */
const lines = (widths: readonly number[]): number => [heads, ...rows].reduce((sum, cells, row) => sum + Math.max(...cells.map((text, column) => linesOf(text, widths[column]!, size, row === 0 ? 'bold' : 'regular').length)), 0);

describe('the columns of a table that has no room for all in one line', () => {
  const found = columnWidths(heads, rows, width, gap, size)!;

  it('fill the page, none narrower than its longest word', () => {
    expect(found.reduce((sum, one) => sum + one, 0)).toBeLessThanOrEqual(width - gap * 3 + 1e-6);
    for (const [column, wide] of found.entries()) for (const text of [heads[column]!, ...rows.map((row) => row[column]!)]) expect(linesOf(text, wide, size).join(' ')).toBe(text);
  });

  it('make it about as low as any widths do', () => {
    const free = width - gap * 3;
    let least = Infinity;
    for (let a = 10; a < free; a += 3) for (let b = 10; a + b < free; b += 3) for (let c = 10; a + b + c < free - 8; c += 3) least = Math.min(least, lines([a, b, c, free - a - b - c]));
    expect(lines(found)).toBeLessThanOrEqual(least + 1);
  });
});
