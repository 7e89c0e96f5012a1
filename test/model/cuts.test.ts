import { describe, expect, it } from 'vitest';
import { polygonArea } from '../../server/src/geometry/measure.ts';
import { pattern } from '../support/spec.ts';

const piece = (lines: string, outline = 'rectangle 8 by 6'): ReturnType<typeof pattern> => pattern(`piece a {\n  outline ${outline}\n${lines}\n}`, 'unit in\nallowance 1/2');
const usual = ', as is usual';
const usualGrain = `its height${usual}`;
const row = (lines: string): string => {
  const found = piece(lines);
  const one = found.rows()[0];
  if (one === undefined) throw new Error(found.faults.join('\n'));
  // Each would say it of the grain, which is told of by itself below.
  return [one.count, one.size, one.along, ...(one.grain.endsWith(usual) ? [] : [one.grain]), ...one.notes].filter((text) => text !== '').join('; ');
};

describe('cut lines', () => {
  it('say how the grain lies, be it given or usual', () => {
    const grain = (lines: string, outline?: string): string | undefined => piece(lines, outline).rows()[0]?.grain;
    // The piece is 8 in wide and 6 in high.
    expect(grain('  cut 1 cloth')).toBe('its 6 in side, as is usual');
    expect(grain('  grain up\n  cut 1 cloth')).toBe('its 6 in side');
    expect(grain('  grain across\n  cut 1 cloth')).toBe('its 8 in side');
    expect(grain('  grain across\n  cut 1 cloth', 'rectangle 6 by 6')).toBe('its width');
    expect(grain('  grain across\n  cut 1 cloth', 'ellipse 8 by 6')).toBe('its width');
    expect(grain('  grain none\n  cut 1 cloth')).toBe('');
    expect(grain('  cut 1 board')).toBe('');
  });

  it.each([
    ['cut 1 cloth', '1; 8 in × 6 in; cutting line'],
    ['cut 2 cloth along stitching', '2; 7 in × 5 in; stitching line'],
    ['cut 2 cloth along cutting', '2; 8 in × 6 in; cutting line'],
    ['line core = inset 1\n  cut 1 board along core', '1; 6 in × 4 in; core'],
    ['placement spot = rectangle 3 by 2 at 1, 1\n  cut 1 board along spot', '1; 3 in × 2 in; spot'],
    ['cut 1 cloth large by 1/4', '1; 8 1/2 in × 6 1/2 in; cutting line; 1/4 in of it all round is to spare, trimmed later'],
    ['cut 1 cloth sized 3 by 2', '1; 3 in × 2 in'],
    ['cut 1 cloth sized 3 by 2 large by 1/2', '1; 4 in × 3 in; 1/2 in of it all round is to spare, trimmed later'],
    ['cut 1 cloth note "One" note "Two"', '1; 8 in × 6 in; cutting line; One; Two'],
    ['window gap = rectangle 4 by 1\n  cut 1 cloth without gap', '1; within 8 in × 6 in; cutting line; cut out gap: 4 in × 1 in, 2 in from the left, 2 1/2 in from below'],
    ['corner all round 1\n  cut 1 cloth', '1; within 8 in × 6 in; cutting line; all corners rounded 1 in'],
    ['on fold left\n  cut 1 cloth on fold', '1; 16 in × 6 in; cutting line; size unfolded'],
    ['on fold left\n  cut 1 cloth', '1; 16 in × 6 in; cutting line; size unfolded'],
    ['on fold top\n  cut 1 cloth on fold along stitching', '1; 7 in × 11 in; stitching line; size unfolded'],
    ['grain up\n  cut 1 cloth', '1; 8 in × 6 in; cutting line; its 6 in side'],
    ['grain across or across\n  this way up\n  cut 1 cloth', '1; 8 in × 6 in; cutting line; its width or its height; this way up'],
    ['grain up\n  cut 1 cloth this way up', '1; 8 in × 6 in; cutting line; its 6 in side; this way up'],
    ['grain bias\n  cut 1 cloth', '1; 8 in × 6 in; cutting line; the bias, leaning to the left'],
    ['grain 30 deg\n  cut 1 cloth', '1; 8 in × 6 in; cutting line; a line 30° to the left of its height'],
    ['grain up\n  this way up\n  cut 1 cork', '1; 8 in × 6 in; cutting line'],
  ])('%s', (lines, result) => {
    expect(row(`  ${lines}`)).toBe(result);
  });

  it('count by formulas, and none is no line', () => {
    const found = pattern('count n = 3\npiece a {\n  outline rectangle 2 by 2\n  cut n * 2 + 1 cloth\n  cut n - 3 lining\n}');
    expect(found.faults).toEqual([]);
    expect(found.rows().map((one) => one.count)).toEqual([7]);
  });

  it('must count whole, and not below nothing', () => {
    expect(piece('  cut 1/2 cloth').only('not-whole').marked).toBe('1/2');
    expect(piece('  cut 0 - 1 cloth').only('too-small').marked).toBe('0 - 1');
    expect(piece('  cut 2 in cloth').only('wrong-kind').marked).toBe('2 in');
    expect(piece('  cut 3 cloth twins', 'polygon from 0, 0 to 4, 0 to 1, 5').only('odd-twins').message).toBe('Twins come in pairs, but this cuts 3.');
  });

  it('must name what is there', () => {
    expect(piece('  cut 1 clth').only('unknown-name').message).toContain('Did you mean “cloth”?');
    expect(piece('  cut 1 a').only('wrong-thing').message).toContain('a material is needed');
    expect(piece('  cut 1 cloth along cor').only('unknown-part').marked).toBe('cor');
    expect(piece('  placement l = from 1, 1 to 3, 3\n  cut 1 cloth along l').only('not-closed').marked).toBe('l');
    expect(piece('  cut 1 cloth on fold').only('no-fold-edge').severity).toBe('error');
    expect(piece('  line l = inset 1\n  cut 1 cloth without l').only('unknown-part').marked).toBe('l');
    expect(piece('  cut 1 cloth large by 0').only('too-small').marked).toBe('0');
    expect(piece('  cut 1 cloth sized 3 by 2 sized 2 by 1').only('repeated-fact').severity).toBe('error');
  });

  it('leave the window out of what is cut', () => {
    const cut = piece('  window gap = rectangle 4 by 1\n  cut 1 cloth without gap').cuts('a')[0];
    expect(cut?.holes.map((hole) => Math.abs(polygonArea(hole)) / 25.4 ** 2)[0]).toBeCloseTo(4, 6);
  });

  it('along a line of a half piece are cut opened out', () => {
    const found = piece('  on fold left\n  line stiff = rectangle 2 by 3 at 0, 1\n  line core = inset 1\n  cut 1 cloth on fold\n  cut 1 foam along stiff\n  cut 1 foam along core');
    const [, stiff, core] = found.cuts('a');
    expect(stiff?.bounds.width).toBeCloseTo(4 * 25.4, 6);
    expect(core?.bounds.width).toBeCloseTo(14 * 25.4, 6);
    expect(found.rows().map((one) => one.size)).toEqual(['16 in × 6 in', '4 in × 3 in', '14 in × 4 in']);
  });

  it('along a line beside the fold are cut as drawn', () => {
    const found = piece('  on fold left\n  placement patch = rectangle 2 by 3 at 1, 1\n  cut 1 cloth on fold\n  cut 2 cork along patch');
    expect(found.rows()[1]?.size).toBe('2 in × 3 in');
    expect(found.rows()[1]?.notes).toEqual([]);
  });

  it('say where a shown size is rounded', () => {
    const found = piece('  cut 1 cloth', 'rectangle 8 by 3 1/3');
    expect(found.rows()[0]?.size).toBe('8 in × about 3 3/8 in (exactly 3 1/3 in)');
    expect(found.only('rounded-size').message).toBe('The cut height is 3 1/3 in, shown as 3 3/8 in.');
  });

  it('say what a template must fit into, to the next step up', () => {
    expect(piece('  cut 1 cloth', 'circle across 4 1/16').rows()[0]).toMatchObject({ template: 1, size: 'circle, about 4 1/8 in (exactly 4 1/16 in) across', grain: usualGrain, notes: [] });
    expect(piece('  cut 1 cloth', 'polygon from 0, 0 to 4 1/16, 0 to 2, 3').rows()[0]).toMatchObject({ template: 1, size: 'within 4 1/8 in × 3 in', grain: usualGrain, notes: [] });
  });
});

describe('widths', () => {
  const strip = (size: string, grain: string, material = 'cloth'): readonly string[] =>
    pattern(`piece a {\n  outline rectangle ${size}\n  grain ${grain}\n  cut 1 ${material}\n}`).faults;
  it('must fit across the cloth in a permitted turn', () => {
    // The cloth is 60 in wide, 58 in of it usable.
    expect(strip('58 by 100', 'up')).toEqual([]);
    expect(strip('58 1/8 by 10', 'up')).toEqual(['too-wide: cloth']);
    expect(strip('58 1/8 by 10', 'up or across')).toEqual([]);
    expect(strip('10 by 58 1/8', 'across')).toEqual(['too-wide: cloth']);
    expect(strip('58 1/8 by 10', 'across')).toEqual([]);
    // On the bias a square is √2 as wide: 41 · 1.41421 = 57.98, 41.1 · 1.41421 = 58.12.
    expect(strip('41 by 41', 'bias')).toEqual([]);
    expect(strip('41.1 by 41.1', 'bias')).toEqual(['rounded-size: cut 1 cloth', 'rounded-size: cut 1 cloth', 'too-wide: cloth'].sort());
    expect(strip('100 by 59', 'none', 'cork')).toEqual([]);
  });

  it('count after the cloth has shrunk', () => {
    const text = (size: string): readonly string[] => pattern(`material thin {
  role lining
  width 44 usable 40
  shrinks 4% by 10%
}
piece a {
  outline rectangle ${size}
  grain up
  cut 1 thin
}`).faults;
    expect(text('36 by 10')).toEqual([]);
    expect(text('36 1/8 by 10')).toEqual(['too-wide: thin']);
  });

  it('say what is needed and what is there', () => {
    expect(pattern('piece a {\n  outline rectangle 58 1/8 by 10\n  cut 1 cloth\n}').only('too-wide').message)
      .toBe('Too wide for “cloth”: 58 1/8 in, only 58 in usable. Split it, or turn it with grain up or across.');
  });
});
