import { describe, expect, test } from 'vitest';
import { pattern } from '../support/spec.ts';

const piece = (lines: string, more = '') => pattern(`piece p "P" {\n  outline rectangle 6 by 9\n  allowance none\n${lines}\n  cut 1 cork\n}\n${more}`);
const middle = '  foldline middle = level at 4 1/2\n  folded middle';

describe('a piece that is folded', () => {
  test('has its size opened out and as folded in the table', () => {
    const [row] = piece(middle).table().seams;
    expect([row?.finished.height.text, row?.folded?.width.text, row?.folded?.height.text]).toEqual(['9 in', '6 in', '4 1/2 in']);
  });
  test('one that isn’t has none', () => expect(piece('  foldline middle = level at 4 1/2').table().seams[0]?.folded).toBeUndefined());
  test('between its seams', () => {
    const [row] = pattern(`piece p "P" {\n  outline rectangle 6 by 9\n${middle}\n  cut 1 cork\n}`, 'unit in\nallowance 1/4').table().seams;
    expect([row?.folded?.width.text, row?.folded?.height.text]).toEqual(['5 1/2 in', '4 1/4 in']);
  });
  test('holds what goes into its room', () => {
    expect(piece(middle, 'check p holds 6 by 4 1/2').codes).toEqual([]);
    expect(piece(middle, 'check p holds 6 by 4 3/4').only('check-failed').message).toBe('p is 6 in by 4 1/2 in inside as folded, too small for 6 in by 4 3/4 in');
  });
  test('has as much room as the part that is turned over, not as the whole', () =>
    expect(piece(middle.replace('4 1/2', '6'), 'check p holds 6 by 4').only('check-failed').message).toContain('p is 6 in by 3 in inside as folded'));
  test('gives its size as folded to formulas', () => {
    expect(piece(middle, 'length high = p.folded_height').inches('high')).toBe('4 1/2');
    expect(piece('', 'length high = p.folded_height').faults).toEqual(['wrong-thing: folded_height']);
  });
  test('drawn as half is folded whole', () => expect(piece('  on fold left\n  foldline middle = upright at 3\n  folded middle').table().seams[0]?.folded?.width.text).toBe('9 in'));
  test('is a parent of copies that are folded alike, unless they leave the line out', () => {
    expect(piece(middle, 'piece q from p {\n  cut 1 cork\n}').table().seams[1]?.folded?.height.text).toBe('4 1/2 in');
    expect(piece(middle, 'piece q from p {\n  without middle\n  cut 1 cork\n}').table().seams[1]?.folded).toBeUndefined();
  });
  test.each([
    ['a line that there is not', '  foldline middle = level at 4\n  folded midle', ['unknown-part: midle']],
    ['a closed line', '  placement room = rectangle 2 by 2\n  folded room', ['wrong-thing: room']],
    ['a line with a bend', '  line bent = from 1, 1 to 3, 3 to 5, 1\n  folded bent', ['wrong-thing: bent']],
    ['the same line twice', `${middle}, middle`, ['fold-misses: middle']],
    ['two such lines', `${middle}\n  folded middle`, ['repeated-fact: folded middle']],
    ['a line that can’t be drawn', '  foldline middle = level at 4 cmm\n  folded middle', ['unreadable-line: cmm']],
  ])('can’t be folded along %s', (_, lines, faults) => expect(piece(lines).faults).toEqual(faults));
});
