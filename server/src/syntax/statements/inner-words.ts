import { word, type Word } from './elements.ts';

/** The words inside of formulas and conditions, which no statement has as its own. */
export const innerWords = {
  for: word('for', 'Gives a value for one size or option.', 'length base = 6 in for S, 7 in otherwise', 'for ${1:option}'),
  otherwise: word('otherwise', 'Gives the value for everything not named.', 'length base = 6 in for S, 7 in otherwise'),
  is: word('is', 'Asks which option of a choice is taken.', 'cut 1 cork when tab is cork'),
  and: word('and', 'Both must hold.', 'when size is L and tab is cork'),
  or: word('or', 'One of them must hold.', 'when size is M or L'),
  not: word('not', 'It must not hold.', 'when tab is not cork'),
} as const satisfies Readonly<Record<string, Word>>;
