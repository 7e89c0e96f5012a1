import { describe, expect, it } from 'vitest';
import { edgeLength } from '../../server/src/geometry/measure.ts';
import { pattern } from '../support/spec.ts';

/** An invented panel of 24 by 16 cm, drawn to its stitching line, with an allowance of 1 cm. */
const panel = (body: string, drawn = 'stitching'): string => `piece panel {
  outline rectangle 24 by 16
  drawn to ${drawn}
  allowance 1
${body}
  cut 1 cloth
}
`;
const copied = (body: string, copy: string, from = 'panel', drawn = 'stitching'): ReturnType<typeof pattern> => pattern(`${panel(body, drawn)}piece copy from ${from} {\n${copy}\n  cut 1 cloth\n}`, 'unit cm\nallowance none');
const centimetres = (points: readonly { readonly x: number; readonly y: number }[] | undefined): readonly (readonly [number, number])[] | undefined =>
  points?.map(({ x, y }) => [Math.round(x * 100) / 1000, Math.round(y * 100) / 1000] as const);
const lineOf = (found: ReturnType<typeof pattern>, name: string): ReturnType<typeof centimetres> => centimetres(found.shape('copy').lines.find((line) => line.name === name)?.points);
const faults = (found: ReturnType<typeof pattern>): readonly string[] => found.problems.filter(({ severity }) => severity === 'error').map(({ code }) => code);

describe('a line that runs right across ends on the copy’s own cutting line', () => {
  const across = '  foldline middle = level at 8\n  foldline near = upright at 5';
  it.each([
    ['where its allowances are narrower', 'panel', '  allowance none', [[0, 8], [24, 8]], [[5, 0], [5, 16]]],
    ['where they are wider', 'panel', '  allowance 2', [[-2, 8], [26, 8]], [[5, -2], [5, 18]]],
    ['where one side is', 'panel', '  allowance left none', [[0, 8], [25, 8]], [[5, -1], [5, 17]]],
    ['where it is drawn to its cutting line', 'panel', '  drawn to cutting', [[0, 8], [24, 8]], [[5, 0], [5, 16]]],
    // Flipped on the spot, what was 5 from the left is 5 from the right; it runs from right to left.
    ['where it is mirrored', 'panel mirrored', '  allowance 2', [[26, 8], [-2, 8]], [[19, -2], [19, 18]]],
    ['where they are the same', 'panel', '', [[-1, 8], [25, 8]], [[5, -1], [5, 17]]],
  ] as const)('%s', (_, from, copy, level, upright) => {
    const found = copied(across, copy, from);
    expect([lineOf(found, 'middle'), lineOf(found, 'near')]).toEqual([level, upright]);
    expect(faults(found)).toEqual([]);
  });

  it('but not on a copy with an outline of its own, where it stays as long as it was drawn', () => {
    const found = pattern(`${panel('  foldline middle = level at 8', 'cutting')}piece copy from panel {\n  outline rectangle 26 by 18 at -1, -1\n  cut 1 cloth\n}\npiece again from copy {\n  allowance 2\n  cut 1 cloth\n}`, 'unit cm\nallowance none');
    expect(lineOf(found, 'middle')).toEqual([[0, 8], [24, 8]]);
    expect(centimetres(found.shape('again').lines[0]?.points)).toEqual([[0, 8], [24, 8]]);
  });

  it('and is as long as that to a formula', () => {
    const found = pattern(`${panel('  foldline middle = level at 8')}piece copy from panel {\n  allowance none\n  cut 1 cloth\n}\ncheck copy.middle = 24 cm\ncheck panel.middle = 26 cm`, 'unit cm');
    expect(faults(found)).toEqual([]);
  });
});

describe('a dart or pleat begins on the copy’s own seam', () => {
  const onTop = '  dart d on top at 8 wide 2 deep 5\n  pleat p on top at 15 deep 1 towards start';
  it.each([
    ['where the allowance of its edge is wider', 'panel', '  allowance top 3', 13, [[10, 13], [9, 8], [8, 13]], [[17, 13], [15, 13]]],
    ['where it is narrower', 'panel', '  allowance top none', 16, [[10, 16], [9, 11], [8, 16]], [[17, 16], [15, 16]]],
    ['where that of the edge beside it is wider', 'panel', '  allowance left 3', 15, [[10, 15], [9, 10], [8, 15]], [[17, 15], [15, 15]]],
    // Flipped within 0 to 24.
    ['where it is mirrored', 'panel mirrored', '  allowance top 3', 13, [[16, 13], [15, 8], [14, 13]], [[7, 13], [9, 13]]],
  ] as const)('%s', (_, from, copy, height, dart, ends) => {
    const found = copied(onTop, copy, from, 'cutting');
    expect([...(lineOf(found, 'd') ?? [])].sort((a, b) => b[0] - a[0])).toEqual(dart);
    const pleat = lineOf(found, 'p');
    expect([pleat?.[0], pleat?.at(-1)]).toEqual(ends);
    const top = found.shape('copy').stitching.edges.find(({ name }) => name === 'top');
    expect((top?.start.y ?? 0) / 10).toBeCloseTo(height, 9);
    expect(faults(found)).toEqual([]);
  });

  it('so that its edge is as long as with both closed, and they are told among what is sewn', () => {
    const found = pattern(`${panel(onTop, 'cutting')}piece copy from panel {\n  edge top as rim\n  allowance rim 3\n  cut 1 cloth\n}\ncheck copy.rim = 18 cm`, 'unit cm');
    expect(faults(found)).toEqual([]);
    expect(edgeLength(found.shape('copy').stitching.edges.find(({ name }) => name === 'rim') ?? { name: '', start: { x: 0, y: 0 }, segments: [], measuredFrom: 'start' })).toBeCloseTo(220, 9);
  });
});

it('a dart’s twin on a part that was opened out is moved on its own edge', () => {
  const found = pattern(`piece half {
  outline rectangle 24 by 16
  drawn to stitching
  allowance 1
  on fold left
  dart d on top at 50% wide 2 deep 3
  placement low = level at 4
  cut 1 cloth on fold
}
piece upper from half above low {
  cut 1 cloth
}
piece copy from upper {
  drawn to cutting
  cut 1 cloth
}`, 'unit cm');
  expect(faults(found)).toEqual([]);
  expect(['d', 'd_twin'].map((name) => [...(lineOf(found, name) ?? [])].sort((a, b) => a[0] - b[0]))).toEqual([[[11, 15], [12, 12], [13, 15]], [[-13, 15], [-12, 12], [-11, 15]]]);
});

describe('what has no room on a copy any more is told, and left out', () => {
  it.each([
    ['a line that lies beyond its cutting line', '  placement trim = from -0.5, 8 to 24.5, 8', '  allowance none', 'The placement line “trim”, which this copy takes over, has no room on it any more. Draw another of that name, or leave it out: without trim.'],
    ['a level line above it', '  foldline rim = level at 16.5', '  allowance none', 'The fold line “rim”'],
    ['a closed line', '  window slit = rectangle 2 by 2 at -0.5, 3', '  allowance none', 'The window “slit”'],
    ['a mark', '  mark eye at -0.5, 8', '  allowance left none', 'The mark “eye”'],
    ['a drill hole', '  drill eye at -0.5, 8', '  allowance left none', 'The drill hole “eye”'],
    ['a dart whose edge lies on the fold', '  dart d on left at 8 wide 2 deep 5', '  on fold left', 'The dart “d”'],
  ])('%s', (_, body, copy, message) => {
    const found = copied(body, copy);
    const told = found.only('no-room-on-copy');
    expect(told.message).toContain(message);
    expect(told.marked).toBe('copy');
    expect([found.shape('copy').lines, found.shape('copy').marks]).toEqual([[], []]);
    expect(faults(found)).toEqual(['no-room-on-copy']);
  });

  it.each([
    ['a dart that would reach out of it', '  dart d on top at 8 wide 2 deep 13', '  allowance bottom 3\n  allowance top 3', 'The dart “d”'],
    ['a pleat whose edge is too short by now', '  pleat p on top at 2 deep 1 towards start', '  allowance left 3', 'The pleat “p”'],
  ])('%s', (_, body, copy, message) => {
    expect(copied(body, copy, 'panel', 'cutting').only('no-room-on-copy').message).toContain(message);
  });

  it('unless the copy leaves it out or draws its own, or the first piece has no room for it either', () => {
    const trim = '  placement trim = from -0.5, 8 to 24.5, 8';
    expect(faults(copied(trim, '  allowance none\n  without trim'))).toEqual([]);
    expect(faults(copied(trim, '  allowance none\n  placement trim = from 0, 8 to 24, 8'))).toEqual([]);
    expect(faults(copied('  placement trim = from -3, 8 to 24.5, 8', ''))).toEqual(['outside-piece']);
    expect(faults(copied('  mark eye at -3, 8', ''))).toEqual(['outside-piece']);
  });
});
