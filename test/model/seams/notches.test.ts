import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';

const piece = (name: string, lines: string, shape = 'rectangle 9 by 7'): string => `piece ${name} {\n  outline ${shape}\n  allowance 1/2\n  edge all raw\n${lines}  cut 1 cloth\n}\n`;
const walked = (a: string, b: string, seam: string, shapeB?: string): readonly string[] =>
  pattern(`${piece('a', a)}${piece('b', b, shapeB)}seam s = ${seam}`).problems.filter(({ code }) => code === 'notches-apart' || code === 'notch-alone').map(({ code, message }) => `${code} ${/by [^.]*|at [^.]* along/.exec(message)?.[0] ?? ''}`);

describe('notches of a seam', () => {
  test('meet', () => {
    expect(walked('  notch left at 2\n', '  notch right at 2\n', 'a.left with b.right')).toEqual([]);
    expect(walked('  notch left at 2\n', '  notch right at 2 1/8\n', 'a.left with b.right')).toEqual(['notches-apart by 1/8 in']);
    expect(walked('  notch left at 2\n', '', 'a.left with b.right')).toEqual(['notch-alone at 1 1/2 in along']);
    expect(walked('', '  notch right at 2\n', 'a.left with b.right')).toEqual(['notch-alone at 1 1/2 in along']);
  });
  test('either way, unless the spec says which ends meet', () => {
    expect(walked('  notch left at 2\n', '  notch right at 2 from end\n', 'a.left with b.right')).toEqual([]);
    expect(walked('  notch left at 2\n', '  notch right at 2 from end\n', 'a.left from start to end with b.right from start to end')).toEqual(['notch-alone at 1 1/2 in along', 'notch-alone at 4 1/2 in along']);
    expect(walked('  notch left at 2\n', '  notch right at 2 from end\n', 'a.left from start to end with b.right from end to start')).toEqual([]);
  });
  test('meet corners', () => {
    // On the stitching lines the run is 6, 8 and 6 long, and the strip 20.
    expect(walked('', '  notch left at 6 1/2\n  notch left at 14 1/2\n', 'b.left with a.left, a.bottom, a.right', 'rectangle 3 by 21')).toEqual([]);
    expect(walked('', '  notch left at 6 1/2\n  notch left at 13\n', 'b.left from start to end with a.left, a.bottom, a.right', 'rectangle 3 by 21')).toEqual(['notch-alone at 6 1/2 in along']);
  });
  test('spread with the ease, and meet in their order where there are as many', () => {
    expect(walked('  notch left at 50%\n', '  notch right at 50%\n', 'a.left with b.right eased by 1', 'rectangle 9 by 6')).toEqual([]);
    expect(walked('  notch left at 1\n', '  notch right at 5\n', 'a.left with b.right eased by 1', 'rectangle 9 by 6')).toEqual([]);
  });
  test('of long gathers are met by no corner that is far away', () => {
    // The frill is 40 in long and the edge 6: its notch comes to lie nearly 3 in from either end.
    expect(walked('', '  notch top at 20\n', 'b.top from start to end with a.left from start to end gathered', 'rectangle 41 by 3')).toHaveLength(1);
  });
  test('part of an edge has only its own', () => {
    expect(walked('  notch top at 1\n  notch top at 5\n', '  notch top at 4\n', 'a.top from 2 to 6 with b.top from 1 to 5')).toEqual([]);
  });
});

test('the fix adds the notch that is missing, and then they meet', () => {
  const text = `${piece('a', '  notch left at 2\n')}${piece('b', '')}seam s = a.left from start to end with b.right from start to end`;
  const found = pattern(text).pattern.problems.find(({ code }) => code === 'notch-alone');
  const [edit] = found?.fixes[0]?.edits ?? [];
  if (edit === undefined) throw new Error('No fix');
  expect(edit.place.chunk.text).toContain('piece b');
  const at = text.indexOf('piece b') + edit.place.start;
  expect(pattern(`${text.slice(0, at)}${edit.newText}${text.slice(at)}`).codes).toEqual([]);
});
