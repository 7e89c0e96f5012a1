import { describe, expect, test } from 'vitest';
import { pattern } from '../support/spec.ts';

const facts = 'unit cm\nallowance 1\ndrawn to stitching';
const section = (width: number, pleats: string, more = '') => pattern(`piece p "Section" {\n  outline rectangle ${width} by 60\n${pleats}\n  cut 1 cloth\n}\n${more}`, facts);
const millimetres = (width: number, pleats: string): number => section(width, pleats, 'length pleated = p.top').value('pleated').amount.valueOf();

/**
 * Worked examples of National Instructional Media Institute, Dress Making (Trade Practical), exercise 48, “Material
 * requirement for pleats”: how wide a section is before and after its pleats are laid, in centimetres.
 */
describe('pleats take of their edge what a handbook works out', () => {
  test('eighteen knife pleats, 4 cm deep: 236 cm are laid to 92 cm', () => {
    const pleats = Array.from({ length: 18 }, (_, index) => `  pleat p${index} on top at ${5 + 13 * index} deep 4 towards end`).join('\n');
    expect(millimetres(236, pleats)).toBeCloseTo(920, 6);
  });
  test('a box pleat, 12 cm deep: 108 cm are laid to 60 cm', () => {
    expect(millimetres(108, '  pleat a on top at 42 deep 12 towards start\n  pleat b on top at 66 deep 12 towards end')).toBeCloseTo(600, 6);
  });
  test('an inverted pleat, 6.5 cm deep: 92 cm are laid to 66 cm', () => {
    expect(millimetres(92, '  pleat a on top at 39.5 deep 6.5 towards end\n  pleat b on top at 52.5 deep 6.5 towards start')).toBeCloseTo(660, 6);
  });
});

describe('a pleat', () => {
  test('makes the seam over it shorter', () => {
    const band = (width: number): readonly string[] => section(20, '  pleat a on top at 50% deep 2 towards end', `piece band {\n  outline rectangle ${width} by 4\n  cut 1 cloth\n}\nseam s = p.top with band.bottom`).codes.filter((code) => code !== 'edges-left');
    expect(band(16)).toEqual([]);
    expect(band(20)).toEqual(['seam-lengths']);
  });
  test('is told with where it lies and which way it looks, as the piece is drawn', () => {
    const told = (line: string): readonly string[] => section(20, line).table().sewing.map(({ first, how, second, length }) => `${first} ${how} ${second}; ${length.text}`);
    expect(told('  pleat a "Pleat" on top at 5 deep 2 towards end')).toEqual(['pleat on top, 2 cm deep: its left line laid on its right line, so that its fold looks to the right; 2 cm']);
    expect(told('  pleat a "Pleat" on top at 5 deep 2 towards start')).toEqual(['pleat on top, 2 cm deep: its right line laid on its left line, so that its fold looks to the left; 2 cm']);
    expect(told('  pleat a on right at 5 deep 1 towards end stitched 8')).toEqual(['tuck on right, 1 cm deep: its lower line laid on its upper line, so that its fold looks up; 8 cm']);
    expect(told('  pleat a on bottom at 5 deep 2 towards end')).toEqual(['pleat on bottom, 2 cm deep: its left line laid on its right line, so that its fold looks to the right; 2 cm']);
  });
  test('of a mirrored copy looks the other way', () => {
    const { table } = section(20, '  pleat a on top at 5 deep 2 towards end', 'piece q "Copy" from p mirrored {\n  cut 1 cloth\n}');
    expect(table().sewing.map(({ second }) => second)).toEqual(['its right line, so that its fold looks to the right', 'its left line, so that its fold looks to the left']);
  });
  test('is drawn with an arrow from its fold to where that is laid', () => {
    const [line] = section(20, '  pleat a on top at 5 deep 2 towards end stitched 3').shape('p').lines;
    const at = (line?.points ?? []).map(({ x, y }) => `${Math.round(x) / 10} ${Math.round(y) / 10}`);
    expect([at[0], at[1], at[2], at.at(-1)]).toEqual(['3 60', '3 57', '7 57', '7 60']);
    // Both barbs of the head lie back towards the fold.
    expect([line?.points[3], line?.points[5]].every((point) => point !== undefined && point.x < 70 && point.x > 65)).toBe(true);
  });
  test('lies on its edge, alone, within its piece', () => {
    const faults = (lines: string): readonly string[] => section(20, lines).faults;
    expect(faults('  pleat a on top at 1 deep 2 towards end')).toEqual(['off-edge: 1']);
    expect(section(20, '  pleat a on top at 1 deep 2 towards end').only('off-edge').message).toBe('The pleat “a” runs off the edge “top”, which is 20 cm long: it takes 2 cm of that on either side of this place.');
    expect(faults('  pleat a on top at 4 deep 2 towards end\n  pleat b on top at 7 deep 2 towards end')).toEqual(['darts-overlap: b']);
    expect(faults('  pleat a on top at 4 deep 2 towards end\n  pleat b on top at 8 deep 2 towards end')).toEqual([]);
    expect(faults('  pleat a on top at 4 deep 2 towards end stitched 70')).toEqual(['outside-piece: a']);
    expect(faults('  pleat a on hem at 4 deep 2 towards end')).toEqual(['unknown-part: hem']);
  });
  test('is laid before its edge is sewn, and in some step', () => {
    const order = (steps: string): readonly string[] => section(20, '  pleat a on top at 50% deep 2 towards end\n  edge all raw', `piece band {\n  outline rectangle 16 by 4\n  edge all raw\n  cut 1 cloth\n}\nseam s = p.top with band.bottom\n${steps}`).faults;
    expect(order('step "Lay." does p.a\nstep "Sew." does s')).toEqual([]);
    expect(order('step "Sew." does s\nstep "Lay." does p.a')).toEqual(['dart-open: s']);
    expect(order('step "Sew." does s')).toEqual(['left-out: p']);
  });
  test('that looks one way makes its piece one that is cut in one hand', () => {
    // The same edges are those of a second one.
    const hands = (pleats: string): readonly string[] => section(20, `${pleats}\n  edge all raw\n  cut 1 cloth`, 'seam s = p.left, p.bottom with p.left, p.bottom').codes.filter((code) => code === 'wrong-hand' || code === 'seam-twisted');
    expect(hands('  pleat a on top at 50% deep 2 towards end')).not.toEqual([]);
    expect(hands('  pleat a on top at 8 deep 2 towards start\n  pleat b on top at 12 deep 2 towards end')).toEqual(hands(''));
  });
});
