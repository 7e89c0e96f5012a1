import { describe, expect, it } from 'vitest';
import type { Point } from '../../server/src/geometry/shape.ts';
import { moveOf, previewHandles } from '../../server/src/preview/handles/shown.ts';
import type { Move } from '../../server/src/preview/handles/move.ts';
import type { PreviewHandle } from '../../server/src/preview/drawing-data.ts';
import { patternFrom, shapes } from './specs.ts';

/** The handles of a piece, by what they are called. */
function handles(text: string, piece: string, combination: ReadonlyMap<string, string> = new Map()): Readonly<Record<string, PreviewHandle>> {
  const pattern = patternFrom(text);
  const resolved = pattern.resolve(combination);
  return Object.fromEntries((previewHandles(pattern, pattern.shape(piece, resolved.combination), resolved.combination)?.list ?? []).map((one) => [one.id, one]));
}

/** Moves a handle by so many millimetres: the text then, and what is said. */
function moved(text: string, piece: string, id: string, by: Point, combination: ReadonlyMap<string, string> = new Map()): { readonly text: string; readonly move: Move } {
  const { x = 0, y = 0 } = handles(text, piece, combination)[id] ?? {};
  const pattern = patternFrom(text);
  const move = moveOf(pattern, { piece, combination, id }, { x: x + by.x, y: y + by.y });
  if (move === undefined) throw new Error(`There is no handle ${id}.`);
  let after = text;
  for (const { place, before, text: put } of [...move.changes].reverse()) {
    const start = text.indexOf(place.chunk.text) + place.start;
    expect(text.slice(start, start + before.length)).toBe(before);
    after = after.slice(0, start) + put + after.slice(start + before.length);
  }
  return { text: after, move };
}

const head = 'pattern "Moved"\nunit in\nstep 1/16\nuse "studio/materials.piece"\nlength body = 6\n';
const piece = (lines: string): string => `${head}piece front "Front" {\n${lines.split('\n').map((line) => `  ${line}\n`).join('')}  cut 1 canvas\n}\n`;
/** The lines of the piece once a handle has been moved by so many inches. */
function after(lines: string, id: string, x: number, y = 0): string {
  return moved(piece(lines), 'front', id, { x: x * 25.4, y: y * 25.4 }).text.slice(piece('').indexOf('{') + 2).replace(/^ {2}/gm, '').replace('cut 1 canvas\n}\n', '').trim();
}

describe('a handle that is moved', () => {
  it.each([
    // A size grows to the side of its handle; what stands on its middle grows to both.
    ['outline rectangle 9 1/2 by 7', 'outline width', 0.26, 3, 'outline rectangle 9 3/4 by 7'],
    ['outline rectangle 9 1/2 by 7', 'outline height', 3, -0.5, 'outline rectangle 9 1/2 by 6 1/2'],
    ['outline rectangle 9 1/2 by 7 centred at 0, 0', 'outline width', 0.25, 0, 'outline rectangle 10 by 7 centred at 0, 0'],
    ['outline rectangle 9 by 7 at 1/2, 0', 'outline place', -1, 0.125, 'outline rectangle 9 by 7 at -1/2, 1/8'],
    ['outline circle across 8', 'outline width', 1, 0.5, 'outline circle across 9'],
    ['outline ellipse 8 by 5', 'outline height', 0, 1, 'outline ellipse 8 by 6'],
    // To nothing, or less, no size goes.
    ['outline rectangle 9 by 7', 'outline width', -20, 0, 'outline rectangle 1/16 by 7'],
    ['outline polygon from 0, 0 to 6, 0 to 3, 5', 'outline point 3', 0.5, 0.26, 'outline polygon from 0, 0 to 6, 0 to 3 1/2, 5 1/4'],
    ['outline path from 0, 0 {\n  line to 6, 0\n  curve to 0, 5 by 6, 3 and 3, 5\n  close\n}', 'outline second control of point 3', 0.5, 0, 'outline path from 0, 0 {\n  line to 6, 0\n  curve to 0, 5 by 6, 3 and 3 1/2, 5\n  close\n}'],
    ['outline rectangle 9 by 7\nmark eye at 2, 3', 'mark eye', 0, -1, 'outline rectangle 9 by 7\nmark eye at 2, 2'],
    // A unit that was said is said again, and it is the file's.
    ['outline rectangle 9 by 7\nmark eye at 2 in, 3 cm', 'mark eye', 1, 1, 'outline rectangle 9 by 7\nmark eye at 3 in, 2 3/16 in'],
    // Each number by itself: a formula stays, and so does what was not moved, finer than the step as it is.
    ['outline rectangle 9 by 7\nmark eye at body / 2, 3', 'mark eye', 1, 1, 'outline rectangle 9 by 7\nmark eye at body / 2, 4'],
    ['outline rectangle 9 by 7\nmark eye at 1/64, 3', 'mark eye', 0.01, 1, 'outline rectangle 9 by 7\nmark eye at 1/64, 4'],
    // The left edge of a rectangle is counted upwards.
    ['outline rectangle 9 by 7\nnotch left at 2', 'notch left 1', 0, -1, 'outline rectangle 9 by 7\nnotch left at 1'],
    ['outline rectangle 9 by 7\nnotch left at 2 from end', 'notch left 1', 0, 1, 'outline rectangle 9 by 7\nnotch left at 1 from end'],
    ['outline rectangle 9 by 7\nnotch bottom at 50%', 'notch bottom 1', 0.9, 5, 'outline rectangle 9 by 7\nnotch bottom at 60%'],
    ['outline rectangle 9 by 7\nnotch bottom at 2', 'notch bottom 1', 50, 0, 'outline rectangle 9 by 7\nnotch bottom at 9'],
    ['outline rectangle 9 by 7\ncorner all round 1/2', 'corner all across', -0.25, 0, 'outline rectangle 9 by 7\ncorner all round 3/4'],
    ['outline rectangle 9 by 7\ncorner bottom_left chamfer 1 by 2', 'corner bottom_left up', 0, 0.5, 'outline rectangle 9 by 7\ncorner bottom_left chamfer 1 by 2 1/2'],
    ['outline rectangle 9 by 7\nline core = inset 3/8', 'core inset', 0, 0.125, 'outline rectangle 9 by 7\nline core = inset 1/2'],
    ['outline rectangle 9 by 7\nfoldline half = level at 3', 'half place', 1, 1, 'outline rectangle 9 by 7\nfoldline half = level at 4'],
    // An allowance lies inside of what is drawn to the cutting line, and outside of what is drawn to the stitching line.
    ['outline rectangle 9 by 7\nallowance bottom 1/2', 'allowance bottom', 1, 0.25, 'outline rectangle 9 by 7\nallowance bottom 3/4'],
    ['outline rectangle 9 by 7\nallowance left 1/2', 'allowance left', 0.25, 0, 'outline rectangle 9 by 7\nallowance left 3/4'],
    ['outline rectangle 9 by 7\ndrawn to stitching\nallowance left 1/2', 'allowance left', -0.25, 0, 'outline rectangle 9 by 7\ndrawn to stitching\nallowance left 3/4'],
    ['outline rectangle 9 by 7\nallowance 1/2\nallowance bottom 3/4', 'allowance', -0.125, 0, 'outline rectangle 9 by 7\nallowance 5/8\nallowance bottom 3/4'],
    // A dart is moved along its edge, made wider to both sides, and deeper at its tip.
    ['outline rectangle 9 by 7\ndart waist on top at 3 wide 1 deep 2', 'dart waist place', 1, 3, 'outline rectangle 9 by 7\ndart waist on top at 4 wide 1 deep 2'],
    ['outline rectangle 9 by 7\ndart waist on top at 50% wide 1 deep 2', 'dart waist place', 0.9, 0, 'outline rectangle 9 by 7\ndart waist on top at 60% wide 1 deep 2'],
    ['outline rectangle 9 by 7\ndart waist on top at 3 wide 1 deep 2', 'dart waist width', -0.25, 0, 'outline rectangle 9 by 7\ndart waist on top at 3 wide 1 1/2 deep 2'],
    ['outline rectangle 9 by 7\ndart waist on top at 3 wide 1 deep 2', 'dart waist depth', 1, -0.5, 'outline rectangle 9 by 7\ndart waist on top at 3 wide 1 deep 2 1/2'],
    // Ends 6 apart, a radius of 5: the arc is 1 high; 3 high it is half a circle, and more is no shorter way.
    ['outline path from 0, 0 {\n  arc to 6, 0 radius 5 left\n  line to 6, 4\n  line to 0, 4\n  close\n}', 'outline radius of the arc to point 2', 0, -1, 'outline path from 0, 0 {\n  arc to 6, 0 radius 3 1/4 left\n  line to 6, 4\n  line to 0, 4\n  close\n}'],
    ['outline path from 0, 0 {\n  arc to 6, 0 radius 5 left\n  line to 6, 4\n  line to 0, 4\n  close\n}', 'outline radius of the arc to point 2', 0, -9, 'outline path from 0, 0 {\n  arc to 6, 0 radius 3 left\n  line to 6, 4\n  line to 0, 4\n  close\n}'],
    // Half the way is 3 and a fortieth; the nearest sixteenth would be less.
    ['outline path from 0, 0 {\n  arc to 6.05, 0 radius 5 left\n  line to 6.05, 4\n  line to 0, 4\n  close\n}', 'outline radius of the arc to point 2', 0, -9, 'outline path from 0, 0 {\n  arc to 6.05, 0 radius 3 1/16 left\n  line to 6.05, 4\n  line to 0, 4\n  close\n}'],
    ['outline path from 0, 0 {\n  arc to 6, 0 radius 5 left\n  line to 6, 4\n  line to 0, 4\n  close\n}', 'outline radius of the arc to point 2', 0, 0.5, 'outline path from 0, 0 {\n  arc to 6, 0 radius 9 1/4 left\n  line to 6, 4\n  line to 0, 4\n  close\n}'],
    // A line without a place lies in the middle of its piece.
    ['outline rectangle 9 by 7\nwindow view = rectangle 4 by 2', 'view width', 0.5, 0, 'outline rectangle 9 by 7\nwindow view = rectangle 5 by 2'],
  ])('%s: %s by %d, %d', (lines, id, x, y, expected) => {
    expect(after(lines, id, x, y)).toBe(expected);
  });

  it('is where the text then puts it', () => {
    for (const [name, combination] of [['flap', 'S'], ['base', 'M'], ['gusset', 'S'], ['panel', 'L']] as const) {
      const size = new Map([['size', combination]]);
      const before = handles(shapes, name, size);
      const free = Object.values(before).filter((one) => !one.fixed);
      expect(free.length).toBeGreaterThan(0);
      for (const { id, x, y } of free) {
        const { text, move } = moved(shapes, name, id, { x: -2.6, y: 1.7 }, size);
        const then = handles(text, name, size)[id];
        expect({ id, off: Math.hypot((then?.x ?? Infinity) - move.at.x, (then?.y ?? Infinity) - move.at.y) < 1e-3 }).toEqual({ id, off: true });
        expect({ id, says: then?.says }).toEqual({ id, says: move.says });
        if (move.changes.length === 0) expect([move.at.x, move.at.y]).toEqual([x, y]);
      }
    }
  });

  it('of a dart, a pleat, an allowance or an arc, is where the text then puts it, too', () => {
    const text = piece('outline path from 0, 0 {\n  arc to 6, 0 radius 5 left as hem\n  line to 6, 4\n  line to 0, 4 as top\n  close\n}\nallowance 3/8\ndart waist on top at 50% wide 1 deep 2\npleat full on side2 at 2 deep 1/2 towards end\npleat tuck on side4 at 50% deep 3/8 towards start stitched 1');
    const before = Object.values(handles(text, 'front')).filter(({ id }) => /dart|allowance|radius|pleat/.test(id));
    expect(before).toHaveLength(10);
    for (const { id } of before) {
      const { text: next, move } = moved(text, 'front', id, { x: -9, y: -9 });
      const then = handles(next, 'front')[id];
      expect(next, id).not.toBe(text);
      expect({ id, off: Math.hypot((then?.x ?? Infinity) - move.at.x, (then?.y ?? Infinity) - move.at.y) < 1e-3, says: then?.says }).toEqual({ id, off: true, says: move.says });
    }
  });

  it('changes nothing but numbers, and nothing at all where it was not moved', () => {
    for (const { id } of Object.values(handles(shapes, 'flap'))) expect(moved(shapes, 'flap', id, { x: 0, y: 0 }).text).toBe(shapes);
    const { text } = moved(shapes, 'gusset', 'outline point 3', { x: 10, y: 10 });
    expect(text).toBe(shapes.replace('9, 20', '10, 21'));
  });

  it('is written to the step of its file', () => {
    const as = (unit: string, step: string): string => moved(piece('outline rectangle 90 by 70\nmark eye at 20, 30').replace('unit in\nstep 1/16', `unit ${unit}\nstep ${step}`), 'front', 'mark eye', { x: 3.3, y: 0 }).text;
    expect(as('in', '1/8')).toContain('mark eye at 20 1/8, 30');
    expect(as('in', '1/32')).toContain('mark eye at 20 1/8, 30');
    expect(as('cm', '0.1')).toContain('mark eye at 20.3, 30');
    expect(as('cm', '0.5')).toContain('mark eye at 20.5, 30');
    expect(as('mm', '0.5')).toContain('mark eye at 23.5, 30');
  });
});

describe('what cannot be moved says why', () => {
  const says = (lines: string, id: string): readonly [boolean | undefined, string | undefined] => {
    const one = handles(piece(lines), 'front')[id];
    return [one?.fixed, one?.says];
  };
  it('a formula', () => {
    expect(says('outline rectangle body + 1/2 by 7', 'outline width')).toEqual([true, 'set by a formula: body + 1/2']);
    expect(says('outline rectangle 9 by 7\nmark eye at body  / 2, (3)', 'mark eye')).toEqual([true, 'x set by a formula: body / 2; y set by a formula: (3)']);
    expect(says('outline rectangle 9 by 7\nmark eye at body / 2, 3', 'mark eye')).toEqual([false, 'x set by a formula: body / 2, y 3 in']);
    expect(moved(piece('outline rectangle body by 7'), 'front', 'outline width', { x: 50, y: 0 }).move.changes).toEqual([]);
  });
  it('a formula of a dart, an allowance or an arc', () => {
    expect(says('outline rectangle 9 by 7\nallowance left body / 12', 'allowance left')).toEqual([true, 'set by a formula: body / 12']);
    expect(says('outline rectangle 9 by 7\ndart waist on top at 3 wide body / 6 deep 2', 'dart waist width')).toEqual([true, 'set by a formula: body / 6']);
    expect(says('outline path from 0, 0 {\n  arc to 6, 0 radius body left\n  line to 6, 4\n  line to 0, 4\n  close\n}', 'outline radius of the arc to point 2')).toEqual([true, 'set by a formula: body']);
    expect(says('outline rectangle 9 by 7\nallowance none', 'allowance')).toEqual([undefined, undefined]);
  });
  it('a line that it meets', () => {
    expect(says('outline rectangle 9 by 7\nfoldline half = level at 3\nnotch left meeting half', 'notch left meeting half 1')).toEqual([true, 'set where “half” meets the edge']);
  });
  it('another piece', () => {
    const text = `${piece('outline rectangle 9 by 7\nmark eye at 2, 3\nnotch left at 2')}piece back from front {\n  mark own at 3, 3\n  cut 1 canvas\n}\n`;
    const found = handles(text, 'back');
    expect(found['mark own']?.fixed).toBe(false);
    for (const id of ['mark eye', 'outline point 1', 'notch taken 1']) expect(found[id]).toMatchObject({ fixed: true, says: 'taken from piece “front”: change it there' });
    expect(Object.keys(found)).toHaveLength(7);
  });
});

it('calls every handle of a piece by a name of its own', () => {
  const pattern = patternFrom(shapes);
  for (const { shape } of pattern.resolve(new Map()).pieces) {
    const { combination } = pattern.resolve(new Map());
    const ids = (previewHandles(pattern, shape, combination)?.list ?? []).map(({ id }) => id);
    expect(ids.length).toBeGreaterThan(1);
    expect(new Set(ids).size).toBe(ids.length);
  }
});
