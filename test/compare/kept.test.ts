import { describe, expect, it } from 'vitest';
import type { Comparison } from '../../server/src/compare/comparison.ts';
import { errataOf } from '../../server/src/compare/errata.ts';
import { pattern } from '../support/spec.ts';
import { compared, edited, pointOf, tasksOf, type Edit } from './edited.ts';

/** An invented seed tray's cover in two sizes: a wall with pleats and a stiff core, a rim, an elastic. */
const spec = `sizes S, L
length wide = 20 for S, 24 for L
length pleat_d = 1
piece wall "Wall" {
  outline rectangle wide by 6
  drawn to stitching
  allowance 1/2
  pleat one "First pleat" on top at 5 deep pleat_d towards end
  pleat two "Second pleat" on top at 15 deep pleat_d towards end
  line low = inset 1 except top 4
  line high = inset 1 except bottom 4
  topstitch row "Lower row" 1/8 from bottom
  mark hole at wide / 2, 2
  grain up
  cut 1 cloth
  cut 1 fuse along stitching
  cut 1 board along low
  cut 1 board along high
}
piece rim "Rim" {
  outline rectangle wide - 4 * pleat_d by 2
  drawn to stitching
  allowance 1/2
  grain up
  cut 1 cloth
}
seam join "Join" = wall.top with rim.bottom
supply band "Band" {
  kind elastic
  across 1/4
  length wide / 2
}
supply ring "Ring" {
  kind ring
  across 1
  count 2
}
`;
const to = (...edits: readonly Edit[]): Comparison => compared(pattern(spec).pattern, pattern(edited(spec, ...edits)).pattern);
const told = ({ changes }: Comparison, group: string): readonly string[] => changes.filter((change) => change.group === group).map(({ subject, what, pieces, was, now, when }) => `${subject}, ${what}${pieces === undefined ? '' : ` (${pieces})`}: ${was} → ${now}${when === undefined ? '' : ` (${when})`}`);
const markAgain = 'Mark again what is not cut anew';

describe('marks are to be made again', () => {
  it('only in those sizes in which their cloth may be kept', () => {
    expect(pointOf(to(['24 for L', '25 for L']), markAgain)).toEqual([]);
    expect(pointOf(to(['24 for L', '25 for L'], ['wide / 2, 2', 'wide / 2, 3']), markAgain)).toEqual(['Wall (hole), only when size is S']);
  });

  it('where only a layer on that cloth is cut anew', () => {
    const comparison = to(['line low = inset 1 except', 'line low = inset 1 1/4 except'], ['wide / 2, 2', 'wide / 2, 3']);
    expect(pointOf(comparison, 'Recut')).toEqual(['Wall']);
    expect(pointOf(comparison, markAgain)).toEqual(['Wall (hole)']);
  });
});

describe('what is alike on a piece is told apart', () => {
  it('a pleat that is laid the other way, by its title, and where its fold and its other line are marked', () => {
    const comparison = to(['at 15 deep pleat_d towards end', 'at 15 deep pleat_d towards start']);
    expect(told(comparison, 'sew')).toEqual([expect.stringMatching(/^Wall, Second pleat: .* its left line laid on its right line, .* → .* its right line laid on its left line, /)]);
    expect(told(comparison, 'mark').map((text) => text.split(':', 1)[0])).toEqual(['Wall, Second pleat, fold', 'Wall, Second pleat, laid on']);
  });

  it('topstitching that is gone, by its title', () => {
    expect(told(to(['  topstitch row "Lower row" 1/8 from bottom\n', '']), 'sew')).toEqual(['S', 'L'].map((size) => expect.stringMatching(new RegExp(`^Wall, Lower row: bottom topstitched .* →  \\(size is ${size}\\)$`)) as unknown));
  });

  it('boards along two lines, each by its line', () => {
    expect(told(to(['inset 1 except top 4', 'inset 1 1/2 except top 4'], ['inset 1 except bottom 4', 'inset 1 1/2 except bottom 4']), 'cut').map((text) => text.split(': within', 1)[0])).toEqual(['S', 'L'].flatMap(() => [expect.stringMatching(/^Wall, Board, low: size \(1\)/) as unknown, expect.stringMatching(/^Wall, Board, high: size \(1\)/) as unknown]));
  });

  it('cut lines of which the same is told, with all of their pieces', () => {
    expect(told(to(['cut 1 cloth\n  cut 1 fuse', 'cut 1 cloth\n  cut 1 cloth\n  cut 1 fuse']), 'cut')).toHaveLength(2);
    const both = edited(spec, ['  cut 1 cloth\n}', '  cut 1 cloth\n  cut 1 cloth note "For the inside."\n}']);
    const wider = compared(pattern(both).pattern, pattern(edited(both, ['by 2\n', 'by 3\n'])).pattern);
    expect(told(wider, 'cut').map((text) => text.split(':', 2).join(':'))).toEqual(['Rim, Cloth: size (2)', 'Rim, Cloth: size (2)']);
  });

  it('layers, of which only those are told that go on otherwise', () => {
    const [layers] = told(to(['inset 1 except top 4', 'inset 1 1/2 except top 4']), 'sew');
    expect(layers).toMatch(/^Wall, layers: fuse Board .* → fuse Board /);
    expect(layers).not.toMatch(/Fusible on|; then/);
  });
});

it('a seam of whole edges is the same where the edges are longer for their pleats', () => {
  const comparison = to(['pleat_d = 1', 'pleat_d = 1 1/4'], ['20 for S, 24 for L', '21 for S, 25 for L']);
  expect(told(comparison, 'sew').filter((text) => text.startsWith('Join'))).toEqual([]);
});

describe('a notice', () => {
  it('says once of a supply what it is and how much of it to buy', () => {
    const one = tasksOf(errataOf(to(['length wide / 2', 'length wide / 2 + 1'], ['count 2', 'count 4'])));
    expect(one['Buy these amounts in place of the earlier ones']).toEqual([
      'Band: 1/4 in (about 0.6 cm) wide, 11 in (about 27.9 cm) long, to buy 11 in, in place of 1/4 in (about 0.6 cm) wide, 10 in (25.4 cm) long, to buy 10 in (only where size is S)',
      'Band: 1/4 in (about 0.6 cm) wide, 13 in (about 33 cm) long, to buy 13 in, in place of 1/4 in (about 0.6 cm) wide, 12 in (about 30.5 cm) long, to buy 12 in (only where size is L)',
      'Ring: 4, in place of 2',
    ]);
    expect(one['Mind what has changed about materials and supplies']).toBeUndefined();
  });
});

it('how a size is shown is no change', () => {
  const thirds = `${spec}piece tab "Tab" {\n  outline rectangle 2 1/3 by 3\n  grain up\n  cut 1 cork\n}\n`;
  const inches = pattern(thirds);
  expect(inches.codes).toContain('rounded-size');
  const sixteenths = pattern(thirds, 'unit in\nstep 1/16\nallowance none').pattern;
  expect(compared(inches.pattern, sixteenths)).toMatchObject({ same: true, changes: [] });
});
