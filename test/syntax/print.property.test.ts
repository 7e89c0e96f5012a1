import fc from 'fast-check';
import { describe, expect, test, vi } from 'vitest';
import { parseDeclaration, parseFile } from '../../server/src/syntax/parse.ts';
import { printBare, printDeclaration, printFile, printSegments } from '../../server/src/syntax/print.ts';
import { declaration } from '../support/arbitrary-tree.ts';
import { respaced } from '../support/respaced.ts';
import { withoutPositions } from '../support/bare.ts';

// Many cases each, and machines that do other work beside.
vi.setConfig({ testTimeout: 30_000 });

const source = fc.array(declaration, { maxLength: 4 }).map((trees) => trees.map(printDeclaration).join(''));
/** Without what stays as it is written, spaces and all. */
const readable = fc.array(declaration.filter((tree) => !/"(?:kind":"broken|unread)"/.test(JSON.stringify(tree))), { maxLength: 4 }).map((trees) => trees.map(printDeclaration).join(''));
const treesOf = (text: string): unknown => withoutPositions(parseFile('a.piece', text).declarations.map((one) => one.declaration.tree));
const formatted = (text: string): string => printFile(parseFile('a.piece', text));

describe('printing any tree', () => {
  test('reading what was printed gives the tree again', () => {
    fc.assert(fc.property(declaration, (tree) => {
      expect(withoutPositions(parseDeclaration('a.piece', printDeclaration(tree)).tree)).toEqual(withoutPositions(tree));
    }), { numRuns: 150 });
  });
  test('any spacing that says the same prints the same', () => {
    fc.assert(fc.property(readable, fc.infiniteStream(fc.constantFrom(' ', '  ', '\t', ' \t ')), fc.constantFrom('\n', '\r\n'), (text, spaces, eol) => {
      const odd = respaced(text, spaces, eol);
      expect(formatted(odd).replace(/\r\n/g, '\n')).toBe(formatted(text));
    }), { numRuns: 150 });
  });
});

describe('formatting any text', () => {
  const anyText = fc.oneof(
    source,
    fc.array(fc.constantFrom('piece a {', '}', '{', 'cut 2 x', '# c', '', 'length a = 3,', '"', 'note "a {"', '  4', 'outline path from 0, 0 {', 'line to 1, 1', 'supply s {', 'a,', ' \\', '\u00a0', 'sizes S,', 'x { y', '"a\\'), { maxLength: 14 }).chain((lines) => fc.constantFrom('\n', '\r\n').map((eol) => lines.join(eol))),
    fc.string({ unit: 'grapheme' }),
  );
  test('twice is the same as once', () => {
    fc.assert(fc.property(anyText, (text) => {
      const once = formatted(text);
      expect(formatted(once)).toBe(once);
    }), { numRuns: 150 });
  });
  test('changes nothing that the text says', () => {
    const saying = (text: string): unknown => parseFile('a.piece', text).declarations.map((one) => printBare(one.declaration.tree).replace(/\r\n?/g, '\n'));
    fc.assert(fc.property(anyText, (text) => {
      expect(saying(formatted(text))).toEqual(saying(text));
    }), { numRuns: 150 });
  });
  test('keeps every comment', () => {
    fc.assert(fc.property(source, (text) => {
      const comments = (of: string): readonly string[] => of.match(/#[^\n]*/g)?.map((one) => one.trimEnd()) ?? [];
      expect(comments(formatted(text))).toEqual(comments(text));
      expect(treesOf(formatted(text))).toEqual(treesOf(formatted(formatted(text))));
    }), { numRuns: 150 });
  });
  test('its segments cover the text without gaps', () => {
    fc.assert(fc.property(anyText, (text) => {
      let end = 0;
      for (const segment of printSegments(parseFile('a.piece', text))) {
        expect(segment.start).toBe(end);
        expect(segment.end).toBeGreaterThanOrEqual(segment.start);
        end = segment.end;
      }
      expect(end).toBe(text.length);
    }), { numRuns: 150 });
  });
});
