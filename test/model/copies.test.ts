import { describe, expect, it } from 'vitest';
import { pattern } from '../support/spec.ts';

const cover = `piece cover {
  outline rectangle 8 by 6
  foldline crease "Middle crease" = level at 2
  mark loop "Hanging loop" at 4, 5
  edge top "Upper edge"
  notch left at 3
  cut 1 cloth
}`;

describe('what a copy leaves out', () => {
  const copy = (lines: string): ReturnType<typeof pattern> => pattern(`${cover}\npiece copy from cover {\n${lines}\n  cut 1 lining\n}`, 'unit in\nallowance 1/2');

  it('is what it names, and its notches where it says so', () => {
    const parts = (lines: string): readonly string[] => {
      const { lines: drawn, marks, notches } = copy(lines).shape('copy');
      return [...drawn, ...marks].map((one) => one.name).concat(notches.map((notch) => `notch on ${notch.edge}`));
    };
    expect(parts('')).toEqual(['crease', 'loop', 'notch on left']);
    expect(parts('  without loop')).toEqual(['crease', 'notch on left']);
    expect(parts('  without loop, crease, notches')).toEqual([]);
    // What it draws anew is its own.
    expect(parts('  without notches, loop\n  mark loop at 1, 1\n  notch top at 1')).toEqual(['crease', 'loop', 'notch on top']);
  });

  it('must be there to be left out', () => {
    expect(copy('  without lop').only('nothing-left-out').message).toBe('The other piece hands on no line or mark “lop”, so there is nothing to leave out. Did you mean “loop”?');
    expect(copy('  without loop').faults).toEqual([]);
    expect(pattern('piece a {\n  outline rectangle 3 by 3\n  without notches\n  cut 1 cloth\n}').codes).toContain('nothing-left-out');
  });
});

describe('titles of parts', () => {
  it('are what the table shows, on copies too; a name is shown without its underscores', () => {
    const found = pattern(`${cover}
piece upper from cover above crease {
  notch crease at 1
  mark second_loop at 2, 4
  drill eye "Eyelet" at 1, 5
  cut 1 lining along stitching
  cut 1 cork
}`, 'unit in\nallowance 1/2');
    expect(found.faults).toEqual([]);
    expect(found.table().marks.map((row) => `${row.piece} ${row.materials} ${row.mark}`)).toEqual([
      'cover  notch on left', 'cover  Hanging loop', 'cover  Middle crease',
      'upper Lining Hanging loop', 'upper Lining second loop', 'upper Lining Eyelet',
      'upper Cork notch on Middle crease', 'upper Cork Hanging loop', 'upper Cork second loop', 'upper Cork Eyelet',
    ]);
    expect(pattern('piece a {\n  outline rectangle 8 by 6\n  line inner "Core line" = inset 1\n  window gap "Zip box" = rectangle 2 by 1\n  edge left as rim "Rim"\n  allowance rim none\n  cut 1 cloth\n  cut 1 board along inner without gap\n}', 'unit in\nallowance 1/2').table()).toMatchObject({
      cuts: [{}, { along: 'Core line', notes: ['cut out Zip box: 2 in × 1 in, 2 in from the left, 1 1/2 in from below'] }],
      seams: [{ allowance: '1/2 in, but none on Rim' }],
      templates: [{ line: 'Core line, without Zip box' }],
    });
  });
});

describe('a notch where a line meets an edge', () => {
  const met = (outline: string, line: string, edge: string, facts = 'unit in\nallowance 1/2'): readonly (readonly [number, number])[] => {
    const found = pattern(`piece a {\n  outline ${outline}\n  foldline crease = ${line}\n  notch ${edge} meeting crease\n  cut 1 cloth\n}`, facts);
    expect(found.faults).toEqual([]);
    return found.shape('a').notches.map(({ point }) => [Math.round((point.x / 25.4) * 1e4) / 1e4, Math.round((point.y / 25.4) * 1e4) / 1e4]);
  };

  it('lies there, be the corner rounded, the edge curved or the line short', () => {
    expect(met('rectangle 8 by 6', 'level at 2', 'left')).toEqual([[0, 2]]);
    expect(met('rectangle 8 by 6\n  corner bottom round 1', 'level at 2', 'left')).toEqual([[0, 2]]);
    // Carried straight on: one up in three across, from 2, 3 to the right side.
    expect(met('rectangle 8 by 6', 'from 2, 3 to 5, 4', 'right')).toEqual([[8, 5]]);
    // A circle of radius 3 about 3, 3 is met 2 above its middle at 3 ± √5.
    const circle = met('circle across 6', 'level at 5', 'edge');
    expect(circle.map(([x]) => x).sort()).toEqual([0.7639, 5.2361].map((x) => expect.closeTo(x, 2)));
    // Drawn to stitching, it is cut square out from there at the cutting line.
    expect(met('rectangle 8 by 6\n  drawn to stitching', 'level at 2', 'left')).toEqual([[-0.5, 2]]);
  });

  it('is a fault where the line leads past the edge, or is none', () => {
    const faults = (line: string): readonly string[] => pattern(`piece a {\n  outline rectangle 8 by 6\n  foldline crease = level at 2\n  notch top meeting ${line}\n  cut 1 cloth\n}`).faults;
    expect(faults('crease')).toEqual(['line-misses-edge: crease']);
    expect(faults('crese')).toEqual(['unknown-part: crese']);
  });
});
