import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readWidths } from '../../server/src/buying/other-widths.ts';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { buyingOptions, effortOf } from '../../server/src/cli/lay-options.ts';
import { wholeNumber } from '../../server/src/cli/whole-number.ts';
import { limits } from '../../server/src/problems/limits.ts';
import { tooManyCombinations } from '../../server/src/table/combinations.ts';

const reference = readFileSync(new URL('../../grammar/reference.md', import.meta.url), 'utf8');
const rows = (/^## Limits\n([^]*?)^## /m.exec(reference)?.[1] ?? '').split('\n').filter((line) => /^\| .* \| \d+ \|/.test(line)).map((line) => line.split('|').map((cell) => cell.trim()));

const thrown = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    return error instanceof Error ? error.message : '';
  }
  return 'nothing';
};
const typed = { articles: '1', width: [], lay: 'shorter', gap: '0', effort: '0' } as const;

/** What is said of one more, where the code makes a sentence of it. */
const said: Readonly<Partial<Record<keyof typeof limits, string | undefined>>> = {
  combinations: tooManyCombinations(limits.combinations + 1),
  articles: thrown(() => wholeNumber(String(limits.articles + 1), '--articles')),
  otherWidths: thrown(() => buyingOptions({ ...typed, width: Array.from({ length: limits.otherWidths + 1 }, () => '1 m') }, 'in')),
  typedLength: thrown(() => buyingOptions({ ...typed, width: [`${limits.typedLength / 1000 + 1} m`] }, 'in')),
  effort: thrown(() => effortOf(String(limits.effort + 1))),
};

test('every limit is in the reference, with its figure and with what is said', () => {
  expect(rows.map((row) => Number(row[2]))).toEqual(Object.values(limits));
  const names = Object.keys(limits) as (keyof typeof limits)[];
  expect(Object.keys(said).length).toBeGreaterThan(4);
  for (const [index, name] of names.entries()) if (name in said) expect(rows[index]?.[3]).toContain(said[name]);
});

test('what is just within a limit is taken', () => {
  expect(tooManyCombinations(limits.combinations)).toBeUndefined();
  expect(wholeNumber(String(limits.articles), '--articles')).toBe(limits.articles);
  expect(effortOf(String(limits.effort))).toBe(limits.effort);
  expect(buyingOptions({ ...typed, width: Array.from({ length: limits.otherWidths }, () => `${limits.typedLength} mm`) }, 'in').widths).toHaveLength(limits.otherWidths);
});

test('the preview’s field takes the very widths that the command line takes', () => {
  for (const text of ['10 m', '10.001 m', '0', '54in = 12.50', '1 2', '7 1/2 in', '1e3']) {
    const { widths } = readWidths(text, 'in');
    expect(thrown(() => buyingOptions({ ...typed, width: [text] }, 'in')) === 'nothing').toBe(widths.length === 1);
    if (widths.length === 1) expect(buyingOptions({ ...typed, width: [text] }, 'in')).toEqual({ ...usualOptions, effort: 0, widths });
  }
});
