import { expect, test } from 'vitest';
import { analyse } from '../support/spec.ts';

const codes = (lines: string): readonly string[] => analyse(`pattern "P"\nrevision 1\nunit in\nallowance 1/4\nmaterial canvas {\n  width 58\n}\n${lines}\n`).codes;

test('a choice that is taken for a material is not told as unused besides', () => {
  const spec = (choices: string): string => `${choices}\npiece front {\n  outline rectangle 9 by 7\n  cut 2 canvas\n  cut 1 shell\n}`;
  expect(codes(spec('choice shell is soft or hard'))).toEqual(['wrong-thing']);
  expect(codes(spec('choice shell is soft or hard\nchoice base is flat or boxed'))).toEqual(['unused-name', 'wrong-thing']);
});
