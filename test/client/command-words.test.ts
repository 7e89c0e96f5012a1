import { expect, it } from 'vitest';
import { fixedWords, gapBelow } from '../../client/src/command-words.ts';

it.each([
  ['', ''], ['\n', ''], ['unit in', '\n\n'], ['unit in\n', '\n'], ['unit in\r\n', '\n'], ['unit in\n\n', ''], ['unit in\n  \n', ''], ['unit in\n  ', '\n'],
])('one empty line lies between %j and a snippet below it', (text, gap) => expect(gapBelow(text)).toBe(gap));

it.each([
  ['a\nb\nc', 'a\nc', '1 line is'], ['a\nb\nc', 'a\nB\nc', '1 line is'], ['a\nb\nc', 'a\nb\nx\ny\nc', '2 lines are'], ['a\na\nb', 'a\nB', '2 lines are'],
])('from %j to %j, %s changed', (before, after, words) => expect(fixedWords(before, after)).toContain(`${words} changed`));
