import { describe, expect, it } from 'vitest';
import { usualOptions } from '../../server/src/buying/plan.ts';
import { compare } from '../../server/src/compare/comparison.ts';
import { pattern } from '../support/spec.ts';

/** An invented cover, whose yoke is the part of its front above a line. */
const spec = `piece front "Front" {
  outline rectangle 8 by 10
  allowance none
  placement yoke_line "Yoke line" = level at 6
  grain up
  cut 1 cork
}
piece yoke "Yoke" from front above yoke_line {
  grain up
  template folded
  cut 1 cork
}
`;
const told = (change: (text: string) => string): readonly string[] => {
  const now = change(spec);
  expect(now).not.toBe(spec);
  return compare(pattern(spec).pattern, pattern(now).pattern, { ...usualOptions, effort: 0 }).changes.map(({ group, kind, subject, what, was, now: text }) => `${group} ${kind} ${subject}, ${what}: ${was} → ${text}`);
};

describe('a template that another piece is folded from', () => {
  it('is told where it is folded at another line', () => {
    expect(told((text) => text.replace('level at 6', 'level at 7'))).toContain('template changed Front, cutting line:  → another line to fold it at for “Yoke”');
  });

  it('is told where it is folded no more', () => {
    expect(told((text) => text.replace('  template folded\n', ''))).toEqual(['template changed Front, cutting line:  → no longer folded for “Yoke”']);
  });

  it('is no other where only the name of the line is', () => {
    expect(told((text) => text.replaceAll('yoke_line', 'seam_line'))).toEqual([]);
  });
});
