import { describe, expect, it } from 'vitest';
import { roundText } from '../../server/src/table/round-text.ts';
import { pattern } from '../support/spec.ts';

const rows = (body: string): readonly string[] => pattern(body).table().sewing.map(({ first, how, second }) => `${first} ${how} ${second}`);
const finishes = (body: string): readonly string[] => pattern(body).table().finishes.map(({ edges, finish }) => `${edges}: ${finish}`);

describe('what is sewn to what', () => {
  const strip = (seam: string): readonly string[] => rows(`piece a "A" {\n  outline rectangle 8 by 6\n  edge all raw\n  cut 1 cloth\n}\nseam s = ${seam}`);

  it('says which part of an edge', () => {
    // Edges are measured from below and from the left, whichever way the outline runs: down on the left, back along the top.
    expect(strip('a.left from 0 to 2 with a.left from 6 to 4')).toEqual(['A: left (its lower 2 in) sewn to A: left (its upper 2 in)']);
    expect(strip('a.right from 0 to 2 with a.right from 5 to 3')).toEqual(['A: right (its lower 2 in) sewn to A: right (3 in to 5 in from its lower end)']);
    expect(strip('a.top from 1 to 3 with a.bottom from 1 to 3')).toEqual(['A: top (1 in to 3 in from its left end) sewn to A: bottom (1 in to 3 in from its left end)']);
    expect(strip('a.top from 0 to 3 with a.bottom from 5 to 8')).toEqual(['A: top (its left 3 in) sewn to A: bottom (its right 3 in)']);
    expect(rows('piece a "A" {\n  outline circle across 4\n  edge all raw\n  cut 1 cloth\n}\nseam s = a.edge from 0 to 2 with a.edge from 2 to 4')).toEqual(['A: edge (0 in to 2 in against the clock from where it begins) sewn to A: edge (2 in to 4 in against the clock from where it begins)']);
  });

  it('says where the line lies that something is laid on', () => {
    const laid = (use: string, cuts: string): readonly string[] => rows(`piece a "A" {\n  outline rectangle 8 by 6\n  ${use} patch_at = rectangle 3 by 2 at 1, 2\n  edge all raw\n${cuts}\n}\npiece b "B" {\n  outline rectangle 3 by 2\n  edge top raw\n  cut 1 cloth\n}\nseam s = b.left, b.bottom, b.right onto a.patch_at`);
    expect(laid('placement', '  cut 1 cloth')).toEqual(['B: left, bottom and right laid on A: patch at (1 in from the left, 2 in from below)']);
    // Of a line that is nothing to mark, no other table says where it is.
    expect(laid('line', '  cut 1 cloth')).toEqual(['B: left, bottom and right laid on A: patch at (1 in from the left, 2 in from below)']);
    expect(laid('placement', '  allowance 1/2\n  cut 1 cloth\n  cut 1 cork along stitching')).toEqual(['B: left, bottom and right laid on A: patch at (Cloth: 1 in from the left, 2 in from below; Cork: 1/2 in from the left, 1 1/2 in from below)']);
  });

  it('says how long a pocket is sewn on, in a step as in the row of its seam, where it does not go all the way round its place', () => {
    // By hand: two sides of 3 in and a lower edge of 4 in, with a quarter of a circle of 1 in in place of each lower corner: 2 × 2 + 2 + π.
    const patch = (more: string, use = 'patch.length') => pattern(`piece a "A" {\n  outline rectangle 8 by 6\n  placement patch_at = rectangle 4 by 3 at 1, 2\n  edge all raw\n  cut 1 cloth\n}\npiece b "B" {\n  outline rectangle 4 by 3\n  corner bottom round 1\n  edge top raw\n  cut 1 cloth\n}\nseam patch = b.left, b.bottom_left, b.bottom, b.bottom_right, b.right onto a.patch_at\n${more}step "Sew it on, {${use}}." does patch`);
    const { steps, sewing } = patch('').table();
    expect(sewing[0]?.length.text).toBe('about 9 1/8 in');
    expect(steps[0]?.text).toBe('Sew it on, about 9 1/8 in.');
    // What has a name may be what the patch is made by: its figure is still that of the whole line.
    expect(patch('length round = patch.length\n', 'round').table().steps[0]?.text).toBe('Sew it on, 14 in.');
  });

  it('says what is turned under: not what lies flat to be caught in the seam of the edge that it is laid on', () => {
    const laid = (onto: string, more = ''): string | undefined => pattern(`piece back "Back" {\n  outline rectangle 8 by 6\n  placement at_it = rectangle 4 by 3 at 1, 2\n  edge all raw\n  cut 1 cloth\n}\npiece flap "Flap" {\n  outline rectangle 4 by 3\n  edge left raw\n  edge right raw\n  edge bottom raw\n  cut 1 cloth\n}\npiece liner "Liner" {\n  outline rectangle 8 by 6\n  edge all raw\n  cut 1 cloth\n}\nseam laid = flap.top onto ${onto}\n${more}`, 'unit in\nallowance 3/8\ndrawn to stitching')
      .table().sewing.find(({ seam }) => seam === 'laid')?.allowance;
    expect(laid('back.top from 2 to 6', 'seam rim = back.top with liner.top')).toBe('3/8 in');
    expect(laid('back.top from 2 to 6', 'seam rim = back.bottom with liner.bottom')).toBe('3/8 in, turned under');
    expect(laid('back.at_it', 'seam rim = back.top with liner.top')).toBe('3/8 in, turned under');
  });

  it('says which cloth, of a piece that outside and lining are cut from', () => {
    const box = (gusset: string): readonly string[] => rows(`piece side "Side" {\n  outline rectangle 5 by 4\n  edge all raw\n  cut 1 cloth\n}\npiece inner "Inner side" {\n  outline rectangle 5 by 4\n  edge all raw\n  cut 1 lining\n}\npiece gusset "Gusset" {\n  outline rectangle 2 by 4\n  edge all raw\n${gusset}\n}\nseam outside = gusset.left with side.left\nseam inside = gusset.left with inner.left\nseam ends = gusset.top with gusset.bottom`);
    expect(box('  cut 1 cloth\n  cut 1 lining')).toEqual(['Gusset in Cloth: left sewn to Side: left', 'Gusset in Lining: left sewn to Inner side: left', 'Gusset: top sewn to Gusset: bottom']);
    expect(box('  cut 1 cloth\n  cut 1 fuse')).toEqual(['Gusset: left sewn to Side: left', 'Gusset: left sewn to Inner side: left', 'Gusset: top sewn to Gusset: bottom']);
  });
});

describe('what becomes of edges', () => {
  it('says that a seam takes part of one', () => {
    const strip = (seam: string): readonly string[] => finishes(`piece a "A" {\n  outline rectangle 8 by 6\n  edge left faced\n  edge all raw\n  cut 1 cloth\n}\npiece b "B" {\n  outline rectangle 2 by 6\n  edge all raw\n  cut 1 cloth\n}\nseam s = ${seam}`);
    expect(strip('a.left from 0 to 2 with b.bottom')).toContain('the rest of left: faced');
    expect(strip('a.left with b.left')).toContain('left: faced');
    // What is laid on it leaves the edge as it was.
    expect(strip('b.bottom onto a.left from 0 to 2')).toContain('left: faced');
  });
});

it('tells openings with their length round, and what becomes of them', () => {
  const { openings } = pattern(`piece half "Half" {
  outline rectangle 9 by 7
  edge top hemmed 1/4
  allowance top 1/2
  cut 2 cloth
}
seam round = half.left, half.bottom, half.right with half.right, half.bottom, half.left`, 'unit in\nallowance none\ndrawn to stitching').table();
  expect(openings.map((row) => `${row.opening}: ${roundText(row)}, ${row.edges}, ${row.finish.join()}`)).toEqual(['Opening at the top: 18 in round, Half: top, of each of 2, hemmed, 1/4 in wide']);
});

it('twins of one outline are told as a pair where what is marked on them is uneven', () => {
  const sides = (mark: string): readonly string[] => pattern(`piece half "Half" {\n  outline rectangle 9 by 7\n  ${mark}\n  cut 2 cloth twins\n}`).table().cuts.map(({ wayUp }) => wayUp);
  expect(sides('mark eye at 2, 3')).not.toEqual(sides('mark eye at 4 1/2, 3 1/2'));
  expect(sides('mark eye at 4 1/2, 3 1/2')).toEqual(['same both ways']);
});
