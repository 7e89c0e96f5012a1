import { describe, expect, test } from 'vitest';
import { pattern } from '../../support/spec.ts';
import { cut, laid, lies, side, type Hand } from './simulation.ts';

/** An uneven flap with five sides; what is sewn is a run of two of them, so that its ends are known. */
const points = [[0, 0], [50, 0], [60, 40], [20, 60], [-10, 30]] as const;
const outline = `outline polygon from ${points.map(([x, y]) => `${x} mm, ${y} mm`).join(' to ')}`;
const piece = (name: string, cutLine: string, more = ''): string => `piece ${name} {\n  ${outline}\n  edge all raw\n  grain up\n${more}  ${cutLine}\n}\n`;
const faults = (text: string): readonly string[] => pattern(text).problems.filter(({ code }) => ['wrong-hand', 'seam-twisted', 'mates-same-hand', 'hands-differ'].includes(code)).map(({ code, marked, message }) => `${code}: ${marked}: ${/mirrored here|as it is drawn|twins/.exec(message)?.[0] ?? ''}`);

describe('the hand that a seam needs', () => {
  test('every pair of hands and of ways, against pieces laid in space', () => {
    let sewable = 0;
    for (const handA of [1, -1] as const) for (const handB of [1, -1] as const) for (const turned of [false, true]) for (const way of ['with', 'onto'] as const) {
      // In space: side 0 and then side 1, on side 0 and then side 1, or on side 1 and then side 0.
      const possible = inSpace(handA, handB, turned, way);
      const hand = (one: Hand): string => (one === 1 ? 'cut 1 cloth' : 'cut 1 cloth mirrored');
      const run = turned ? 'b.side2, b.side1' : 'b.side1, b.side2';
      // Lengths don't matter here: what runs the other way is as long in all.
      const told = faults(`${piece('a', hand(handA))}${piece('b', hand(handB))}seam s = a.side1, a.side2 ${way} ${run}`);
      expect(told.length === 0, `${handA} ${handB} ${String(turned)} ${way}: ${told.join()}`).toBe(possible);
      if (possible) sewable++;
    }
    expect(sewable).toBe(8);
  });
  test('the cut line that needs it is told, once, with the way out', () => {
    const text = `${piece('a', 'cut 1 cloth')}${piece('b', 'cut 1 cloth')}seam s = a.side1, a.side2 with b.side1, b.side2`;
    expect(faults(text)).toEqual(['wrong-hand: cloth: mirrored here']);
    const found = pattern(text).pattern.problems.find(({ code }) => code === 'wrong-hand');
    expect(found?.fixes[0]?.edits[0]?.newText).toBe(' mirrored');
    expect(found?.place.chunk.text).toContain('piece b');
  });
  test('two copies of one piece must be twins, unless they are sewn the other way round', () => {
    expect(faults(`${piece('a', 'cut 2 cloth')}seam s = a.side1, a.side2 with a.side1, a.side2`)).toEqual(['wrong-hand: cloth: twins']);
    expect(faults(`${piece('a', 'cut 2 cloth twins')}seam s = a.side1, a.side2 with a.side1, a.side2`)).toEqual([]);
  });
  test('a mirrored copy has its edges run the other way', () => {
    expect(faults(`${piece('a', 'cut 1 cloth')}piece b from a mirrored {\n  cut 1 cloth\n}\nseam s = a.side1, a.side2 with b.side1, b.side2`)).toEqual([]);
    expect(faults(`${piece('a', 'cut 1 cloth')}piece b from a mirrored {\n  cut 1 cloth mirrored\n}\nseam s = a.side1, a.side2 with b.side1, b.side2`)).toEqual(['wrong-hand: cloth: as it is drawn']);
  });
  test('outside and lining are each sewn together, and not asked to be of one hand', () => {
    const lined = (b: string): string => `${piece('a', 'cut 1 cloth\n  cut 1 lining mirrored')}${piece('b', `cut 1 cloth mirrored\n  cut 1 lining${b}`)}seam s = a.side1, a.side2 with b.side1, b.side2`;
    expect(faults(lined(''))).toEqual([]);
    expect(faults(lined(' mirrored'))).toEqual(['mates-same-hand: lining: ', 'wrong-hand: lining: as it is drawn']);
  });
  test('what is its own mirror image may be cut either way, unless a mark tells', () => {
    const plain = (more: string): string => `piece a {\n  outline rectangle 4 by 3\n  edge all raw\n${more}  cut 2 cloth\n}\nseam s = a.left, a.bottom with a.left, a.bottom`;
    expect(faults(plain(''))).toEqual([]);
    expect(faults(plain('  placement badge = rectangle 1 by 1 at 1/2, 1/2\n'))).toEqual(['wrong-hand: cloth: twins']);
  });
  test('a second seam of an edge is that of a second copy', () => {
    const ring = (cutLine: string): string => `${piece('a', 'cut 1 cloth')}${piece('b', 'cut 1 cloth mirrored')}${piece('l', cutLine)}seam s = a.side1, a.side2 with l.side1, l.side2\nseam t = b.side1, b.side2 with l.side1, l.side2\nseam u = a.side3, a.side4 with b.side3, b.side4`;
    expect(faults(ring('cut 2 cloth twins'))).toEqual([]);
    expect(faults(ring('cut 2 cloth'))).toEqual(['wrong-hand: cloth: twins']);
  });
  test('seams that ask for a piece in both hands at once are twisted', () => {
    const three = ['a', 'b', 'c'].map((name) => piece(name, 'cut 1 cloth')).join('');
    const seam = (name: string, one: string, other: string): string => `seam ${name} = ${one}.side1, ${one}.side2 with ${other}.side2, ${other}.side1\n`;
    expect(faults(`${three}${seam('s', 'a', 'b')}${seam('t', 'b', 'c')}${seam('u', 'c', 'a')}`)).toEqual([]);
    expect(faults(`${three}${seam('s', 'a', 'b')}${seam('t', 'b', 'c')}seam u = c.side1, c.side2 with a.side1, a.side2`)).toEqual(['seam-twisted: a.side1, a.side2: ']);
  });
});

/** Whether both sides of a run can be laid as they must, which the corner between them holds together. */
function inSpace(handA: Hand, handB: Hand, turned: boolean, way: 'with' | 'onto'): boolean {
  const [a, b] = [cut(points, handA), cut(points, handB)];
  // The run a0, a1 begins at corner 0; the other at corner 0, or at corner 2 where it is turned.
  const line = side(a, 0);
  const placed = laid(b, turned ? 1 : 0, turned ? [line[1], line[0]] : line, [0, 0, way === 'with' ? -1 : 1]);
  return lies(placed, line) === lies(a, line);
}

describe('the edges of a pattern that says how it is sewn', () => {
  const left = (text: string): readonly string[] => pattern(text).problems.filter(({ code }) => code === 'edges-left').map(({ message }) => /of what becomes of (.*): name/.exec(message)?.[1] ?? '');
  const box = (more = ''): string => `piece a {\n  outline rectangle 4 by 3\n  allowance 1/2\n${more}  cut 2 cloth\n}\n`;
  test('are all spoken of', () => {
    expect(left(box())).toEqual([]);
    expect(left(`${box()}seam s = a.left with a.left`)).toEqual(['bottom, right, top of “a”']);
    expect(left(`${box('  edge top hemmed 1/2\n  edge all raw\n')}seam s = a.left with a.left`)).toEqual([]);
    expect(left(`${box('  edge top bound\n  edge right faced\n')}seam s = a.left with a.left\nseam t = a.bottom from 0 to 1 with a.bottom from 0 to 1`)).toEqual(['part of bottom of “a”']);
    expect(left(`${box('  edge top bound\n  edge right faced\n')}seam s = a.left with a.left\nseam t = a.bottom from 0 to 1 with a.bottom from 0 to 1\nseam u = a.bottom from 1 to end with a.bottom from 1 to end`)).toEqual([]);
  });
  test('one that a faulty seam names is not asked after', () => {
    expect(left(`${box('  edge top bound\n  edge right faced\n  edge bottom raw\n')}seam s = a.left with a.lft`)).toEqual([]);
  });
});

test('allowances that are sewn together are as wide', () => {
  const text = (size: string): string => `piece a {\n  outline rectangle 4 by 3\n  drawn to stitching\n  edge all raw\n  allowance left ${size}\n  cut 1 cloth\n}\npiece b {\n  outline rectangle 4 by 3\n  drawn to stitching\n  edge all raw\n  allowance 1/2\n  cut 1 cloth\n}\nseam s = a.left with b.right`;
  expect(pattern(text('1/2')).codes).toEqual([]);
  expect(pattern(text('3/8')).only('seam-allowances')).toMatchObject({ marked: 'b.right' });
});
