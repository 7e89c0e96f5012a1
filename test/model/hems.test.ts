import { expect, test } from 'vitest';
import { pattern } from '../support/spec.ts';

const told = (allowance: string, cut: string): readonly string[] =>
  pattern(`piece towel "Towel" {\n  outline rectangle 8 by 6\n  allowance bottom ${allowance}\n  edge bottom hemmed 1/2\n  ${cut}\n}\n`, 'unit in\nallowance 1/4\ndrawn to stitching').problems
    .filter(({ code }) => code.startsWith('hem-')).map(({ code, marked, severity }) => `${severity} ${code}: ${marked}`);

test('a hem that takes all of its allowance has nothing to turn under', () => {
  expect(told('1/2', 'cut 1 cloth')).toEqual(['note hem-turned-once: edge bottom hemmed 1/2']);
  expect(told('5/8', 'cut 1 cloth')).toEqual([]);
  expect(told('3/8', 'cut 1 cloth')).toEqual(['error hem-too-wide: edge bottom hemmed 1/2']);
});
test('but of what does not fray it is turned once', () => {
  expect(told('1/2', 'cut 1 cork')).toEqual([]);
  expect(told('3/8', 'cut 1 cork')).toEqual(['error hem-too-wide: edge bottom hemmed 1/2']);
});
