import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linePieces, type LinePiece } from '../../client/preview/line-pieces.ts';
import { arranged, type Label } from '../../client/preview/piece-labels.ts';

const box = { x: 0, y: 0, width: 200, height: 100 };
const line = (text: string, x: number, y: number): Label => ({ text, x, y, beside: false });

describe('names in a drawing', () => {
  it('are put below the beginning of their line, to the right', () => {
    expect(arranged([line('core', 10, 10)], box, 1)).toEqual([{ x: 10, y: 10, anchor: 'start', dx: '.35em', dy: '1.1em' }]);
  });

  it('go to the left where they would stick out on the right, and above where they would below', () => {
    expect(arranged([line('tab_here', 180, 10)], box, 1)[0]?.anchor).toBe('end');
    expect(arranged([line('row', 10, 98)], box, 1)[0]?.dy).toBe('-.4em');
    expect(arranged([{ ...line('cap', 195, 50), beside: true }], box, 1)[0]).toMatchObject({ anchor: 'end', dy: '.35em' });
  });

  it('make room for those before them', () => {
    const [first, second] = arranged([line('stiff', 20, 30), line('zip_line', 20, 34)], box, 1);
    expect(first?.dy).toBe('1.1em');
    expect(second?.dy).toBe('-.4em');
  });

  it('keep the ground round their letters clear of one another', () => {
    const above = (apart: number): readonly (string | undefined)[] => arranged([line('first', 10, 20), { ...line('low', 10, 20 + apart), beside: true }], box, 1).map((spot) => spot?.dy);
    // From 22 to 34, and from 6 above its point on.
    expect(above(22)).toEqual(['1.1em', '.35em']);
    expect(above(21)).toEqual(['1.1em', undefined]);
  });

  it('do not stand under a notch or an arrowhead', () => {
    const sign = { x: 80, y: 18 };
    expect(arranged([line('spine', 58, 10)], box, 1)[0]).toMatchObject({ anchor: 'start', dy: '1.1em' });
    expect(arranged([line('spine', 58, 10)], box, 1, [sign])[0]).toMatchObject({ anchor: 'end' });
  });

  it('keep off lines where they can, and are written over one where they can’t', () => {
    const upright = linePieces('M40 0L40 -30');
    expect(arranged([line('spine', 30, 10)], box, 1)[0]).toMatchObject({ anchor: 'start', dy: '1.1em' });
    // To the right a line runs through it; to the left it would stick out, and above the line it is the same.
    expect(arranged([line('spine', 60, 40)], box, 1, [], linePieces('M70 -40L70 -60'))[0]).toMatchObject({ anchor: 'end', dy: '1.1em' });
    expect(arranged([line('spine', 28, 20)], box, 1, [], upright)[0]).toMatchObject({ anchor: 'start', dy: '1.1em' });
    expect(arranged([line('spine', 28, 20)], box, 1, [], linePieces('M40 -21L40 -60'))[0]).toMatchObject({ anchor: 'start', dy: '-.4em' });
  });

  it('stand at another point of their line where at the first a line runs through them, be it their own', () => {
    const dart = linePieces('M60 -10L80 -40L100 -10');
    const named = { ...line('crown dart', 60, 10), own: dart };
    const edge = linePieces('M0 -15L58 -15');
    // To the right of its beginning it lies over its other leg, to the left over the edge; below its tip there is nothing.
    expect(arranged([named], box, 1, [], [...edge, ...dart])[0]).toMatchObject({ x: 80, y: 40, anchor: 'start', dy: '1.1em' });
    expect(arranged([named], box, 1, [], [...edge, ...dart, ...linePieces('M0 -50L200 -50M0 -36L200 -36M110 0L110 -90')])[0]).toMatchObject({ x: 60, y: 10, anchor: 'start', dy: '1.1em' });
  });

  it('stand at another point of their line only where they are clear of all lines there', () => {
    const dart = linePieces('M60 -10L80 -40L100 -10');
    const through = linePieces('M70 0L70 -30M50 0L50 -30M110 0L110 -30');
    expect(arranged([{ ...line('crown dart', 60, 10), own: dart }], box, 1, [], [...dart, ...through, ...linePieces('M0 -57L200 -57')])[0]).toMatchObject({ x: 60, y: 10 });
  });

  it('are nearer to their own line than to any other, unless that meets theirs', () => {
    const own = linePieces('M40 -30L40 -60L90 -60L90 -30Z');
    const named = { ...line('place of the pocket', 40, 30), own };
    const above = (y: number): readonly LinePiece[] => linePieces(`M0 -${y}L200 -${y}`);
    expect(arranged([named], box, 1, [], own)[0]).toMatchObject({ x: 40, y: 30, anchor: 'start', dy: '-.4em' });
    // From 14 to 26 above its own line, and 2 below the other.
    expect(arranged([named], box, 1, [], [...own, ...above(12)])[0]).toMatchObject({ x: 40, y: 60, dy: '1.1em' });
    expect(arranged([named], box, 1, [], [...own, ...above(9)])[0]).toMatchObject({ x: 40, y: 30, dy: '-.4em' });
    const fold = linePieces('M40 -0L40 -100');
    expect(arranged([{ ...line('fold', 40, 0), own: fold }], box, 1, [], [...fold, ...above(0)])[0]).toMatchObject({ x: 40, y: 0, anchor: 'start' });
  });

  it('know lines, curves and what closes them as the browser draws them, upside down', () => {
    const ends = (path: string): readonly (readonly number[])[] => linePieces(path).map(({ to }) => [to.x + 0, to.y + 0]);
    expect(ends('M1 2L3 4l1 1Z')).toEqual([[3, -4], [4, -5], [1, -2]]);
    expect(ends('M0 0A5 5 0 0 1 10 0')).toEqual([[10, 0]]);
    // Its middle is at an eighth of its ends and three eighths of what it leans to.
    const curve = ends('M0 0C0 8 8 8 8 0');
    expect(curve[2]).toEqual([4, -6]);
    expect(curve.at(-1)).toEqual([8, 0]);
  });

  it('are left out where there is no room, and are there again when the drawing is larger', () => {
    const labels = [line('a_long_name_for_a_line', 5, 5)];
    const small = { x: 0, y: 0, width: 40, height: 20 };
    expect(arranged(labels, small, 1)).toEqual([undefined]);
    expect(arranged(labels, small, 5)[0]).toBeDefined();
  });

  it('never hide one another nor leave the drawing, whatever there is', () => {
    const label = fc.record({ text: fc.string({ minLength: 1, maxLength: 12 }), x: fc.integer({ min: 0, max: 200 }), y: fc.integer({ min: 0, max: 100 }), beside: fc.boolean() });
    fc.assert(fc.property(fc.array(label, { maxLength: 12 }), fc.double({ min: 0.5, max: 6, noNaN: true }), (labels, scale) => {
      const rooms = arranged(labels, box, scale).flatMap((spot, index) => {
        const one = labels[index];
        if (spot === undefined || one === undefined) return [];
        // Six pixels a letter and twelve high; the letters’ middle lies a little above the baseline.
        const [wide, baseline] = [one.text.length * 6, spot.y * scale + 11 * Number.parseFloat(spot.dy)];
        const gap = one.beside ? 8 : 4;
        const left = spot.x * scale + (spot.anchor === 'start' ? gap : -gap - wide);
        return [{ left, right: left + wide, top: baseline - 10, bottom: baseline }];
      });
      for (const [index, one] of rooms.entries()) {
        expect(one.left).toBeGreaterThanOrEqual(-4);
        expect(one.right).toBeLessThanOrEqual(200 * scale + 4);
        expect(one.bottom).toBeLessThanOrEqual(100 * scale + 5);
        for (const other of rooms.slice(0, index)) {
          expect(one.left < other.right - 1 && other.left < one.right - 1 && one.top < other.bottom - 1 && other.top < one.bottom - 1).toBe(false);
        }
      }
    }));
  });
});
