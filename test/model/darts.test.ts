import { Bezier } from 'bezier-js';
import { describe, expect, test } from 'vitest';
import { pattern } from '../support/spec.ts';
import { sample, patternOf } from '../support/samples.ts';

const piece = (lines: string, more = '') => pattern(`piece p "P" {\n  outline rectangle 9 by 7\n  drawn to stitching\n${lines}\n  cut 2 cork\n}\n${more}`, 'unit in\nallowance 1/2');
const dart = '  dart waist "Waist dart" on top at 3 wide 1 deep 2';

describe('a dart', () => {
  test('takes of its edge what it is wide', () => {
    expect(piece(dart, 'length long = p.top').inches('long')).toBe('8');
    expect(piece(`${dart}\n  dart second on top at 6 wide 1/2 deep 2`, 'length long = p.top').inches('long')).toBe('7 1/2');
    expect(piece(dart, 'length long = p.bottom').inches('long')).toBe('9');
  });
  test('takes it of a curve as an independent library measures that', () => {
    // bezier-js measures by Gauss and Legendre.
    const [pot, rise] = [11, 6.5];
    const dome = new Bezier(pot, 1, pot, (rise * 4) / 3, 0, (rise * 4) / 3, 0, 1).length();
    const value = patternOf(`${sample('hearth-cosy.piece')}\nlength over = side.dome`, {}).value('over', new Map());
    expect(value?.amount.div('25.4').valueOf()).toBeCloseTo(dome - 1, 3);
  });
  test('makes the runs of seams shorter, be they whole or in part', () => {
    const long = (run: string): string => piece(dart, `seam s = ${run} with p.bottom within 9\nlength long = round(s.fullness * s.length, 1/64)`).inches('long');
    expect(long('p.top')).toBe('8');
    expect(long('p.top from 0 to 3')).toBe('2 1/2');
    expect(long('p.top from 3 1/4 to 9')).toBe('5 1/2');
    expect(long('p.top from 4 to 9')).toBe('5');
  });
  test('lets notches meet that lie behind it', () => {
    const notched = (at: string) => pattern(`piece p "P" {\n  outline rectangle 9 by 7\n  drawn to stitching\n${dart}\n  notch top at 6\n  edge left raw\n  edge right raw\n  edge bottom raw\n  cut 1 cork\n}\npiece q "Q" {\n  outline rectangle 8 by 2\n  drawn to stitching\n  notch bottom at ${at}\n  edge left raw\n  edge right raw\n  edge top raw\n  cut 1 cork\n}\nseam s = p.top from start to end with q.bottom from start to end`, 'unit in\nallowance 1/2').codes;
    expect(notched('5')).toEqual([]);
    expect(notched('6')).toEqual(['notches-apart']);
  });
  test('has its cutting line trued, so that the piece needs more than a rectangle', () => {
    const shape = piece(dart).shape('p');
    expect(shape.rectangle).toBeUndefined();
    const highest = Math.max(...shape.cutting.edges.flatMap(({ segments }) => segments.map(({ to }) => to.y)));
    // Mirrored in a leg, the cutting line rises at twice the angle of the leg to the middle: atan(1/4).
    expect(highest / 25.4).toBeCloseTo(7.5 + (0.5 + 0.5 / 4) * Math.tan(2 * Math.atan(1 / 4)), 6);
  });
  test('leaves a piece as it is that is drawn to its cutting line', () =>
    expect(pattern(`piece p {\n  outline rectangle 9 by 7\n${dart}\n  cut 1 cork\n}`, 'unit in\nallowance 1/2').shape('p').rectangle).toBeDefined());
  test('is on both halves of what is drawn as half', () => {
    const half = piece(`  on fold left\n${dart}`, 'seam s = p.top, p.top_twin with p.bottom, p.bottom_twin within 9\nlength long = round(s.fullness * s.length, 1/64)');
    expect(half.inches('long')).toBe('16');
  });
  test('is on a mirrored copy where it is on its parent', () => {
    const mirrored = piece(dart, 'piece q from p mirrored {\n  cut 1 cork\n}\nseam s = q.top from 0 to 4 with p.bottom within 9\nseam t = q.top from 5 to 9 with p.bottom within 9\nlength long = round(s.fullness * s.length, 1/64)\nlength rest = round(t.fullness * t.length, 1/64)\nlength top = q.top');
    // A mirrored copy is measured from the mirrored end.
    expect([mirrored.inches('long'), mirrored.inches('rest'), mirrored.inches('top')]).toEqual(['3', '4', '8']);
  });
  test('is told among what is sewn, leg to leg', () => {
    const [row] = piece(dart).table().sewing;
    expect([row?.seam, row?.first, row?.how, row?.second, row?.length.text]).toEqual(['P: Waist dart', 'dart on top, 1 in wide and 2 in deep: one leg', 'sewn to', 'its other leg', 'about 2 in']);
  });
  test.each([
    ['beyond its edge', '  dart waist on top at 1/4 wide 1 deep 2', ['off-edge: 1/4']],
    ['that reaches out of the piece', '  dart waist on top at 3 wide 1 deep 8', ['outside-piece: waist']],
    ['on an edge that there is not', '  dart waist on tap at 3 wide 1 deep 2', ['unknown-part: tap']],
    ['over another', `${dart}\n  dart second on top at 3 3/4 wide 1 deep 2`, ['darts-overlap: second']],
    ['without a width', '  dart waist on top at 3 wide 0 deep 2', ['too-small: 0']],
    ['with the name of another', `${dart}\n${dart.replace('at 3', 'at 6')}`, ['duplicate-name: waist']],
  ])('%s is refused', (_, lines, faults) => expect(piece(lines).faults).toEqual(faults));
});

test('one that runs off its edge is called a dart, with what it takes', () => {
  expect(piece('  dart waist on top at 1/4 wide 1 deep 2').only('off-edge').message).toBe('The dart “waist” runs off the edge “top”, which is 9 in long: it takes 1/2 in of that on either side of this place.');
});

describe('in the order of work', () => {
  const order = (steps: string): readonly string[] => piece(`${dart}\n  edge left raw\n  edge right raw\n  edge bottom raw`, `seam s = p.top with p.top\n${steps}`).faults;
  test('a dart is closed before its edge is sewn', () => {
    expect(order('step "Close." does p.waist\nstep "Sew." does s')).toEqual([]);
    expect(order('step "Close it." does p\nstep "Sew." does s')).toEqual([]);
    expect(order('step "Sew." does s\nstep "Close." does p.waist')).toEqual(['dart-open: s']);
  });
  test('and is not forgotten', () => expect(order('step "Sew." does s')).toEqual(['left-out: p']));
});
