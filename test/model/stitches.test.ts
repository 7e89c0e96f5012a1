import { describe, expect, test } from 'vitest';
import { drawingOf } from '../../server/src/pages/strokes.ts';
import { stepDrawings } from '../../server/src/table/step-drawings.ts';
import { threadSentences } from '../../server/src/table/thread.ts';
import { compareWithoutLays } from '../../server/src/compare/comparison.ts';
import { pattern } from '../support/spec.ts';

const facts = 'unit cm\nallowance 1\ndrawn to stitching';
const made = (lines: string, more = '', outline = 'rectangle 10 by 6', cut = 'cut 1 cloth') => pattern(`piece p "Piece" {\n  outline ${outline}\n${lines}\n  ${cut}\n}\n${more}`, facts);
/** In centimetres, as a formula asks for it. */
const long = (lines: string, outline?: string): number => Math.round(made(lines, 'length asked = p.a', outline).value('asked').amount.valueOf() * 1e4) / 1e5;
const sewn = (lines: string, more = '', outline?: string, cut?: string): readonly string[] =>
  made(lines, more, outline, cut).table().sewing.filter(({ how }) => how === 'topstitched' || how === 'quilted').map(({ seam, first, how, second, times, length }) => `${seam}; ${first}; ${how} ${second}; ${length.text}; ${times}`);

describe('how long topstitching is, from the finished edge', () => {
  test('round corners it is shorter on both sides of them', () => {
    // Legs of 6 less 0.5 at the one corner, a base of 10 less 0.5 at both.
    expect(long('  topstitch a 0.5 from left, bottom, right')).toBe(5.5 + 9 + 5.5);
    expect(long('  topstitch a 0.5 from left, right')).toBe(12);
    expect(long('  topstitch a 0.5 from all')).toBe(2 * (9 + 5));
  });
  test('inside a circle its radius is smaller by as much', () => {
    expect(long('  topstitch a 1 from edge', 'circle across 10')).toBeCloseTo(Math.PI * 8, 4);
  });
  test('round a window it lies outside', () => {
    expect(long('  window w = rectangle 4 by 1\n  topstitch a 0.2 from w')).toBeCloseTo(2 * (4.4 + 1.4), 6);
  });
  test('beside a fold it is as long as the fold, and drawn on both sides of it', () => {
    const lines = '  foldline f = level at 3\n  topstitch a 0.2 from f';
    expect(long(lines)).toBe(10);
    expect(made(lines).shape('p').stitchRows[0]?.runs.map(({ points }) => points.map(({ x, y }) => [Math.round(x), Math.round(y)]))).toEqual([[[0, 32], [100, 32]], [[0, 28], [100, 28]]]);
  });
  test('on a piece that is drawn as half it counts both halves', () => {
    expect(long('  on fold left\n  topstitch a 0.5 from bottom, right', 'rectangle 5 by 6')).toBe(2 * (4.5 + 5.5));
    expect(long('  on fold left\n  foldline f = level at 3\n  topstitch a 0.5 from f', 'rectangle 5 by 6')).toBe(10);
  });
  test('where it ends at an edge that goes straight on, it ends square, without a step back to that', () => {
    const [run, ...more] = made('  topstitch a 0.5 from low', '', 'path from 0, 0 {\n    line to 5, 0 as low\n    line to 10, 0 as next\n    line to 10, 6 as right\n    line to 0, 6 as top\n    close as left\n  }').shape('p').stitchRows[0]?.runs ?? [];
    expect(more).toEqual([]);
    expect(run?.points.map(({ x, y }) => [Math.round(x), Math.round(y)])).toEqual([[0, 5], [50, 5]]);
  });
  test('along a line it is as long as that within the seams', () => {
    expect(long('  line b = upright at 4\n  topstitch a along b')).toBe(6);
    expect(long('  placement b = rectangle 2 by 1\n  line c = from 1, 1 to 4, 5\n  topstitch a along b, c')).toBe(6 + 5);
    expect(long('  on fold left\n  line b = upright at 0\n  line c = level at 2\n  topstitch a along b, c', 'rectangle 5 by 6')).toBe(6 + 10);
  });
  test('over a dart it is as long as with that closed', () => {
    expect(long('  dart d on top at 50% wide 2 deep 2\n  topstitch a 0.5 from top')).toBe(8);
  });
});

describe('how long quilting is, from cut edge to cut edge', () => {
  test('rows on both sides of their line', () => {
    // Cut 12 by 8, rows at 1, 3, 5, 7 and 9 from the seam: 5 of 8 each.
    expect(long('  line mid = upright at 5\n  quilt a 2 apart along mid')).toBe(40);
    expect(long('  line mid = level at 3\n  quilt a 3 apart along mid')).toBe(3 * 12);
  });
  test('on a piece that is drawn as half, the row on its fold once', () => {
    // Opened out 10 wide and 8 high as cut, which is 12 by 8: rows at 0, 2 and 4 to both sides.
    expect(long('  on fold left\n  line mid = upright at 0\n  quilt a 2 apart along mid', 'rectangle 5 by 6')).toBe(5 * 8);
    expect(long('  on fold left\n  line mid = level at 3\n  quilt a 3 apart along mid', 'rectangle 5 by 6')).toBe(3 * 12);
  });
});

describe('what is told of it', () => {
  test('beside what, how far, how long and how often', () => {
    expect(sewn('  edge bottom "Hem"\n  window w = rectangle 4 by 1\n  line mid "Middle" = upright at 5\n  topstitch a "Rim" 0.5 from left, bottom\n  topstitch b 0.2 from w\n  quilt c 2 apart along mid', '', undefined, 'cut 3 cloth')).toEqual([
      'Piece: Rim; left and Hem; topstitched 5 mm from the finished edge; 15 cm; 3',
      'Piece: b; w; topstitched 2 mm from the window; 11.6 cm; 3',
      'Piece: c; Middle, and beside it; quilted in upright rows 2 cm apart, from cut edge to cut edge; 40 cm; 3',
    ].map((text) => text.replace('5 mm', '0.5 cm').replace('2 mm', '0.2 cm')));
  });
  test('how its rows run, and where to mark the one that the others lie beside', () => {
    const { marks, sewing } = made('  line lev = level at 2\n  line up = upright at 3\n  line way "Rising" = from 8, 5 to 1, 1\n  quilt a 2 apart along lev\n  quilt b 2 apart along up\n  quilt c 2 apart along way').table();
    expect(sewing.map(({ second }) => second.split(' ')[1])).toEqual(['level', 'upright', 'slanting']);
    // Cut 1 cm outside of the seams.
    expect(marks.map(({ mark, kind, fromLeft, fromBelow }) => [mark, kind, fromLeft?.text, fromBelow?.text])).toEqual([
      ['a: lev', 'line to stitch along, level', undefined, '3 cm'],
      ['b: up', 'line to stitch along, upright', '4 cm', undefined],
      ['c: Rising, lower end', 'line to stitch along, slanting', '2 cm', '2 cm'],
      ['c: Rising, upper end', 'line to stitch along, slanting', '9 cm', '6 cm'],
    ]);
  });
  test('a line that is only looked at is not marked', () => {
    expect(made('  line lev = level at 2\n  topstitch a 0.5 from top').table().marks).toEqual([]);
    expect(made('  line lev = level at 2\n  topstitch a along lev').table().marks.map(({ mark }) => mark)).toEqual(['a: lev']);
  });
  test('once for two copies that are sewn to one another there, and once for an outside with its lining', () => {
    const round = 'seam s = p.left, p.bottom, p.right with p.right, p.bottom, p.left';
    const times = (lines: string, more: string, cut: string): number | undefined => made(lines, more, undefined, cut).table().sewing.find(({ how }) => how === 'topstitched')?.times;
    expect(times('  topstitch a 0.5 from left, bottom, right', round, 'cut 2 cloth')).toBe(1);
    expect(times('  topstitch a 0.5 from left, top', round, 'cut 2 cloth')).toBe(2);
    expect(times('  topstitch a 0.5 from left', '', 'cut 2 cloth\n  cut 2 lining')).toBe(2);
    expect(times('  topstitch a 0.5 from left', '', 'cut 2 lining\n  cut 2 fuse')).toBe(2);
  });
  test('its thread is counted: 28 cm twice, and two and a half times as much of it', () => {
    const { pattern: found, table } = made('  topstitch a 0.5 from all', '', undefined, 'cut 2 cloth');
    expect(threadSentences(table().sewing, found.display)[0]).toMatch(/^All these rows of stitches are about 56 cm long.*: about 140 cm\. Whatever else you sew comes on top, such as seams, hems, zips, bindings and ends\.$/);
  });
  test('on its template, in dashes of its own, its name once', () => {
    const shape = made('  line mid = level at 3\n  quilt a "Quilting" 2 apart along mid').shape('p');
    const strokes = drawingOf(shape, { along: 'cutting', windows: [], large: undefined, outline: [] }, { all: new Set(), exactly: new Set() }, () => true).strokes.filter(({ role }) => role === 'topstitch');
    expect(strokes.map(({ name }) => name)).toEqual(['', 'Quilting: mid', '']);
  });
  test('along lines that a template shows anyway it isn’t drawn once more', () => {
    const roles = (use: string): number => drawingOf(made(`  ${use} b = level at 3\n  topstitch a along b`).shape('p'), { along: 'cutting', windows: [], large: undefined, outline: [] }, { all: new Set(), exactly: new Set() }, () => true).strokes.filter(({ role }) => role === 'topstitch').length;
    expect([roles('line'), roles('placement'), roles('foldline')]).toEqual([1, 0, 0]);
  });
  test('in the picture of the step that quilts it, between the seams', () => {
    const { pattern: found } = made('  line mid = upright at 5\n  quilt a 4 apart along mid\n  edge all raw', 'step "Quilt." does p.a, p');
    const [step] = stepDrawings(found.resolve(new Map()), found.display);
    expect(step?.pieces.flatMap(({ lines }) => lines.map(({ points }) => points.map(({ x, y }) => [Math.round(x), Math.round(y)])))).toEqual([[[90, 0], [90, 60]], [[50, 0], [50, 60]], [[10, 0], [10, 60]]]);
  });
  test('in the picture of the step that sews it, dashed', () => {
    const { pattern: found } = made('  edge all hemmed 0.5\n  topstitch a 0.5 from left, right', 'step "Hem." does p.left, p.right, p.top, p.bottom\nstep "Topstitch." does p.a');
    const [, second] = stepDrawings(found.resolve(new Map()), found.display);
    expect(second?.pieces.flatMap(({ lines }) => lines.map(({ isDashed, points }) => [isDashed, points.length]))).toEqual([[true, 2], [true, 2]]);
    expect(second?.parts[0]?.words).toBe('Piece: a: left and right, 0.5 cm from the finished edge, dashed');
  });
  test('by a copy that has its edges and room for it, along its own', () => {
    const copies = sewn('  topstitch a 0.5 from left, bottom', [
      'piece same "Mirrored" from p mirrored {\n  cut 1 cloth\n}', 'piece small "Smaller" from p inset 1 {\n  cut 1 cloth\n}', 'piece bare "Bare" from p {\n  without a\n  cut 1 cloth\n}',
      'piece other "Other" from p {\n  outline circle across 5\n  cut 1 cloth\n}', 'piece named "Named" from p {\n  edge left as side\n  cut 1 cloth\n}', 'piece narrow "Narrow" from p {\n  outline rectangle 10 by 0.4\n  cut 1 cloth\n}',
    ].join('\n'));
    expect(copies.map((text) => text.split('; ').filter((_, index) => index !== 2).join('; '))).toEqual([
      'Piece: a; left and bottom; 15 cm; 1', 'Mirrored: a; left and bottom; 15 cm; 1', 'Smaller: a; left and bottom; 11 cm; 1', 'Named: a; side and bottom; 15 cm; 1',
    ]);
  });
});

describe('what is wrong with it', () => {
  const faults = (lines: string, more = ''): readonly string[] => made(lines, more).faults;
  test('no room, and rows too near or too far from one another', () => {
    expect(faults('  topstitch a 5.9 from top')).toEqual([]);
    expect(faults('  topstitch a 6 from top')).toEqual(['no-room-to-stitch: 6']);
    expect(faults('  topstitch a 3 from top, bottom')).toEqual(['no-room-to-stitch: 3']);
    expect(faults('  window w = rectangle 4 by 1\n  topstitch a 2.6 from w')).toEqual(['no-room-to-stitch: 2.6']);
    expect(faults('  foldline f = level at 1\n  topstitch a 5.5 from f')).toEqual(['no-room-to-stitch: 5.5']);
    expect(faults('  line mid = level at 3\n  quilt a 5 apart along mid')).toEqual(['no-room-to-stitch: 5']);
    expect(faults('  line mid = level at 3\n  quilt a 0.05 apart along mid')).toEqual(['no-room-to-stitch: 0.05']);
    expect(faults('  topstitch a 0 from top')).toEqual(['too-small: 0']);
  });
  test('a fold of a piece that is narrower as it is folded', () => {
    const strap = '  foldline f = level at 3\n  folded f\n  topstitch a ';
    expect(faults(`${strap}2.9 from f`)).toEqual([]);
    expect(faults(`${strap}3 from f`)).toEqual(['no-room-to-stitch: a']);
  });
  test('names that are none, or no edge, fold or window, or taken', () => {
    expect(faults('  topstitch a 0.5 from tpo')).toEqual(['unknown-part: tpo']);
    expect(faults('  topstitch a along top')).toEqual(['unknown-part: top']);
    expect(faults('  line mid = level at 3\n  topstitch a 0.5 from mid')).toEqual(['wrong-thing: mid']);
    expect(faults('  line mid = from 1, 1 to 2, 2 to 4, 2\n  quilt a 1 apart along mid')).toEqual(['wrong-thing: mid']);
    expect(faults('  line a = level at 3\n  topstitch a 0.5 from top')).toEqual(['duplicate-name: a']);
    expect(faults('  on fold left\n  topstitch a 0.5 from left')).toEqual(['unknown-part: left']);
  });
  test('an edge that ends on its cutting line, not where it is measured from', () => {
    expect(faults('  edge top raw\n  topstitch a 0.5 from top')).toEqual(['stitched-raw: a']);
    expect(faults('  edge top raw\n  allowance top none\n  topstitch a 0.5 from top')).toEqual([]);
  });
});

describe('when it can be sewn', () => {
  const other = 'piece q "Other" {\n  outline rectangle 10 by 6\n  edge left raw\n  edge right raw\n  edge top raw\n  cut 1 cloth\n}\nseam s = p.bottom with q.bottom\n';
  const order = (steps: string, lines = '  edge left raw\n  edge right raw\n  edge top hemmed 0.5\n  topstitch a 0.5 from bottom, top'): readonly string[] => made(lines, `${other}${steps}`).faults;
  test('after its edges are sewn and hemmed, or in that very step', () => {
    expect(order('step "1" does s, p.top\nstep "2" does p.a')).toEqual([]);
    expect(order('step "1" does p.top\nstep "2" does p.a, s')).toEqual([]);
    expect(order('step "1" does p.top\nstep "2" does p.a\nstep "3" does s')).toEqual(['not-yet-finished: p.a']);
    expect(order('step "1" does s\nstep "2" does p.a\nstep "3" does p.top')).toEqual(['not-yet-finished: p.a']);
  });
  test('once, and in some step', () => {
    expect(order('step "1" does s, p.top')).toEqual(['left-out: p']);
    expect(order('step "1" does s, p.top\nstep "2" does p.a\nstep "3" does p.a')).toEqual(['done-twice: p.a']);
    expect(order('step "1" does s, p')).toEqual([]);
    // The whole piece, in a later step, hems what no step of its own does.
    expect(order('step "1" does s, p.a\nstep "2" does p')).toEqual(['not-yet-finished: p.a']);
  });
  test('after its piece is folded', () => {
    const strap = '  foldline f = level at 3\n  folded f\n  edge left raw\n  edge right raw\n  edge top raw\n  topstitch a 0.5 from f';
    expect(order('step "1" does p.folded\nstep "2" does p.a\nstep "3" does s', strap)).toEqual([]);
    expect(order('step "1" does p.a\nstep "2" does p\nstep "3" does s', strap)).toEqual([]);
    expect(order('step "1" does p.a\nstep "2" does p.folded\nstep "3" does s', strap)).toEqual(['not-yet-finished: p.a']);
  });
  test('quilting after the layers, and while the piece lies flat', () => {
    const pad = '  line mid = level at 3\n  quilt a 2 apart along mid\n  edge left raw\n  edge right raw\n  edge top raw\n  cut 1 foam along stitching';
    const padded = (steps: string): readonly string[] => made(pad.replace('  cut 1 foam along stitching', ''), `${other}${steps}`, undefined, 'cut 1 cloth\n  cut 1 foam along stitching').faults;
    expect(padded('step "1" does p.layers\nstep "2" does p.a\nstep "3" does s')).toEqual([]);
    expect(padded('step "1" does p.a\nstep "2" does p.layers\nstep "3" does s')).toEqual(['not-yet-finished: p.a']);
    expect(padded('step "1" does p.layers\nstep "2" does s\nstep "3" does p.a')).toEqual(['too-late: p.a']);
  });
  test('before its piece is sewn down by other edges', () => {
    const patch = (steps: string): readonly string[] => pattern(`piece base "Base" {\n  outline rectangle 20 by 20\n  placement spot = rectangle 10 by 6\n  edge all raw\n  cut 1 cloth\n}\npiece p "Pocket" {\n  outline rectangle 10 by 6\n  edge top hemmed 0.5\n  topstitch a 0.5 from top\n  topstitch b 0.2 from left, bottom, right\n  cut 1 cloth\n}\nseam s = p.left, p.bottom, p.right onto base.spot\n${steps}`, facts).faults;
    expect(patch('step "1" does p.top, p.a\nstep "2" does s, p.b')).toEqual([]);
    expect(patch('step "1" does p.top\nstep "2" does s\nstep "3" does p.a, p.b')).toEqual(['too-late: p.a']);
  });
});

test('a comparison tells that it lies otherwise, and that it is printed anew', () => {
  const spec = (lines: string) => made(lines, '', 'polygon from 0, 0 to 10, 0 to 9, 6 to 0, 6').pattern;
  const { changes } = compareWithoutLays(spec('  topstitch a 0.5 from side1'), spec('  topstitch a 0.8 from side1'));
  expect(changes.filter(({ group }) => group !== 'words').map(({ what, was, now }) => `${what}: ${was} > ${now}`)).toEqual([
    'cutting line:  > the same outline, with other lines or marks on it',
    'a: side1 topstitched 0.5 cm (about 1/4 in) from the finished edge, about 9.9 cm (about 3 7/8 in) > side1 topstitched 0.8 cm (about 3/8 in) from the finished edge, about 9.9 cm (about 3 7/8 in)',
  ]);
});
