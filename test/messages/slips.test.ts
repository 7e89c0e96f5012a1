import { describe, expect, test } from 'vitest';
import { outcome } from './outcome.ts';
import { slips } from './slips/all.ts';

/**
 * What newcomers get wrong, and what they are told: one problem for one fault, at its place, in words that say what to
 * write. The list is ours, made on purpose; whether a message is enough to mend the line at once is a judgement, written
 * beside each (see slip.ts).
 */
describe('a slip is told once, where it is, with the way out', () => {
  test.each(slips.map((slip) => [slip.slip, slip] as const))('%s', (_, slip) => {
    expect(outcome(slip)).toEqual([]);
  });
});

test('hardly any slip is left that isn’t mended at once', () => {
  const unmended = slips.filter(({ mended }) => !mended);
  expect(slips.length).toBeGreaterThanOrEqual(70);
  // 65 of 70, as a share.
  expect(unmended.length / slips.length, unmended.map(({ slip }) => slip).join(', ')).toBeLessThanOrEqual(5 / 70);
});

test('every slip is another', () => {
  expect(new Set(slips.map(({ text }) => text)).size).toBe(slips.length);
});
