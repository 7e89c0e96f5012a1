import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { format } from '../../server/src/language/format.ts';
import { formatTyping } from '../../server/src/language/format-typing.ts';
import { edited } from '../../server/src/language/results.ts';
import { parseFile } from '../../server/src/syntax/parse.ts';
import { printFile } from '../../server/src/syntax/print.ts';
import { after, marked } from '../support/marked.ts';
import { samplePatterns } from '../support/pages.ts';
import { respaced } from '../support/respaced.ts';
import { computed, patternOf, sample, snapshotOfText } from '../support/samples.ts';

// Many cases each, and machines that do other work beside.
vi.setConfig({ testTimeout: 30_000 });

function check(fixture: string, expected: string): void {
  const one = marked(fixture);
  expect(after(one, format(one.snapshot, /[«|]/u.test(fixture) ? one.range : undefined))).toBe(expected);
}

describe('formatting', () => {
  test('spaces, indents and blank lines', () => check(
    '\n\npattern   "A"\n\n\n\nlength a=1  1/2in+b*( 2-c )   # why\npiece a"A"{ # body\n\n cut 2  x twins\n      \n\n   # last\n\n}   # done',
    'pattern "A"\n\nlength a = 1 1/2 in + b * (2 - c)  # why\npiece a "A" {  # body\n  cut 2 x twins\n\n  # last\n}  # done\n',
  ));
  test('closes a block on its own line', () => check('piece a {\n cut 1 x }\n', 'piece a {\n  cut 1 x\n}\n'));
  test('lists: commas in rows, “or” between options', () => check('sizes S ,M,\n  L\nchoice t is a,b , c\n', 'sizes S, M, L\nchoice t is a, b or c\n'));
  test('a long list goes on below after its commas', () => {
    const arms = ['first', 'second', 'third', 'fourth'].map((size) => `12 1/2 in + some_long_name for ${size}_size`);
    check(`length a = ${arms.join(', ')}\n`, `length a = ${arms.join(',\n  ')}\n`);
  });
  test('leaves lines that can’t be read as they are', () => check('piece a {\n   cutt   2 x # why\n  foo {\n      bar\n }\n}\n', 'piece a {\n  cutt   2 x  # why\n  foo {\n      bar\n }\n}\n'));
  test('keeps the line ends of the file', () => check('unit  cm\r\nstep 0.1', 'unit cm\r\nstep 0.1\r\n'));
  test('only the statements that the range touches', () => check('unit  in\npiece a {\n cut  1 x\n cut  «1» y\n cut  1 z\n}\nstep  1/8\n', 'unit  in\npiece a {\n cut  1 x\n  cut 1 y\n cut  1 z\n}\nstep  1/8\n'));
  test('touches as few lines as it can', () => {
    const { snapshot } = marked('unit in\nlength  a = 1\nstep 1/8\n');
    expect(format(snapshot)).toEqual([{ start: 8, end: 22, newText: 'length a = 1\n' }]);
  });
  test('the samples hold still', () => {
    for (const path of [...samplePatterns.map((name) => `${name}.piece`), 'studio/materials.piece']) {
      const once = printFile(parseFile(path, sample(path)));
      expect(once.split('\n').map((line) => line.replace(/ +#/, ' #'))).toEqual(sample(path).split('\n').map((line) => line.replace(/ +#/, ' #')));
    }
  });
  test('changes nothing that is computed', () => {
    const before = computed(patternOf(sample('orchard-wallet.piece')));
    fc.assert(fc.property(fc.infiniteStream(fc.constantFrom(' ', '   ', '\t')), fc.constantFrom('\n', '\r\n'), (spaces, eol) => {
      const snapshot = snapshotOfText(respaced(sample('orchard-wallet.piece'), spaces, eol));
      const text = edited(snapshot.file.text, format(snapshot));
      expect(computed(patternOf(text))).toEqual(before);
      expect(text).toBe(edited(text, format(snapshotOfText(text))));
    }), { numRuns: 5 });
  });
  test('nor the digest of what was given out', () => {
    const { digest } = patternOf('pattern "A"\nrevision 1\nlength a = 1+2\nsizes S,\n M\n');
    expect(patternOf('pattern "A"\nrevision 1\nlength a = 1 + 2\nsizes S, M\n').digest).toBe(digest);
    expect(patternOf('pattern "A"\nrevision 1\nlength a = 1 + 3\nsizes S, M\n').digest).not.toBe(digest);
  });
});

describe('formatting while typing', () => {
  function type(fixture: string, typed: string, expected: string): void {
    const one = marked(fixture);
    expect(after(one, formatTyping(one.snapshot, one.offset, typed))).toBe(expected);
  }
  test('a new line inside a block', () => type('piece a {\n|\n}\n', '\n', 'piece a {\n  \n}\n'));
  test('inside a path', () => type('piece a {\n  outline path from 0, 0 {\n  |', '\n', 'piece a {\n  outline path from 0, 0 {\n    '));
  test('after a comma', () => type('sizes S,\n|', '\n', 'sizes S,\n  '));
  test('after a block', () => type('piece a {\n}\n  |', '\n', 'piece a {\n}\n'));
  test('a brace in a text or a comment opens nothing', () => type('piece a {\n  note "{"  # {\n|', '\n', 'piece a {\n  note "{"  # {\n  '));
  test('the closing brace', () => type('piece a {\n  cut 1 x\n  }|\n', '}', 'piece a {\n  cut 1 x\n}\n'));
  test('a closing brace after other words', () => type('piece a {\n    cut 1 x }|\n', '}', 'piece a {\n    cut 1 x }\n'));
});
