import { describe, expect, it } from 'vitest';
import { toMarkdown } from '../../server/src/formats/markdown.ts';
import { analyse, pattern } from '../support/spec.ts';

describe('layers', () => {
  const where = (lines: string, outline = 'rectangle 8 by 6', facts?: string): readonly string[] =>
    pattern(`piece a "A" {\n  outline ${outline}\n${lines}\n}`, facts).table().fusing.map((row) => row.where);

  it('beside a fold lie on the half that was drawn', () => {
    const beside = (fold: string, patch: string): readonly string[] => where(`  on fold ${fold}\n  line patch = rectangle ${patch}\n  cut 1 cloth on fold\n  cut 1 fuse along patch`, 'rectangle 4 1/4 by 5 3/8');
    // Opened out it is 4 1/4 by 10 3/4, or 8 1/2 by 5 3/8; the drawn half lies on the other side of the fold than its mirror image.
    expect(beside('top', '3 3/4 by 5 at 1/4, 1/4')).toEqual(['5 1/2 in inside the top, 1/4 in inside the bottom, 1/4 in inside left and right']);
    expect(beside('bottom', '3 3/4 by 5 at 1/4, 1/8')).toEqual(['1/4 in inside the top, 5 1/2 in inside the bottom, 1/4 in inside left and right']);
    expect(beside('left', '4 by 4 7/8 at 1/8, 1/4')).toEqual(['1/4 in inside top and bottom, 4 3/8 in inside the left, 1/8 in inside the right (seen from the right side)']);
    expect(beside('right', '4 by 4 7/8 at 1/8, 1/4')).toEqual(['1/4 in inside top and bottom, 1/8 in inside the left, 4 3/8 in inside the right (seen from the right side)']);
  });

  it('say where they lie on what they go on', () => {
    expect(where('  cut 1 cloth\n  cut 1 fuse')).toEqual(['edge to edge']);
    expect(where('  line core = inset 1/2\n  cut 1 cloth\n  cut 1 board along core')).toEqual(['1/2 in inside every edge']);
    expect(where('  line core = inset 1/2\n  cut 1 cloth\n  cut 1 board along core', 'circle across 6')).toEqual(['1/2 in inside every edge']);
    // 8 − 5 and 6 − 5, halved.
    expect(where('  cut 1 cloth\n  cut 1 board sized 5 by 5')).toEqual(['centred: 1 1/2 in inside left and right, 1/2 in inside top and bottom']);
    expect(where('  cut 1 cloth\n  cut 1 board sized 8 by 5')).toEqual(['centred: flush with the left and right, 1/2 in inside top and bottom']);
    expect(where('  line strip = rectangle 8 by 2 at 0, 4\n  cut 1 cloth\n  cut 1 board along strip')).toEqual(['flush with the top and the left and right, 4 in inside the bottom']);
    expect(where('  line patch = rectangle 3 by 2 at 1, 1\n  cut 1 cloth\n  cut 1 board along patch')).toEqual(['3 in inside the top, 1 in inside the bottom, 1 in inside the left, 4 in inside the right (seen from the right side)']);
    expect(where('  cut 1 cloth\n  cut 1 fuse large by 1/4')).toEqual(['standing out 1/4 in all round']);
    // What a dart takes in is not measured: the peak over it is gone once it is closed.
    const dart = '  drawn to stitching\n  allowance 1/2\n  dart tuck on top at 50% wide 1 deep 2\n  cut 1 cloth\n';
    expect(where(`${dart}  cut 1 board along stitching`)).toEqual(['1/2 in inside every edge, its dart closed']);
    // A box round a circle is inside every edge of the box, but not of the circle.
    expect(where('  line core = rectangle 4 by 4\n  cut 1 cloth\n  cut 1 board along core', 'circle across 6')).toEqual(['centred: 1 in inside left and right, 1 in inside top and bottom']);
  });

  it('that lie unevenly over a dart are told from the edge without its peak, which is gone once it is closed', () => {
    const over = (dart: string, lines: string, more = '', outline = 'rectangle 8 by 6'): readonly string[] => where(`  drawn to stitching\n${more}  allowance 1/2\n  dart tuck on ${dart}\n${lines}`, outline);
    // The cut edge lies at 6 1/2 and −1/2 in, and at −1/2 and 8 1/2 in across; the dart's peak stands out beyond it.
    const core = '  line core = rectangle 4 by 2 at 1, 1\n  cut 1 cloth\n  cut 1 board along core';
    expect(over('top at 50% wide 1 deep 2', core)).toEqual(['3 1/2 in inside the top, 1 1/2 in inside the bottom, 1 1/2 in inside the left, 3 1/2 in inside the right (seen from the right side), its dart closed']);
    expect(over('left at 50% wide 1 deep 2', core)).toEqual(['3 1/2 in inside the top, 1 1/2 in inside the bottom, 1 1/2 in inside the left, 3 1/2 in inside the right (seen from the right side), its dart closed']);
    expect(over('top at 30% wide 1 deep 2\n  dart tock on top at 70% wide 1 deep 2', core.replace('4 by 2 at 1, 1', '5 by 5 at 1 1/2, 1/2'))).toEqual(['centred: 2 in inside left and right, 1 in inside top and bottom, its darts closed']);
    // Each half has one of what is drawn as half.
    expect(over('top at 50% wide 1 deep 2', '  cut 1 cloth on fold\n  cut 1 board along stitching', '  on fold left\n')).toEqual(['1/2 in inside every edge, its darts closed']);
    expect(over('top at 50% wide 1 deep 2', '  cut 1 cloth\n  cut 1 board along stitching', '  on fold left\n')).toEqual(['1/2 in inside every edge, its darts closed']);
    expect(over('bottom at 50% wide 1 deep 2', core.replace('cut 1 cloth', 'cut 1 cloth on fold'), '  on fold left\n')).toEqual(['3 1/2 in inside the top, 1 1/2 in inside the bottom, 9 1/2 in inside the left, 3 1/2 in inside the right (seen from the right side), its darts closed']);
    // A layer that runs up into the peak is held against it: half an inch of allowance carried on in both legs, of which each leans 1 in 4, meets 5/8 · tan(2 · atan 1/4) = 1/3 in above the cut edge.
    expect(over('top at 50% wide 1 deep 2', '  line core = polygon from 1, 1 to 7, 1 to 7, 5 to 4, 6 1/3 to 1, 5\n  cut 1 cloth\n  cut 1 board along core')).toEqual(['1/2 in inside the top, 1 1/2 in inside the bottom, 1 1/2 in inside left and right']);
    // Where its legs meet a round edge they reach farthest: 80 · atan(24/32) = 51.48 along it they lie 24 across and 32 up of 40, so 32.4 up of 40 1/2, from the middle, which lies at 20; the core ends at 3.
    const dome = 'path from 0, 0 {\n    line to 80, 0\n    line to 80, 20\n    arc to 0, 20 through 40, 60 as dome\n    close as side\n  }';
    expect(where(`  drawn to stitching\n  allowance 1/2\n  dart tuck on dome at 50% wide 51.48 deep 32\n${core}`, dome, 'unit cm\nallowance none')).toEqual(['49.4 cm inside the top, 1.5 cm inside the bottom, 1.5 cm inside the left, 75.5 cm inside the right (seen from the right side), its dart closed']);
    // A peak that reaches no farther than the piece does changes nothing, nor does a dart without one.
    expect(over('slope at 50% wide 1 deep 2', core, '', 'path from 0, 0 {\n    line to 8, 0\n    line to 8, 6\n    line to 4, 6\n    line to 0, 3 as slope\n    close as side\n  }').join()).not.toContain('dart');
    expect(over('top at 50% wide 1 deep 2', core).join()).toBe(over('top at 50% wide 1/2 deep 3', core).join());
  });

  it('say which layers they lie on, and that distances run from the cloth', () => {
    const over = (lines: string): readonly (readonly [string, readonly string[]])[] => pattern(`piece a "A" {\n  outline rectangle 8 by 6\n  line left_half = rectangle 3 by 6 at 0, 0\n  line right_half = rectangle 3 by 6 at 5, 0\n  line core = inset 1/2\n  window gap = rectangle 4 by 2 at 2, 2\n${lines}\n}`).table().fusing.map((row) => [row.layer, row.over]);
    expect(over('  cut 1 cloth\n  cut 1 fuse\n  cut 1 board along core')).toEqual([['Fusible', []], ['Board', ['Fusible']]]);
    // Halves that don't meet lie side by side on the fusible; what goes over all lies on both, and on nothing below them but in their middle.
    expect(over('  cut 1 cloth\n  cut 1 board along left_half\n  cut 1 board along right_half')).toEqual([['Board', []], ['Board', []]]);
    expect(over('  cut 1 cloth\n  cut 1 fuse\n  cut 1 board along left_half\n  cut 1 foam')).toEqual([['Fusible', []], ['Board', ['Fusible']], ['Foam', ['Board', 'Fusible']]]);
    expect(over('  cut 1 cloth\n  cut 1 fuse\n  cut 1 board\n  cut 1 foam along core')).toEqual([['Fusible', []], ['Board', ['Fusible']], ['Foam', ['Board']]]);
    // On the other side, on another cloth, or in a window there is nothing between.
    expect(over('  cut 1 cloth\n  cut 1 fuse\n  cut 1 cork along core on right side')).toEqual([['Fusible', []], ['Cork', []]]);
    expect(over('  cut 1 cloth\n  cut 1 fuse\n  cut 1 lining\n  cut 1 foam')).toEqual([['Fusible', []], ['Foam', []]]);
    expect(over('  cut 1 cloth\n  cut 1 board without gap\n  cut 1 foam sized 4 by 2')).toEqual([['Board', []], ['Foam', []]]);
    const text = toMarkdown([pattern('piece a "A" {\n  outline rectangle 8 by 6\n  line core = inset 1/2\n  cut 1 cloth\n  cut 1 fuse\n  cut 1 board along core\n}').table()], 'piece');
    expect(text).toContain('Distances run from the edges of the cloth as it is cut, whatever layers lie between.');
    expect(text).toContain('| A | 2 | fuse | Board | Cloth (over Fusible) | 1/2 in inside every edge | 1 |');
  });

  it('bear no more heat than what they lie on', () => {
    const found = analyse('pattern "Test"\nrevision 1\nunit in\nmaterial cloth "Cloth" {\n  width 60\n}\nmaterial film "Film" {\n  role foam\n  iron low\n  width 60\n}\nmaterial web "Web" {\n  role stabiliser\n  faces glued\n  width 60\n}\npiece a "A" {\n  outline rectangle 8 by 6\n  line core = inset 2\n  line end = rectangle 1 by 1 at 0, 0\n  cut 1 cloth\n  cut 1 film along core\n  cut 1 web along end\n  cut 1 web\n}');
    expect(found.table().fusing.map((row) => [row.layer, row.care])).toEqual([['Film', []], ['Web', []], ['Web', ['at low heat']]]);
  });

  it('are measured on the cloth as it is cut', () => {
    expect(where('  line core = inset 1\n  cut 1 cloth along stitching\n  cut 1 board along core', 'rectangle 8 by 6', 'unit in\nallowance 1/2')).toEqual(['1/2 in inside every edge']);
  });

  it('are as many as there is cloth for, and no more', () => {
    const counts = (lines: string): readonly (readonly [string, number])[] => pattern(`piece a "A" {\n  outline rectangle 8 by 6\n${lines}\n}`).table().fusing.map((row) => [row.layer, row.count]);
    expect(counts('  cut 4 cloth\n  cut 2 fuse\n  cut 4 board')).toEqual([['Fusible', 2], ['Board', 4]]);
    expect(counts('  cut 2 cloth\n  cut 4 fuse')).toEqual([['Fusible', 2]]);
  });
});
